package org.rollwright.entry.narration;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Selection;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.entry.EntryContext;

/// A narration with the truth written into it (see src/test/resources/narrations/README.md).
///
/// @param notes what stands at which place: the number of the caption and the character within it
record Annotated(String name, EntryContext context, List<Cue> cues, List<Note> notes) {
    /// A remark in braces.
    record Note(int cue, int at, String text) {}

    /// A find as it really was.
    ///
    /// @param mint blank when it is never said
    record Truth(int box, int roll, String country, String year, String mint, int count) {}

    static List<Annotated> folder(String folder) {
        try (Stream<Path> files = Files.list(Path.of("src/test/resources/narrations", folder))) {
            List<Annotated> all = new ArrayList<>();
            for (Path file : files.sorted().toList()) {
                all.add(parse(file.getFileName().toString(), Files.readString(file)));
            }
            return all;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static Annotated parse(String name, String text) {
        List<Cue> cues = new ArrayList<>();
        List<Note> notes = new ArrayList<>();
        for (String line : text.lines().filter(one -> one.startsWith("[")).toList()) {
            int close = line.indexOf(']');
            long at = Captions.time(line.substring(1, close)).orElseThrow();
            StringBuilder plain = new StringBuilder();
            String rest = line.substring(close + 1).strip();
            int i = 0;
            while (i < rest.length()) {
                if (rest.charAt(i) == '{') {
                    int end = rest.indexOf('}', i);
                    notes.add(new Note(cues.size(), plain.length(), rest.substring(i + 1, end)));
                    i = end + 1;
                } else {
                    plain.append(rest.charAt(i++));
                }
            }
            if (plain.toString().isBlank()) {
                plain.setLength(0);
                plain.append('-');
            }
            cues.add(new Cue(at, at + 4_000, plain.toString()));
        }
        return new Annotated(name, context(name, text), cues, notes);
    }

    private static EntryContext context(String name, String text) {
        String head = name + " " + text.lines().findFirst().orElse("");
        Denomination denomination = head.contains("nickel")
                ? new Denomination(new Country("US"), "nickel")
                : head.contains("dime")
                        ? new Denomination(new Country("US"), "dime")
                        : head.contains("canadian")
                                ? new Denomination(new Country("CA"), "cent")
                                : Denomination.US_CENT;
        String watch =
                head.contains("nickel") || head.contains("canadian") ? "" : head.contains("dime") ? "silver" : "wheat";
        List<Selection> watches = new ArrayList<>();
        CatalogFolder.catalog()
                .watchByWord(watch)
                .map(known -> ((Selection.Parsed.Good) Selection.parse(known.rule())).selection())
                .ifPresent(watches::add);
        return new EntryContext(CatalogFolder.catalog(), denomination, watches, 2026);
    }

    List<Truth> truth() {
        List<Truth> finds = new ArrayList<>();
        int box = 1;
        int roll = 0;
        for (Note note : notes) {
            Optional<int[]> place = place(note.text, box);
            if (place.isPresent()) {
                box = place.get()[0];
                roll = place.get()[1];
            } else if (!note.text.equals("=")) {
                finds.add(truth(note.text, box, roll));
            }
        }
        return finds;
    }

    private static Optional<int[]> place(String note, int box) {
        String[] words = note.split(" ");
        if (words[0].equals("roll")) {
            return Optional.of(new int[] {box, Integer.parseInt(words[1])});
        }
        return words[0].equals("box")
                ? Optional.of(new int[] {Integer.parseInt(words[1]), Integer.parseInt(words[3])})
                : Optional.empty();
    }

    boolean isFind(Note note) {
        return !note.text.equals("=") && place(note.text, 1).isEmpty();
    }

    private Truth truth(String note, int box, int roll) {
        String country = context.denomination().country().code();
        String text = note;
        int count = 1;
        if (text.contains(" x")) {
            count = Integer.parseInt(text.substring(text.indexOf(" x") + 2));
            text = text.substring(0, text.indexOf(" x"));
        }
        if (text.startsWith("ca ") || text.startsWith("us ")) {
            country = text.substring(0, 2).toUpperCase(java.util.Locale.ROOT);
            text = text.substring(3);
        }
        String[] parts = text.split("-");
        String mint = parts.length > 1 ? parts[1] : country.equals("CA") ? "P" : "";
        return new Truth(
                box, roll, country, parts[0].equals("nd") ? "" : parts[0], mint.equals("?") ? "" : mint, count);
    }

    /// The same words as a WebVTT file.
    String vtt() {
        StringBuilder text = new StringBuilder("WEBVTT\n\n");
        for (Cue cue : cues) {
            text.append(stamp(cue.start()))
                    .append(" --> ")
                    .append(stamp(cue.end()))
                    .append('\n')
                    .append(cue.text())
                    .append("\n\n");
        }
        return text.toString();
    }

    private static String stamp(long millis) {
        return String.format(
                java.util.Locale.ROOT,
                "%02d:%02d:%02d.%03d",
                millis / 3_600_000,
                millis / 60_000 % 60,
                millis / 1000 % 60,
                millis % 1000);
    }
}
