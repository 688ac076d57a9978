package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.dhatim.fastexcel.reader.Cell;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Row;
import org.rollwright.entry.sheet.SheetRow;

/// Reads a spreadsheet file into rows of text: CSV with comma, semicolon or tab, or the first sheet of an XLSX
/// file.
public final class Sheets {
    /// The outcome of reading.
    public sealed interface Read {
        record Rows(List<SheetRow> rows) implements Read {}

        record Unusable(String sentence) implements Read {}
    }

    private static final long MOST_BYTES = 20_000_000;
    private static final long MOST_UNPACKED = 200_000_000;
    private static final int MOST_ROWS = 250_000;
    private static final int MOST_COLUMNS = 200;
    private static final int MOST_DIGITS = 50;

    private Sheets() {}

    public static Read read(Path file) {
        try {
            if (!Files.isRegularFile(file)) {
                return new Read.Unusable(t("store.file-none", file));
            }
            if (Files.size(file) > MOST_BYTES) {
                return new Read.Unusable(t("store.file-too-large"));
            }
            boolean zip = startsLikeZip(file);
            if (file.toString().toLowerCase(Locale.ROOT).endsWith(".xlsx") || zip) {
                return zip ? workbook(file) : new Read.Unusable(t("store.not-xlsx"));
            }
            return text(file);
        } catch (IOException e) {
            return new Read.Unusable(t("store.file-unreadable", file));
        }
    }

    private static boolean startsLikeZip(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            byte[] head = in.readNBytes(2);
            return head.length == 2 && head[0] == 'P' && head[1] == 'K';
        }
    }

    private static Read text(Path file) throws IOException {
        String text;
        try {
            text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(Files.readAllBytes(file)))
                    .toString();
        } catch (CharacterCodingException e) {
            return new Read.Unusable(t("store.file-not-utf8"));
        }
        String plain = text.startsWith("\uFEFF") ? text.substring(1) : text;
        List<SheetRow> rows = new ArrayList<>();
        try (CsvReader<CsvRecord> reader =
                CsvReader.builder().fieldSeparator(separator(plain)).ofCsvRecord(plain)) {
            for (CsvRecord record : reader) {
                if (rows.size() >= MOST_ROWS || record.getFieldCount() > MOST_COLUMNS) {
                    return tooLarge();
                }
                rows.add(new SheetRow(record.getStartingLineNumber(), record.getFields()));
            }
        } catch (CsvParseException e) {
            return new Read.Unusable(t("store.not-csv", e.getMessage()));
        }
        return new Read.Rows(rows);
    }

    private static Read tooLarge() {
        return new Read.Unusable(t("store.sheet-too-large", MOST_ROWS, MOST_COLUMNS));
    }

    /// The separator that stands most often in the first line.
    private static char separator(String text) {
        String first = text.lines().findFirst().orElse("");
        char best = ',';
        long most = 0;
        for (char candidate : new char[] {',', ';', '\t'}) {
            long count = first.chars().filter(c -> c == candidate).count();
            if (count > most) {
                most = count;
                best = candidate;
            }
        }
        return best;
    }

    private static Read workbook(Path file) throws IOException {
        try (ZipFile zip = new ZipFile(file.toFile())) {
            long unpacked = zip.stream()
                    .mapToLong(ZipEntry::getSize)
                    .filter(size -> size > 0)
                    .sum();
            if (unpacked > MOST_UNPACKED) {
                return new Read.Unusable(t("store.unpacks-too-large"));
            }
            Optional<String> refused = refused(zip);
            if (refused.isPresent()) {
                return new Read.Unusable(refused.get());
            }
        } catch (IOException e) {
            return new Read.Unusable(t("store.cannot-unpack"));
        }
        List<SheetRow> rows = new ArrayList<>();
        try (InputStream in = Files.newInputStream(file);
                ReadableWorkbook workbook = new ReadableWorkbook(in, new ReadingOptions(true, false));
                Stream<Row> stream = workbook.getFirstSheet().openStream()) {
            for (Row row : (Iterable<Row>) stream::iterator) {
                if (rows.size() >= MOST_ROWS || row.getCellCount() > MOST_COLUMNS) {
                    return tooLarge();
                }
                List<String> cells = new ArrayList<>();
                for (int i = 0; i < row.getCellCount(); i++) {
                    cells.add(row.getOptionalCell(i).map(Sheets::text).orElse(""));
                }
                rows.add(new SheetRow(row.getRowNum(), cells));
            }
        } catch (IOException | RuntimeException e) {
            // The reader reports a broken workbook by unchecked exceptions of several kinds; all mean the same here.
            return new Read.Unusable(t("store.xlsx-unreadable"));
        }
        return new Read.Rows(rows);
    }

    private static final Pattern FORMULA = Pattern.compile("<c r=\"([A-Z]+[0-9]+)\"[^>]*>\\s*<f[ >/]");

    /// What a sheet must not have, from its own text: merged cells leave it open to which row a value belongs,
    /// and formulas are not computed here.
    private static Optional<String> refused(ZipFile zip) throws IOException {
        ZipEntry sheet = zip.getEntry("xl/worksheets/sheet1.xml");
        if (sheet == null) {
            return Optional.empty();
        }
        try (InputStream in = zip.getInputStream(sheet)) {
            String text = new String(in.readNBytes((int) MOST_UNPACKED), StandardCharsets.UTF_8);
            if (text.contains("<mergeCell ")) {
                return Optional.of(t("store.merged-cells"));
            }
            Matcher formula = FORMULA.matcher(text);
            return formula.find() ? Optional.of(t("store.cell-formula", formula.group(1))) : Optional.empty();
        }
    }

    /// Numbers without a fraction print without one; numbers formatted as dates print as 2026-05-03.
    private static String text(Cell cell) {
        if (cell.getType() == CellType.NUMBER) {
            String format = cell.getDataFormatString();
            boolean date = format != null && format.toLowerCase(Locale.ROOT).contains("y");
            return date ? cell.asDate().toLocalDate().toString() : number(cell.asNumber());
        }
        String text = cell.getText();
        return text == null ? "" : text;
    }

    /// A number that would unfold to thousands of digits stays as it is written: nothing here takes it anyway.
    private static String number(BigDecimal number) {
        boolean unfolds = number.precision() > MOST_DIGITS || Math.abs((long) number.scale()) > MOST_DIGITS;
        return unfolds ? number.toString() : number.stripTrailingZeros().toPlainString();
    }
}
