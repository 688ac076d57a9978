package org.rollwright.till;

import static org.rollwright.text.Texts.t;

import org.rollwright.journal.Word;

/// Where face value can be.
public enum Account implements Word.Listed {
    /// Bank accounts and everything else the hunter draws on; negative by what is out.
    OUTSIDE,
    /// Notes in hand.
    CASH,
    /// Ordered and paid, not yet here.
    IN_TRANSIT,
    /// In boxes, searched or not.
    BOXES,
    /// Coins that stay.
    KEPT,
    /// Searched and waiting to go back.
    TO_RETURN,
    /// Missing from rolls, boxes and returns; negative when there was more than said.
    SHORT,
    /// Paid for counting, ordering and the like.
    FEES,
    /// Face value of finds that were sold, given away, spent or lost.
    LEFT;

    @Override
    public String word() {
        return name();
    }

    public String words() {
        return switch (this) {
            case OUTSIDE -> t("till.drawn-from-outside");
            case CASH -> t("till.cash-in-hand");
            case IN_TRANSIT -> t("till.in-transit");
            case BOXES -> t("till.in-boxes");
            case KEPT -> t("till.kept");
            case TO_RETURN -> t("till.to-be-returned");
            case SHORT -> t("till.short");
            case FEES -> t("till.fees");
            case LEFT -> t("till.left-with-coins-sold");
        };
    }
}
