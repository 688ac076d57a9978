package org.rollwright.catalog;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Supplier;
import org.joda.money.CurrencyUnit;
import org.joda.money.IllegalCurrencyException;
import org.joda.money.Money;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Alloy;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Length;
import org.rollwright.coin.Mass;
import org.rollwright.coin.Metal;
import org.rollwright.coin.Mint;

/// Builds a [Catalog] from the texts of catalog/. A file with a bad row is refused whole; the others load.
///
/// Long because a dozen tables each have columns and refusals of their own, and all of them fill one catalogue in
/// the making; parts would hand it about.
public final class CatalogLoader {
    /// The columns of a series file, in the order we write them.
    public static final List<String> SERIES_COLUMNS = List.of(
            "country",
            "denomination",
            "year",
            "mint",
            "kind",
            "design",
            "words",
            "alloy",
            "issued",
            "mintage",
            "rarity",
            "check",
            "note",
            "source");

    /// Columns a series file may have besides, in the order we write them.
    public static final List<String> MORE_SERIES_COLUMNS =
            List.of("series", "mintage_source", "mintage_is", "mintage_other", "formerly", "zones");

    private record KnownSource(String beginning, SourceKind kind) {}

    /// What came of loading.
    ///
    /// @param problems why files were refused; empty when all went well
    public record Loaded(Catalog catalog, List<RowProblem> problems) {}

    private final List<RowProblem> problems = new ArrayList<>();
    private final Map<Denomination, DenominationFacts> denominations = new java.util.LinkedHashMap<>();
    private final Map<Country, CountryFacts> countries = new java.util.LinkedHashMap<>();
    private final List<MintFacts> mints = new ArrayList<>();
    private final Map<String, Alloy> alloys = new HashMap<>();
    private final Map<String, Series> series = new java.util.LinkedHashMap<>();
    private final List<TradeWord> words = new ArrayList<>();
    private final List<CoinUnit> units = new ArrayList<>();
    private final List<WatchName> watches = new ArrayList<>();
    private final List<AlbumExample> albums = new ArrayList<>();
    private final List<Caution> cautions = new ArrayList<>();
    private final List<KindLook> kindLooks = new ArrayList<>();
    private final List<KnownSource> sources = new ArrayList<>();
    private final Map<String, SourceKind> kinds = new HashMap<>();
    private final List<Issue> issues = new ArrayList<>();
    private final Set<Identity> seen = new HashSet<>();
    /// What would be right in cells of thousands of rows.
    private final String denominationExample = t("catalog.a-word-such-as-cent");

    private final String sourceExample = t("catalog.source-form");

    private CatalogLoader() {}

    /// Loads the files, the tables before the series whatever their order.
    ///
    /// @param files named relative to catalog/: `alloys.csv`, `series/us-cent-lincoln-wheat.csv`; a name may
    ///     come twice (ours, then the user's), and rows of the second add to the first
    public static Loaded load(List<NamedText> files) {
        CatalogLoader loader = new CatalogLoader();
        loader.each(files, "countries.csv", loader::countries);
        loader.each(files, "units.csv", loader::units);
        loader.each(files, "denominations.csv", loader::denominations);
        loader.each(files, "mints.csv", loader::mints);
        loader.each(files, "alloys.csv", loader::alloys);
        loader.each(files, "series.csv", loader::seriesNames);
        loader.each(files, "words.csv", loader::tradeWords);
        loader.each(files, "watches.csv", loader::watchNames);
        loader.each(files, "albums.csv", loader::albumExamples);
        loader.each(files, "cautions.csv", loader::cautions);
        loader.each(files, "sources.csv", loader::sources);
        loader.each(files, "kinds.csv", loader::kindLooks);
        for (NamedText file : files) {
            if (file.name().contains("series/")) {
                loader.issues(file);
            }
        }
        Supplier<Zones> zones = loader.zones(files);
        return new Loaded(
                new Catalog(
                        List.copyOf(loader.issues),
                        loader.denominations,
                        loader.countries,
                        List.copyOf(loader.mints),
                        loader.alloys,
                        loader.series,
                        List.copyOf(loader.words),
                        List.copyOf(loader.units),
                        List.copyOf(loader.watches),
                        List.copyOf(loader.albums),
                        List.copyOf(loader.cautions),
                        zones,
                        List.copyOf(loader.kindLooks)),
                List.copyOf(loader.problems));
    }

