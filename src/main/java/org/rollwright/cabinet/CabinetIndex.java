package org.rollwright.cabinet;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Metal;
import org.rollwright.coin.Mint;
import org.rollwright.text.Figures;

/// Every coin owned at one moment, ready to be searched. Immutable and thread-safe.
public final class CabinetIndex {
    /// One coin.
    ///
    /// @param name of the coin as the bench says it
    /// @param from where it came from, for a person
    /// @param place where it lies, from the outermost place inwards; blank when nobody said
    /// @param album hole it lies in, blank when in none
    /// @param metal null when it may be of several
    /// @param text everything searched, in lower case
    public record Entry(
            OwnedCoin coin,
            String name,
            String from,
            @Nullable PlaceId placeId,
            String place,
            String album,
            @Nullable Grade gradeUpTo,
            boolean atGrading,
            @Nullable Metal metal,
            String text) {
        public CoinRef ref() {
            return coin.ref();
        }

        public CoinDescription description() {
            return coin.description();
        }
    }

    /// What is asked for; everything said must hold.
    ///
    /// @param like a coin read from the entry line's words, null when none was; grade means "at least"
    /// @param words that must occur somewhere
    /// @param place this place or one within it, null for any
    /// @param duplicates only coins of which there is more than one
    /// @param only what else must hold
    public record Query(
            @Nullable CoinDescription like,
            List<String> words,
            @Nullable PlaceId place,
            boolean duplicates,
            Only only) {
        public Query {
            words = words.stream().map(word -> word.toLowerCase(Locale.ROOT)).toList();
        }
    }

    /// Coins of one kind only; what is null or ANY lets every coin through.
    ///
    /// @param coins denomination
    /// @param mint P for a US coin without a mint mark
    /// @param metal a coin that may be of several metals is of none
    public record Only(
            @Nullable Denomination coins,
            @Nullable Mint mint,
            @Nullable Metal metal,
            Graded graded) {
        public static final Only ANY = new Only(null, null, null, Graded.ANY);

        boolean lets(Entry entry) {
            Identity identity = entry.description().identity();
            boolean told = entry.description().grade() != null;
            return (coins == null || coins.equals(identity.denomination()))
                    && (mint == null || mint.equals(identity.mint()))
                    && (metal == null || metal == entry.metal)
                    && (graded == Graded.ANY || (graded == Graded.GRADED) == told);
        }
    }

    /// Whether a grade was told.
    public enum Graded {
        ANY,
        GRADED,
        UNGRADED
    }

    /// In what order a list stands.
    public enum Order {
        /// As they came.
        CAME,
        NEWEST,
        /// Most worth first, those without a value last.
        VALUE,
        /// Oldest date first.
        DATE,
        /// Best grade first, those without one last.
        GRADE
    }

    /// Places within places; a ring of them must not be followed for ever.
    private static final int DEEPEST = 20;

    /// The word that is typed for coins without a grade.
    private static final String UNGRADED = "ungraded";

    private final List<Entry> entries;
    private final Map<CoinRef, Entry> byRef = new HashMap<>();
    private final Map<Identity, Integer> count = new HashMap<>();
    private final Map<PlaceId, Place> places = new LinkedHashMap<>();

    private CabinetIndex(List<Entry> entries, CabinetBook book) {
        this.entries = List.copyOf(entries);
        for (Entry entry : entries) {
            byRef.put(entry.ref(), entry);
            count.merge(entry.description().identity(), 1, Integer::sum);
        }
        book.places().forEach(place -> places.put(place.id(), place));
    }

