package org.rollwright.web.till;

import static org.rollwright.text.Texts.t;

import java.time.DayOfWeek;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.rollwright.till.Branch;
import org.rollwright.till.TillEvent;
import org.rollwright.web.shell.Manner;
import org.rollwright.web.shell.Shown.Field;
import org.rollwright.web.shell.Shown.Kind;
import org.rollwright.web.shell.Shown.Thing;

/// A branch, with the fields of its form. See [Shown].
public final class BranchThing {
    private BranchThing() {}

    /// A branch, by the name bookings use.
    static Thing branch(String name, Optional<Branch> known) {
        List<Field> fields = known.map(branch -> List.of(
                        Field.line("bank", t("tillbranches.bank"), branch.bank()),
                        Field.line("branch", t("tillbranches.branch"), branch.branch()),
                        tick("gives", t("tillbranches.gives-boxes-or-rolls"), branch.gives()),
                        tick("takes", t("tillbranches.takes-coins-back"), branch.takes()),
                        new Field(
                                "open",
                                t("tillbranches.opens-on"),
                                branch.open().stream().map(DayOfWeek::name).collect(Collectors.joining(",")),
                                Kind.FIXED),
                        Field.line("lead", t("tillbranches.days-to-pick-up"), branch.leadDays()),
                        Field.line(
                                "boxfee",
                                t("tillbranches.fee-for-a-box"),
                                branch.boxFee().toPlainString()),
                        Field.line(
                                "percent",
                                t("tillbranches.percent-kept-for-counting"),
                                branch.countPercent().toPlainString()),
                        Field.line("road", t("tillbranches.road-from-home"), Manner.roadField(branch.kilometres())),
                        Field.line(
                                "bearing",
                                t("tillbranches.which-way"),
                                branch.bearing().word()),
                        Field.line("note", t("tillbranches.note"), branch.note()),
                        tick("closed", t("tillbranches.closed-for-good"), branch.closed())))
                .orElse(List.of());
        return new Thing(
                "branch " + name,
                name,
                "/till/branches",
                event -> switch (event) {
                    case TillEvent.BranchWritten one -> one.branch().name().equals(name);
                    case TillEvent.BranchRemoved gone -> gone.branch().equals(name);
                    default -> false;
                },
                fields);
    }

    private static Field tick(String name, String label, boolean yes) {
        return new Field(name, label, yes ? "yes" : "", Kind.TICK);
    }
}
