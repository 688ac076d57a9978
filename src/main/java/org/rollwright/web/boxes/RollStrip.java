package org.rollwright.web.boxes;

import static org.rollwright.text.Texts.t;

import java.util.List;
import org.rollwright.hunt.BoxReport;
import org.rollwright.text.Figures;

/// The rolls of a box side by side, each with a bar as long as its finds are many.
///
/// @param most finds of the richest roll, at least 1: a full bar
public record RollStrip(int most, List<Cell> cells) {
    /// One roll.
    ///
    /// @param kind name of its look: unsearched, in-hand, searched or left
    /// @param height of its bar, in hundredths of the full one
    /// @param off coins more or fewer than a full roll, with its sign; blank when full or not counted
    /// @param spoken all of it in words
    public record Cell(int number, String kind, int coins, int height, String off, String spoken) {}

    private static final int FULL = 100;

    public RollStrip {
        cells = List.copyOf(cells);
    }

    /// @param rolls in order
    public static RollStrip of(List<BoxReport.RollCell> rolls) {
        int most = Math.max(
                1, rolls.stream().mapToInt(BoxReport.RollCell::coins).max().orElse(1));
        return new RollStrip(most, rolls.stream().map(roll -> cell(roll, most)).toList());
    }

    private static Cell cell(BoxReport.RollCell roll, int most) {
        String off = roll.difference() == 0 ? "" : Figures.of("%+d", roll.difference());
        String found = roll.coins() == 0 ? t("box.strip-no-finds") : t("box.strip-finds", roll.coins());
        String kind =
                switch (roll.state()) {
                    case UNSEARCHED -> "unsearched";
                    case IN_HAND -> "in-hand";
                    case SEARCHED -> "searched";
                    case PARTLY -> "left partly";
                    case LEFT -> "left";
                };
        String state =
                switch (roll.state()) {
                    case UNSEARCHED -> t("box.strip-not-searched");
                    case IN_HAND -> t("box.strip-in-hand", found);
                    case SEARCHED -> found;
                    case PARTLY -> t("box.strip-partly", found);
                    case LEFT -> t("box.strip-left");
                };
        return new Cell(
                roll.number(),
                kind,
                roll.coins(),
                Math.round((float) FULL * roll.coins() / most),
                off,
                off.isEmpty()
                        ? t("box.strip-roll", roll.number(), state)
                        : t("box.strip-roll-off", roll.number(), state, off));
    }
}
