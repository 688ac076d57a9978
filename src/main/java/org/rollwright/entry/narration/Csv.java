package org.rollwright.entry.narration;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.function.Consumer;

/// Tables that are part of the program: rows by place, so that fifteen thousand weights are read in no time.
final class Csv {
    private Csv() {}

    /// Hands out every row below the header.
    ///
    /// @param name of the file, for the message
    /// @param cells a row has
    /// @throws IllegalArgumentException when a row has another number of cells
    static void rows(String csv, String name, int cells, Consumer<CsvRecord> row) {
        try (CsvReader<CsvRecord> reader = CsvReader.builder().ofCsvRecord(csv)) {
            reader.skipLines(1);
            for (CsvRecord record : reader) {
                if (record.getFieldCount() != cells) {
                    throw new IllegalArgumentException(name + ", line " + record.getStartingLineNumber() + ": "
                            + record.getFieldCount() + " cells, must be " + cells);
                }
                row.accept(record);
            }
        } catch (IOException e) {
            throw new UncheckedIOException("reading from memory", e);
        }
    }
}
