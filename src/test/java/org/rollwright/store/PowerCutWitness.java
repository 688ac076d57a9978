package org.rollwright.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.Desk;
import org.rollwright.desk.MemoryJournal;
import org.rollwright.desk.State;
import org.rollwright.desk.StateText;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.journal.Entry;
import org.rollwright.scope.picture.Photo;

/// Looks at a folder after a power cut, as the hunter does who starts the tool again, and says what is wrong:
/// each fault begins with its kind and a colon.
final class PowerCutWitness {
    private static final InstantSource CLOCK = InstantSource.system();
    private static final String FILE = "rollwright.db";
    private static final String CATALOGUE = "catalog/watches.csv";

    private final PowerCutClaims claims;
    private final Path paper;
    private final Map<String, List<String>> journals = new HashMap<>();
    private final Map<String, Long> before = new HashMap<>();
    private final Map<String, byte[]> after;

    /// Photographs that a backup names, by its name: those that were sound on the disk that was not cut.
    private final Map<String, Set<String>> sound = new HashMap<>();

    /// Entries of data folders that were found sound, by name and everything in them.
    private final Map<String, Long> looked = new HashMap<>();

    /// Backups of earlier days.
    private final Set<String> earlier = new HashSet<>();

    private int refused;

    /// @param start the folder before the run
    /// @param end the folder after the run, uncut
    /// @param paper a folder to write to
    PowerCutWitness(PowerCutClaims claims, Path start, Path end, Path paper) throws IOException {
        this.claims = claims;
        this.paper = paper;
        this.after = PowerCutDisk.contents(end);
        for (Path store : stores(end)) {
            String name = store.getFileName().toString();
            journals.put(name, lines(store));
            before.put(name, entries(start.resolve(name)));
        }
        Path disk = end.resolve("disk");
        for (Path backup : new Backups(disk).all()) {
            String name = backup.getFileName().toString();
            List<String> faults = new ArrayList<>();
            if (backup(disk, name, faults) != null && faults.isEmpty()) {
                Path copy = Files.createDirectories(paper.resolve("copy"));
                Files.copy(backup.resolve(FILE), copy.resolve(FILE));
                sound.put(name, photographs(copy));
                PowerCutTest.delete(copy);
                if (Files.exists(start.resolve("disk").resolve(name))) {
                    earlier.add(name);
                }
            }
        }
    }

    /// Half-made data folders that were refused with a sentence, so far.
    int refused() {
        return refused;
    }

    /// How many entries a data folder holds, which stays as it is.
    private long entries(Path data) throws IOException {
        if (!Files.exists(data.resolve(FILE))) {
            return 0;
        }
        Path copy = paper.resolve("copy");
        PowerCutTest.copy(data, copy);
        long entries = lines(copy).size();
        PowerCutTest.delete(copy);
        return entries;
    }

    private static List<Path> stores(Path folder) throws IOException {
        try (Stream<Path> paths = Files.list(folder)) {
            return paths.filter(path -> Files.exists(path.resolve(FILE)))
                    .sorted()
                    .toList();
        }
    }

    private List<String> lines(Path store) throws IOException {
        return switch (Store.open(store, Store.Mode.READ, CLOCK)) {
            case Store.Opening.Opened opened -> {
                try (Store open = opened.store()) {
                    yield lines(open);
                }
            }
            case Store.Opening other -> throw new IllegalStateException(store + ": " + other);
        };
    }

    private List<String> lines(Store store) throws IOException {
        Path file = paper.resolve("journal.jsonl");
        store.saveJournal(file);
        List<String> all = Files.readAllLines(file);
        return all.subList(1, all.size());
    }

