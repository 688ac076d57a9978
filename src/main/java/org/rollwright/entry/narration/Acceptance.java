package org.rollwright.entry.narration;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.rollwright.entry.Recorder;

/// What is recorded of a narration: rolls that were searched, and rows that were accepted, in the order of boxes and
/// rolls, and within a roll in the order they were spoken.
///
/// @param told for the recorder
/// @param rows number of the row behind each, -1 for a roll that was searched
public record Acceptance(List<Recorder.Told> told, List<Integer> rows) {
    /// A row that was accepted.
    ///
    /// @param number which row, from 0
    /// @param at milliseconds into the recording, -1 when nobody said
    public record Row(int number, int box, int roll, long at, String line) {}

    /// A roll that was searched, whether or not it held anything.
    public record Searched(int box, int roll) {}

    private record Line(int box, int roll, int number, long at, String line) {}

    public Acceptance {
        told = List.copyOf(told);
        rows = List.copyOf(rows);
    }

    /// Puts in order.
    ///
    /// @param now when it was accepted; each line is a little later than the one before, so that finds of
    ///     one roll stay in their order
    public static Acceptance of(List<Row> accepted, List<Searched> rolls, Instant now) {
        List<Line> lines = new ArrayList<>();
        rolls.stream().distinct().forEach(roll -> lines.add(new Line(roll.box, roll.roll, -1, -1, "")));
        accepted.forEach(row -> lines.add(new Line(row.box, row.roll, row.number, row.at, row.line)));
        // what lay in no roll comes last; a roll is opened before its finds
        lines.sort(Comparator.comparing((Line line) -> line.roll == 0)
                .thenComparing(Line::box)
                .thenComparing(Line::roll)
                .thenComparing(line -> line.number >= 0)
                .thenComparing(Line::at)
                .thenComparing(Line::number));
        List<Recorder.Told> told = new ArrayList<>();
        List<Integer> rows = new ArrayList<>();
        for (Line line : lines) {
            told.add(new Recorder.Told(now.plusNanos(told.size()), line.box, line.roll, line.line));
            rows.add(line.number);
        }
        return new Acceptance(told, rows);
    }
}
