package org.rollwright.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.entry.narration.Cue;
import org.rollwright.entry.narration.Lesson;
import org.rollwright.entry.narration.OwnVoice;
import org.rollwright.entry.narration.VoiceShelf;
import tools.jackson.databind.json.JsonMapper;

/// The lessons of a hunter's voice, a file each in the folder `voice` of the data folder. They hold the captions of
/// recordings, so that a later version can learn from them anew, and lie on this computer only. A file that cannot be
/// read is passed over and left alone.
public final class VoiceFolder implements VoiceShelf {
    static final String FOLDER = "voice";

    /// Changes whenever the shape of [Written] does; files of another format are passed over.
    private static final int FORMAT = 1;

    private static final String SWITCH = "narration.voice";
    private static final String OFF = "off";
    private static final String ENDING = ".json";
    private static final DateTimeFormatter NAME =
            DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HHmmss-SSS").withZone(ZoneOffset.UTC);
    private static final Pattern NAMES = Pattern.compile("[0-9T-]{10,30}");
    private static final JsonMapper MAPPER = JsonMapper.shared();

    private final Path folder;
    private final Settings settings;

    /// @param data the data folder
    /// @param settings where it is remembered that the voice is switched off
    public VoiceFolder(Path data, Settings settings) {
        this.folder = data.resolve(FOLDER);
        this.settings = settings;
    }

    /// A lesson as the file holds it.
    private record Written(
            int format,
            String learned,
            String file,
            List<Said> captions,
            List<Holding> boxes,
            List<String> watches,
            int rollsPerBox,
            List<Found> finds,
            int accepted,
            int changed,
            int dropped,
            int added) {}

    private record Said(long start, long end, String text) {}

    private record Holding(String country, String denomination) {}

    private record Found(
            long at, int box, int roll, @Nullable Integer year, int count) {}

    @Override
    public List<Kept> lessons() {
        List<Kept> all = new ArrayList<>();
        for (String name : names()) {
            read(name).ifPresent(lesson -> all.add(new Kept(name, lesson)));
        }
        return all;
    }

    private List<String> names() {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(file -> file.getFileName().toString())
                    .filter(name -> name.endsWith(ENDING))
                    .map(name -> name.substring(0, name.length() - ENDING.length()))
                    .filter(name -> NAMES.matcher(name).matches())
                    .sorted()
                    .toList();
        } catch (IOException | java.io.UncheckedIOException e) {
            return List.of();
        }
    }

    private Optional<Lesson> read(String name) {
        Optional<byte[]> bytes = Disk.bytes(file(name));
        if (bytes.isEmpty()) {
            return Optional.empty();
        }
        try {
            Written written = MAPPER.readValue(bytes.get(), Written.class);
            return written == null || written.format != FORMAT ? Optional.empty() : Optional.of(lesson(written));
        } catch (RuntimeException e) {
            return Optional.empty();
        }
    }

    private static Lesson lesson(Written written) {
        return new Lesson(
                Instant.parse(written.learned),
                written.file,
                written.captions.stream()
                        .map(one -> new Cue(one.start, one.end, one.text))
                        .toList(),
                written.boxes.stream()
                        .map(one -> new Denomination(new Country(one.country), one.denomination))
                        .toList(),
                written.watches,
                written.rollsPerBox,
                written.finds.stream()
                        .map(one -> new Lesson.Find(one.at, one.box, one.roll, one.year, one.count))
                        .toList(),
                new Lesson.Corrections(written.accepted, written.changed, written.dropped, written.added));
    }

    @Override
    public synchronized void keep(Lesson lesson) throws IOException {
        Lesson.Corrections corrections = lesson.corrections();
        Written written = new Written(
                FORMAT,
                lesson.learned().toString(),
                lesson.file(),
                lesson.cues().stream()
                        .map(one -> new Said(one.start(), one.end(), one.text()))
                        .toList(),
                lesson.boxes().stream()
                        .map(one -> new Holding(one.country().code(), one.key()))
                        .toList(),
                lesson.watches(),
                lesson.rollsPerBox(),
                lesson.finds().stream()
                        .map(one -> new Found(one.at(), one.box(), one.roll(), one.year(), one.count()))
                        .toList(),
                corrections.accepted(),
                corrections.changed(),
                corrections.dropped(),
                corrections.added());
        Disk.makeFolder(folder);
        Disk.write(file(nameBehind(names(), lesson.learned())), MAPPER.writeValueAsBytes(written));
        List<String> names = names();
        for (String old : names.subList(0, Math.max(0, names.size() - OwnVoice.MOST))) {
            Files.deleteIfExists(file(old));
        }
    }

    /// A name for an instant that sorts behind all there are.
    private static String nameBehind(List<String> names, Instant at) {
        String wanted = NAME.format(at);
        if (names.isEmpty() || names.getLast().compareTo(wanted) < 0) {
            return wanted;
        }
        try {
            return NAME.format(NAME.parse(names.getLast(), Instant::from).plusMillis(1));
        } catch (DateTimeException e) {
            return wanted;
        }
    }

    @Override
    public void forget(String name) throws IOException {
        if (NAMES.matcher(name).matches()) {
            Files.deleteIfExists(file(name));
        }
    }

    @Override
    public boolean isOn() {
        return !OFF.equals(settings.all().get(SWITCH));
    }

    @Override
    public void turn(boolean on) throws IOException {
        settings.choose(Map.of(SWITCH, on ? "on" : OFF));
    }

    private Path file(String name) {
        return folder.resolve(name + ENDING);
    }
}
