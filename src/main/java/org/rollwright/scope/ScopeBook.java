package org.rollwright.scope;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.HuntBook;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Growing;

/// What the microscope brought: attributions, varieties of the user's own, photographs. Immutable.
public final class ScopeBook {
    /// A book in which nothing is written.
    public static final ScopeBook EMPTY = new ScopeBook(Growing.map(), Growing.map(), Growing.map());

    /// Whichever way they came about, so that undo in one hunt disturbs no other.
    private static final Comparator<PhotoNote> IN_ORDER = Comparator.comparing(PhotoNote::at)
            .thenComparing(PhotoNote::photo)
            .thenComparing(note -> note.about().toString());

    private final Map<FindId, AttributionNote> attributions;
    private final Map<String, Map<String, String>> varieties;
    private final Map<PhotoSubject, List<PhotoNote>> photos;

    /// Put in order when first asked for.
    private volatile @Nullable List<PhotoNote> photosInOrder;

    private ScopeBook(
            Map<FindId, AttributionNote> attributions,
            Map<String, Map<String, String>> varieties,
            Map<PhotoSubject, List<PhotoNote>> photos) {
        this.attributions = attributions;
        this.varieties = varieties;
        this.photos = photos;
    }

    /// What attributions came to, the latest of each find, by its number.
    public SortedMap<FindId, AttributionNote> attributions() {
        SortedMap<FindId, AttributionNote> sorted = new TreeMap<>(Comparator.comparingLong(FindId::number));
        sorted.putAll(attributions);
        return sorted;
    }

    /// What the latest attribution of a find came to.
    public Optional<AttributionNote> attribution(FindId find) {
        return Optional.ofNullable(attributions.get(find));
    }

    /// Varieties the user wrote or rewrote: their rows by key.
    public SortedMap<String, Map<String, String>> varieties() {
        return new TreeMap<>(varieties);
    }

    boolean hasVariety(String key) {
        return varieties.containsKey(key);
    }

    /// Every photograph in the record, in the order kept.
    public List<PhotoNote> photos() {
        List<PhotoNote> known = photosInOrder;
        if (known == null) {
            known = photos.values().stream()
                    .flatMap(Collection::stream)
                    .sorted(IN_ORDER)
                    .toList();
            photosInOrder = known;
        }
        return known;
    }

    /// Photographs of one thing, in the order kept.
    public List<PhotoNote> photos(PhotoSubject about) {
        return photos.getOrDefault(about, List.of());
    }

    /// Why an event cannot be taken.
    public Optional<Refusal> refuse(ScopeEvent event, HuntBook hunts) {
        return ScopeChecks.refuse(this, event, hunts);
    }

    /// The scope an event must be recorded in; empty when any will do. What belongs to a find belongs to its hunt, all
    /// else to none, so that undo in one disturbs no other.
    public OptionalLong scope(ScopeEvent event, HuntBook hunts) {
        return switch (event) {
            case ScopeEvent.Attributed attributed -> hunts.scope(attributed.find());
            case ScopeEvent.PhotoKept kept -> scope(kept.about(), hunts);
            case ScopeEvent.PhotoTaken taken -> scope(taken.about(), hunts);
            case ScopeEvent.VarietyWritten written -> OptionalLong.of(0);
            case ScopeEvent.VarietyRemoved removed -> OptionalLong.of(0);
        };
    }

    private static OptionalLong scope(PhotoSubject about, HuntBook hunts) {
        return about.kind().is(PhotoSubject.Kind.FIND)
                ? about.findId().map(hunts::scope).orElse(OptionalLong.empty())
                : OptionalLong.of(0);
    }

    /// The book after an event.
    public ScopeBook apply(ScopeEvent event, Entry entry) {
        return switch (event) {
            case ScopeEvent.Attributed attributed ->
                new ScopeBook(
                        Growing.with(
                                attributions,
                                attributed.find(),
                                new AttributionNote(
                                        attributed.find(),
                                        attributed.variety(),
                                        attributed.verdict(),
                                        attributed.path(),
                                        attributed.note(),
                                        entry.at())),
                        varieties,
                        photos);
            case ScopeEvent.VarietyWritten written ->
                new ScopeBook(attributions, Growing.with(varieties, written.variety(), written.cells()), photos);
            case ScopeEvent.VarietyRemoved removed ->
                new ScopeBook(attributions, Growing.without(varieties, removed.variety()), photos);
            case ScopeEvent.PhotoKept kept ->
                kept(new PhotoNote(
                        kept.photo(), kept.width(), kept.height(), kept.about(), kept.caption(), entry.at()));
            case ScopeEvent.PhotoTaken taken ->
                with(
                        taken.about(),
                        Growing.without(
                                photos(taken.about()), note -> note.photo().equals(taken.photo())));
        };
    }

    private ScopeBook kept(PhotoNote note) {
        List<PhotoNote> there = photos(note.about());
        int at = Collections.binarySearch(there, note, IN_ORDER);
        return at >= 0 ? this : with(note.about(), Growing.plus(there, -at - 1, note));
    }

    private ScopeBook with(PhotoSubject about, List<PhotoNote> now) {
        return new ScopeBook(
                attributions,
                varieties,
                now.isEmpty() ? Growing.without(photos, about) : Growing.with(photos, about, Growing.list(now)));
    }

    /// A [ScopeBook] as plain values, for a snapshot.
    public record Image(
            List<AttributionNote> attributions, Map<String, Map<String, String>> varieties, List<PhotoNote> photos) {}

    /// The book as plain values.
    public Image image() {
        return new Image(List.copyOf(attributions.values()), new HashMap<>(varieties), photos());
    }

    /// The book an image shows.
    public static ScopeBook of(Image image) {
        Map<FindId, AttributionNote> attributions = new HashMap<>();
        image.attributions.forEach(note -> attributions.put(note.find(), note));
        Map<PhotoSubject, List<PhotoNote>> photos = new HashMap<>();
        image.photos.forEach(note ->
                photos.computeIfAbsent(note.about(), about -> new ArrayList<>()).add(note));
        photos.replaceAll((about, notes) -> Growing.list(notes));
        return new ScopeBook(Growing.map(attributions), Growing.map(image.varieties), Growing.map(photos));
    }
}