    /// Opens what is there, reads all of it and goes on.
    ///
    /// @param position of the log, where the power was cut
    List<String> faults(Path folder, int position, String phase) throws IOException {
        List<String> faults = new ArrayList<>();
        for (String name : journals.keySet().stream().sorted().toList()) {
            try {
                store(folder, name, position, phase, faults);
            } catch (SqliteJournal.Unreadable e) {
                faults.add("damaged: " + name + ": " + e.getMessage());
            }
        }
        backups(folder, position, faults);
        if (claims.had("settings", position)
                && !new Settings(folder.resolve("data"))
                        .named()
                        .equals(Optional.of(
                                folder.resolve("disk").toAbsolutePath().normalize()))) {
            faults.add("settings lost: the folder for backups that was named is forgotten: "
                    + new Settings(folder.resolve("data")).named());
        }
        for (PowerCutClaims.Other other : claims.others) {
            if (other.position() < position && other.what().endsWith(".jsonl")) {
                same(folder, "/" + other.what(), "export lost", faults);
            }
        }
        return faults;
    }

    private void same(Path folder, String name, String kind, List<String> faults) throws IOException {
        Path file = folder.resolve(name.substring(1));
        if (!Files.exists(file)) {
            faults.add(kind + ": " + name + " is not there");
        } else if (!Arrays.equals(Files.readAllBytes(file), after.get(name))) {
            faults.add(kind + ": " + name + " holds " + Files.size(file) + " other bytes");
        }
    }

    private void store(Path folder, String name, int position, String phase, List<String> faults) throws IOException {
        long wanted = Math.max(before.getOrDefault(name, 0L), claims.entries(name, position));
        boolean restored = isRestored(name);
        boolean anew = false;
        Path here = folder.resolve(name);
        if (!Files.exists(here.resolve(FILE))) {
            if (wanted > 0) {
                faults.add("store lost: " + name + " with " + wanted + " acknowledged entries"
                        + (Files.exists(here) ? "" : ", its folder too"));
                return;
            }
            if (restored && !phase.equals("restores")) {
                return;
            }
            if (restored) {
                restoreAgain(folder, here, faults);
                anew = true;
            }
        }
        String key = name + fingerprint(here);
        Long known = looked.get(key);
        if (known != null && known >= wanted) {
            return;
        }
        switch (Store.open(here, Store.Mode.WRITE, CLOCK)) {
            case Store.Opening.Opened opened -> {
                int sofar = faults.size();
                long last;
                try (Store store = opened.store()) {
                    opened(folder, name, store, wanted, anew, faults);
                    last = oneMore(store);
                }
                goesOn(name, here, last, faults);
                if (faults.size() == sofar && !anew) {
                    looked.put(key, last - 1);
                }
            }
            case Store.Opening other -> {
                String sentence = other instanceof Store.Opening.Unusable unusable ? unusable.sentence() : "" + other;
                if (restored && wanted == 0 && !sentence.isBlank()) {
                    refused++;
                } else {
                    faults.add("does not open: " + name + ": " + sentence);
                }
            }
        }
    }

    private static boolean isRestored(String name) {
        return name.startsWith("restored-") || name.startsWith("again-");
    }

