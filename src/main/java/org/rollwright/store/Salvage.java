package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.rollwright.journal.Entry;

/// What can still be brought back of a damaged store: entries from its file, from its log, also behind a
/// damaged place of that, and from every backup, each held against its checksum and joined to the one before.
/// The damaged folder is only looked at; what is brought back goes into a new one.
/// Long, because seeing, joining and writing back share the graph of entries, which nothing else may know.
public final class Salvage {
    /// Where a run of entries comes from.
    ///
    /// @param source for a person
    public record Run(String source, long from, long to) {}

    /// Why nothing could be brought back, or not written. The message is for a person.
    public static final class Failed extends Exception {
        private static final long serialVersionUID = 1L;

        Failed(String sentence) {
            super(sentence, null, false, false);
        }
    }

    /// What became of photographs.
    ///
    /// @param back names of those put back
    /// @param wanting sentences on those that no backup has
    public record Photographs(List<String> back, List<String> wanting) {
        public Photographs {
            back = List.copyOf(back);
            wanting = List.copyOf(wanting);
        }
    }

    /// What was brought back.
    ///
    /// @param warnings photographs that are lost
    public record Made(long entries, int photographs, List<String> warnings) {
        public Made {
            warnings = List.copyOf(warnings);
        }
    }

    /// Where entries were seen.
    private enum Kind {
        FILE,
        FILE_WITH_LOG,
        DAMAGED_LOG,
        BACKUP,
        PAGES
    }

    /// @param backup folder of the backup, null when it is none
    private record Source(Kind kind, @Nullable Path backup) {
        Source(Kind kind) {
            this(kind, null);
        }

        String words() {
            return switch (kind) {
                case FILE -> t("store.file-alone");
                case FILE_WITH_LOG -> t("store.file-with-log");
                case DAMAGED_LOG -> t("store.log-damaged");
                case BACKUP -> t("store.the-backup", backup);
                case PAGES -> t("store.pages-of-file");
            };
        }
    }

    private record Node(
            SqliteJournal.Row row, Source source, @Nullable Node before) {}

    private final Path folder;
    private final Backups backups;
    /// Candidates for each place, each with the sources it was seen in, the first one first.
    private final TreeMap<Long, Map<SqliteJournal.Row, Set<Source>>> rows = new TreeMap<>();
    private final Map<SqliteJournal.Row, Boolean> unchained = new HashMap<>();

    private final Optional<HighWater.Mark> mark;

    private Salvage(Path folder, Backups backups) {
        this.folder = folder;
        this.mark = HighWater.read(folder).mark();
        this.backups = backups;
    }

    /// Whether a tool works on the store: then only photographs can be put back.
    public static boolean isInUse(Path folder) {
        return StoreLock.isHeld(folder);
    }

    /// Puts sound copies of photographs from the backups in the place of missing and damaged ones, in the folder
    /// itself, also beside a running tool; a sound photograph is never touched.
    ///
    public static Photographs putPhotographsBack(Path folder) throws Failed {
        return new Salvage(folder, new Backups(new Settings(folder).backups())).putPhotographsBack();
    }

    /// Looks through a data folder that no tool works on, and its backups; nothing is changed.
    public static Salvage of(Path folder) throws Failed {
        try {
            NativeLibrary.load();
        } catch (NativeLibrary.Missing e) {
            throw new Failed(String.valueOf(e.getMessage()));
        }
        Salvage salvage = new Salvage(folder, new Backups(new Settings(folder).backups()));
        Path file = folder.resolve(Database.FILE);
        if (Files.exists(file)) {
            salvage.lookAtStore(file);
        }
        for (Path backup : salvage.backups.all()) {
            salvage.look(new Source(Kind.BACKUP, backup), () -> Database.frozen(backup.resolve(Database.FILE)));
        }
        // pages the database does not find its way to; entries of the first format have no chain to prove them
        for (SqliteJournal.Row row : PageScan.rows(Disk.bytes(file).orElse(new byte[0]))) {
            salvage.seen(new Source(Kind.PAGES), row, false);
        }
        return salvage;
    }

