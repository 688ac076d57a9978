package org.rollwright.entry.sheet.take;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.rollwright.catalog.CatalogFolder;

/// Compares what is read of sheets with the truth about them, row by row.
///
/// A folder holds sheets and beside each its truth, `01.xlsx` and `01.truth.csv`: a line for each row with sheet, row,
/// what, the fields, and in `asks` what a careful program would ask. A row is taken wrongly when neither side asks
/// and something differs; it is passed over when the truth asks and the program does not.
final class SheetScore {
    /// Figures of one sheet.
    ///
    /// @param right rows without a question on either side, all the same
    /// @param wrong rows without a question on either side of which something differs
    /// @param asked rows about which both sides ask
    /// @param needless rows about which only the program asks
    /// @param passedOver rows about which only the truth asks
    /// @param lost rows the program says nothing of
    record Score(
            String sheet,
            int right,
            int wrong,
            int asked,
            int needless,
            int passedOver,
            int lost,
            List<String> differences) {
        @Override
        public String toString() {
            return "%s: %d rows, %d right, %d wrong, %d asked, %d asked needlessly, %d passed over, %d lost"
                    .formatted(
                            sheet,
                            right + wrong + asked + needless + passedOver + lost,
                            right,
                            wrong,
                            asked,
                            needless,
                            passedOver,
                            lost);
        }
    }

    private SheetScore() {}

    static Taking taking() throws IOException {
        return new Taking(
                CatalogFolder.catalog(), Lexicon.parse(Files.readString(Path.of("catalog/sheets/lexicon.csv"))));
    }

    /// Scores every sheet of a folder that has a truth.
    static List<Score> of(Path folder) throws IOException {
        List<Score> scores = new ArrayList<>();
        List<Path> truths;
        try (Stream<Path> files = Files.list(folder)) {
            truths = files.filter(file -> file.toString().endsWith(".truth.csv"))
                    .sorted()
                    .toList();
        }
        for (Path truth : truths) {
            String name = truth.getFileName().toString().replace(".truth.csv", "");
            for (String ending : List.of(".xlsx", ".csv", ".tsv", ".txt")) {
                Path sheet = folder.resolve(name + ending);
                if (Files.exists(sheet)) {
                    scores.add(score(sheet, truth));
                }
            }
        }
        return scores;
    }

    private static Score score(Path sheet, Path truth) throws IOException {
        List<NamedCsvRecord> rows;
        try (CsvReader<NamedCsvRecord> reader =
                CsvReader.builder().detectBomHeader(true).ofNamedCsvRecord(truth)) {
            rows = reader.stream().toList();
        }
        As as = rows.getFirst().getHeader().contains("country") ? As.COINS : As.BOXES;
        Taking.Read read = taking().read(Files.readAllBytes(sheet), as, Map.of());
        List<TakenRow> taken =
                read instanceof Taking.Read.Good good ? good.taken().rows() : List.of();
        int[] counts = new int[6];
        List<String> differences = new ArrayList<>();
        for (NamedCsvRecord row : rows) {
            long number = Long.parseLong(row.getField("row"));
            TakenRow found = taken.stream()
                    .filter(one -> one.row() == number && one.sheet().equals(row.getField("sheet")))
                    .findFirst()
                    .orElse(null);
            String place = sheet.getFileName() + " " + row.getField("sheet") + " row " + number + ": ";
            if (found == null) {
                counts[5]++;
                differences.add(place + "lost");
                continue;
            }
            List<String> differ = new ArrayList<>();
            differ(differ, "what", row.getField("what"), found.what());
            for (String field : as.fields()) {
                if (!field.equals("note")) {
                    differ(differ, field, row.getField(field), found.field(field));
                }
            }
            boolean truthAsks = !row.getField("asks").isBlank();
            boolean asks = !found.asks().isEmpty();
            int which = truthAsks ? asks ? 2 : 4 : asks ? 3 : differ.isEmpty() ? 0 : 1;
            counts[which]++;
            if (which != 0 && which != 2) {
                differences.add(place + differ + " " + found.asks() + " " + row.getField("asks"));
            }
        }
        return new Score(
                sheet.getFileName().toString(),
                counts[0],
                counts[1],
                counts[2],
                counts[3],
                counts[4],
                counts[5],
                differences);
    }

    private static void differ(List<String> differences, String field, String truth, String found) {
        if (!plain(truth).equals(plain(found))) {
            differences.add(field + ": '" + found + "', not '" + truth + "'");
        }
    }

    /// A field as it is compared: numbers by value, finds in any order, words without regard to case.
    private static String plain(String field) {
        String text = field.strip().toLowerCase(Locale.ROOT);
        if (text.matches("-?[0-9]+\\.[0-9]+")) {
            return new java.math.BigDecimal(text).stripTrailingZeros().toPlainString();
        }
        return text.contains(":")
                ? String.join(";", Arrays.stream(text.split(";", -1)).sorted().toList())
                : text;
    }

    /// Scores a folder: `bench/sheets FOLDER`.
    public static void main(String[] folders) throws IOException {
        for (String folder : folders) {
            for (Score score : of(Path.of(folder))) {
                System.out.println(score);
                score.differences().forEach(difference -> System.out.println("    " + difference));
            }
        }
    }
}
