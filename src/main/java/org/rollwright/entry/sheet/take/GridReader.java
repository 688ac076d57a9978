package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Row;
import org.dhatim.fastexcel.reader.Sheet;
import org.dhatim.fastexcel.reader.SheetVisibility;
import org.jspecify.annotations.Nullable;

/// From the bytes of a file to its sheets: CSV in whatever encoding and with whatever separator, or XLSX.
final class GridReader {
    /// The outcome of reading.
    sealed interface Read {
        /// @param remarks what a person may want to know of how it was read
        record Good(List<Grid> grids, List<String> remarks) implements Read {}

        record Unusable(String sentence) implements Read {}
    }

    static final int MOST_BYTES = 20_000_000;
    private static final long MOST_UNPACKED = 200_000_000;
    private static final int MOST_ROWS = 100_000;
    private static final int MOST_COLUMNS = 200;
    private static final int MOST_DIGITS = 50;

    /// Lines one quoted cell may have; more is a quotation mark that is never closed.
    private static final int MOST_LINES_OF_A_CELL = 40;

    private GridReader() {}

    static Read read(byte[] bytes) {
        if (bytes.length == 0) {
            return new Read.Unusable(t("take.file-empty"));
        }
        if (bytes.length > MOST_BYTES) {
            return new Read.Unusable(t("take.file-too-large"));
        }
        if (bytes.length > 3 && bytes[0] == 'P' && bytes[1] == 'K') {
            return isOpenDocument(bytes) ? new Read.Unusable(t("take.file-ods")) : workbook(bytes);
        }
        String begin = new String(bytes, 0, Math.min(bytes.length, 1_024), StandardCharsets.ISO_8859_1);
        if (begin.startsWith("%PDF")) {
            return new Read.Unusable(t("take.file-pdf"));
        }
        if (begin.startsWith("{\\rtf")) {
            return new Read.Unusable(t("take.file-rtf"));
        }
        if (begin.stripLeading().toLowerCase(Locale.ROOT).matches("(?s)(<\\?xml.*|<!doctype html.*|<html.*)")) {
            return new Read.Unusable(t("take.file-html"));
        }
        if (isPicture(bytes)) {
            return new Read.Unusable(t("take.file-picture"));
        }
        // sheets of 1987 to 1993 have no common header; they begin with this record
        if (bytes.length > 4
                && bytes[0] == 0x09
                && (bytes[1] == 0 || bytes[1] == 2 || bytes[1] == 4 || bytes[1] == 8)
                && bytes[3] == 0) {
            return new Read.Unusable(t("take.file-old"));
        }
        if (bytes.length >= 8 && ReadableWorkbook.isOLE2Header(bytes)) {
            return new Read.Unusable(t("take.file-old"));
        }
        return text(bytes);
    }

    /// Whether an archive says in its first entry that it is a text, a sheet or a drawing in the open format.
    private static boolean isOpenDocument(byte[] bytes) {
        String begin = new String(bytes, 0, Math.min(bytes.length, 200), StandardCharsets.ISO_8859_1);
        return begin.contains("mimetypeapplication/vnd.oasis.opendocument");
    }

    /// PNG, JPEG, GIF or one of the phone's own forms, by the first bytes.
    private static boolean isPicture(byte[] bytes) {
        String begin = new String(bytes, 0, Math.min(bytes.length, 12), StandardCharsets.ISO_8859_1);
        return begin.startsWith("\u0089PNG")
                || begin.startsWith("\u00FF\u00D8\u00FF")
                || begin.startsWith("GIF8")
                || begin.matches("(?s)....ftyp.*");
    }

    private static Read text(byte[] bytes) {
        List<String> remarks = new ArrayList<>();
        String text = decoded(bytes, remarks);
        if (text == null || strange(text)) {
            return new Read.Unusable(t("take.file-no-table"));
        }
        if (text.isBlank()) {
            return new Read.Unusable(t("take.file-empty"));
        }
        char separator = separator(text);
        if (separator == ' ') {
            return new Read.Unusable(t("take.file-one-column"));
        }
        List<List<String>> records = records(text, separator, true);
        if (records == null) {
            records = records(text, separator, false);
        }
        if (records == null || records.size() > MOST_ROWS || records.stream().anyMatch(r -> r.size() > MOST_COLUMNS)) {
            return new Read.Unusable(t("take.too-many-rows", MOST_ROWS, MOST_COLUMNS));
        }
        List<Grid.Line> lines = new ArrayList<>();
        for (List<String> record : records) {
            lines.add(new Grid.Line(
                    lines.size() + 1L,
                    false,
                    false,
                    record.stream().map(Grid.Cell::of).toList()));
        }
        while (!lines.isEmpty()
                && lines.getLast().isBlank()
                && records.get(lines.size() - 1).size() <= 1) {
            lines.removeLast();
        }
        return new Read.Good(List.of(new Grid("", false, lines, Set.of())), remarks);
    }

