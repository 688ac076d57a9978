package org.rollwright.entry.narration;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.entry.EntryContext;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/// A narration by an author who had seen neither the decoder nor its lists, with the truth in a table beside it
/// (see src/test/resources/narrations/README.md).
record Stranger(String name, List<Cue> cues, List<EntryContext> boxes, int rollsPerBox, List<Truth> truth) {
    /// A find as it really was.
    ///
    /// @param at milliseconds
    /// @param year null for undated handfuls
    /// @param mint blank when it is never told
    record Truth(
            long at,
            String box,
            String roll,
            String country,
            String denomination,
            @org.jspecify.annotations.Nullable Integer year,
            String mint,
            int count,
            String variety) {}

    static List<Stranger> folder(Path folder) {
        try (Stream<Path> files = Files.list(folder)) {
            return files.filter(file -> file.toString().endsWith(".txt"))
                    .sorted()
                    .map(Stranger::read)
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Stranger read(Path text) {
        String name = text.getFileName().toString().replace(".txt", "");
        try {
            Captions captions = ((Captions.Read.Good) Captions.read(Files.readAllBytes(text))).captions();
            JsonNode hunt = JsonMapper.shared().readTree(Files.readString(text.resolveSibling(name + ".json")));
            List<EntryContext> boxes = new ArrayList<>();
            for (String one : hunt.get("denomination").asString().split(",")) {
                String[] words = one.strip().split(" ");
                Country country = new Country(words.length > 1 ? words[0].toUpperCase(java.util.Locale.ROOT) : "US");
                Denomination denomination = new Denomination(country, words[words.length - 1]);
                boxes.add(new EntryContext(CatalogFolder.catalog(), denomination, List.of(), 2026));
            }
            List<Truth> truth = new ArrayList<>();
            try (CsvReader<NamedCsvRecord> rows =
                    CsvReader.builder().ofNamedCsvRecord(text.resolveSibling(name + ".truth.csv"))) {
                for (NamedCsvRecord row : rows) {
                    String year = row.getField("year").strip();
                    String count = row.getField("count").strip();
                    truth.add(new Truth(
                            Captions.time(row.getField("at").strip()).orElseThrow(),
                            row.getField("box").strip(),
                            row.getField("roll").strip(),
                            row.getField("country").strip(),
                            row.getField("denomination").strip(),
                            year.isEmpty() ? null : Integer.valueOf(year),
                            row.getField("mint").strip(),
                            count.isEmpty() ? 1 : Integer.parseInt(count),
                            row.getField("variety").strip()));
                }
            }
            return new Stranger(name, captions.cues(), boxes, 50, truth);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /// The first or the second half of the recording.
    Stranger half(boolean first) {
        long middle = (cues.getFirst().start() + cues.getLast().start()) / 2;
        return new Stranger(
                name,
                cues.stream().filter(cue -> cue.start() < middle == first).toList(),
                boxes,
                rollsPerBox,
                truth.stream().filter(row -> row.at < middle == first).toList());
    }

    /// The truth as a hunter's corrections would tell it.
    List<Lesson.Find> finds() {
        return truth.stream()
                .map(row -> new Lesson.Find(row.at, 1, 0, row.year, row.count))
                .toList();
    }

    EntryContext context() {
        return boxes.getFirst();
    }

    List<Denomination> denominations() {
        return boxes.stream().map(EntryContext::denomination).toList();
    }

    /// Counts of a decoding held against the truth: a find is found when country, denomination, date and mint agree
    /// within 45 seconds.
    static final class Count {
        int truth;
        int found;
        int rolls;
        int wrong;
        int sure;
        int sureWrong;
        int varieties;
        int varietiesFound;
        int varietiesFalse;
        final List<double[]> calls = new ArrayList<>();
        final List<String> faults = new ArrayList<>();

        void add(Stranger one, Narration decoded) {
            List<Narration.Proposed> left = new ArrayList<>();
            for (Narration.Proposed find : decoded.finds()) {
                for (int n = 0; n < find.count() && find.identity().year() != null; n++) {
                    left.add(find);
                }
            }
            List<Narration.Proposed> all = List.copyOf(left);
            List<Narration.Proposed> good = new ArrayList<>();
            for (Truth row : one.truth) {
                for (int n = 0; n < row.count && row.year != null; n++) {
                    truth++;
                    varieties += row.variety.isEmpty() ? 0 : 1;
                    Narration.Proposed best = null;
                    for (Narration.Proposed find : left) {
                        boolean nearer = best == null || Math.abs(find.at() - row.at) < Math.abs(best.at() - row.at);
                        if (nearer && fits(row, find)) {
                            best = find;
                        }
                    }
                    if (best == null) {
                        faults.add(one.name + " missed " + Captions.clock(row.at) + " " + row.country + " " + row.year
                                + row.mint);
                        continue;
                    }
                    left.remove(best);
                    good.add(best);
                    boolean said = !best.extras().isEmpty();
                    varietiesFound += said && !row.variety.isEmpty() ? 1 : 0;
                    varietiesFalse += said && row.variety.isEmpty() ? 1 : 0;
                    if (said == row.variety.isEmpty()) {
                        faults.add(one.name + " variety " + Captions.clock(row.at) + " " + row.year + " '" + row.variety
                                + "' read " + best.extras());
                    }
                    found++;
                    boolean roll = row.roll.isEmpty()
                            || (row.roll.equals(Integer.toString(best.roll()))
                                    && (row.box.isEmpty() ? "1" : row.box).equals(Integer.toString(best.box())));
                    rolls += roll ? 1 : 0;
                }
            }
            wrong += left.size();
            for (Narration.Proposed find : left) {
                faults.add(String.format(
                        java.util.Locale.ROOT,
                        "%s false %s %s %.2f '%s'",
                        one.name,
                        Captions.clock(find.at()),
                        find.line(),
                        find.probability(),
                        find.words()));
                calls.add(new double[] {find.probability(), 0});
            }
            good.forEach(find -> calls.add(new double[] {find.probability(), 1}));
            for (Narration.Proposed find : all) {
                sure += find.probability() >= 0.95 ? 1 : 0;
            }
            for (Narration.Proposed find : left) {
                sureWrong += find.probability() >= 0.95 ? 1 : 0;
            }
        }

        /// Of countries the catalogue does not list, what the coin says: authors wrote `5 cents`, `1 centavo`, `cent`.
        private static String denomination(String country, String name) {
            boolean listed = country.equals("US") || country.equals("CA");
            return listed
                    ? name
                    : name.replace('-', ' ').replaceFirst("^1 ", "").replaceFirst("s$", "");
        }

        private static boolean fits(Truth row, Narration.Proposed find) {
            String letter = Decoder.letter(find.identity());
            boolean plain = letter == null || letter.equals("P") || letter.isEmpty();
            boolean mint = (row.mint.isEmpty() || row.mint.equals("P")) ? plain : row.mint.equals(letter);
            return row.year != null
                    && row.year.equals(find.identity().year())
                    && mint
                    && row.country.equals(
                            find.identity().denomination().country().code())
                    && denomination(row.country, row.denomination)
                            .equals(denomination(
                                    row.country, find.identity().denomination().key()))
                    && Math.abs(find.at() - row.at) <= 45_000;
        }

        @Override
        public String toString() {
            return String.format(
                    java.util.Locale.ROOT,
                    "%d finds: %.1f %% found, %.1f false per 100, called >= 0.95: %.1f %% right of %d, roll right %.1f %%, varieties %d of %d and %d more",
                    truth,
                    100.0 * found / Math.max(1, truth),
                    100.0 * wrong / Math.max(1, truth),
                    100.0 * (sure - sureWrong) / Math.max(1, sure),
                    sure,
                    100.0 * rolls / Math.max(1, found),
                    varietiesFound,
                    varieties,
                    varietiesFalse);
        }
    }
}