    /// The zones, which only drawings need: ours are read when one is first asked for. Rows of the user's own are read
    /// now, so that what is wrong with them is told with all else.
    private Supplier<Zones> zones(List<NamedText> files) {
        List<NamedText> tables = files.stream().filter(ZoneLoader::isOfZones).toList();
        if (tables.size() == ZoneLoader.TABLES
                && tables.stream().map(NamedText::name).distinct().count() == ZoneLoader.TABLES) {
            return () -> ZoneLoader.load(tables).zones();
        }
        ZoneLoader.Loaded loaded = ZoneLoader.load(tables);
        problems.addAll(loaded.problems());
        return loaded::zones;
    }

    private interface FileReader {
        void read(NamedText file);
    }

    private void each(List<NamedText> files, String name, FileReader reader) {
        for (NamedText file : files) {
            if (file.name().equals(name) || file.name().endsWith("/" + name)) {
                reader.read(file);
            }
        }
    }

    private boolean refused(Table table) {
        problems.addAll(table.problems());
        return !table.problems().isEmpty();
    }

    private void countries(NamedText file) {
        Table table = new Table(file, List.of("code", "name", "words", "source"));
        List<CountryFacts> read = new ArrayList<>();
        for (Table.Row row : table.rows()) {
            Optional<Country> country = country(row, "code", row.text("code"));
            Optional<String> name = row.required("name", t("catalog.the-country-s-name"));
            if (country.isPresent() && name.isPresent()) {
                read.add(new CountryFacts(country.get(), name.get(), row.words("words")));
            }
        }
        if (!refused(table)) {
            read.forEach(facts -> countries.put(facts.country(), facts));
        }
    }

    private void units(NamedText file) {
        Table table = new Table(file, List.of("unit", "words", "country", "source"));
        List<CoinUnit> read = new ArrayList<>();
        for (Table.Row row : table.rows()) {
            Optional<String> key = row.required("unit", t("catalog.the-unit-s-name"));
            Optional<Country> country =
                    row.text("country").isEmpty() ? Optional.empty() : country(row, "country", row.text("country"));
            key.ifPresent(name -> read.add(new CoinUnit(name, row.words("words"), country.orElse(null))));
        }
        if (!refused(table)) {
            units.addAll(read);
        }
    }

    private static Optional<Country> country(Table.Row row, String column, String code) {
        try {
            return Optional.of(new Country(code));
        } catch (IllegalArgumentException e) {
            row.refuse(column, t("catalog.country-wrong", code), t("catalog.country-form"));
            return Optional.empty();
        }
    }

    private void denominations(NamedText file) {
        Table table = new Table(
                file,
                List.of(
                        "country",
                        "denomination",
                        "name",
                        "words",
                        "face",
                        "currency",
                        "coins_per_roll",
                        "rolls_per_box"));
        List<DenominationFacts> read = new ArrayList<>();
        for (Table.Row row : table.rows()) {
            Optional<Country> country = country(row, "country", row.text("country"));
            Optional<String> key = row.required("denomination", t("catalog.a-word-such-as-cent"));
            OptionalInt coins = row.wholeNumber("coins_per_roll", 1, 10_000);
            String rollsText = row.text("rolls_per_box");
            OptionalInt rolls = rollsText.isEmpty() ? OptionalInt.empty() : row.wholeNumber("rolls_per_box", 1, 10_000);
            Optional<Money> face = money(row);
            if (country.isPresent() && key.isPresent() && coins.isPresent() && face.isPresent()) {
                read.add(new DenominationFacts(
                        new Denomination(country.get(), key.get()),
                        row.text("name"),
                        row.words("words"),
                        face.get(),
                        coins.getAsInt(),
                        rolls.isPresent() ? (Integer) rolls.getAsInt() : null,
                        row.text("source")));
            }
        }
        if (!refused(table)) {
            read.forEach(facts -> denominations.put(facts.denomination(), facts));
        }
    }

