package org.rollwright.web.boxes;

import static org.rollwright.text.Texts.t;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.web.shell.Shown.Field;
import org.rollwright.web.shell.Shown.Thing;

/// What is known of a box, with the fields of its form. See [Shown].
public final class BoxThing {
    private BoxThing() {}

    /// What is known of a box.
    public static Thing box(BoxId id, BoxDetails details) {
        return new Thing(
                "box " + id.number(),
                details.label(),
                "/boxes/" + id.number(),
                event -> event instanceof HuntEvent.BoxChanged changed
                        && changed.box().equals(id),
                List.of(
                        Field.line("label", t("box.name"), details.label()),
                        Field.line("rolls", t("box.rolls"), details.rolls()),
                        Field.line("bank", t("box.bank"), details.bank()),
                        Field.line("branch", t("box.branch"), details.branch()),
                        Field.line("wrap", t("box.wrapped-by"), details.wrap()),
                        Field.line("stamp", t("box.stamp-or-seal"), details.stamp()),
                        Field.line("sisters", t("box.sister-boxes-share-a-word"), details.sisters()),
                        Field.line("ordered", t("box.ordered"), day(details.ordered())),
                        Field.line("pickedUp", t("box.picked-up"), day(details.pickedUp())),
                        Field.line("returned", t("box.returned"), day(details.returned())),
                        Field.line("returnedTo", t("box.returned-to"), details.returnedTo()),
                        Field.line("note", t("box.note"), details.note())));
    }

    private static String day(@Nullable LocalDate day) {
        return day == null ? "" : day.toString();
    }
}
