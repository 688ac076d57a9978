package org.rollwright.web;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.rollwright.entry.narration.Captions;
import org.rollwright.entry.narration.Cue;
import org.rollwright.entry.narration.Narration;

/// The review of a narration: proposed rows beside the captions.
///
/// @param rows uncertain ones first, then in order of time
/// @param rolls rolls searched, for each box, as a person writes them: `1-10, 12`
/// @param spoken the last running count said, -1 when none was
/// @param title name of the hunt
public record ReviewView(
        long hunt,
        String title,
        String file,
        List<Row> rows,
        Map<Integer, String> rolls,
        List<CueLine> cues,
        int spoken,
        int decoded,
        List<String> conflicts,
        List<String> remarks,
        List<String> problems) {

    /// A row of the review.
    ///
    /// @param at clock time, blank for a row added by hand
    /// @param line entry line: a find or a weight
    /// @param sure percent, -1 for a row added by hand
    public record Row(
            boolean keep,
            String at,
            String box,
            String roll,
            String line,
            int sure,
            String words,
            int cue,
            String wrong) {
        static Row blank() {
            return new Row(true, "", "1", "", "", -1, "", -1, "");
        }

        Row withWrong(String sentence) {
            return new Row(keep, at, box, roll, line, sure, words, cue, sentence);
        }

        /// Whether it deserves a look before it is accepted.
        public boolean uncertain() {
            return sure >= 0 && sure < 90;
        }
    }

    /// A caption as shown.
    public record CueLine(int number, String at, String text) {}

    static ReviewView of(long hunt, String title, String file, Captions captions, Narration narration) {
        List<Row> rows = new ArrayList<>();
        for (Narration.Proposed find : narration.finds()) {
            rows.add(new Row(
                    find.probability() >= 0.5,
                    Captions.clock(find.at()),
                    Integer.toString(find.box()),
                    Integer.toString(find.roll()),
                    find.line(),
                    (int) Math.floor(100 * find.probability()),
                    find.words(),
                    find.cue(),
                    ""));
        }
        rows.sort(Comparator.comparing((Row row) -> !row.uncertain()));
        for (Narration.Weighing weight : narration.weights()) {
            rows.add(new Row(
                    true,
                    Captions.clock(weight.at()),
                    "1",
                    "0",
                    String.format(Locale.ROOT, "w %.1fg", weight.mass().grams()),
                    99,
                    weight.words(),
                    -1,
                    ""));
        }
        Map<Integer, TreeSet<Integer>> visited = new TreeMap<>();
        narration
                .rolls()
                .forEach(visit -> visited.computeIfAbsent(visit.box(), box -> new TreeSet<>())
                        .add(visit.roll()));
        Map<Integer, String> rolls = new TreeMap<>();
        visited.forEach((box, all) -> rolls.put(box, RollList.print(all)));
        List<CueLine> cues = new ArrayList<>();
        for (int i = 0; i < captions.cues().size(); i++) {
            Cue cue = captions.cues().get(i);
            cues.add(new CueLine(i, Captions.clock(cue.start()), cue.text().replace('\n', ' ')));
        }
        @Nullable Integer spoken = narration.spokenTotal();
        return new ReviewView(
                hunt,
                title,
                file,
                rows,
                rolls,
                cues,
                spoken == null ? -1 : spoken,
                narration.decodedTotal(),
                narration.conflicts().stream().map(Narration.Conflict::toString).toList(),
                narration.remarks(),
                List.of());
    }

    /// Coins in the ticked rows, as far as their lines tell.
    public int ticked() {
        return rows.stream()
                .filter(row ->
                        row.keep() && !row.line().isBlank() && !row.line().startsWith("w "))
                .mapToInt(row -> count(row.line()))
                .sum();
    }

    private static int count(String line) {
        String first = line.split(" ")[0];
        boolean times = first.length() > 1
                && first.charAt(0) == 'x'
                && first.substring(1).chars().allMatch(c -> c >= '0' && c <= '9')
                && first.length() < 6;
        return times ? Integer.parseInt(first.substring(1)) : 1;
    }

    /// Rows that deserve a look.
    public long uncertain() {
        return rows.stream().filter(Row::uncertain).count();
    }
}
