package org.rollwright.entry;

import java.util.List;
import java.util.Locale;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Mass;
import org.rollwright.hunt.Disposition;

/// Says in plain words what a command will do, for the line under the entry line and for scripts.
public final class Sentence {
    private Sentence() {}

    /// One line, without a full stop.
    ///
    /// @param box denomination of the box in hand
    public static String of(Command command, Catalog catalog, Denomination box) {
        return switch (command) {
            case Command.Found found -> draft(found.draft(), catalog, box);
            case Command.NextRoll next -> "next roll";
            case Command.GoToRoll go ->
                go.coins() == null ? roll(go.roll()) : roll(go.roll()) + " held " + go.coins() + " coins";
            case Command.GoToBox go -> "box " + go.ordinal() + " of this hunt";
            case Command.LeaveRoll leave ->
                leave.roll() == null ? "this roll left unsearched" : "roll " + leave.roll() + " left unsearched";
            case Command.SawEnders seen -> seen.matching() + " of " + seen.visible() + " enders";
            case Command.Weigh weigh -> "weight " + weight(weigh.mass());
            case Command.Mark mark -> mark.text().isEmpty() ? "mark this moment" : "mark this moment: " + mark.text();
            case Command.Note note -> "note: " + note.text();
            case Command.Undo undo -> "undo";
            case Command.Redo redo -> "redo";
            case Command.Checked checked ->
                (checked.find() == null ? "last find" : "f" + checked.find())
                        + " checked, not it"
                        + (checked.varieties().isEmpty() ? "" : ": " + String.join(", ", checked.varieties()));
            case Command.WatchFor watch ->
                "from the next roll on, watch for " + watch.watch().name();
            case Command.StopWatching stop -> "no longer watch for " + stop.name();
            case Command.Fix fix -> "f" + fix.find() + " becomes " + draft(fix.draft(), catalog, box);
            case Command.Move move ->
                "f" + move.find() + " moves to " + (move.box() == null ? "" : "box " + move.box() + ", ")
                        + roll(move.roll());
            case Command.Split split -> split.coins() + " coins of f" + split.find() + " become a find of their own";
            case Command.Drop drop -> "f" + drop.find() + " is struck out";
            case Command.Put put -> "f" + put.find() + ": " + put.disposition().word();
            case Command.Finish finish -> "finish this hunt";
            case Command.Resume resume -> "go on with this hunt";
        };
    }

    private static String roll(int number) {
        return number == 0 ? "no roll in particular" : "roll " + number;
    }

    private static String draft(Command.FindDraft draft, Catalog catalog, Denomination box) {
        CoinDescription facts = draft.facts();
        StringBuilder words = new StringBuilder();
        if (draft.count() > 1) {
            words.append(draft.count()).append(" × ");
        }
        words.append(catalog.name(facts.identity(), box));
        List<Issue> issues = catalog.lookup(facts.identity());
        if (!issues.isEmpty()) {
            words.append(" · ").append(issues.getFirst().series().name());
            List<String> metals = issues.stream()
                    .map(issue -> issue.alloy().metal().word() + " "
                            + String.format(
                                    Locale.ROOT,
                                    "%.2f g",
                                    issue.alloy().weight().grams()))
                    .distinct()
                    .toList();
            words.append(" · ").append(String.join(" or ", metals));
            if (issues.stream().allMatch(Issue::collectorOnly)) {
                words.append(" · struck for collectors only");
            }
        }
        if (!facts.state().isEmpty()) {
            words.append(" · ").append(facts.state());
        }
        if (draft.ender()) {
            words.append(" · ender");
        }
        if (draft.disposition() != Disposition.OPEN) {
            words.append(" · ").append(draft.disposition().word());
        }
        if (!facts.photos().isEmpty()) {
            words.append(" · photo ").append(String.join(", ", facts.photos()));
        }
        if (!facts.note().isEmpty()) {
            words.append(" · “").append(facts.note()).append('”');
        }
        return words.toString();
    }

    /// A weight in grams and in pounds and ounces.
    public static String weight(Mass mass) {
        return String.format(Locale.ROOT, "%.1f g (%s)", mass.grams(), mass.poundsAndOunces());
    }
}