    private void lookAtStore(Path file) throws Failed {
        Path trial;
        try {
            trial = Files.createTempDirectory("rollwright-salvage");
        } catch (IOException e) {
            throw new Failed(t("store.the-temporary-folder", System.getProperty("java.io.tmpdir")));
        }
        try {
            byte[] log = Disk.bytes(file.resolveSibling(Database.WAL)).orElse(new byte[0]);
            // the file first: a log that is not its own must not speak for it
            look(new Source(Kind.FILE), () -> Database.frozen(file));
            if (log.length > 0) {
                lookWithLog(new Source(Kind.FILE_WITH_LOG), file, trial, log);
            }
            Optional<WalFile> frames = WalFile.read(file.resolveSibling(Database.WAL));
            if (frames.isPresent()) {
                WalFile wal = frames.get();
                Source source = new Source(Kind.DAMAGED_LOG);
                lookWithLog(source, file, trial, wal.resealed(i -> true));
                lookWithLog(
                        source,
                        file,
                        trial,
                        wal.resealed(i -> wal.frames().get(i).sound()));
                for (int bad = 0; bad < wal.frames().size(); bad++) {
                    if (wal.frames().get(bad).ours() && !wal.frames().get(bad).sound()) {
                        int end = bad;
                        lookWithLog(source, file, trial, wal.resealed(i -> i < end));
                    }
                }
            }
        } catch (IOException e) {
            throw new Failed(t("store.the-temporary-folder", trial));
        } finally {
            Disk.deleteQuietly(trial);
        }
    }

    private void lookWithLog(Source source, Path file, Path trial, byte[] log) throws IOException {
        Path copy = trial.resolve(Database.FILE);
        Files.deleteIfExists(trial.resolve(Database.SHM));
        Disk.copyPlain(file, copy);
        Files.write(trial.resolve(Database.WAL), log);
        look(source, () -> Database.beside(copy));
    }

    private interface Opening {
        Session open();
    }

    /// Takes every row that can be read, from both ends, since a damaged page hides what lies behind it.
    private void look(Source source, Opening opening) {
        try (Session session = opening.open()) {
            long chainedFrom = chainedFrom(session);
            collect(source, chainedFrom, session, "order by seq");
            collect(source, chainedFrom, session, "order by seq desc");
        } catch (Session.Failure e) {
            // a source that cannot be opened gives nothing
        }
    }

    private static long chainedFrom(Session session) {
        try {
            return SqliteJournal.chainedFrom(session);
        } catch (Session.Failure e) {
            return 1;
        }
    }

    private void seen(Source source, SqliteJournal.Row row, boolean alone) {
        rows.computeIfAbsent(row.seq(), seq -> new LinkedHashMap<>())
                .computeIfAbsent(row, first -> new LinkedHashSet<>())
                .add(source);
        unchained.merge(row, alone, Boolean::logicalOr);
    }

    private void collect(Source source, long chainedFrom, Session session, String order) {
        try (Session.Rows<SqliteJournal.Row> found = SqliteJournal.rows(session, order)) {
            for (SqliteJournal.Row row = found.next(); row != null; row = found.next()) {
                seen(source, row, row.seq() < chainedFrom);
            }
        } catch (Session.Failure | IllegalArgumentException e) {
            // what came before it counts
        }
    }

    /// The longest row of entries from the first on in which each is sound and follows from the one before, of
    /// those that begin as this store does: a log or a backup of another store may be longer.
    private List<Node> longest() {
        List<Node> level = new ArrayList<>();
        Set<Source> foreign = foreign();
        for (long seq = 1; rows.containsKey(seq); seq++) {
            List<Node> next = new ArrayList<>();
            List<Node> reached = level;
            at(seq).forEach((row, sources) -> {
                if (!foreign.containsAll(sources)) {
                    follows(row, reached)
                            .ifPresent(before ->
                                    next.add(new Node(row, first(sources), before.row.seq() == 0 ? null : before)));
                }
            });
            List<Node> ours = next.stream().filter(this::isAsMarked).toList();
            if (ours.isEmpty()) {
                break;
            }
            level = ours;
        }
        List<Node> chain = new ArrayList<>();
        for (@Nullable Node node = level.isEmpty() ? null : level.getFirst(); node != null; node = node.before) {
            chain.addFirst(node);
        }
        return chain;
    }

    private static Source first(Set<Source> sources) {
        return sources.iterator().next();
    }

    /// Sources that have another sound entry in the place of the mark than the one that was acknowledged there:
    /// they are of another store from some entry on, so nothing that they alone have is taken.
    private Set<Source> foreign() {
        Set<Source> foreign = new HashSet<>();
        Set<Source> own = new HashSet<>();
        mark.ifPresent(known -> at(known.seq()).forEach((row, sources) -> {
            if (row.checksum() == known.checksum()) {
                own.addAll(sources);
            } else if (isSoundAlone(row)) {
                foreign.addAll(sources);
            }
        }));
        foreign.removeAll(own);
        return foreign;
    }