    /// Reads what is owned.
    ///
    /// @param holes where coins lie in albums, in words
    public static CabinetIndex of(Holdings held, Map<CoinRef, String> holes, Catalog catalog) {
        CabinetBook book = held.cabinet();
        Map<Identity, String> names = new HashMap<>();
        Map<Identity, Optional<Metal>> metals = new HashMap<>();
        Map<PlaceId, String> paths = new HashMap<>();
        List<Entry> entries = new ArrayList<>();
        for (OwnedCoin coin : held.coins()) {
            CabinetNote note = book.note(coin.ref()).orElse(null);
            CoinDescription description = coin.description();
            Identity identity = description.identity();
            String name = names.computeIfAbsent(identity, key -> name(catalog, key));
            PlaceId placeId = note == null ? null : note.place();
            String place = placeId == null ? "" : paths.computeIfAbsent(placeId, id -> path(book, id));
            String album = holes.getOrDefault(coin.ref(), "");
            boolean away = note != null
                    && note.submission() != null
                    && note.submission().outcome() == 0;
            String from = book.cameFrom(coin);
            Optional<Metal> metal = metals.computeIfAbsent(identity, key -> metal(catalog, key));
            String text = String.join(
                            " ",
                            name,
                            description.state(),
                            description.note(),
                            from,
                            place,
                            album,
                            metal.map(CabinetIndex::searched).orElse(""),
                            // as it is typed, and as the pages say it
                            description.grade() == null ? UNGRADED + " " + t("cabinet.ungraded-word") : "",
                            away ? t("cabinet.at-grading-word") : "")
                    .toLowerCase(Locale.ROOT);
            entries.add(new Entry(
                    coin,
                    name,
                    from,
                    placeId,
                    place,
                    album,
                    note == null ? null : note.gradeUpTo(),
                    away,
                    metal.orElse(null),
                    text));
        }
        return new CabinetIndex(entries, book);
    }

    /// The metal of every issue a coin may be; empty when they differ or none is known.
    private static Optional<Metal> metal(Catalog catalog, Identity identity) {
        List<Metal> metals = catalog.lookup(identity).stream()
                .map(issue -> issue.alloy().metal())
                .distinct()
                .toList();
        return metals.size() == 1 ? Optional.of(metals.getFirst()) : Optional.empty();
    }

    /// The word a metal is searched by; nickel means the coin.
    private static String searched(Metal metal) {
        return metal == Metal.NICKEL || metal == Metal.CUPRONICKEL ? "" : metal.word();
    }

    private static String name(Catalog catalog, Identity identity) {
        String denomination = catalog.facts(identity.denomination())
                .map(DenominationFacts::name)
                .orElse(identity.denomination().key());
        return identity.denomination().country() + " " + denomination + " " + identity.shortName();
    }

    /// A place as people say it, with those around it, the outermost first.
    public static String path(CabinetBook book, PlaceId id) {
        return String.join(" › ", names(book, id));
    }

    /// Names of a place and those around it, the outermost first.
    static List<String> names(CabinetBook book, @Nullable PlaceId id) {
        List<String> names = new ArrayList<>();
        @Nullable PlaceId at = id;
        while (at != null && names.size() < DEEPEST) {
            Optional<Place> place = book.place(at);
            if (place.isEmpty()) {
                break;
            }
            names.addFirst(place.get().name());
            at = place.get().parent();
        }
        return names;
    }

    public List<Entry> entries() {
        return entries;
    }

    public Optional<Entry> entry(CoinRef coin) {
        return Optional.ofNullable(byRef.get(coin));
    }

    /// Coins of the same date, mint and kind that are owned.
    public int alike(Identity identity) {
        return count.getOrDefault(identity, 0);
    }

    /// The coins that fit, in the order they came.
    public List<Entry> search(Query query) {
        List<Entry> found = new ArrayList<>();
        for (Entry entry : entries) {
            if (fits(entry, query)) {
                found.add(entry);
            }
        }
        return found;
    }

    /// Coins in an order; equal ones as they came.
    public static List<Entry> ordered(List<Entry> coins, Order order, ValueModel model) {
        return switch (order) {
            case CAME -> coins;
            case NEWEST -> coins.reversed();
            case VALUE ->
                by(
                        coins,
                        entry -> value(entry, model)
                                .map(value -> -value.amount())
                                .orElse(0.0));
            case DATE ->
                by(coins, entry -> {
                    Integer year = entry.description().identity().year();
                    return year == null ? Double.POSITIVE_INFINITY : year;
                });
            case GRADE ->
                by(coins, entry -> {
                    Grade grade = entry.description().grade();
                    return grade == null ? 0.0 : -grade.points();
                });
        };
    }

    private static List<Entry> by(List<Entry> coins, ToDoubleFunction<Entry> least) {
        // each is asked once: a value costs more than a comparison
        Map<CoinRef, Double> known = new HashMap<>();
        coins.forEach(entry -> known.put(entry.ref(), least.applyAsDouble(entry)));
        return coins.stream()
                .sorted(Comparator.comparingDouble(entry -> known.getOrDefault(entry.ref(), 0.0)))
                .toList();
    }