    private static Optional<Money> money(Table.Row row) {
        OptionalDouble amount = row.positive("face");
        try {
            CurrencyUnit unit = CurrencyUnit.of(row.text("currency"));
            if (amount.isEmpty()) {
                return Optional.empty();
            }
            if (!row.text("face").matches("[0-9]{1,9}(\\.[0-9]{1," + Math.max(1, unit.getDecimalPlaces()) + "})?")) {
                row.refuse(
                        "face",
                        t("catalog.face-wrong", row.text("face")),
                        t("catalog.face-form", unit.getDecimalPlaces(), unit));
                return Optional.empty();
            }
            return Optional.of(Money.of(unit, new java.math.BigDecimal(row.text("face"))));
        } catch (IllegalCurrencyException e) {
            row.refuse("currency", t("catalog.currency-unknown", row.text("currency")), t("catalog.currency-form"));
            return Optional.empty();
        }
    }

    private void mints(NamedText file) {
        Table table = new Table(file, List.of("country", "mint", "name", "words", "source"));
        List<MintFacts> read = new ArrayList<>();
        for (Table.Row row : table.rows()) {
            Optional<Country> country = country(row, "country", row.text("country"));
            Optional<Mint> mint = mint(row);
            if (country.isPresent() && mint.isPresent()) {
                read.add(new MintFacts(country.get(), mint.get(), row.text("name"), row.words("words")));
            }
        }
        if (!refused(table)) {
            mints.addAll(read);
        }
    }

    private static Optional<Mint> mint(Table.Row row) {
        String code = row.text("mint");
        try {
            return Optional.of(new Mint(code));
        } catch (IllegalArgumentException e) {
            row.refuse("mint", t("catalog.mint-wrong", code), t("catalog.mint-form"));
            return Optional.empty();
        }
    }

    private void alloys(NamedText file) {
        Table table = new Table(
                file,
                List.of(
                        "alloy",
                        "metal",
                        "weight_g",
                        "tolerance_g",
                        "diameter_mm",
                        "composition",
                        "magnetic",
                        "source"));
        List<Alloy> read = new ArrayList<>();
        for (Table.Row row : table.rows()) {
            Optional<String> name = row.required("alloy", t("catalog.a-name-for-the-alloy"));
            Optional<Metal> metal = metal(row);
            OptionalDouble weight = row.positive("weight_g");
            OptionalDouble diameter = row.positive("diameter_mm");
            OptionalDouble tolerance =
                    row.text("tolerance_g").isEmpty() ? OptionalDouble.empty() : row.positive("tolerance_g");
            if (name.isPresent() && metal.isPresent() && weight.isPresent() && diameter.isPresent()) {
                read.add(new Alloy(
                        name.get(),
                        metal.get(),
                        Mass.ofGrams(weight.getAsDouble()),
                        tolerance.isPresent() ? Mass.ofGrams(tolerance.getAsDouble()) : null,
                        new Length(diameter.getAsDouble()),
                        row.text("composition"),
                        row.text("magnetic").equals("yes"),
                        row.text("source")));
            }
        }
        if (!refused(table)) {
            read.forEach(alloy -> alloys.put(alloy.name(), alloy));
        }
    }

    private static Optional<Metal> metal(Table.Row row) {
        String word = row.text("metal");
        for (Metal metal : Metal.values()) {
            if (metal.word().equals(word)) {
                return Optional.of(metal);
            }
        }
        row.refuse(
                "metal",
                t("catalog.metal-unknown", word),
                t(
                        "catalog.write-one-of",
                        String.join(
                                ", ",
                                Arrays.stream(Metal.values()).map(Metal::word).toList())));
        return Optional.empty();
    }