    /// Whether an entry is the one that the mark, or else the store's file by itself, has in its place. What
    /// neither of them tells of is taken from wherever it follows.
    private boolean isAsMarked(Node node) {
        long seq = node.row.seq();
        if (mark.filter(one -> one.seq() == seq).isPresent()) {
            return mark.get().checksum() == node.row.checksum();
        }
        Map.Entry<SqliteJournal.Row, Set<Source>> first =
                at(seq).entrySet().iterator().next();
        Source source = first(first.getValue());
        return source.kind != Kind.FILE || node.source.equals(source) || !isSoundAlone(first.getKey());
    }

    private Map<SqliteJournal.Row, Set<Source>> at(long seq) {
        return rows.getOrDefault(seq, Map.of());
    }

    /// Whether a row of the store's file by itself holds its own checksum over the row before it there.
    private boolean isSoundAlone(SqliteJournal.Row row) {
        return row.checksum() == row.alone()
                || at(row.seq() - 1).keySet().stream().anyMatch(one -> row.checksum() == row.chained(one.checksum()));
    }

    /// Entries that some source has otherwise than what is brought back; a log or a backup of another store has.
    public List<String> others() {
        Map<Long, SqliteJournal.Row> chosen = new HashMap<>();
        longest().forEach(node -> chosen.put(node.row.seq(), node.row));
        Map<Source, Long> counts = new HashMap<>();
        Set<Source> foreign = foreign();
        rows.forEach((seq, candidates) -> candidates.forEach((other, sources) -> {
            SqliteJournal.Row row = chosen.get(seq);
            boolean elsewhere = row == null ? foreign.containsAll(sources) : !other.equals(row);
            if (elsewhere && isSoundAlone(other)) {
                counts.merge(first(sources), 1L, Long::sum);
            }
        }));
        return counts.entrySet().stream()
                .sorted(Comparator.comparing(one -> one.getKey().words()))
                .map(one ->
                        t("store.other-entries", one.getValue(), one.getKey().words()))
                .toList();
    }

    private static final Node START = new Node(new SqliteJournal.Row(0, "", 0, "", "", 0), new Source(Kind.FILE), null);

    private Optional<Node> follows(SqliteJournal.Row row, List<Node> level) {
        List<Node> candidates = row.seq() == 1 ? List.of(START) : level;
        boolean alone = unchained.getOrDefault(row, false) && row.checksum() == row.alone();
        return candidates.stream()
                .filter(before -> alone || row.checksum() == row.chained(before.row.checksum()))
                .findFirst();
    }

    /// Where the entries that can be brought back come from, in order.
    public List<Run> runs() {
        List<Run> runs = new ArrayList<>();
        @Nullable Source last = null;
        for (Node node : longest()) {
            long seq = node.row.seq();
            if (node.source.equals(last)) {
                runs.set(runs.size() - 1, new Run(node.source.words(), runs.getLast().from, seq));
            } else {
                runs.add(new Run(node.source.words(), seq, seq));
            }
            last = node.source;
        }
        return runs;
    }

    /// The last entry known to have been acknowledged, as far as anything tells.
    public long acknowledged() {
        Set<Source> foreign = foreign();
        long seen = rows.descendingMap().entrySet().stream()
                .filter(place -> place.getValue().values().stream().anyMatch(sources -> !foreign.containsAll(sources)))
                .map(Map.Entry::getKey)
                .findFirst()
                .orElse(0L);
        return Math.max(mark.map(HighWater.Mark::seq).orElse(0L), seen);
    }

    /// Lines as they were typed of entries behind a gap, which cannot be joined to the journal any more.
    public List<String> behindTheGap() {
        long reached = longest().size();
        Set<Source> foreign = foreign();
        return rows.tailMap(reached, false).values().stream()
                .flatMap(candidates -> candidates.entrySet().stream()
                        .filter(one -> !foreign.containsAll(one.getValue()))
                        .map(Map.Entry::getKey)
                        .limit(1))
                .map(row -> row.seq() + "\t" + row.at() + "\t" + row.raw())
                .toList();
    }

    /// Photographs that the record names, as far as it can be read now.
    private Set<String> named() {
        return switch (Store.open(folder, Store.Mode.READ, InstantSource.system())) {
            case Store.Opening.Opened opened -> {
                try (Store store = opened.store()) {
                    yield store.photographs();
                }
            }
            default -> Set.of();
        };
    }

