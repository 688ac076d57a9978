package org.rollwright.cli.shell;

import java.io.PrintStream;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.Setting;
import org.rollwright.album.AlbumShelves;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogLoader;
import org.rollwright.catalog.NamedText;
import org.rollwright.coin.Country;
import org.rollwright.desk.Desk;
import org.rollwright.entry.Recorder;
import org.rollwright.entry.narration.Decoder;
import org.rollwright.entry.narration.OwnVoice;
import org.rollwright.entry.narration.Phrases;
import org.rollwright.entry.narration.Weights;
import org.rollwright.scope.VarietyBook;
import org.rollwright.scope.VarietyShelf;
import org.rollwright.store.CatalogTexts;
import org.rollwright.store.DataFolder;
import org.rollwright.store.Settings;
import org.rollwright.store.Store;
import org.rollwright.store.VoiceFolder;
import org.rollwright.text.Texts;
import picocli.CommandLine;

/// The options every command shares, and what they open.
public final class Open {
    @CommandLine.Option(
            names = "--data",
            paramLabel = "DIR",
            description = "Folder of the data; the usual one of this system if left out.")
    private @Nullable Path data;

    @CommandLine.Option(names = "--demo", description = "Work on the invented demo series, in a store of its own.")
    private boolean demo;

    /// An open store with all that works on it.
    public record Bench(
            Store store, Desk desk, Catalog catalog, VarietyShelf varieties, Recorder recorder, boolean milesMeant)
            implements AutoCloseable {
        /// Where and when something is done: here, and now.
        public Setting setting() {
            return new Setting(
                    catalog,
                    varieties,
                    new AlbumShelves(catalog, Country.US),
                    Instant.now(),
                    ZoneId.systemDefault(),
                    milesMeant);
        }

        @Override
        public void close() {
            store.close();
        }
    }

    /// Ends a command with a sentence and an exit status.
    public static class Stop extends RuntimeException {
        private static final long serialVersionUID = 1L;
        private final ExitCode code;

        public Stop(ExitCode code, String sentence) {
            super(sentence, null, false, false);
            this.code = code;
        }

        public ExitCode code() {
            return code;
        }
    }

    /// Ends a command because another process holds the store.
    public static final class InUse extends Stop {
        private static final long serialVersionUID = 1L;
        private final String address;

        public InUse(String sentence, String address) {
            super(ExitCode.BUSY, sentence);
            this.address = address;
        }

        /// Where that process answers, blank when it does not say.
        public String address() {
            return address;
        }
    }

    public boolean demo() {
        return demo;
    }

    /// Whether an option says where the data are.
    public static boolean isOfFolder(String option) {
        return option.equals("--data") || option.equals("--demo");
    }

    /// Takes over what was said before the command's name; what is said behind it counts first.
    public void unlessSaid(Open before) {
        data = data == null ? before.data : data;
        demo |= before.demo;
    }

    /// What was said of the folder, as it would be said again; blank when nothing was.
    public String named() {
        return (data == null ? "" : " --data " + data) + (demo ? " --demo" : "");
    }

    /// Advice that names a command, with the folder it is about.
    public String advice(String text) {
        return text.replaceAll(
                Pattern.quote(Texts.command()) + " (salvage|backup|restore)", "$0" + Matcher.quoteReplacement(named()));
    }

    public Path folder() {
        Path base = data != null
                ? data
                : DataFolder.usual(
                        System.getenv(), System.getProperty("os.name"), Path.of(System.getProperty("user.home")));
        return demo ? base.resolve("demo") : base;
    }

    /// A catalogue as read, and what could not be used of the user's files.
    private record ReadCatalog(Catalog catalog, List<String> problems) {
        Catalog tell(PrintStream talk) {
            problems.forEach(problem -> talk.println(problem + " The file was left out."));
            return catalog;
        }
    }

    /// The catalogue; files of the user that cannot be used are reported and left out.
    public Catalog catalog(PrintStream talk) {
        return readCatalog().tell(talk);
    }

    private ReadCatalog readCatalog() {
        CatalogTexts.Texts texts = CatalogTexts.read(folder());
        CatalogLoader.Loaded loaded = CatalogLoader.load(texts.files().stream()
                .map(file -> new NamedText(file.name(), file.text()))
                .toList());
        return new ReadCatalog(
                loaded.catalog(),
                Stream.concat(texts.problems().stream(), loaded.problems().stream())
                        .map(Object::toString)
                        .toList());
    }

    /// The varieties; files of the user that cannot be used are reported and left out.
    public VarietyShelf varieties(Catalog catalog, PrintStream talk) {
        return new VarietyShelf(
                () -> {
                    CatalogTexts.Texts texts = CatalogTexts.varieties(folder());
                    VarietyBook.Loaded loaded = VarietyBook.load(texts.files(), catalog);
                    texts.problems().forEach(problem -> talk.println(problem + " The file was left out."));
                    loaded.problems().forEach(problem -> talk.println(problem + " The file was left out."));
                    return loaded.book();
                },
                catalog);
    }

    /// The decoder of narrations as it knows the hunter's voice.
    public OwnVoice voice(Catalog catalog, Settings settings) {
        return new OwnVoice(decoder(), catalog, new VoiceFolder(folder(), settings));
    }

    private static final class Spoken {
        private static final Phrases PHRASES = Phrases.parse(CatalogTexts.resource("narration/phrases.csv"));
    }

    /// The decoder of narrations with its data.
    private static Decoder decoder() {
        return new Decoder(() -> Spoken.PHRASES, () -> Weights.parse(CatalogTexts.resource("narration/weights.csv")));
    }

    /// A recorder that counts "checked" for the varieties there are.
    public static Recorder recorder(Desk desk, Catalog catalog, InstantSource clock, VarietyShelf varieties) {
        return new Recorder(desk, catalog, clock, (known, coin) -> varieties.keys(known.scope(), known.hunt(), coin));
    }

    /// Opens the store.
    ///
    /// @throws Stop when it cannot be opened
    public Bench open(Store.Mode mode, PrintStream talk) {
        InstantSource clock = InstantSource.system();
        // read beside the opening of the store: neither needs the other, and a start is waited for
        CompletableFuture<ReadCatalog> reading = CompletableFuture.supplyAsync(
                this::readCatalog, task -> Thread.ofPlatform().daemon().start(task));
        return switch (Store.open(folder(), mode, clock)) {
            case Store.Opening.Opened opened -> {
                Catalog catalog = reading.join().tell(talk);
                Desk desk = opened.store().desk();
                VarietyShelf varieties = varieties(catalog, talk);
                boolean miles = "miles".equals(new Settings(folder()).all().get("roads"));
                yield new Bench(
                        opened.store(), desk, catalog, varieties, recorder(desk, catalog, clock, varieties), miles);
            }
            case Store.Opening.Busy busy ->
                throw new InUse(
                        "The store in " + folder() + " is already open in " + busy.who()
                                + ". Use that one, close it, or name another folder with --data.",
                        busy.who().contains(" at ")
                                ? busy.who().substring(busy.who().indexOf(" at ") + 4)
                                : "");
            case Store.Opening.TooNew tooNew ->
                throw new Stop(
                        ExitCode.STORE,
                        "The store in " + folder() + " was written by a newer version (format " + tooNew.found()
                                + "; this version knows " + tooNew.known()
                                + "). Use the newer version; nothing was changed.");
            case Store.Opening.Unusable unusable -> throw new Stop(ExitCode.STORE, advice(unusable.sentence()));
        };
    }
}
