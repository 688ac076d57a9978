package org.rollwright.scope;

import static org.rollwright.text.Texts.t;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CountryFacts;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.NamedText;
import org.rollwright.catalog.RowProblem;
import org.rollwright.catalog.Spot;
import org.rollwright.catalog.Table;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;

/// All varieties known to the tool, ours and the user's. Immutable and thread-safe.
public final class VarietyBook {
    /// Columns of a file of varieties; `cross_references`, `certainty` and `zones` may be left out.
    public static final List<String> COLUMNS = List.of(
            "key",
            "name",
            "country",
            "denomination",
            "years",
            "mints",
            "coin_kind",
            "side",
            "type",
            "where",
            "direction",
            "markers",
            "rarity",
            "worth",
            "lookalikes",
            "note",
            "source");

    /// An optional column: the hunter's own references.
    public static final String CROSS_REFERENCES = "cross_references";

    /// An optional column: how sure we are of each field, see [Certainty].
    public static final String CERTAINTY = "certainty";

    /// An optional column: where to look, as zones of the design, see [Spot].
    public static final String ZONES = "zones";

    private static final List<String> LOOKALIKE_COLUMNS =
            List.of("name", "types", "years", "metal", "share", "shows", "markers", "note", "source");

    private static final int MOST_MARKERS = 12;

    private final Map<String, Variety> varieties;
    private final List<LookAlike> lookAlikes;

    private VarietyBook(Map<String, Variety> varieties, List<LookAlike> lookAlikes) {
        this.varieties = varieties;
        this.lookAlikes = lookAlikes;
    }

    /// What came of reading files.
    public record Loaded(VarietyBook book, List<RowProblem> problems) {}

    /// Reads files of varieties and, under a name ending in `lookalikes.csv`, of look-alikes. A row that cannot
    /// be used leaves its file out.
    public static Loaded load(List<NamedText> files, Catalog catalog) {
        Map<String, Variety> varieties = new LinkedHashMap<>();
        List<LookAlike> lookAlikes = new ArrayList<>();
        List<RowProblem> problems = new ArrayList<>();
        for (NamedText file : files) {
            if (file.name().endsWith("lookalikes.csv")) {
                Table table = new Table(file, LOOKALIKE_COLUMNS);
                List<LookAlike> read = new ArrayList<>();
                table.rows().forEach(row -> lookAlike(row).ifPresent(read::add));
                problems.addAll(table.problems());
                if (table.problems().isEmpty()) {
                    lookAlikes.addAll(read);
                }
            } else {
                Rows rows = rows(file, catalog);
                problems.addAll(rows.problems);
                if (rows.problems.isEmpty()) {
                    rows.varieties.forEach(one -> varieties.put(one.key(), one));
                }
            }
        }
        return new Loaded(new VarietyBook(varieties, lookAlikes), problems);
    }

    /// The rows of one file that can be used, and what is wrong with the others.
    public record Rows(List<Variety> varieties, List<RowProblem> problems) {}

    /// Reads a file of varieties.
    public static Rows rows(NamedText file, Catalog catalog) {
        return rows(new Table(file, COLUMNS), catalog);
    }

    private static Rows rows(Table table, Catalog catalog) {
        Map<String, Variety> read = new LinkedHashMap<>();
        for (Table.Row row : table.rows()) {
            variety(row, catalog).ifPresent(one -> {
                if (read.putIfAbsent(one.key(), one) != null) {
                    row.refuse("key", t("scope.key-twice", one.key()), t("scope.key-own"));
                }
            });
        }
        return new Rows(List.copyOf(read.values()), table.problems());
    }

    /// Reads one variety from cells by column, as a page or the journal has them.
    public static Rows row(Map<String, String> cells, Catalog catalog) {
        List<String> columns = new ArrayList<>(COLUMNS);
        columns.add(CROSS_REFERENCES);
        columns.add(CERTAINTY);
        columns.add(ZONES);
        StringWriter text = new StringWriter();
        try (CsvWriter writer = CsvWriter.builder().build(text)) {
            writer.writeRecord(columns);
            writer.writeRecord(columns.stream()
                    .map(column -> cells.getOrDefault(column, ""))
                    .toList());
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory", e);
        }
        NamedText row = new NamedText("variety", text.toString());
        return rows(new Table(row, COLUMNS, Table.From.RECORD), catalog);
    }