    private Photographs putPhotographsBack() throws Failed {
        PhotoFolder here = new PhotoFolder(folder);
        List<String> put = new ArrayList<>();
        List<String> wanting = new ArrayList<>();
        try {
            Set<String> names = new TreeSet<>(here.all());
            names.addAll(named());
            names.addAll(backups.photographs().all());
            for (String id : names) {
                if (here.state(id) == PhotoFolder.State.SOUND) {
                    continue;
                }
                if (here.take(id, backups.photographs()) == PhotoFolder.State.SOUND) {
                    put.add(id);
                } else {
                    wanting.add(t("store.a-photograph-is-nowhere", id, here.file(id)));
                }
            }
        } catch (IOException e) {
            throw new Failed(t("store.data-folder-not-writable", folder));
        }
        return new Photographs(put, wanting);
    }

    /// Makes a new data folder of what can be brought back: entries, photographs, the user's catalogue, settings.
    ///
    /// @param target empty or not there yet
    /// @throws Failed when nothing can be brought back or the target cannot take it
    public Made into(Path target) throws Failed {
        if (!Disk.isEmptyOrMissing(target)) {
            throw new Failed(t("store.folder-not-empty", target));
        }
        List<Node> chain = longest();
        if (chain.isEmpty()) {
            throw new Failed(t("store.nothing-to-salvage"));
        }
        List<Entry> entries = new ArrayList<>();
        try {
            chain.forEach(node -> entries.add(node.row.entry()));
        } catch (SqliteJournal.Unreadable e) {
            throw new Failed(String.valueOf(e.getMessage()));
        }
        Path part = target.resolveSibling(target.getFileName() + ".rollwright.part");
        try {
            Disk.deleteAll(part);
            write(entries, part);
            List<String> warnings = new ArrayList<>();
            int photographs = copyBeside(part, warnings);
            List<String> lines = behindTheGap();
            if (!lines.isEmpty()) {
                Disk.write(
                        part.resolve("rollwright.lines-behind-the-gap.txt"),
                        (String.join("\n", lines) + "\n").getBytes(StandardCharsets.UTF_8));
            }
            Files.deleteIfExists(target);
            Disk.move(part, target);
            return new Made(entries.size(), photographs, warnings);
        } catch (IOException e) {
            Disk.deleteQuietly(part);
            throw new Failed(t("store.folder-not-writable-intact", target));
        } catch (Failed e) {
            Disk.deleteQuietly(part);
            throw e;
        }
    }

    private static void write(List<Entry> entries, Path part) throws Failed {
        try (Store store = opened(part)) {
            store.take(entries);
        }
        // folded from the disk: what contradicts itself is told before it is called brought back
        try (Store store = opened(part)) {
            store.readWhole();
        } catch (SqliteJournal.Unreadable e) {
            throw new Failed(String.valueOf(e.getMessage()));
        }
    }

    private static Store opened(Path part) throws Failed {
        return switch (Store.open(part, Store.Mode.WRITE, InstantSource.system())) {
            case Store.Opening.Opened opened -> opened.store();
            case Store.Opening.Unusable unusable -> throw new Failed(unusable.sentence());
            case Store.Opening.Busy busy -> throw new Failed(busy.who());
            case Store.Opening.TooNew tooNew -> throw new IllegalStateException("just made");
        };
    }

    private int copyBeside(Path part, List<String> warnings) throws IOException, Failed {
        Disk.copyTree(folder.resolve("catalog"), part.resolve("catalog"));
        Path settings = folder.resolve(Settings.FILE);
        if (Files.exists(settings)) {
            Disk.copy(settings, part.resolve(Settings.FILE));
        }
        PhotoFolder from = new PhotoFolder(folder);
        PhotoFolder to = new PhotoFolder(part);
        Set<String> named;
        try (Store store = opened(part)) {
            named = store.photographs();
        }
        Set<String> all = new TreeSet<>(named);
        all.addAll(from.all());
        int sound = 0;
        for (String id : all) {
            to.take(id, from);
            boolean here = to.take(id, backups.photographs()) == PhotoFolder.State.SOUND;
            if (named.contains(id)) {
                sound += here ? 1 : 0;
                if (!here) {
                    warnings.add(t("store.a-photograph-is-nowhere", id, from.file(id)));
                }
            }
        }
        return sound;
    }
}
