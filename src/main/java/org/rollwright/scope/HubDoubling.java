package org.rollwright.scope;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/// What speaks for a doubled die and what against, beside the motion: the strike doubles coins too, and is
/// worth nothing (TRADE 4: look-alikes).
///
/// @param leaning -1 against, 0 undecided, 1 for
public record HubDoubling(int leaning, String sentence, List<String> reasonsFor, List<String> reasonsAgainst) {
    /// Millimetres of one thousandth of an inch.
    public static final double THOUSANDTH = 0.0254;

    public HubDoubling {
        reasonsFor = List.copyOf(reasonsFor);
        reasonsAgainst = List.copyOf(reasonsAgainst);
    }

    /// Millimetres; a strike seldom moves letters further (from memory), so a smaller shift all one way speaks
    /// against a doubled die.
    private static final double SMALL_SHIFT = 0.08;

    /// @param year of the coin, null when not known
    /// @param markMoved whether the mint mark is doubled with the rest; null when there is none or it cannot be
    ///     told
    /// @param shelf whether the second image is a flat low shelf; null when it cannot be told
    /// @param wider whether the letters are wider than on an ordinary coin; null when it cannot be told
    public static HubDoubling weigh(
            Doubling fit,
            @Nullable Integer year,
            @Nullable Boolean markMoved,
            @Nullable Boolean shelf,
            @Nullable Boolean wider,
            double clickSd) {
        List<String> pro = new ArrayList<>();
        List<String> con = new ArrayList<>();
        boolean punched = year == null || year < 1990;
        if (markMoved != null) {
            if (markMoved && punched) {
                con.add("The mint mark is doubled with the rest: until 1989 it was punched after the hubbing, so the"
                        + " strike moved, not the hub.");
            } else if (!markMoved && punched) {
                pro.add("The mint mark is single while the design is doubled: it was punched after the hubbing.");
            }
        }
        if (shelf != null) {
            (shelf ? con : pro)
                    .add(
                            shelf
                                    ? "The second image is a flat low shelf, as the strike makes it."
                                    : "The second image is raised and rounded, not a shelf.");
        }
        if (wider != null) {
            (wider ? pro : con)
                    .add(
                            wider
                                    ? "The letters are wider: a hub adds, the strike takes away."
                                    : "The letters are not wider, or thinner: the strike cuts into them.");
        }
        double spread = Math.hypot(fit.shiftX(), fit.shiftY());
        if (fit.motion() == Doubling.Motion.OFFSET && spread < SMALL_SHIFT) {
            con.add(String.format(
                    Locale.ROOT, "Everything moved the same way by only %.2f mm, as in strike doubling.", spread));
        }
        if (fit.rms() > 3 * clickSd) {
            con.add(String.format(
                    Locale.ROOT,
                    "No single motion fits: points miss it by %.3f mm, more than clicks of %.3f mm explain.",
                    fit.rms(),
                    clickSd));
        } else if (fit.motion() != Doubling.Motion.OFFSET) {
            pro.add("One motion of the whole design explains all points: class "
                    + fit.motion().hubClass() + ".");
        }
        int balance = pro.size() - con.size();
        boolean decided = (markMoved != null && markMoved && punched) || (shelf != null && shelf);
        int leaning = decided && balance <= 0 ? -1 : balance >= 2 ? 1 : balance <= -2 ? -1 : 0;
        String sentence =
                switch (leaning) {
                    case 1 -> "More speaks for a doubled die than against it.";
                    case -1 -> "This looks like strike doubling rather than a doubled die.";
                    default ->
                        "Undecided: look at the mint mark, at the shape of the second image and at the width"
                                + " of the letters.";
                };
        return new HubDoubling(leaning, sentence, pro, con);
    }
}