    private static Optional<Variety> variety(Table.Row row, Catalog catalog) {
        Optional<String> name = row.required("name", t("scope.name-form"));
        Optional<Denomination> denomination = denomination(row, catalog);
        Optional<Variety.Years> years = years(row);
        Optional<List<Mint>> mints = mints(row);
        Optional<String> side = oneOf(row, "side", List.of("obverse", "reverse", "both"));
        Optional<String> type = row.required("type", t("scope.type-form"));
        Optional<String> where = row.required("where", t("scope.where-form"));
        Optional<List<Marker>> markers = Marker.parse(row.text("markers"));
        if (markers.isEmpty() || markers.get().isEmpty() || markers.get().size() > MOST_MARKERS) {
            row.refuse(
                    "markers",
                    markers.isEmpty() ? t("scope.the-markers-cannot-be-read") : t("scope.markers-count", MOST_MARKERS),
                    t("scope.write-each-as-separated-by", Marker.EXAMPLE));
            markers = Optional.empty();
        }
        Optional<Variety.RarityClass> rarity = rarity(row);
        java.util.OptionalDouble worth = row.positive("worth");
        Optional<String> source = row.required("source", t("scope.source-form"));
        Optional<Certainty> certainty = Certainty.parse(row.text(CERTAINTY));
        if (certainty.isEmpty()) {
            row.refuse(CERTAINTY, t("scope.not-allowed", row.text(CERTAINTY)), t("scope.certainty-form"));
        }
        Optional<List<Spot>> looks = Spot.parse(row.text(ZONES));
        if (looks.isEmpty()) {
            row.refuse(ZONES, t("scope.not-allowed", row.text(ZONES)), t("catalog.zones-form"));
        }
        if (name.isEmpty()
                || looks.isEmpty()
                || denomination.isEmpty()
                || years.isEmpty()
                || mints.isEmpty()
                || side.isEmpty()
                || type.isEmpty()
                || where.isEmpty()
                || markers.isEmpty()
                || rarity.isEmpty()
                || worth.isEmpty()
                || certainty.isEmpty()
                || source.isEmpty()) {
            return Optional.empty();
        }
        String key = row.text("key").isEmpty() ? key(denomination.get().key() + " " + name.get()) : row.text("key");
        if (!key.equals(key(key))) {
            row.refuse("key", t("scope.key-wrong", key), t("scope.key-form", key(key)));
            return Optional.empty();
        }
        return Optional.of(new Variety(
                key,
                name.get(),
                denomination.get(),
                years.get(),
                mints.get(),
                row.text("coin_kind"),
                side.get(),
                type.get(),
                where.get(),
                looks.get(),
                row.text("direction"),
                markers.get(),
                rarity.get(),
                worth.getAsDouble(),
                row.words("lookalikes"),
                row.text("note"),
                source.get(),
                row.text(CROSS_REFERENCES),
                certainty.get()));
    }

    /// A name as a key: small letters, digits and hyphens.
    static String key(String name) {
        String key = name.toLowerCase(java.util.Locale.ROOT)
                .replaceAll("[^a-z0-9]+", "-")
                .replaceAll("^-|-$", "");
        return key.length() > 80 ? key.substring(0, 80).replaceAll("-$", "") : key;
    }

    private static Optional<Denomination> denomination(Table.Row row, Catalog catalog) {
        Optional<Country> country = catalog.countries().stream()
                .map(CountryFacts::country)
                .filter(known -> known.code().equals(row.text("country")))
                .findFirst();
        if (country.isEmpty()) {
            row.refuse("country", t("scope.country-unknown", row.text("country")), t("scope.country-form"));
            return Optional.empty();
        }
        String key = row.text("denomination");
        Optional<Denomination> known = catalog.denominations().stream()
                .map(DenominationFacts::denomination)
                .filter(one -> one.country().equals(country.get()) && one.key().equals(key))
                .findFirst();
        if (known.isEmpty()) {
            row.refuse(
                    "denomination", t("scope.denomination-unknown", key, country.get()), t("scope.denomination-form"));
        }
        return known;
    }

    private static Optional<Variety.Years> years(Table.Row row) {
        String text = row.text("years");
        java.util.regex.Matcher matcher = java.util.regex.Pattern.compile("([0-9]{4})(?:\\s*-\\s*([0-9]{4}))?")
                .matcher(text);
        if (matcher.matches()) {
            int first = Integer.parseInt(matcher.group(1));
            @Nullable String second = matcher.group(2);
            int last = second == null ? first : Integer.parseInt(second);
            if (first >= Identity.FIRST_YEAR && last <= Identity.LAST_YEAR && first <= last) {
                return Optional.of(new Variety.Years(first, last));
            }
        }
        row.refuse("years", t("scope.year-wrong", text), t("scope.years-form"));
        return Optional.empty();
    }

