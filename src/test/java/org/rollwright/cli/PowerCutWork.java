package org.rollwright.cli;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.stream.IntStream;
import org.rollwright.cli.serve.Pages;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.scope.ScopeEvent;
import org.rollwright.scope.picture.PaintedCoin;
import org.rollwright.scope.picture.Photo;
import org.rollwright.scope.picture.PhotoReader;
import org.rollwright.store.Backups;
import org.rollwright.store.PhotoFolder;
import org.rollwright.store.Store;

/// A hunter's day as a process of its own, for [org.rollwright.store.PowerCutTest]: commands as typed, and by
/// their parts what only pages do. Everything in it is invented.
///
/// On the standard output, beside what the commands say: `phase NAME STORE` before each part, `had STORE N`
/// after it, with the number of entries, and `ok ...` for what is acknowledged.
public final class PowerCutWork {
    /// Held so that its level is not forgotten.
    private static final Logger QUIET = Logger.getLogger("org.flywaydb");

    private static final int FINDS = 120;
    private static final int PHOTOGRAPHS = 4;
    private static final int WRITERS = 3;

    /// More than stay of one week.
    private static final int BACKUPS = 11;

    private final Path root;
    private final Path scripts;
    private final int run;
    private final Random random;

    private PowerCutWork(Path root, Path scripts, int run) {
        this.root = root;
        this.scripts = scripts;
        this.run = run;
        this.random = new Random(run);
    }

    /// @param args the folder that is watched, one that is not, and the number of this run
    public static void main(String[] args) throws Exception {
        QUIET.setLevel(Level.SEVERE);
        new PowerCutWork(Path.of(args[0]), Path.of(args[1]), Integer.parseInt(args[2])).all();
    }

    private void all() throws Exception {
        phase("upgrade", "old");
        List<String> few = new ArrayList<>();
        IntStream.range(0, 15).forEach(i -> few.add(find(i)));
        command("mat", "--data", data("old"), "--script", script("few", few), "--box", "After " + run);
        had("old");
        hunt();
        batches();
        photographs();
        snapshots();
        backups();
        restores();
        System.out.println("phase end data");
    }