    private void seriesNames(NamedText file) {
        Table table = new Table(file, List.of("series", "name", "words", "source"));
        List<Series> read = new ArrayList<>();
        for (Table.Row row : table.rows()) {
            row.required("series", t("catalog.series-name"))
                    .ifPresent(id -> read.add(new Series(id, row.text("name"), row.words("words"))));
        }
        if (!refused(table)) {
            read.forEach(entry -> series.put(entry.id(), entry));
        }
    }

    private void tradeWords(NamedText file) {
        Table table = new Table(file, List.of("word", "role", "canonical", "meaning", "source"));
        List<TradeWord> read = new ArrayList<>();
        for (Table.Row row : table.rows()) {
            Optional<String> word = row.required("word", t("catalog.the-word-as-typed"));
            Optional<TradeWord.Role> role = role(row);
            if (word.isPresent() && role.isPresent()) {
                String canonical = row.text("canonical").isEmpty() ? word.get() : row.text("canonical");
                read.add(new TradeWord(word.get(), role.get(), canonical, row.text("meaning")));
            }
        }
        if (!refused(table)) {
            words.addAll(read);
        }
    }

    private static Optional<TradeWord.Role> role(Table.Row row) {
        for (TradeWord.Role role : TradeWord.Role.values()) {
            if (role.name().toLowerCase(Locale.ROOT).equals(row.text("role"))) {
                return Optional.of(role);
            }
        }
        row.refuse("role", t("catalog.role-unknown", row.text("role")), t("catalog.role-form"));
        return Optional.empty();
    }

    private void cautions(NamedText file) {
        Table table = new Table(file, List.of("topic", "country", "denomination", "text", "source"));
        List<Caution> read = new ArrayList<>();
        for (Table.Row row : table.rows()) {
            Optional<String> topic = row.required("topic", t("catalog.a-topic-such-as-supply"));
            Optional<String> text = row.required("text", t("catalog.what-to-say"));
            if (topic.isPresent() && text.isPresent()) {
                read.add(new Caution(
                        topic.get(), row.text("country"), row.text("denomination"), text.get(), row.text("source")));
            }
        }
        if (!refused(table)) {
            cautions.addAll(read);
        }
    }

    private void watchNames(NamedText file) {
        Table table = new Table(file, List.of("watch", "words", "rule", "meaning"));
        List<WatchName> read = new ArrayList<>();
        for (Table.Row row : table.rows()) {
            Optional<String> name = row.required("watch", t("catalog.watch-name"));
            Optional<String> rule = row.required("rule", t("catalog.watch-rule"));
            if (name.isPresent() && rule.isPresent()) {
                switch (Selection.parse(rule.get())) {
                    case Selection.Parsed.Good good ->
                        read.add(new WatchName(
                                name.get(), row.words("words"), rule.get(), good.selection(), row.text("meaning")));
                    case Selection.Parsed.Bad bad -> row.refuse("rule", bad.wrong(), bad.right());
                }
            }
        }
        if (!refused(table)) {
            watches.addAll(read);
        }
    }

    private void albumExamples(NamedText file) {
        Table table = new Table(file, List.of("album", "rule", "meaning", "source"));
        List<AlbumExample> read = new ArrayList<>();
        for (Table.Row row : table.rows()) {
            Optional<String> name = row.required("album", t("catalog.a-name-for-the-album"));
            Optional<String> rule = row.required("rule", t("catalog.album-rule"));
            if (name.isPresent() && rule.isPresent()) {
                read.add(new AlbumExample(name.get(), rule.get(), row.text("meaning")));
            }
        }
        if (!refused(table)) {
            albums.addAll(read);
        }
    }

