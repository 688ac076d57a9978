package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.rollwright.coin.Identity;

/// How well a decoded narration agrees with the truth: both lists are aligned in order, date and mint first.
final class Score {
    int truths;
    int proposed;
    int right;
    int rollsRight;
    final List<String> faults = new ArrayList<>();
    final List<double[]> sureAndRight = new ArrayList<>();

    private static boolean same(Annotated.Truth truth, Narration.Proposed find) {
        Identity identity = find.identity();
        String year = identity.year() == null ? "" : identity.year().toString();
        String letter = Decoder.letter(identity);
        boolean mint = year.isEmpty() || truth.mint().equals(letter == null ? "" : letter);
        return truth.year().equals(year)
                && mint
                && truth.country().equals(identity.denomination().country().code());
    }

    /// Adds one narration.
    void add(Annotated narration, Narration decoded) {
        List<Annotated.Truth> truth = each(narration.truth());
        List<Narration.Proposed> finds = new ArrayList<>();
        for (Narration.Proposed find : decoded.finds()) {
            for (int n = 0; n < find.count(); n++) {
                finds.add(find);
            }
        }
        int[][] longest = new int[truth.size() + 1][finds.size() + 1];
        for (int i = truth.size() - 1; i >= 0; i--) {
            for (int j = finds.size() - 1; j >= 0; j--) {
                longest[i][j] = Math.max(longest[i + 1][j], longest[i][j + 1]);
                if (same(truth.get(i), finds.get(j))) {
                    longest[i][j] = Math.max(
                            longest[i][j], 100 + (near(truth.get(i), finds.get(j)) ? 1 : 0) + longest[i + 1][j + 1]);
                }
            }
        }
        truths += truth.size();
        proposed += finds.size();
        int i = 0;
        int j = 0;
        while (i < truth.size() || j < finds.size()) {
            boolean both = i < truth.size() && j < finds.size();
            boolean pair = both
                    && same(truth.get(i), finds.get(j))
                    && longest[i][j] == 100 + (near(truth.get(i), finds.get(j)) ? 1 : 0) + longest[i + 1][j + 1];
            if (pair) {
                right++;
                sureAndRight.add(new double[] {finds.get(j).probability(), 1});
                if (near(truth.get(i), finds.get(j))) {
                    rollsRight++;
                } else {
                    faults.add(narration.name() + ": roll " + finds.get(j).roll() + " of box "
                            + finds.get(j).box() + " for " + truth.get(i));
                }
                i++;
                j++;
            } else if (i < truth.size() && (j == finds.size() || longest[i + 1][j] >= longest[i][j + 1])) {
                faults.add(narration.name() + ": missed " + truth.get(i));
                i++;
            } else {
                Narration.Proposed wrong = finds.get(j);
                faults.add(narration.name() + ": false " + wrong.line() + " "
                        + String.format(Locale.ROOT, "%.2f", wrong.probability()) + " \"" + wrong.words() + "\"");
                sureAndRight.add(new double[] {wrong.probability(), 0});
                j++;
            }
        }
    }

    private static boolean near(Annotated.Truth truth, Narration.Proposed find) {
        return truth.roll() == find.roll() && truth.box() == find.box();
    }

    private static List<Annotated.Truth> each(List<Annotated.Truth> truths) {
        List<Annotated.Truth> all = new ArrayList<>();
        for (Annotated.Truth truth : truths) {
            for (int n = 0; n < truth.count(); n++) {
                all.add(truth);
            }
        }
        return all;
    }

    double rightShare() {
        return truths == 0 ? 1 : right / (double) truths;
    }

    /// False finds for each hundred true ones.
    double falsePerHundred() {
        return truths == 0 ? 0 : 100.0 * (proposed - right) / truths;
    }

    double rollShare() {
        return right == 0 ? 1 : rollsRight / (double) right;
    }

    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "%d finds: %.1f %% right, %.1f false per 100, roll right for %.1f %%",
                truths,
                100 * rightShare(),
                falsePerHundred(),
                100 * rollShare());
    }

    /// Prints how many of the finds called so and so probable were right.
    ///
    /// @param calls probability, and 1 or 0
    static void printReliability(List<double[]> calls) {
        double[] edges = {0, 0.3, 0.5, 0.7, 0.8, 0.9, 0.95, 0.99, 1.01};
        System.out.println("| called | finds | right |");
        System.out.println("|---|---|---|");
        for (int i = 0; i + 1 < edges.length; i++) {
            int all = 0;
            int right = 0;
            for (double[] one : calls) {
                if (one[0] >= edges[i] && one[0] < edges[i + 1]) {
                    all++;
                    right += one[1] > 0 ? 1 : 0;
                }
            }
            System.out.printf(
                    Locale.ROOT,
                    "| %.2f to %.2f | %d | %s |%n",
                    edges[i],
                    Math.min(1, edges[i + 1]),
                    all,
                    all == 0 ? "–" : String.format(Locale.ROOT, "%.1f %%", 100.0 * right / all));
        }
    }
}
