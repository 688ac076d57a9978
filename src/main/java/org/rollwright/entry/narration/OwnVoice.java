package org.rollwright.entry.narration;

import java.io.IOException;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Selection;
import org.rollwright.entry.EntryContext;

/// The decoder as it knows this hunter's voice: shipped weights for a start, moved by every recording that was
/// reviewed. Thread-safe.
public final class OwnVoice {
    /// Most lessons learned from, the latest ones: learning takes the time of decoding them.
    public static final int MOST = 12;

    /// Most characters of captions learned from, about ten hours of speech.
    private static final long LONGEST = 600_000;

    /// Words shown of what was learned.
    private static final int TRAITS = 12;

    private final Decoder shipped;
    private final Catalog catalog;
    private final VoiceShelf shelf;
    private List<String> names = List.of();
    private @Nullable Decoder attuned;

    public OwnVoice(Decoder shipped, Catalog catalog, VoiceShelf shelf) {
        this.shipped = shipped;
        this.catalog = catalog;
        this.shelf = shelf;
    }

    /// A word this voice says behind dates, and what those dates were.
    ///
    /// @param dates it was said behind, at least 3
    /// @param finds among them
    public record Trait(String word, int dates, int finds) {}

    /// The decoder to use: the shipped one when there are no lessons or the voice is switched off.
    public Decoder decoder() {
        return shelf.isOn() ? attuned(shelf.lessons()) : shipped;
    }

    /// The decoder that knows nobody.
    public Decoder shipped() {
        return shipped;
    }

    private synchronized Decoder attuned(List<VoiceShelf.Kept> lessons) {
        if (lessons.isEmpty()) {
            return shipped;
        }
        List<VoiceShelf.Kept> latest = latest(lessons);
        List<String> now = latest.stream().map(VoiceShelf.Kept::name).toList();
        Decoder known = attuned;
        if (known == null || !now.equals(names)) {
            known = shipped.taught(
                    latest.stream().map(one -> taught(one.lesson())).toList());
            attuned = known;
            names = now;
        }
        return known;
    }

    /// The latest lessons, at most so many and so long, one at least.
    private static List<VoiceShelf.Kept> latest(List<VoiceShelf.Kept> lessons) {
        int from = lessons.size() - 1;
        long length = length(lessons.get(from));
        while (from > 0 && lessons.size() - from < MOST && length + length(lessons.get(from - 1)) <= LONGEST) {
            from--;
            length += length(lessons.get(from));
        }
        return lessons.subList(from, lessons.size());
    }

    private static long length(VoiceShelf.Kept kept) {
        return kept.lesson().cues().stream()
                .mapToLong(cue -> cue.text().length())
                .sum();
    }

    private Taught taught(Lesson lesson) {
        List<Selection> watches = lesson.watches().stream()
                .flatMap(rule -> Selection.parse(rule) instanceof Selection.Parsed.Good good
                        ? java.util.stream.Stream.of(good.selection())
                        : java.util.stream.Stream.empty())
                .toList();
        int year = lesson.learned().atOffset(java.time.ZoneOffset.UTC).getYear();
        EntryContext context = new EntryContext(catalog, lesson.boxes().getFirst(), watches, year);
        Listening heard = shipped.listen(lesson.cues(), context, lesson.boxes(), lesson.rollsPerBox());
        return Taught.of(heard, lesson.finds());
    }

    /// The shelf of lessons: to show, to forget, to switch off.
    public VoiceShelf shelf() {
        return shelf;
    }

    /// Learns from a recording that was reviewed, unless the voice is switched off.
    ///
    /// @throws IOException when the lesson cannot be kept
    public void learn(Lesson lesson) throws IOException {
        if (shelf.isOn()) {
            shelf.keep(lesson);
        }
    }

    /// What was learned, as far as single words tell it: those that speak for a find first.
    public List<Trait> traits() {
        return attuned(shelf.lessons()).habits().traits(TRAITS);
    }
}