    /// Denominations of the coins owned, in the order of their names.
    public List<Denomination> denominations() {
        return entries.stream()
                .map(entry -> entry.description().identity().denomination())
                .distinct()
                .sorted(Comparator.comparing(Denomination::toString))
                .toList();
    }

    /// Mints of the coins owned, in the order of the alphabet.
    public List<Mint> mints() {
        return entries.stream()
                .map(entry -> entry.description().identity().mint())
                .filter(Objects::nonNull)
                .distinct()
                .sorted(Comparator.comparing(Mint::code))
                .toList();
    }

    private boolean fits(Entry entry, Query query) {
        for (String word : query.words) {
            if (!entry.text.contains(word)) {
                return false;
            }
        }
        CoinDescription like = query.like;
        if (like != null && !alike(entry.description(), like)) {
            return false;
        }
        if (!query.only.lets(entry)) {
            return false;
        }
        if (query.place != null && !within(entry.placeId, query.place)) {
            return false;
        }
        return !query.duplicates || alike(entry.description().identity()) > 1;
    }

    private boolean within(@Nullable PlaceId at, PlaceId wanted) {
        for (int depth = 0; at != null && depth < DEEPEST; depth++) {
            if (at.equals(wanted)) {
                return true;
            }
            Place place = places.get(at);
            at = place == null ? null : place.parent();
        }
        return false;
    }

    private static boolean alike(CoinDescription coin, CoinDescription like) {
        Identity a = coin.identity();
        Identity b = like.identity();
        boolean identity = a.denomination().equals(b.denomination())
                && (b.year() == null || b.year().equals(a.year()))
                && (b.mint() == null || b.mint().equals(a.mint()))
                && (b.kind().isEmpty() || b.kind().equals(a.kind()))
                && (b.design().isEmpty() || b.design().equals(a.design()));
        Grade atLeast = like.grade();
        Grade grade = coin.grade();
        return identity
                && (atLeast == null || (grade != null && grade.compareTo(atLeast) >= 0))
                && (like.colour() == null || like.colour() == coin.colour())
                && coin.varieties().containsAll(like.varieties())
                && coin.errors().containsAll(like.errors())
                && (like.details() == null || coin.isDetails());
    }

    /// The value of some coins together.
    public static ValueModel.Sum sum(List<Entry> coins, ValueModel model) {
        Map<Identity, List<Optional<ValueModel.Value>>> parts = new HashMap<>();
        coins.forEach(entry -> parts.computeIfAbsent(entry.description().identity(), key -> new ArrayList<>())
                .add(value(entry, model)));
        return ValueModel.sum(parts);
    }

    /// What one coin may be worth; empty without a grade, for a details coin, and where no price is near.
    public static Optional<ValueModel.Value> value(Entry entry, ValueModel model) {
        Grade grade = entry.description().grade();
        return grade == null || entry.description().isDetails()
                ? Optional.empty()
                : model.value(
                        entry.description().identity(),
                        grade,
                        entry.description().colour());
    }

    /// Face value of some coins by currency, such as `12.50 USD, 0.30 CAD`.
    public static String face(List<Entry> coins, Catalog catalog) {
        Map<String, Long> sums = new java.util.TreeMap<>(java.util.Comparator.reverseOrder());
        for (Entry entry : coins) {
            catalog.facts(entry.description().identity().denomination())
                    .ifPresent(facts -> sums.merge(
                            facts.face().getCurrencyUnit().getCode(),
                            facts.face().getAmountMinorLong(),
                            Long::sum));
        }
        return String.join(
                ", ",
                sums.entrySet().stream()
                        .map(sum -> Figures.of("%,.2f %s", sum.getValue() / 100.0, sum.getKey()))
                        .toList());
    }

    /// Whether colour counts in the price of an issue: copper does, by the catalogue.
    public static boolean hasColour(Catalog catalog, Identity identity) {
        return catalog.lookup(identity).stream().map(Issue::alloy).anyMatch(alloy -> alloy.metal() == Metal.COPPER);
    }

    /// Grades a price grid shows: those between common ones, and every typed one.
    public static List<Integer> gridGrades(OptionalInt own) {
        List<Integer> grades = new ArrayList<>(Arrays.asList(4, 8, 12, 20, 30, 40, 50, 58, 60, 63, 64, 65, 66, 67));
        own.ifPresent(grade -> {
            if (!grades.contains(grade)) {
                grades.add(grade);
                grades.sort(Integer::compare);
            }
        });
        return grades;
    }
}