    private void kindLooks(NamedText file) {
        Table table = new Table(
                file,
                List.of("country", "denomination", "years", "look", "ask", "zones", "answers", "always", "source"));
        List<KindLook> read = new ArrayList<>();
        for (Table.Row row : table.rows()) {
            Optional<Country> country = country(row, "country", row.text("country"));
            Optional<String> key = row.required("denomination", t("catalog.a-word-such-as-cent"));
            Optional<String> id = row.required("look", t("catalog.look-id"));
            Optional<String> ask = row.required("ask", t("catalog.look-ask"));
            Optional<List<Spot>> looks = Spot.parse(row.text("zones"));
            Optional<List<KindLook.Seen>> answers = KindLook.answers(row.text("answers"));
            Set<Integer> years = new HashSet<>();
            for (String year : row.words("years")) {
                if (year.matches("[0-9]{4}")) {
                    years.add(Integer.parseInt(year));
                } else {
                    row.refuse("years", t("catalog.not-allowed", year), t("catalog.look-years-form"));
                }
            }
            if (looks.isEmpty()) {
                row.refuse("zones", t("catalog.not-allowed", row.text("zones")), t("catalog.zones-form"));
            }
            if (answers.isEmpty()) {
                row.refuse("answers", t("catalog.not-allowed", row.text("answers")), t("catalog.answers-form"));
            }
            if (country.isPresent()
                    && key.isPresent()
                    && id.isPresent()
                    && ask.isPresent()
                    && looks.isPresent()
                    && answers.isPresent()) {
                read.add(new KindLook(
                        new Denomination(country.get(), key.get()),
                        years,
                        id.get(),
                        ask.get(),
                        looks.get(),
                        answers.get(),
                        row.text("always").equals("yes")));
            }
        }
        if (!refused(table)) {
            kindLooks.addAll(read);
        }
    }

    private void sources(NamedText file) {
        Table table = new Table(file, List.of("source", "kind", "note"));
        List<KnownSource> read = new ArrayList<>();
        for (Table.Row row : table.rows()) {
            Optional<String> beginning = row.required("source", t("catalog.the-beginning-of-a-title"));
            Optional<SourceKind> kind = SourceKind.of(row.text("kind"));
            if (kind.isEmpty()) {
                row.refuse("kind", t("catalog.not-allowed", row.text("kind")), t("catalog.source-kind-form"));
            } else if (beginning.isPresent()) {
                read.add(new KnownSource(beginning.get(), kind.get()));
            }
        }
        if (!refused(table)) {
            sources.addAll(read);
        }
    }

    /// The kind of a source, by the longest beginning of its title that is known.
    private SourceKind kind(String title) {
        // a few titles stand in thousands of rows
        return kinds.computeIfAbsent(
                title,
                named -> sources.stream()
                        .filter(known -> named.startsWith(known.beginning))
                        .max(Comparator.comparingInt(known -> known.beginning.length()))
                        .map(KnownSource::kind)
                        .orElse(SourceKind.OTHER));
    }

    private void issues(NamedText file) {
        Table table = new Table(file, SERIES_COLUMNS);
        String base = file.name().substring(file.name().lastIndexOf('/') + 1);
        String id = base.endsWith(".csv") ? base.substring(0, base.length() - 4) : base;
        Series own = series.getOrDefault(id, new Series(id, id.replace('-', ' '), List.of(id)));
        List<Issue> read = new ArrayList<>();
        Set<Identity> seenHere = new HashSet<>();
        boolean other = false;
        for (Table.Row row : table.rows()) {
            Series of = series(row, own);
            other |= !of.equals(own);
            issue(row, of).ifPresent(issue -> {
                if (seen.contains(issue.identity()) || !seenHere.add(issue.identity())) {
                    row.refuse("", t("catalog.already-there", issue.identity()), t("catalog.tell-apart"));
                } else {
                    read.add(issue);
                }
            });
        }
        if (!refused(table)) {
            if (!other || read.stream().anyMatch(issue -> issue.series().equals(own))) {
                series.putIfAbsent(id, own);
            }
            issues.addAll(read);
            seen.addAll(seenHere);
        }
    }

    /// The series a row belongs to: the one it names, else its file's.
    private Series series(Table.Row row, Series own) {
        String named = row.text("series");
        if (named.isEmpty() || named.equals(own.id())) {
            return own;
        }
        Series known = series.get(named);
        if (known == null) {
            row.refuse("series", t("catalog.series-unknown", named), t("catalog.series-form"));
            return own;
        }
        return known;
    }