    /// @param anew restored after the cut, from whichever backup was the newest then
    private void opened(Path folder, String name, Store store, long wanted, boolean anew, List<String> faults)
            throws IOException {
        List<String> whole = journals.getOrDefault(name, List.of());
        List<String> found = lines(store);
        if (found.size() < wanted) {
            faults.add("acknowledged lost: " + name + " has " + found.size() + " of " + wanted);
        }
        if (found.size() > whole.size() || !found.equals(whole.subList(0, found.size()))) {
            faults.add("other entries: " + name + " holds what was never recorded so");
        }
        if (name.startsWith("filled-") && !found.isEmpty() && found.size() != whole.size()) {
            faults.add("torn batch: " + name + " has " + found.size() + " of " + whole.size());
        }
        if (isRestored(name) && !anew && found.size() != whole.size()) {
            faults.add("torn restore: " + name + " has " + found.size() + " of " + whole.size());
        }
        MemoryJournal memory = new MemoryJournal();
        try {
            JournalFile.read(paper.resolve("journal.jsonl")).forEach(memory::append);
        } catch (JournalFile.Unusable e) {
            throw new IllegalStateException(e);
        }
        if (!state(new Desk(memory, CLOCK, State.EMPTY)).equals(state(store.desk()))) {
            faults.add("other state: " + name + " is not what its journal folds to");
        }
        if (name.startsWith("filled-")) {
            // a journal as text has no photographs with it
            return;
        }
        for (String photo : store.desk()
                .read(book -> book.scope().photos().stream()
                        .map(note -> note.photo())
                        .filter(Photo::isId)
                        .distinct()
                        .toList())) {
            photograph(folder.resolve(name).resolve("photos"), photo, name, faults);
            byte[] small =
                    new PhotoFolder(folder.resolve(name)).thumbnail(photo).orElse(new byte[0]);
            byte[] was = after.get("/data/photos/" + photo.substring(0, 2) + "/" + photo + ".small.jpg");
            // made anew from the large one where it is missing or damaged
            if (was != null && (small.length == 0 || !new PhotoFolder(folder.resolve(name)).hasSmall(photo))) {
                faults.add("small picture lost: " + name + ", " + small.length + " bytes of " + photo);
            }
        }
        if (isRestored(name)) {
            same(folder, "/" + name + "/" + CATALOGUE, "catalogue lost", faults);
        }
    }

    /// The state as text; amounts without zeros at their end, of which a journal as text keeps one.
    private static String state(Desk desk) {
        return desk.read(StateText::of).replaceAll("(\\.\\d*?)0+(?!\\d)", "$1");
    }

    private static Path photograph(Path photos, String id) {
        return photos.resolve(id.substring(0, 2)).resolve(id + ".jpg");
    }

    private static void photograph(Path photos, String id, String name, List<String> faults) throws IOException {
        Path file = photograph(photos, id);
        if (!Files.exists(file)) {
            faults.add("photograph lost: " + name + ": " + id + " is not there");
        } else if (!Photo.idOf(Files.readAllBytes(file)).equals(id)) {
            faults.add("photograph damaged: " + name + ": " + id + ", " + Files.size(file) + " bytes");
        }
    }

    private static long oneMore(Store store) {
        Desk.Outcome outcome = store.desk()
                .record(
                        0,
                        "",
                        book -> new HuntEvent.BoxAdded(
                                book.hunt().nextBox(), Denomination.US_CENT, BoxDetails.plain("after", 50, 50)));
        return outcome instanceof Desk.Outcome.Kept(Entry entry) ? entry.seq() : -1;
    }

    /// One more entry was recorded, and is there when opened again.
    private static void goesOn(String name, Path here, long last, List<String> faults) {
        Store.Opening again = Store.open(here, Store.Mode.READ, CLOCK);
        if (again instanceof Store.Opening.Opened opened) {
            try (Store store = opened.store()) {
                if (store.desk().read(State::last) != last) {
                    faults.add("does not go on: " + name + " after the cut");
                }
            }
        } else {
            faults.add("does not go on: " + name + ": " + again);
        }
        Checkup.of(here, CLOCK.instant()).stream()
                .filter(finding -> finding.weight() == Checkup.Weight.BAD && !name.startsWith("filled-"))
                .forEach(finding -> faults.add("false alarm: " + name + ": " + finding));
    }

