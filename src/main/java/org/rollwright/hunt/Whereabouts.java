package org.rollwright.hunt;

import static org.rollwright.text.Texts.t;

import org.jspecify.annotations.Nullable;

/// Where a find lay, in words.
final class Whereabouts {
    private Whereabouts() {}

    static String of(@Nullable Box box, Find find) {
        String label = box == null ? find.box().toString() : box.details().label();
        return find.roll() == 0 ? label : t("hunt.box-and-roll", label, find.roll());
    }
}