    private Optional<Issue> issue(Table.Row row, Series own) {
        Optional<Country> country = country(row, "country", row.text("country"));
        Optional<String> key = row.required("denomination", denominationExample);
        OptionalInt year = row.wholeNumber("year", Identity.FIRST_YEAR, Identity.LAST_YEAR);
        Optional<Mint> mint = mint(row);
        List<Alloy> struckOn = struckOn(row);
        Optional<Boolean> collector = collector(row);
        Optional<Rarity> rarity = rarity(row);
        @Nullable Long mintage = null;
        boolean mintageGood = true;
        if (!row.text("mintage").isEmpty()) {
            OptionalLong number = row.longNumber("mintage", 0, 100_000_000_000L);
            mintageGood = number.isPresent();
            mintage = number.isPresent() ? (Long) number.getAsLong() : null;
        }
        Optional<String> source = row.required("source", sourceExample);
        Optional<Precision> precision = Precision.of(row.text("mintage_is"));
        if (precision.isEmpty()) {
            row.refuse("mintage_is", t("catalog.not-allowed", row.text("mintage_is")), t("catalog.mintage-is-form"));
        }
        Optional<List<Spot>> looks = Spot.parse(row.text("zones"));
        if (looks.isEmpty()) {
            row.refuse("zones", t("catalog.not-allowed", row.text("zones")), t("catalog.zones-form"));
        }
        if (country.isEmpty()
                || looks.isEmpty()
                || key.isEmpty()
                || year.isEmpty()
                || mint.isEmpty()
                || struckOn.isEmpty()
                || collector.isEmpty()
                || rarity.isEmpty()
                || !mintageGood
                || precision.isEmpty()
                || source.isEmpty()) {
            return Optional.empty();
        }
        Denomination denomination = new Denomination(country.get(), key.get());
        if (!denominations.containsKey(denomination)) {
            row.refuse("denomination", t("catalog.denomination-unknown", denomination), t("catalog.add-denomination"));
            return Optional.empty();
        }
        return Optional.of(new Issue(
                new Identity(denomination, year.getAsInt(), mint.get(), row.text("kind"), row.text("design")),
                own,
                struckOn,
                row.words("words"),
                collector.get(),
                mintage,
                rarity.get(),
                row.text("check"),
                looks.get(),
                row.text("note"),
                row.words("formerly"),
                evidence(row, source.get(), mintage != null, precision.get())));
    }

    private List<Alloy> struckOn(Table.Row row) {
        List<Alloy> known = new ArrayList<>();
        List<String> names = row.words("alloy");
        for (String name : names.isEmpty() ? List.of("") : names) {
            Alloy alloy = alloys.get(name);
            if (alloy == null) {
                row.refuse("alloy", t("catalog.alloy-unknown", name), t("catalog.alloy-form"));
                return List.of();
            }
            known.add(alloy);
        }
        return known;
    }

    private Evidence evidence(Table.Row row, String source, boolean hasMintage, Precision precision) {
        String named = row.text("mintage_source").isEmpty() ? source : row.text("mintage_source");
        String mintageSource = hasMintage ? named : "";
        return new Evidence(
                source,
                kind(source),
                mintageSource,
                hasMintage ? kind(mintageSource) : SourceKind.MEMORY,
                precision,
                row.text("mintage_other"));
    }

    private static Optional<Boolean> collector(Table.Row row) {
        return switch (row.text("issued")) {
            case "circulation" -> Optional.of(false);
            case "collector" -> Optional.of(true);
            default -> {
                row.refuse(
                        "issued",
                        t("catalog.not-allowed", row.text("issued")),
                        t("catalog.write-circulation-or-collector"));
                yield Optional.empty();
            }
        };
    }

    private static Optional<Rarity> rarity(Table.Row row) {
        for (Rarity rarity : Rarity.values()) {
            if (rarity.word().equals(row.text("rarity"))) {
                return Optional.of(rarity);
            }
        }
        row.refuse("rarity", t("catalog.not-allowed", row.text("rarity")), t("catalog.rarity-form"));
        return Optional.empty();
    }
}
