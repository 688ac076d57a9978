package org.rollwright.web;

import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import org.rollwright.album.AlbumEvent;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.Desk;
import org.rollwright.desk.MemoryJournal;
import org.rollwright.desk.State;
import org.rollwright.entry.Recorder;
import org.rollwright.entry.narration.Decoder;
import org.rollwright.entry.narration.KeptLessons;
import org.rollwright.entry.narration.OwnVoice;
import org.rollwright.entry.narration.Phrases;
import org.rollwright.entry.narration.Weights;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;
import org.rollwright.scope.PhotoNote;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.scope.ScopeEvent;
import org.rollwright.scope.Varieties;
import org.rollwright.scope.VarietyShelf;
import org.rollwright.scope.picture.PaintedCoin;
import org.rollwright.scope.picture.Photo;
import org.rollwright.scope.picture.PhotoReader;
import org.rollwright.scope.picture.PhotoShelf;
import org.rollwright.store.CatalogTexts;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.SettingsShelf;

/// A server over a journal in memory, with one hunt of two cent boxes under way.
final class TestBench implements AutoCloseable {
    /// How often the tool was asked to stop.
    final AtomicInteger stops = new AtomicInteger();
    /// The time of a bench without a clock of its own; it stands still until a test moves it.
    final AtomicReference<Instant> now;
    final MemoryJournal journal;
    final Bench bench;
    final Server server;
    final String address;

    private final InstantSource clock;

    /// @param earlier what an older record holds, from entry 1
    TestBench(Entry... earlier) {
        this(new AtomicReference<>(Instant.parse("2026-03-01T19:00:00Z")), earlier);
    }

    private TestBench(AtomicReference<Instant> now, Entry... earlier) {
        this(now, now::get, journal(earlier), State.EMPTY, new MemoryShelf(), new MemorySettings());
        begin();
    }

    /// A bench with a clock of its own; nothing is recorded yet.
    TestBench(InstantSource clock) {
        this(
                new AtomicReference<>(clock.instant()),
                clock,
                new MemoryJournal(),
                State.EMPTY,
                new MemoryShelf(),
                new MemorySettings());
    }

    private static MemoryJournal journal(Entry... earlier) {
        MemoryJournal journal = new MemoryJournal();
        List.of(earlier).forEach(journal::append);
        return journal;
    }

    private volatile String trouble = "";

    private TestBench(
            AtomicReference<Instant> now,
            InstantSource clock,
            MemoryJournal journal,
            State start,
            PhotoShelf photos,
            SettingsShelf settings) {
        this.now = now;
        this.clock = clock;
        this.journal = journal;
        Desk desk = new Desk(journal, clock, start);
        VarietyShelf varieties = new VarietyShelf(Varieties.book(), CatalogFolder.catalog());
        Recorder recorder = new Recorder(
                desk,
                CatalogFolder.catalog(),
                clock,
                (known, coin) -> varieties.keys(known.scope(), known.hunt(), coin));
        bench = new Bench(
                desk,
                CatalogFolder.catalog(),
                varieties,
                photos,
                recorder,
                new OwnVoice(decoder(), CatalogFolder.catalog(), new KeptLessons()),
                clock,
                settings,
                true,
                () -> trouble,
                stops::incrementAndGet);
        Server.Started started = Server.start(bench, 0);
        if (!(started instanceof Server.Started.Running running)) {
            throw new IllegalStateException("no port: " + started);
        }
        server = running.server();
        address = "http://127.0.0.1:" + running.port();
    }

    /// What every page is to tell from now on.
    void trouble(String sentence) {
        trouble = sentence;
    }

    /// The same bench after a restart: the same photographs, settings and clock over another journal and start.
    TestBench again(MemoryJournal other, State start) {
        return new TestBench(now, clock, other, start, bench.photos(), bench.settings());
    }

