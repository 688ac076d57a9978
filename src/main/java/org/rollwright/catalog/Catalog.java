package org.rollwright.catalog;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import org.joda.money.CurrencyUnit;
import org.joda.money.Money;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Alloy;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;

/// All coins known to the tool and the words for them. Immutable and thread-safe.
public final class Catalog {
    private record DenominationYear(Denomination denomination, int year) {}

    private record CountryWord(Country country, String word) {}

    private final List<Issue> issues;
    private final Map<Denomination, DenominationFacts> denominations;
    private final Map<Country, CountryFacts> countries;
    private final List<MintFacts> mints;
    private final Map<String, Alloy> alloys;
    private final Map<String, Series> series;
    private final List<TradeWord> words;
    private final List<WatchName> watches;
    private final List<AlbumExample> albums;
    private final List<Caution> cautions;
    private final Supplier<Zones> readZones;
    private @Nullable Zones zones;
    private final List<KindLook> kindLooks;

    private final Map<DenominationYear, List<Issue>> byYear = new HashMap<>();
    private final Set<Denomination> covered = new HashSet<>();
    private final Map<String, CountryFacts> countryWords = new HashMap<>();
    private final Map<CountryWord, DenominationFacts> denominationWords = new HashMap<>();
    private final Map<CountryWord, MintFacts> mintWords = new HashMap<>();
    private final Map<String, TradeWord> tradeWords = new HashMap<>();
    private final Map<String, WatchName> watchWords = new HashMap<>();
    private final Map<String, CoinUnit> unitWords = new HashMap<>();

    Catalog(
            List<Issue> issues,
            Map<Denomination, DenominationFacts> denominations,
            Map<Country, CountryFacts> countries,
            List<MintFacts> mints,
            Map<String, Alloy> alloys,
            Map<String, Series> series,
            List<TradeWord> words,
            List<CoinUnit> units,
            List<WatchName> watches,
            List<AlbumExample> albums,
            List<Caution> cautions,
            Supplier<Zones> readZones,
            List<KindLook> kindLooks) {
        this.issues = issues;
        this.denominations = denominations;
        this.countries = countries;
        this.mints = mints;
        this.alloys = alloys;
        this.series = series;
        this.words = words;
        this.watches = watches;
        this.albums = albums;
        this.cautions = cautions;
        this.readZones = readZones;
        this.kindLooks = kindLooks;
        for (Issue issue : issues) {
            covered.add(issue.identity().denomination());
            byYear.computeIfAbsent(
                            new DenominationYear(issue.identity().denomination(), issue.year()),
                            key -> new ArrayList<>())
                    .add(issue);
        }
        countries.values().forEach(facts -> facts.words().forEach(word -> countryWords.putIfAbsent(word, facts)));
        denominations.values().forEach(facts -> {
            Country country = facts.denomination().country();
            denominationWords.putIfAbsent(
                    new CountryWord(country, facts.denomination().key()), facts);
            facts.words().forEach(word -> denominationWords.putIfAbsent(new CountryWord(country, word), facts));
        });
        mints.forEach(facts ->
                facts.words().forEach(word -> mintWords.putIfAbsent(new CountryWord(facts.country(), word), facts)));
        units.forEach(unit -> unit.words().forEach(word -> unitWords.putIfAbsent(word, unit)));
        words.forEach(word -> tradeWords.putIfAbsent(word.word(), word));
        watches.forEach(watch -> {
            watchWords.putIfAbsent(watch.name(), watch);
            watch.words().forEach(word -> watchWords.putIfAbsent(word, watch));
        });
    }

    /// Every issue, series by series, in file order.
    public List<Issue> issues() {
        return issues;
    }

    /// Which faces coins have, and where on them to look.
    public synchronized Zones zones() {
        Zones known = zones;
        if (known == null) {
            known = readZones.get();
            zones = known;
        }
        return known;
    }

    /// The looks that tell kinds of a date apart, in the order to take them.
    List<KindLook> kindLooks(Denomination denomination, int year) {
        return kindLooks.stream()
                .filter(look ->
                        look.denomination().equals(denomination) && look.years().contains(year))
                .toList();
    }

    /// Draws the sides of coins.
    public Drawing drawing() {
        return new Drawing(zones());
    }

    public Collection<Series> series() {
        return series.values();
    }

    public Collection<DenominationFacts> denominations() {
        return denominations.values();
    }

    public Collection<CountryFacts> countries() {
        return countries.values();
    }

    public Collection<Alloy> alloys() {
        return alloys.values();
    }

    public List<TradeWord> tradeWords() {
        return words;
    }

    public List<WatchName> watches() {
        return watches;
    }

    /// Albums to begin with.
    public List<AlbumExample> albums() {
        return albums;
    }

    /// What the hunter should be told on a matter, in the order of the table.
    ///
    /// @param topic such as `supply`
    public List<Caution> cautions(String topic, Denomination denomination) {
        return cautions.stream()
                .filter(caution -> caution.topic().equals(topic) && caution.isAbout(denomination))
                .toList();
    }

    public List<MintFacts> mints() {
        return mints;
    }

    public Optional<DenominationFacts> facts(Denomination denomination) {
        return Optional.ofNullable(denominations.get(denomination));
    }

    /// The face value of a coin; empty when it is in another currency, or none of the catalogue's.
    public Optional<BigDecimal> face(Denomination denomination, CurrencyUnit currency) {
        return facts(denomination)
                .map(DenominationFacts::face)
                .filter(face -> face.getCurrencyUnit().equals(currency))
                .map(Money::getAmount);
    }

