package org.rollwright.web.narration;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.rollwright.entry.narration.Captions;
import org.rollwright.entry.narration.Cue;
import org.rollwright.entry.narration.Narration;
import org.rollwright.entry.narration.Recaps;

/// The review of a narration: proposed rows beside the captions.
///
/// @param rows uncertain ones first, then sure ones, then those left out, each in order of time
/// @param asked the question that settles most rows, null when none does
/// @param rolls rolls searched, for each box, as a person writes them: `1-10, 12`
/// @param learns whether the voice is learned from what is accepted, null when that is switched off
/// @param spoken the last running count said, -1 when none was
/// @param totals what the finds come to by box and by kind, beside what was said
/// @param title name of the hunt
public record ReviewView(
        long hunt,
        String title,
        String file,
        List<Row> rows,
        @Nullable Asked asked,
        Map<Integer, String> rolls,
        List<CueLine> cues,
        @Nullable Boolean learns,
        int spoken,
        int decoded,
        List<Agreement> totals,
        List<String> conflicts,
        List<String> remarks,
        List<String> problems) {

    /// A row of the review.
    ///
    /// @param at clock time, blank for a row added by hand
    /// @param line entry line: a find or a weight
    /// @param sure percent, -1 for a row added by hand
    /// @param otherwise what else the words may mean, with its weight; blank for a sure one
    /// @param proposed the line as it was proposed and ticked; blank for one that was not
    public record Row(
            boolean keep,
            String at,
            String box,
            String roll,
            String line,
            int sure,
            String words,
            int cue,
            String otherwise,
            String proposed,
            String wrong) {
        static Row blank() {
            return new Row(true, "", "1", "", "", -1, "", -1, "", "", "");
        }

        Row withTick(boolean ticked) {
            return new Row(ticked, at, box, roll, line, sure, words, cue, otherwise, proposed, wrong);
        }

        Row withWrong(String sentence) {
            return new Row(keep, at, box, roll, line, sure, words, cue, otherwise, proposed, sentence);
        }

        /// Whether it was added by hand, so that its time is to be typed as well.
        public boolean added() {
            return sure < 0;
        }

        /// What stands first: rows in doubt, then sure ones, then those that are likely none.
        int group() {
            return !keep ? 2 : uncertain() ? 0 : 1;
        }

        /// Whether it deserves a look before it is accepted.
        public boolean uncertain() {
            return keep && sure >= 0 && sure < 90;
        }
    }

    /// Whether a stretch of the recording is a recap of earlier finds.
    ///
    /// @param from clock time
    /// @param to clock time
    /// @param rows the rows it decides, from 0
    public record Asked(String from, String to, List<Integer> rows) {
        /// The rows as a form keeps them.
        public String list() {
            return String.join(",", rows.stream().map(String::valueOf).toList());
        }
    }

    /// A caption as shown, and as the form keeps it.
    public record CueLine(int number, Cue cue) {
        private static final java.util.regex.Pattern KEPT =
                java.util.regex.Pattern.compile("([0-9]{1,9})-([0-9]{1,9})\\|(.*)", java.util.regex.Pattern.DOTALL);

        public String at() {
            return Captions.clock(cue.start());
        }

        public String text() {
            return cue.text().replace('\n', ' ');
        }

        /// Times and text in one.
        public String kept() {
            return cue.start() + "-" + cue.end() + "|" + cue.text();
        }

        /// What [#kept] wrote; a text without times is said at the start.
        static CueLine of(int number, String kept) {
            java.util.regex.Matcher parts = KEPT.matcher(kept);
            return new CueLine(
                    number,
                    parts.matches()
                            ? new Cue(Long.parseLong(parts.group(1)), Long.parseLong(parts.group(2)), parts.group(3))
                            : new Cue(0, 0, kept));
        }
    }

    /// The meanings side by side: `or said again 20 %, a count 10 %`.
    private static String otherwise(Narration.Proposed find) {
        if (find.otherwise().isEmpty()) {
            return "";
        }
        return t(
                "review.or",
                String.join(
                        ", ",
                        find.otherwise().stream()
                                .map(share -> meaning(share.meaning()) + " " + Math.round(100 * share.weight()) + " %")
                                .toList()));
    }

    private static String meaning(Narration.Meaning meaning) {
        return switch (meaning) {
            case AGAIN -> t("review.the-last-coin-said-again");
            case OTHER_MINT -> t("review.another-mint");
            case COUNT -> t("review.a-running-count");
            case NUMBER -> t("review.a-roll-or-another-number");
            case SPOKEN_OF -> t("review.only-spoken-of");
        };
    }

    /// What the finds come to, as a sentence each.
    static List<Agreement> agreements(Narration narration) {
        return narration.totals().stream()
                .map(total -> new Agreement(sentence(total), total.agrees()))
                .toList();
    }

    private static String sentence(Narration.Total total) {
        String what = what(total);
        Integer spoken = total.spoken();
        return spoken == null
                ? t("review.finds-come-to", what, total.finds())
                : t("review.finds-come-to-you-say", what, total.finds(), spoken, Captions.clock(total.at()));
    }

    private static String what(Narration.Total total) {
        if (total.through()) {
            return t("review.up-to-box", total.box());
        }
        return switch (total.kind()) {
            case null -> t("review.box-number", total.box());
            case WHEAT -> t("review.wheats");
            case SILVER -> t("review.silver");
            case CANADIAN -> t("review.canadians");
            case AMERICAN -> t("review.americans");
            case KING -> t("review.kings");
        };
    }

    /// What the finds of a box or a kind come to.
    ///
    /// @param agrees whether that is what was said, or nothing was
    public record Agreement(String sentence, boolean agrees) {
        /// As a form keeps it.
        public String kept() {
            return (agrees ? "+" : "-") + sentence;
        }

        static Agreement of(String kept) {
            return new Agreement(kept.isEmpty() ? "" : kept.substring(1), kept.startsWith("+"));
        }
    }

    static ReviewView of(
            long hunt, String title, String file, Captions captions, Narration narration, @Nullable Boolean learns) {
        List<Row> rows = new ArrayList<>();
        for (Narration.Proposed find : narration.dates()) {
            boolean ticked = find.probability() >= 0.5 && !narration.left().contains(find);
            rows.add(new Row(
                    ticked,
                    Captions.clock(find.at()),
                    Integer.toString(find.box()),
                    Integer.toString(find.roll()),
                    find.line(),
                    (int) Math.floor(100 * find.probability()),
                    find.words(),
                    find.cue(),
                    otherwise(find),
                    ticked ? find.line() : "",
                    ""));
        }
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
                    "",
                    "",
                    ""));
        }
        List<Row> inTime = List.copyOf(rows);
        List<Integer> order = IntStream.range(0, rows.size())
                .boxed()
                .sorted(Comparator.comparing(row -> inTime.get(row).group()))
                .toList();
        rows.clear();
        order.forEach(row -> rows.add(inTime.get(row)));
        Asked asked = Recaps.mostUnsettled(narration)
                .map(one -> new Asked(
                        Captions.clock(one.from()),
                        Captions.clock(one.to()),
                        one.finds().stream().map(order::indexOf).sorted().toList()))
                .orElse(null);
        Map<Integer, TreeSet<Integer>> visited = new TreeMap<>();
        narration
                .rolls()
                .forEach(visit -> visited.computeIfAbsent(visit.box(), box -> new TreeSet<>())
                        .add(visit.roll()));
        Map<Integer, String> rolls = new TreeMap<>();
        visited.forEach((box, all) -> rolls.put(box, RollList.print(all)));
        List<CueLine> cues = new ArrayList<>();
        for (int i = 0; i < captions.cues().size(); i++) {
            cues.add(new CueLine(i, captions.cues().get(i)));
        }
        @Nullable Integer spoken = narration.spokenTotal();
        return new ReviewView(
                hunt,
                title,
                file,
                rows,
                asked,
                rolls,
                cues,
                learns,
                spoken == null ? -1 : spoken,
                narration.decodedTotal(),
                agreements(narration),
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

    /// The first of the rows left out that stand last, -1 when there is none or rows were added behind them.
    public int firstLeft() {
        int first = rows.size();
        while (first > 0 && !rows.get(first - 1).keep() && rows.get(first - 1).sure() >= 0) {
            first--;
        }
        return first == rows.size() ? -1 : first;
    }

    /// Rows that deserve a look.
    public long uncertain() {
        return rows.stream().filter(Row::uncertain).count();
    }
}