    /// Starts the hunt.
    void begin() {
        bench.desk()
                .record(
                        1,
                        "",
                        book -> new Event.Batch(List.of(
                                new HuntEvent.BoxAdded(
                                        new BoxId(1), Denomination.US_CENT, BoxDetails.plain("Box 12", 50, 50)),
                                new HuntEvent.BoxAdded(
                                        new BoxId(2), Denomination.US_CENT, BoxDetails.plain("Box 13", 50, 50)),
                                new HuntEvent.HuntStarted(
                                        new HuntId(1),
                                        "Box 12 and 13",
                                        List.of(new BoxId(1), new BoxId(2)),
                                        List.of(watch("wheat"), watch("canadian"))))));
    }

    /// Settings in memory.
    private static final class MemorySettings implements SettingsShelf {
        private final java.util.Map<String, String> chosen = new java.util.concurrent.ConcurrentHashMap<>();

        @Override
        public java.util.Map<String, String> read() {
            return java.util.Map.copyOf(chosen);
        }

        @Override
        public void choose(java.util.Map<String, String> some) {
            chosen.putAll(some);
        }
    }

    /// Photographs in memory.
    private static final class MemoryShelf implements PhotoShelf {
        private final java.util.Map<String, Photo> photos = new java.util.concurrent.ConcurrentHashMap<>();

        @Override
        public void keep(Photo photo) {
            photos.put(photo.id(), photo);
        }

        @Override
        public java.util.Optional<byte[]> jpeg(String id) {
            return java.util.Optional.ofNullable(photos.get(id)).map(Photo::jpeg);
        }

        @Override
        public java.util.Optional<byte[]> thumbnail(String id) {
            return java.util.Optional.ofNullable(photos.get(id)).map(Photo::thumbnail);
        }
    }

    private static Decoder decoder() {
        Phrases phrases = Phrases.parse(CatalogTexts.resource("narration/phrases.csv"));
        return new Decoder(() -> phrases, () -> Weights.parse(CatalogTexts.resource("narration/weights.csv")));
    }

    private static Watch watch(String name) {
        return CatalogFolder.catalog()
                .watchByWord(name)
                .map(known -> new Watch(known.name(), known.rule()))
                .orElseThrow();
    }

    /// Sets up an album.
    void album(String name, String rule) {
        bench.desk()
                .record(0, "", book -> new AlbumEvent.AlbumDefined(book.album().nextAlbum(), name, rule));
    }

    /// Records lines as a hunter would have typed them; a refused line fails the test.
    void type(String... lines) {
        for (String line : lines) {
            Recorder.Outcome outcome = bench.recorder().record(new HuntId(1), line);
            if (!(outcome instanceof Recorder.Outcome.Recorded)) {
                throw new AssertionError(line + ": " + outcome);
            }
        }
    }

    /// Keeps a photograph that shows nothing in particular.
    void photograph(java.awt.image.BufferedImage picture, String caption) {
        if (!(PhotoReader.read(PaintedCoin.png(picture)) instanceof PhotoReader.Read.Good good)) {
            throw new AssertionError("refused");
        }
        bench.photos().keep(good.photo());
        bench.desk()
                .record(
                        0,
                        "",
                        book -> new ScopeEvent.PhotoKept(
                                good.photo().id(),
                                good.photo().width(),
                                good.photo().height(),
                                PhotoSubject.BENCH,
                                caption));
    }

    /// Names of all photographs.
    List<String> photographs() {
        return bench.desk()
                .read(book ->
                        book.scope().photos().stream().map(PhotoNote::photo).toList());
    }

    /// The lines of a short evening: enders, a short roll, grades, a note, a weighing.
    void typeAnEvening() {
        type(
                "e 2/52",
                "+ 44",
                "+",
                "+ 57d xf40, ca 61",
                "+, + x3 56d vf20",
                "r5 49",
                "+ 36d rpm vf30 bn \"notch under the D\"",
                "+, +, + 19s g6",
                "+ 43 vf20 ender",
                "w 3lb 4oz \"copper pile\"",
                "+");
    }

    @Override
    public void close() {
        server.close();
    }

    /// Serves until it is stopped, for looking at pages.
    public static void main(String[] args) throws InterruptedException {
        try (TestBench bench = new TestBench()) {
            bench.typeAnEvening();
            System.out.println(bench.address);
            Thread.sleep(Long.MAX_VALUE);
        }
    }
}
