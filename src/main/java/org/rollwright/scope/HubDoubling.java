package org.rollwright.scope;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
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
                con.add(t("scope.mint-mark-doubled"));
            } else if (!markMoved && punched) {
                pro.add(t("scope.mint-mark-single"));
            }
        }
        if (shelf != null) {
            (shelf ? con : pro).add(shelf ? t("scope.second-flat") : t("scope.second-raised"));
        }
        if (wider != null) {
            (wider ? pro : con).add(wider ? t("scope.letters-wide") : t("scope.letters-thin"));
        }
        double spread = Math.hypot(fit.shiftX(), fit.shiftY());
        if (fit.motion() == Doubling.Motion.SHIFT && spread < SMALL_SHIFT) {
            con.add(f("scope.moved-little", spread));
        }
        if (fit.rms() > 3 * clickSd) {
            con.add(f("scope.no-single-motion", fit.rms(), clickSd));
        } else if (fit.motion() != Doubling.Motion.SHIFT) {
            pro.add(t("scope.one-motion", said(fit.motion())));
        }
        int balance = pro.size() - con.size();
        boolean decided = (markMoved != null && markMoved && punched) || (shelf != null && shelf);
        int leaning = decided && balance <= 0 ? -1 : balance >= 2 ? 1 : balance <= -2 ? -1 : 0;
        String sentence =
                switch (leaning) {
                    case 1 -> t("scope.more-for-die");
                    case -1 -> t("scope.looks-like-strike");
                    default -> t("scope.undecided");
                };
        return new HubDoubling(leaning, sentence, pro, con);
    }

    private static String said(Doubling.Motion motion) {
        return switch (motion) {
            case SHIFT -> t("scope.motion-shift");
            case ROTATION -> t("scope.motion-rotation");
            case PIVOT -> t("scope.motion-pivot");
            case SPREAD -> t("scope.motion-spread");
        };
    }
}