    private static Optional<List<Mint>> mints(Table.Row row) {
        List<Mint> mints = new ArrayList<>();
        for (String word : row.words("mints")) {
            try {
                mints.add(new Mint(word));
            } catch (IllegalArgumentException e) {
                row.refuse("mints", t("scope.mint-wrong", word), t("scope.mints-form"));
                return Optional.empty();
            }
        }
        if (mints.isEmpty()) {
            row.refuse("mints", t("scope.the-cell-is-empty"), t("scope.mints-form"));
            return Optional.empty();
        }
        return Optional.of(mints);
    }

    private static Optional<String> oneOf(Table.Row row, String column, List<String> words) {
        String text = row.text(column);
        if (words.contains(text)) {
            return Optional.of(text);
        }
        row.refuse(column, t("scope.not-allowed", text), t("scope.write", String.join(", ", words)));
        return Optional.empty();
    }

    private static Optional<Variety.RarityClass> rarity(Table.Row row) {
        for (Variety.RarityClass known : Variety.RarityClass.values()) {
            if (known.word().equals(row.text("rarity"))) {
                return Optional.of(known);
            }
        }
        row.refuse("rarity", t("scope.not-allowed", row.text("rarity")), t("scope.rarity-form"));
        return Optional.empty();
    }

    private static Optional<LookAlike> lookAlike(Table.Row row) {
        Optional<String> name = row.required("name", t("scope.a-plain-name"));
        Optional<List<Marker>> markers = Marker.parse(row.text("markers"));
        if (markers.isEmpty() || markers.get().isEmpty()) {
            row.refuse("markers", t("scope.the-markers-cannot-be-read"), t("scope.write-each-as", Marker.EXAMPLE));
        }
        java.util.OptionalDouble share = row.positive("share");
        java.util.OptionalDouble shows = row.positive("shows");
        String metal = row.text("metal");
        if (!metal.isEmpty() && !LookAlike.isMetal(metal)) {
            row.refuse("metal", t("scope.metal-unknown", metal), t("scope.write-copper-zinc-or-nothing"));
        }
        java.util.regex.Matcher years =
                java.util.regex.Pattern.compile("(?:([0-9]{4})-([0-9]{4})?)?").matcher(row.text("years"));
        if (!years.matches()) {
            row.refuse("years", t("scope.not-allowed", row.text("years")), t("scope.write-1982-or-nothing"));
        }
        if (name.isEmpty()
                || markers.isEmpty()
                || share.isEmpty()
                || shows.isEmpty()
                || !years.matches()
                || share.getAsDouble() >= 1
                || shows.getAsDouble() >= 1) {
            return Optional.empty();
        }
        @Nullable String first = years.group(1);
        @Nullable String last = years.group(2);
        return Optional.of(new LookAlike(
                name.get(),
                row.words("types"),
                first == null ? 0 : Integer.parseInt(first),
                last == null ? Identity.LAST_YEAR : Integer.parseInt(last),
                metal,
                share.getAsDouble(),
                shows.getAsDouble(),
                markers.get(),
                row.text("note")));
    }

    public Collection<Variety> varieties() {
        return varieties.values();
    }

    public List<LookAlike> lookAlikes() {
        return lookAlikes;
    }

    public Optional<Variety> variety(String key) {
        return Optional.ofNullable(varieties.get(key));
    }

    /// The varieties a coin may be, in order of the catalogue.
    public List<Variety> of(Identity coin) {
        return varieties.values().stream().filter(one -> one.mayBe(coin)).toList();
    }

    /// The varieties a coin is said to be: those of its date and mint that one of its words means, in order of the
    /// catalogue. A word such as `ddo` may mean several dies.
    public List<Variety> of(CoinDescription coin) {
        return coin.varieties().isEmpty()
                ? List.of()
                : of(coin.identity()).stream()
                        .filter(one -> coin.varieties().stream().anyMatch(one::isMeantBy))
                        .toList();
    }

    /// This book with varieties added or, where the key is known, replaced.
    ///
    /// @param cells rows by key; a row that cannot be read any more is passed over
    public VarietyBook with(Map<String, Map<String, String>> cells, Catalog catalog) {
        if (cells.isEmpty()) {
            return this;
        }
        Map<String, Variety> all = new LinkedHashMap<>(varieties);
        cells.values().forEach(row -> row(row, catalog).varieties.forEach(one -> all.put(one.key(), one)));
        return new VarietyBook(all, lookAlikes);
    }
}
