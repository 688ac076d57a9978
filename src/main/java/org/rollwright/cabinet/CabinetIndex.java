package org.rollwright.cabinet;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Metal;

/// Every coin owned at one moment, ready to be searched. Immutable and thread-safe.
public final class CabinetIndex {
    /// One coin.
    ///
    /// @param name of the coin as the bench says it
    /// @param from where it came from, for a person
    /// @param place where it lies, from the outermost place inwards; blank when nobody said
    /// @param album hole it lies in, blank when in none
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
    public record Query(
            @Nullable CoinDescription like,
            List<String> words,
            @Nullable PlaceId place,
            boolean duplicates) {
        public Query {
            words = words.stream().map(word -> word.toLowerCase(Locale.ROOT)).toList();
        }
    }

    /// Places within places; a ring of them must not be followed for ever.
    private static final int DEEPEST = 20;

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
            String text = String.join(
                            " ",
                            name,
                            description.state(),
                            description.note(),
                            from,
                            place,
                            album,
                            away ? t("cabinet.at-grading-word") : "")
                    .toLowerCase(Locale.ROOT);
            entries.add(new Entry(
                    coin, name, from, placeId, place, album, note == null ? null : note.gradeUpTo(), away, text));
        }
        return new CabinetIndex(entries, book);
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
                        .map(sum -> String.format(Locale.ROOT, "%,.2f %s", sum.getValue() / 100.0, sum.getKey()))
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