    /// Of everything in a data folder that is read at a start.
    private static String fingerprint(Path data) throws IOException {
        if (!Files.exists(data)) {
            return "";
        }
        MessageDigest digest;
        try {
            digest = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
        for (Map.Entry<String, byte[]> one : PowerCutDisk.contents(data).entrySet()) {
            if (!one.getKey().endsWith("-shm") && !one.getKey().endsWith(".lock")) {
                digest.update((one.getKey() + "\n" + one.getValue().length + "\n").getBytes(StandardCharsets.UTF_8));
                digest.update(one.getValue());
            }
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    private void restoreAgain(Path folder, Path here, List<String> faults) {
        Backups backups = new Backups(folder.resolve("disk"));
        if (backups.all().isEmpty()) {
            faults.add("restore not possible again: there is no backup");
            return;
        }
        try {
            backups.restore(backups.all().getFirst(), here);
        } catch (Backups.Failed e) {
            faults.add("restore not possible again: " + e.getMessage());
        }
    }

    /// Backups that were acknowledged are there, all that are there are whole, and so are those of earlier days.
    private void backups(Path folder, int position, List<String> faults) throws IOException {
        Path disk = folder.resolve("disk");
        Map<String, Path> found = new TreeMap<>();
        new Backups(disk).all().forEach(backup -> found.put(backup.getFileName().toString(), backup));
        List<PowerCutClaims.Backup> acknowledged = claims.backups.stream()
                .filter(claim -> claim.position() < position)
                .toList();
        Stream.concat(earlier.stream(), acknowledged.stream().map(PowerCutClaims.Backup::name))
                .filter(name -> sound.containsKey(name) && !found.containsKey(name))
                .forEach(name -> faults.add("backup lost: " + name));
        for (String name : found.keySet()) {
            if (!unchanged(folder, name)) {
                Backups.Backup made = backup(disk, name, faults);
                if (made != null) {
                    long entries = made.entries();
                    int photographs = made.photographs();
                    acknowledged.stream()
                            .filter(claim -> claim.name().equals(name))
                            .filter(claim -> claim.entries() != entries || claim.photographs() != photographs)
                            .forEach(claim -> faults.add("backup differs: " + claim + " has " + entries
                                    + " entries and " + photographs + " photographs"));
                }
            }
        }
    }

    /// Whether a backup is byte for byte what it was on the disk that was not cut, where it was sound.
    private boolean unchanged(Path folder, String name) throws IOException {
        Set<String> photographs = sound.get(name);
        if (photographs == null) {
            return false;
        }
        Map<String, byte[]> here = PowerCutDisk.contents(folder.resolve("disk").resolve(name));
        for (Map.Entry<String, byte[]> one : here.entrySet()) {
            byte[] there = after.get("/disk/" + name + one.getKey());
            if (there == null || !Arrays.equals(there, one.getValue())) {
                return false;
            }
        }
        for (String id : photographs) {
            Path file = photograph(folder.resolve("disk/photos"), id);
            if (!Files.exists(file) || !Photo.idOf(Files.readAllBytes(file)).equals(id)) {
                return false;
            }
        }
        return after.keySet().stream()
                .filter(one -> one.startsWith("/disk/" + name + "/"))
                .allMatch(one -> here.containsKey(one.substring(("/disk/" + name).length())));
    }

    /// Restores a backup to the side and reads all of it.
    private Backups.@Nullable Backup backup(Path disk, String name, List<String> faults) throws IOException {
        Path trial = paper.resolve("trial");
        List<String> whole = journals.getOrDefault("data", List.of());
        try {
            Backups.Backup made = new Backups(disk).restore(disk.resolve(name), trial);
            List<String> lines = lines(trial);
            if (lines.size() > whole.size() || !lines.equals(whole.subList(0, lines.size()))) {
                faults.add("backup differs: " + name + " holds what was never recorded so");
            }
            Path catalogue = trial.resolve(CATALOGUE);
            if (!Files.exists(catalogue)
                    || !Arrays.equals(Files.readAllBytes(catalogue), after.get("/data/" + CATALOGUE))) {
                faults.add("backup without the catalogue: " + name);
            }
            for (String photo : photographs(trial)) {
                photograph(trial.resolve("photos"), photo, "backup " + name, faults);
            }
            return made;
        } catch (Backups.Failed e) {
            faults.add("backup unsound: " + name + ": " + e.getMessage());
            return null;
        } finally {
            PowerCutTest.delete(trial);
        }
    }

    private static Set<String> photographs(Path data) {
        if (Store.open(data, Store.Mode.READ, CLOCK) instanceof Store.Opening.Opened opened) {
            try (Store store = opened.store()) {
                return store.photographs();
            }
        }
        throw new IllegalStateException("no store in " + data);
    }
}