    private void hunt() throws Exception {
        phase("making", "data");
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < FINDS; i++) {
            lines.add(i % 13 == 3 ? "+" : i % 13 == 7 ? "<" : i % 26 == 8 ? ">" : find(i));
        }
        command(
                "mat",
                "--data",
                data("data"),
                "--script",
                script("hunt", lines),
                "--box",
                "Box " + run,
                "--watch",
                "wheat");
        had("data");
    }

    private String find(int i) {
        return 1934 + random.nextInt(24) + (random.nextBoolean() ? "d" : "") + " \"line " + run + "-" + i + "\"";
    }

    private void batches() throws Exception {
        phase("narration", "data");
        StringBuilder told = new StringBuilder();
        for (int roll = 1; roll <= 40; roll++) {
            told.append("[%d:%02d] roll %d\n".formatted(roll / 4, roll % 4 * 15, roll));
            told.append("[%d:%02d] a %d D and a %d\n"
                    .formatted(roll / 4, roll % 4 * 15 + 5, 1940 + random.nextInt(18), 1940 + random.nextInt(18)));
        }
        Path captions = scripts.resolve("told-" + run + ".txt");
        Files.writeString(captions, told);
        command(
                "narrate",
                captions.toString(),
                "--data",
                data("data"),
                "--watch",
                "wheat",
                "--accept-above",
                "0.5",
                "--box",
                "Told " + run);
        had("data");
        phase("import", "data");
        StringBuilder sheet = new StringBuilder("Box,Day,Coins,Wheats\n");
        IntStream.range(0, 60)
                .forEach(i -> sheet.append("Old %d-%d,2024-%02d-11,2500,%d\n".formatted(run, i, 1 + i % 12, i % 17)));
        Path table = scripts.resolve("boxes-" + run + ".csv");
        Files.writeString(table, sheet);
        command(
                "import",
                table.toString(),
                "--data",
                data("data"),
                "--mapping",
                "label=Box; date=Day; coins=Coins; denomination is cent; found:wheat=Wheats",
                "--commit");
        had("data");
        phase("albums", "data");
        command(
                "mat",
                "--data",
                data("data"),
                "--script",
                script(
                        "albums",
                        List.of(
                                "@album Wheat cents " + run + ": series us-cent-lincoln-wheat; one per date and mint",
                                "@album Dates " + run
                                        + ": series us-cent-lincoln-wheat; years 1934-1958; one per date")));
        had("data");
        phase("comparison", "data");
        command("album", "--data", data("data"), "--compare", "--accept");
        had("data");
        Path whole = root.resolve("whole-" + run + ".jsonl");
        phase("filling", "filled-" + run);
        command("journal", "--data", data("data"), "--save", whole.toString());
        command("journal", "--data", data("filled-" + run), "--fill", whole.toString());
        had("filled-" + run);
    }

    private void photographs() throws IOException {
        phase("photographs", "data");
        try (Store store = open("data")) {
            PhotoFolder shelf = new PhotoFolder(root.resolve("data"));
            for (int i = 0; i < PHOTOGRAPHS; i++) {
                Photo photo = photograph();
                shelf.keep(photo);
                acknowledge(
                        store.desk()
                                .record(
                                        0,
                                        "",
                                        book -> new ScopeEvent.PhotoKept(
                                                photo.id(), photo.width(), photo.height(), PhotoSubject.BENCH, "")),
                        "photograph " + photo.id());
            }
        }
        had("data");
    }

    private Photo photograph() {
        BufferedImage picture = new BufferedImage(420, 420, BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = picture.createGraphics();
        for (int i = 0; i < 60; i++) {
            graphics.setColor(new Color(random.nextInt(1 << 24)));
            graphics.fillOval(random.nextInt(400), random.nextInt(400), random.nextInt(200), random.nextInt(200));
        }
        graphics.dispose();
        if (PhotoReader.read(PaintedCoin.png(picture)) instanceof PhotoReader.Read.Good good) {
            return good.photo();
        }
        throw new IllegalStateException("the picture was refused");
    }

    /// Two pages and a writer record at once while another thread saves snapshots.
    private void snapshots() throws Exception {
        phase("snapshots", "data");
        AtomicBoolean over = new AtomicBoolean();
        try (Store store = open("data")) {
            Thread saver = Thread.ofPlatform().start(() -> {
                while (!over.get()) {
                    store.saveSnapshot();
                    Thread.onSpinWait();
                }
            });
            List<Thread> writers = new ArrayList<>();
            for (int w = 0; w < WRITERS; w++) {
                int writer = w;
                writers.add(Thread.ofPlatform()
                        .start(() -> IntStream.range(0, 150)
                                .forEach(i -> box(store.desk(), "writer " + run + "-" + writer + " box " + i))));
            }
            for (Thread writer : writers) {
                writer.join();
            }
            over.set(true);
            saver.join();
        }
        had("data");
    }

    private static void box(Desk desk, String label) {
        acknowledge(
                desk.record(
                        0,
                        label,
                        book -> new HuntEvent.BoxAdded(
                                book.hunt().nextBox(), Denomination.US_CENT, BoxDetails.plain(label, 50, 50))),
                label);
    }

    private static void acknowledge(Desk.Outcome outcome, String what) {
        if (!(outcome instanceof Desk.Outcome.Kept kept)) {
            throw new IllegalStateException("refused: " + outcome);
        }
        synchronized (System.out) {
            System.out.println("ok 0 " + kept.entry().seq() + " " + what);
        }
    }

    /// By the command, which remembers the place, and by the tool itself, one a day, until old ones go.
    private void backups() throws Exception {
        phase("backups", "data");
        own();
        command("backup", "--data", data("data"), "--to", root.resolve("disk").toString());
        Instant first = InstantSource.system().instant().minus(200, ChronoUnit.DAYS);
        for (int i = 0; i < BACKUPS; i++) {
            Instant at = first.plus((long) run * BACKUPS + i, ChronoUnit.HOURS);
            Backups.Backup made = new Backups(root.resolve("disk")).make(root.resolve("data"), at);
            System.out.println(made.folder() + ": " + made.entries() + " entries and " + made.photographs()
                    + " photographs, proved by reading every one back.");
            try (Store store = open("data")) {
                box(store.desk(), "between " + run + "-" + i);
            }
        }
        had("data");
    }

    /// The hunter's own catalogue, whole on the disk whatever an editor leaves behind.
    private void own() throws IOException {
        Path own = Files.createDirectories(root.resolve("data/catalog")).resolve("watches.csv");
        Files.writeString(
                own,
                "watch,words,rule,meaning\n",
                StandardOpenOption.CREATE,
                StandardOpenOption.TRUNCATE_EXISTING,
                StandardOpenOption.WRITE,
                StandardOpenOption.SYNC);
        for (Path folder : List.of(root.resolve("data/catalog"), root.resolve("data"))) {
            try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
                channel.force(true);
            }
        }
    }

    private void restores() throws Exception {
        phase("restores", "restored-" + run);
        command("restore", "--data", data("data"), "--into", data("restored-" + run));
        had("restored-" + run);
        phase("restores", "again-" + run);
        command(
                "restore",
                "--data",
                data("data"),
                "--from",
                root.resolve("disk").toString(),
                "--into",
                data("again-" + run));
        had("again-" + run);
    }

    private static void phase(String name, String store) {
        System.out.println("phase " + name + " " + store);
    }

    private void had(String name) {
        if (Store.open(root.resolve(name), Store.Mode.READ, InstantSource.system())
                instanceof Store.Opening.Opened opened) {
            try (Store store = opened.store()) {
                System.out.println("had " + name + " " + store.desk().read(State::last));
            }
        } else {
            throw new IllegalStateException("no store in " + name);
        }
    }

    private Store open(String name) {
        if (Store.open(root.resolve(name), Store.Mode.WRITE, InstantSource.system())
                instanceof Store.Opening.Opened opened) {
            return opened.store();
        }
        throw new IllegalStateException("no store in " + name);
    }

    private String data(String name) {
        return root.resolve(name).toString();
    }

    private String script(String name, List<String> lines) throws IOException {
        Path file = scripts.resolve(name + "-" + run + ".txt");
        Files.write(file, lines);
        return file.toString();
    }

    private static void command(String... args) {
        int status = RootCommand.run((work, port) -> new Pages.Started.NoPort(port, port), List.of(args));
        if (status != 0) {
            throw new IllegalStateException(String.join(" ", args) + " ended with " + status);
        }
    }
}