    private static @Nullable String decoded(byte[] bytes, List<String> remarks) {
        if (bytes.length > 1 && (bytes[0] & 0xFF) == 0xFF && (bytes[1] & 0xFF) == 0xFE) {
            return new String(bytes, 2, bytes.length - 2, StandardCharsets.UTF_16LE);
        }
        if (bytes.length > 1 && (bytes[0] & 0xFF) == 0xFE && (bytes[1] & 0xFF) == 0xFF) {
            return new String(bytes, 2, bytes.length - 2, StandardCharsets.UTF_16BE);
        }
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            return text.startsWith("\uFEFF") ? text.substring(1) : text;
        } catch (CharacterCodingException e) {
            remarks.add(t("take.read-as-windows"));
            return Charset.isSupported("windows-1252")
                    ? new String(bytes, Charset.forName("windows-1252"))
                    : new String(bytes, StandardCharsets.ISO_8859_1);
        }
    }

    /// Whether a text has what no table has: many control characters, or none that would be read.
    private static boolean strange(String text) {
        long controls = text.chars()
                .filter(c -> (c < ' ' && c != '\t' && c != '\n' && c != '\r') || c == 0xFFFD)
                .count();
        return text.indexOf('\0') >= 0 || controls * 200 > text.length();
    }

    /// The character that parts the most lines into several cells; a space when none does.
    private static char separator(String text) {
        char best = ' ';
        double most = 0;
        for (char candidate : new char[] {';', '\t', ',', '|'}) {
            List<Integer> counts = new ArrayList<>();
            boolean quoted = false;
            int count = 0;
            for (int i = 0; i < Math.min(text.length(), 200_000); i++) {
                char c = text.charAt(i);
                if (c == '"' && (quoted || i == 0 || text.charAt(i - 1) == candidate || text.charAt(i - 1) == '\n')) {
                    quoted = !quoted;
                } else if (c == candidate && !quoted) {
                    count++;
                } else if (c == '\n' || (c == '\r' && i + 1 < text.length() && text.charAt(i + 1) != '\n')) {
                    if (!quoted) {
                        counts.add(count);
                        count = 0;
                    }
                }
            }
            counts.add(count);
            long parted = counts.stream().filter(n -> n > 0).count();
            double usual = counts.stream()
                    .filter(n -> n > 0)
                    .mapToInt(n -> n)
                    .average()
                    .orElse(0);
            double even = counts.stream()
                    .filter(n -> n > 0)
                    .filter(n -> Math.abs(n - usual) <= 0.35 * usual)
                    .count();
            double score = parted + even + Math.min(usual, 8) * parted / 4;
            if (parted > 0 && score > most) {
                most = score;
                best = candidate;
            }
        }
        return best;
    }

    /// @return null when a quotation mark swallows the table or there is too much of it
    private static @Nullable List<List<String>> records(String text, char separator, boolean quotes) {
        List<List<String>> records = new ArrayList<>();
        if (!quotes) {
            text.lines()
                    .limit(MOST_ROWS + 1L)
                    .forEach(line ->
                            records.add(List.of(line.split(java.util.regex.Pattern.quote("" + separator), -1))));
            return records;
        }
        String dittos = text.replaceAll(
                "(?m)(^|" + java.util.regex.Pattern.quote("" + separator) + ")\"(?="
                        + java.util.regex.Pattern.quote("" + separator) + "[^\"\\n]*$|\\r?$)",
                "$1″");
        try (CsvReader<CsvRecord> reader = CsvReader.builder()
                .fieldSeparator(separator)
                .skipEmptyLines(false)
                .acceptCharsAfterQuotes(true)
                .ofCsvRecord(dittos)) {
            for (CsvRecord record : reader) {
                boolean swallowed = record.getFields().stream()
                        .anyMatch(field -> field.chars().filter(c -> c == '\n').count() > MOST_LINES_OF_A_CELL);
                if (swallowed || records.size() > MOST_ROWS) {
                    return swallowed ? null : records;
                }
                records.add(record.getFields());
            }
            return records;
        } catch (CsvParseException | IOException e) {
            return null;
        }
    }

    private static Read workbook(byte[] bytes) {
        WorkbookShape shape = WorkbookShape.of(bytes, MOST_UNPACKED);
        if (shape == null) {
            return new Read.Unusable(t("take.xlsx-unreadable"));
        }
        if (shape.tooLarge()) {
            return new Read.Unusable(t("take.file-too-large"));
        }
        List<Grid> grids = new ArrayList<>();
        try (ReadableWorkbook workbook =
                new ReadableWorkbook(new ByteArrayInputStream(bytes), new ReadingOptions(true, true))) {
            for (Sheet sheet : workbook.getSheets().toList()) {
                WorkbookShape.OfSheet of = shape.sheet(sheet.getName());
                List<Grid.Line> lines = new ArrayList<>();
                try (Stream<Row> rows = sheet.openStream()) {
                    for (Row row : (Iterable<Row>) rows::iterator) {
                        if (lines.size() > MOST_ROWS) {
                            return new Read.Unusable(t("take.too-many-rows", MOST_ROWS, MOST_COLUMNS));
                        }
                        List<Grid.Cell> cells = new ArrayList<>();
                        for (int c = 0; c < Math.min(row.getCellCount(), MOST_COLUMNS); c++) {
                            cells.add(
                                    row.getOptionalCell(c).map(GridReader::cell).orElse(Grid.Cell.BLANK));
                        }
                        if (cells.stream().allMatch(Grid.Cell::isBlank)) {
                            // programs write rows that hold nothing but a height, down to the last possible one
                            continue;
                        }
                        while (lines.size() < row.getRowNum() - 1 && lines.size() < MOST_ROWS) {
                            lines.add(new Grid.Line(lines.size() + 1L, false, false, List.of()));
                        }
                        lines.add(new Grid.Line(
                                row.getRowNum(), of.hiddenRow(row.getRowNum()), of.wide(row.getRowNum()), cells));
                    }
                }
                while (!lines.isEmpty() && lines.getLast().isBlank()) {
                    lines.removeLast();
                }
                grids.add(new Grid(
                        sheet.getName(),
                        sheet.getVisibility() != SheetVisibility.VISIBLE,
                        of.filledDown(lines),
                        of.hiddenColumns()));
            }
        } catch (IOException | RuntimeException e) {
            // The reader reports a broken workbook by unchecked exceptions of several kinds; all mean the same here.
            return new Read.Unusable(t("take.xlsx-unreadable"));
        }
        if (grids.stream().allMatch(grid -> grid.lines().isEmpty())) {
            return new Read.Unusable(t("take.file-empty"));
        }
        return new Read.Good(Formulas.computed(grids), List.of());
    }

    private static Grid.Cell cell(org.dhatim.fastexcel.reader.Cell cell) {
        String formula = cell.getFormula() == null ? "" : cell.getFormula();
        String format = cell.getDataFormatString() == null ? "" : cell.getDataFormatString();
        String raw = cell.getRawValue() == null ? "" : cell.getRawValue();
        if (cell.getType() == CellType.ERROR) {
            return new Grid.Cell(raw.startsWith("#") ? raw : "", null, null, format, formula, false);
        }
        boolean numeric = cell.getType() == CellType.NUMBER
                || (cell.getType() == CellType.FORMULA && raw.matches("-?[0-9]{1,18}(\\.[0-9]{1,18})?"));
        if (!numeric) {
            String text = cell.getType() == CellType.STRING ? cell.getText() : raw;
            return new Grid.Cell(text == null ? "" : text.strip(), null, null, format, formula, false);
        }
        BigDecimal number = cell.getType() == CellType.NUMBER ? cell.asNumber() : new BigDecimal(raw);
        boolean serial = number.compareTo(BigDecimal.ONE) > 0 && number.compareTo(BigDecimal.valueOf(200_000)) < 0;
        if (serial && isDay(cell.getDataFormatId(), format)) {
            try {
                var day = cell.asDate().toLocalDate();
                return new Grid.Cell(day.toString(), null, day, format, formula, false);
            } catch (RuntimeException e) {
                // formatted as a day but none: the number stays
            }
        }
        boolean unfolds = number.precision() > MOST_DIGITS || Math.abs((long) number.scale()) > MOST_DIGITS;
        String text = unfolds
                ? number.toString()
                : (number.scale() > 9 ? number.setScale(9, java.math.RoundingMode.HALF_UP) : number)
                        .stripTrailingZeros()
                        .toPlainString();
        return new Grid.Cell(text, unfolds ? null : number, null, format, formula, false);
    }

    private static boolean isDay(@Nullable Integer id, String format) {
        if (id != null && ((id >= 14 && id <= 17) || id == 22)) {
            return true;
        }
        String bare = format.toLowerCase(Locale.ROOT)
                .replaceAll("\"[^\"]*\"", "")
                .replaceAll("\\[[^]]*\\]", "")
                .replaceAll("\\\\.", "")
                .replace("general", "");
        return bare.contains("y") || bare.contains("d") || bare.contains("mmm");
    }
}
