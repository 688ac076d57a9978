package org.rollwright.store;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.rollwright.album.AlbumRule;
import org.rollwright.album.Policy;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Selection;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.MassText;
import org.rollwright.entry.EntryContext;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Reading;
import org.rollwright.entry.narration.Captions;
import org.rollwright.entry.sheet.Mapping;
import org.rollwright.recap.Chapters;
import org.rollwright.scope.picture.PaintedCoin;
import org.rollwright.scope.picture.PhotoReader;
import tools.jackson.core.JacksonException;

/// Throws damaged and made-up inputs at everything that reads what comes from outside. Each reader must answer:
/// with a value or with a sentence, never with another exception, and in time. bench/fuzz runs it for long, a
/// test for a moment with a fixed seed.
public final class Fuzz {
    /// Something that reads.
    interface Reader {
        void read(byte[] input) throws IOException;
    }

    /// A reader, what it is fed with, and how many inputs of a million it gets.
    record Target(String name, List<byte[]> seeds, int share, Reader reader) {}

    private static final long SLOW = 5_000_000_000L;

    private final Random random;
    private final Path folder;
    private final List<Target> targets = new ArrayList<>();

    Fuzz(long seed, Path folder) {
        this.random = new Random(seed);
        this.folder = folder;
        entry();
        captions();
        sheets();
        json();
        photographs();
        small();
    }

    private static List<byte[]> texts(String... texts) {
        return java.util.Arrays.stream(texts)
                .map(text -> text.getBytes(StandardCharsets.UTF_8))
                .toList();
    }

    private static String text(byte[] input) {
        return new String(input, StandardCharsets.UTF_8);
    }

    private void entry() {
        EntryContext context = new EntryContext(
                CatalogFolder.catalog(),
                Denomination.US_CENT,
                List.of(((Selection.Parsed.Good) Selection.parse("series us-cent-lincoln-wheat")).selection()),
                2026);
        targets.add(new Target(
                "entry line",
                texts(
                        "39s",
                        "x3 48d",
                        "36d rpm vf30 bn \"notch under the D\"",
                        "ca 67, + 44, r17 49",
                        "move f12 b2 r5",
                        "e 2/52",
                        "w 3lb 4oz \"copper pile\"",
                        "watch metal silver, copper",
                        "dime 64, 1776-1976 half, 2009 formative",
                        "fix f3 1943 steel xf45; keep f4"),
                880_000,
                input -> {
                    Reading reading = EntryParser.parse(text(input), context);
                    if (reading instanceof Reading.Problem problem
                            && (problem.wrong().isBlank() || problem.right().isBlank())) {
                        throw new IllegalStateException("a problem without a sentence");
                    }
                }));
    }

    private void captions() {
        targets.add(new Target(
                "captions",
                texts(
                        "WEBVTT\n\n00:01.000 --> 00:04.000\nand there is our <i>twelfth</i>\n\nNOTE x\n",
                        "1\n00:00:01,000 --> 00:00:04,000\nroll seven, a forty four D\n\n2\n00:00:05,000 --> 00:00:06,000\nno\n",
                        "[0:05] a nineteen oh nine\n[1:02:03] next roll\n"),
                40_000,
                Captions::read));
    }