    public Optional<CountryFacts> country(Country country) {
        return Optional.ofNullable(countries.get(country));
    }

    public Optional<CountryFacts> countryByWord(String word) {
        return Optional.ofNullable(countryWords.get(word));
    }

    public Optional<DenominationFacts> denominationByWord(Country country, String word) {
        return Optional.ofNullable(denominationWords.get(new CountryWord(country, word)));
    }

    /// A denomination as people write it: `US cent`, `cent` for one of the US, `ca nickel` for another country's.
    public Optional<DenominationFacts> denominationByName(String name) {
        Optional<DenominationFacts> exact = denominations().stream()
                .filter(facts -> facts.denomination().toString().equals(name))
                .findFirst();
        if (exact.isPresent()) {
            return exact;
        }
        String lower = name.strip().toLowerCase(Locale.ROOT);
        int space = lower.indexOf(' ');
        if (space < 0) {
            return denominationByWord(Country.US, lower);
        }
        return countryByWord(lower.substring(0, space))
                .flatMap(known -> denominationByWord(known.country(), lower.substring(space + 1)));
    }

    public Optional<MintFacts> mintByWord(Country country, String word) {
        return Optional.ofNullable(mintWords.get(new CountryWord(country, word)));
    }

    /// A unit that coins of elsewhere are told by.
    public Optional<CoinUnit> unitByWord(String word) {
        return Optional.ofNullable(unitWords.get(word));
    }

    public Optional<TradeWord> tradeWord(String word) {
        return Optional.ofNullable(tradeWords.get(word));
    }

    public Optional<WatchName> watchByWord(String word) {
        return Optional.ofNullable(watchWords.get(word));
    }

    /// Whether the catalogue lists issues of a country at all; where it does not, any date of that country is
    /// taken.
    public boolean covers(Denomination denomination) {
        return covered.contains(denomination);
    }

    /// All issues of a denomination and year, any mint.
    public List<Issue> ofYear(Denomination denomination, int year) {
        return byYear.getOrDefault(new DenominationYear(denomination, year), List.of());
    }

    /// The issues of a year that bear a mint mark. A coin noted without a mark is any of the year when every coin of
    /// that year bears one: nothing is left to tell, as with the Canadian five cents of 2003, all marked P.
    ///
    /// @param mint null for any
    public List<Issue> ofYear(Denomination denomination, int year, @Nullable Mint mint) {
        List<Issue> all = ofYear(denomination, year);
        List<Issue> marked = all.stream()
                .filter(issue -> mint == null || mint.equals(issue.mint()))
                .toList();
        return marked.isEmpty() && Mint.NONE.equals(mint) ? all : marked;
    }

    /// The issues a coin may be, given what was read off it.
    ///
    /// A blank kind means the ordinary coin of that date where there is one; otherwise every kind stays
    /// possible, as with a 1982 cent that has not been weighed. A blank design leaves every design possible. A
    /// mint that could not be read leaves every mint possible. Empty when the date was not read or no such coin
    /// exists.
    public List<Issue> lookup(Identity identity) {
        Integer year = identity.year();
        if (year == null) {
            return List.of();
        }
        List<Issue> fits = fits(identity, ofYear(identity.denomination(), year, identity.mint()));
        if (fits.isEmpty() && Mint.NONE.equals(identity.mint())) {
            // an older record may hold no mark where the catalogue has learned of one
            fits = fits(identity, ofYear(identity.denomination(), year));
        }
        if (identity.kind().isEmpty()) {
            return ordinary(fits);
        }
        return fits;
    }

    /// Those of some coins of a date that are meant when no kind is told: of every design the ordinary coin, and where
    /// a design has none, each of its kinds.
    public static List<Issue> ordinary(List<Issue> issues) {
        Set<String> plain = issues.stream()
                .filter(issue -> issue.identity().kind().isEmpty())
                .map(issue -> issue.identity().design())
                .collect(java.util.stream.Collectors.toSet());
        return issues.stream()
                .filter(issue -> issue.identity().kind().isEmpty()
                        || !plain.contains(issue.identity().design()))
                .toList();
    }

    private static List<Issue> fits(Identity identity, List<Issue> issues) {
        return issues.stream()
                .filter(issue -> identity.design().isEmpty() || issue.hasDesign(identity.design()))
                .filter(issue -> identity.kind().isEmpty() || issue.hasKind(identity.kind()))
                .toList();
    }

    /// How a coin is called at the bench: date and mint, with kind and design only where the date leaves a
    /// choice, and with country and denomination in front where they are not the expected ones.
    ///
    /// @param expected denomination that need not be said
    public String name(Identity identity, Denomination expected) {
        StringBuilder name = new StringBuilder();
        if (!identity.denomination().country().equals(expected.country())) {
            name.append(country(identity.denomination().country())
                            .map(CountryFacts::name)
                            .orElse(identity.denomination().country().code()))
                    .append(' ');
        }
        if (!identity.denomination().key().equals(expected.key())) {
            name.append(identity.denomination().key()).append(' ');
        }
        name.append(identity.dateAndMint());
        Integer year = identity.year();
        boolean choice = year == null
                || ofYear(identity.denomination(), year).stream()
                                .filter(issue -> identity.mint() == null
                                        || identity.mint().equals(issue.mint()))
                                .map(issue -> issue.identity().design())
                                .distinct()
                                .count()
                        > 1;
        if (choice && !identity.design().isEmpty()) {
            name.append(' ').append(identity.design());
        }
        if (!identity.kind().isEmpty()) {
            name.append(' ').append(identity.kind());
        }
        return name.toString();
    }
}
