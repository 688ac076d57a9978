package org.rollwright.hunt;

import static org.rollwright.text.Texts.t;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/// What is known of a box besides its coins. Texts are blank where nothing was said.
///
/// @param label the hunter's own name or number for it
/// @param form box, rolls, bag or jar
/// @param rolls full rolls it should hold; 0 for loose coins
/// @param coinsPerRoll coins a full roll should hold
/// @param looseCoins coins outside rolls: all of a jar
/// @param bank where it came from
/// @param wrap machine, customer, bank or other
/// @param stamp printed number, seal or shipment mark
/// @param sisters a word shared by boxes of one source and shipment
/// @param ordered date of the order, null if unknown
/// @param pickedUp date of the pick-up, null if unknown
/// @param returned date of the return, null while it is here
/// @param returnedTo where the rest went
public record BoxDetails(
        String label,
        Form form,
        int rolls,
        int coinsPerRoll,
        int looseCoins,
        String bank,
        String branch,
        String wrap,
        String stamp,
        String sisters,
        @Nullable LocalDate ordered,
        @Nullable LocalDate pickedUp,
        @Nullable LocalDate returned,
        String returnedTo,
        String note) {

    /// What kind of parcel it is.
    public enum Form {
        BOX,
        ROLLS,
        BAG,
        JAR
    }

    public BoxDetails {
        if (rolls < 0 || looseCoins < 0 || coinsPerRoll < 0) {
            throw new IllegalArgumentException("a box cannot hold fewer than no coins");
        }
    }

    /// A full box of which nothing else is known.
    public static BoxDetails plain(String label, int rolls, int coinsPerRoll) {
        return new BoxDetails(label, Form.BOX, rolls, coinsPerRoll, 0, "", "", "", "", "", null, null, null, "", "");
    }

    /// Who wrapped it, in the word a person reads; another word than ours stays as it was typed.
    public String wrapSaid() {
        return switch (wrap) {
            case "machine" -> t("hunt.wrap-machine");
            case "customer" -> t("hunt.wrap-customer");
            case "bank" -> t("hunt.wrap-bank");
            case "mixed" -> t("hunt.wrap-mixed");
            default -> wrap;
        };
    }

    /// Coins it should hold when every roll is full.
    public long nominalCoins() {
        return (long) rolls * coinsPerRoll + looseCoins;
    }

    /// The same parcel, gone back.
    public BoxDetails returnedOn(LocalDate day, String where) {
        return with(label, day, where);
    }

    /// The same parcel under another label: for several boxes described together.
    public BoxDetails withLabel(String newLabel) {
        return with(newLabel, returned, returnedTo);
    }

    private BoxDetails with(String newLabel, @Nullable LocalDate goneBack, String where) {
        return new BoxDetails(
                newLabel,
                form,
                rolls,
                coinsPerRoll,
                looseCoins,
                bank,
                branch,
                wrap,
                stamp,
                sisters,
                ordered,
                pickedUp,
                goneBack,
                where,
                note);
    }
}
