package org.rollwright.store;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.List;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;

/// Writes tables as CSV or XLSX. A file appears whole or not at all.
public final class Tables {
    private Tables() {}

    /// @param file ending in .csv or .xlsx
    /// @throws IOException when it cannot be written
    public static void write(Path file, String sheet, List<String> header, List<List<String>> rows) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        if (file.toString().toLowerCase(java.util.Locale.ROOT).endsWith(".xlsx")) {
            workbook(out, sheet, header, rows);
        } else {
            try (CsvWriter writer = CsvWriter.builder().build(out)) {
                writer.writeRecord(header);
                rows.forEach(writer::writeRecord);
            }
        }
        Disk.write(file, out.toByteArray());
    }

    /// Every cell is text: nothing in it can be a formula.
    private static void workbook(OutputStream out, String sheet, List<String> header, List<List<String>> rows)
            throws IOException {
        try (Workbook workbook = new Workbook(out, "Rollwright", "1.0")) {
            Worksheet worksheet = workbook.newWorksheet(sheet);
            for (int c = 0; c < header.size(); c++) {
                worksheet.value(0, c, header.get(c));
            }
            for (int r = 0; r < rows.size(); r++) {
                List<String> row = rows.get(r);
                for (int c = 0; c < row.size(); c++) {
                    if (!row.get(c).isEmpty()) {
                        worksheet.value(r + 1, c, row.get(c));
                    }
                }
                if (r % 1000 == 999) {
                    worksheet.flush();
                }
            }
            worksheet.finish();
        }
    }
}
