package org.rollwright.entry;

import static org.rollwright.text.Texts.labelled;
import static org.rollwright.text.Texts.t;

import java.util.List;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Mass;
import org.rollwright.hunt.Disposition;
import org.rollwright.text.Figures;

/// Says in plain words what a command will do, for the line under the entry line and for scripts.
public final class Sentence {
    private Sentence() {}

    /// One line, without a full stop.
    ///
    /// @param box denomination of the box in hand
    public static String of(Command command, Catalog catalog, Denomination box) {
        return switch (command) {
            case Command.Found found -> draft(found.draft(), catalog, box);
            case Command.NextRoll next -> t("entry.next-roll");
            case Command.GoToRoll go ->
                go.coins() == null ? roll(go.roll()) : t("entry.held-coins", roll(go.roll()), go.coins());
            case Command.GoToBox go -> t("entry.box-of-this-hunt", go.ordinal());
            case Command.LeaveRoll leave ->
                leave.roll() == null
                        ? t("entry.this-roll-left-unsearched")
                        : t("entry.roll-left-unsearched", leave.roll());
            case Command.SawEnders seen -> t("entry.of-enders", seen.matching(), seen.visible());
            case Command.Weigh weigh -> t("entry.weight", weight(weigh.mass()));
            case Command.Mark mark ->
                mark.text().isEmpty() ? t("entry.mark-this-moment") : t("entry.moment-said", mark.text());
            case Command.Note note -> t("entry.note", note.text());
            case Command.Undo undo -> t("entry.undo");
            case Command.Redo redo -> t("entry.redo");
            case Command.Checked checked -> checked(checked);
            case Command.WatchFor watch -> t("entry.watch-said", watch.watch().name());
            case Command.StopWatching stop -> t("entry.no-longer-watch-for", stop.name());
            case Command.Fix fix -> t("entry.f-becomes", fix.find(), draft(fix.draft(), catalog, box));
            case Command.Move move ->
                move.box() == null
                        ? t("entry.f-moves-to", move.find(), roll(move.roll()))
                        : t("entry.f-moves-to-box", move.find(), move.box(), roll(move.roll()));
            case Command.Split split -> t("entry.split-said", split.coins(), split.find());
            case Command.Drop drop -> t("entry.f-is-struck-out", drop.find());
            case Command.Put put -> labelled("f" + put.find(), put.disposition().said());
            case Command.PutRest rest ->
                t("entry.all-undecided", rest.disposition().said());
            case Command.Finish finish -> t("entry.finish-this-hunt");
            case Command.Resume resume -> t("entry.go-on-with-this-hunt");
        };
    }

    private static String roll(int number) {
        return number == 0 ? t("entry.no-roll-in-particular") : t("entry.roll", number);
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
                    .map(issue -> issue.alloy().metal().said() + " "
                            + Figures.of("%.2f g", issue.alloy().weight().grams()))
                    .distinct()
                    .toList();
            words.append(" · ")
                    .append(metals.stream()
                            .reduce((a, b) -> t("entry.or", a, b))
                            .orElse(""));
            if (issues.stream().allMatch(Issue::collectorOnly)) {
                words.append(" · ").append(t("entry.struck-for-collectors-only"));
            }
        }
        if (!facts.state().isEmpty()) {
            words.append(" · ").append(facts.state());
        }
        if (draft.ender()) {
            words.append(" · ").append(t("entry.ender"));
        }
        if (draft.disposition() != Disposition.OPEN) {
            words.append(" · ").append(draft.disposition().said());
        }
        if (!facts.photos().isEmpty()) {
            words.append(" · ").append(t("entry.photo", String.join(", ", facts.photos())));
        }
        if (!facts.note().isEmpty()) {
            words.append(" · “").append(facts.note()).append('”');
        }
        return words.toString();
    }

    private static String checked(Command.Checked checked) {
        String find = checked.find() == null ? t("entry.last-find") : "f" + checked.find();
        return checked.varieties().isEmpty()
                ? t("entry.checked-not-it", find)
                : t("entry.checked-not-it-varieties", find, String.join(", ", checked.varieties()));
    }

    /// A weight in grams and in pounds and ounces.
    public static String weight(Mass mass) {
        return Figures.of("%.1f g (%s)", mass.grams(), mass.poundsAndOunces());
    }
}