    private void sheets() {
        targets.add(new Target(
                "tables as CSV",
                texts(
                        "Box;Wheats;Day\n\"1;\n2\";3;2026-01-02\n",
                        "Box,Note\n1,\"=1+2\"\n",
                        "\uFEFFBox\tWheats\n1\t3\n"),
                6_000,
                input -> sheet("x.csv", input)));
        Path book = folder.resolve("seed.xlsx");
        try {
            Tables.write(book, "coins", List.of("Box", "Wheats"), List.of(List.of("Box 1", "3"), List.of("=a", "é")));
            targets.add(new Target(
                    "tables as XLSX", List.of(Files.readAllBytes(book)), 2_000, input -> sheet("x.xlsx", input)));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void sheet(String name, byte[] input) throws IOException {
        Path file = folder.resolve(name);
        Files.write(file, input);
        if (Sheets.read(file) instanceof Sheets.Read.Unusable unusable
                && unusable.sentence().isBlank()) {
            throw new IllegalStateException("refused without a sentence");
        }
    }

    private void json() {
        targets.add(new Target(
                "events as JSON",
                texts(
                        "{\"type\":\"find-logged\",\"find\":{\"id\":1,\"hunt\":1,\"ordinal\":1,\"box\":1,\"roll\":3,\"facts\":{\"identity\":{\"denomination\":{\"country\":\"US\",\"key\":\"cent\"},\"year\":1944,\"mint\":\"D\"}},\"count\":1,\"ender\":false,\"disposition\":\"OPEN\",\"at\":\"2026-03-01T19:00:00Z\"}}",
                        "{\"type\":\"batch\",\"events\":[{\"type\":\"roll-opened\",\"hunt\":1,\"box\":1,\"roll\":2}]}",
                        "{\"type\":\"cash-moved\",\"move\":{\"day\":\"2026-03-01\",\"from\":\"CASH\",\"to\":\"FEES\",\"amount\":1.50,\"where\":\"\",\"what\":\"\"}}"),
                40_000,
                input -> {
                    try {
                        EventJson.read(text(input));
                    } catch (JacksonException e) {
                        // the documented answer
                    }
                }));
        targets.add(new Target(
                "journal files",
                texts(
                        "{\"rollwright-journal\":1,\"entries\":1}\n{\"seq\":1,\"at\":\"2026-03-01T19:00:00Z\",\"scope\":0,\"raw\":\"\",\"event\":{\"type\":\"policy-changed\",\"policy\":\"x\"}}\n"),
                6_000,
                input -> {
                    Path file = folder.resolve("journal.jsonl");
                    Files.write(file, input);
                    try {
                        JournalFile.read(file);
                    } catch (JournalFile.Unusable e) {
                        // the documented answer
                    }
                }));
    }

    private void photographs() {
        byte[] png = PaintedCoin.png(PaintedCoin.paint(null).getSubimage(0, 0, 64, 48));
        if (!(PhotoReader.read(png) instanceof PhotoReader.Read.Good good)) {
            throw new IllegalStateException("the seed is refused");
        }
        targets.add(new Target("photographs", List.of(png, good.photo().jpeg()), 2_000, PhotoReader::read));
    }

    private void small() {
        targets.add(new Target(
                "rules, weights and times",
                texts(
                        "series wheat; years 1934-1958; one per date and mint",
                        "metal silver, copper; country US",
                        "details grade colour eye; colours RD RB BN",
                        "3lb 4oz",
                        "1899.4g",
                        "1:02:03",
                        "f12.1",
                        "Box=box; Day=picked (d/m/y); denomination:cent"),
                24_000,
                input -> {
                    String text = text(input);
                    AlbumRule.parse(text);
                    Selection.parse(text);
                    Policy.parse(text);
                    MassText.read(text);
                    Chapters.parse(text);
                    Chapters.began(text, text, java.time.Instant.EPOCH);
                    CoinRef.parse(text);
                    Mapping.parse(text);
                }));
    }

    /// What came of one target.
    record Told(String name, long inputs, double seconds, List<String> failures) {}

    /// @param inputs over all targets together
    List<Told> run(long inputs) {
        List<Told> told = new ArrayList<>();
        for (Target target : targets) {
            long share = Math.max(20, inputs * target.share / 1_000_000);
            List<String> failures = new ArrayList<>();
            long begin = System.nanoTime();
            for (long i = 0; i < share; i++) {
                byte[] input = made(target.seeds);
                long at = System.nanoTime();
                try {
                    target.reader.read(input);
                } catch (IOException | RuntimeException | StackOverflowError | OutOfMemoryError e) {
                    failures.add(e + " on " + shown(input));
                }
                if (System.nanoTime() - at > SLOW) {
                    failures.add("slow on " + shown(input));
                }
                if (failures.size() > 5) {
                    break;
                }
            }
            told.add(new Told(target.name, share, (System.nanoTime() - begin) / 1e9, failures));
        }
        return told;
    }

    private static String shown(byte[] input) {
        String text = new String(input, StandardCharsets.ISO_8859_1);
        return '"' + text.substring(0, Math.min(300, text.length())).replace("\n", "\\n") + '"';
    }

    private static final List<byte[]> PIECES = texts(
            "\"",
            "'",
            ",",
            ";",
            "/",
            "-",
            "-->",
            "\n",
            "\r",
            "\t",
            "\0",
            " ",
            "0",
            "9",
            "99999999999999999999",
            "-1",
            "1e309",
            "NaN",
            "é",
            "ß",
            "😀",
            "\u202e",
            "\uFEFF",
            "<",
            "&",
            "{",
            "}",
            "[",
            "]",
            ":",
            "null",
            "true",
            "=",
            "+",
            "x",
            "r",
            "f",
            "d",
            "vf",
            "ms70",
            "ca",
            "19",
            "1909",
            "2026",
            "move",
            "watch",
            "undo",
            "#",
            "!",
            "%",
            "\\u0000",
            "\\",
            "..",
            "00:00:00.000");

    /// An input: a seed, cut, spliced, repeated, with bytes and pieces changed.
    private byte[] made(List<byte[]> seeds) {
        byte[] seed = seeds.get(random.nextInt(seeds.size()));
        ByteArrayOutputStream out = new ByteArrayOutputStream(seed.length + 32);
        int from = random.nextInt(3) == 0 ? random.nextInt(seed.length) : 0;
        int to = random.nextInt(3) == 0 ? from + random.nextInt(seed.length - from) : seed.length;
        out.write(seed, from, to - from);
        byte[] input = out.toByteArray();
        int changes = 1 + random.nextInt(4);
        for (int i = 0; i < changes; i++) {
            input = changed(input, seeds);
        }
        return input;
    }

    private byte[] changed(byte[] input, List<byte[]> seeds) {
        int at = input.length == 0 ? 0 : random.nextInt(input.length);
        return switch (random.nextInt(6)) {
            case 0 -> spliced(input, at, at, PIECES.get(random.nextInt(PIECES.size())));
            case 1 -> spliced(input, at, Math.min(input.length, at + 1 + random.nextInt(8)), new byte[0]);
            case 2 -> {
                byte[] copy = input.clone();
                if (copy.length > 0) {
                    copy[at] = (byte) random.nextInt(256);
                }
                yield copy;
            }
            case 3 -> spliced(input, at, at, seeds.get(random.nextInt(seeds.size())));
            case 4 -> {
                byte[] piece = PIECES.get(random.nextInt(PIECES.size()));
                ByteArrayOutputStream many = new ByteArrayOutputStream();
                for (int i = 0; i < 1 + random.nextInt(200); i++) {
                    many.writeBytes(piece);
                }
                yield spliced(input, at, at, many.toByteArray());
            }
            default -> spliced(input, at, Math.min(input.length, at + 1), PIECES.get(random.nextInt(PIECES.size())));
        };
    }

    private static byte[] spliced(byte[] input, int from, int to, byte[] piece) {
        byte[] result = new byte[input.length - (to - from) + piece.length];
        System.arraycopy(input, 0, result, 0, from);
        System.arraycopy(piece, 0, result, from, piece.length);
        System.arraycopy(input, to, result, from + piece.length, input.length - to);
        return result;
    }

    /// `INPUTS [SEED]`
    public static void main(String[] args) throws IOException {
        long inputs = args.length > 0 ? Long.parseLong(args[0]) : 10_000_000;
        long seed = args.length > 1 ? Long.parseLong(args[1]) : 20261125;
        Path folder = Files.createTempDirectory("fuzz");
        long failures = 0;
        long all = 0;
        for (Told told : new Fuzz(seed, folder).run(inputs)) {
            System.out.printf(
                    Locale.ROOT,
                    "%-26s %,12d inputs in %6.1f s, %d failures%n",
                    told.name,
                    told.inputs,
                    told.seconds,
                    told.failures.size());
            told.failures.forEach(System.out::println);
            failures += told.failures.size();
            all += told.inputs;
        }
        System.out.printf(Locale.ROOT, "%,d inputs, %d failures%n", all, failures);
        System.exit(failures == 0 ? 0 : 1);
    }
}
