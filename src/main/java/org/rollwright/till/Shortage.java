package org.rollwright.till;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.joda.money.CurrencyUnit;
import org.rollwright.catalog.Catalog;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.Roll;

/// Rolls of a box that held fewer or more coins than a full one.
///
/// @param source where the box came from, blank when not noted
/// @param rolls the rolls as `5 (48)`
/// @param coins more (or, negative, fewer) than full rolls
/// @param amount the same in money
/// @param counted rolls of the box that were counted or taken for full
public record Shortage(
        long box, String label, String source, List<String> rolls, long coins, BigDecimal amount, long counted) {
    public Shortage {
        rolls = List.copyOf(rolls);
    }

    /// Every box with such rolls, in the order of the record.
    public static List<Shortage> of(HuntBook book, Catalog catalog, CurrencyUnit currency) {
        List<Shortage> all = new ArrayList<>();
        for (Box box : book.boxes()) {
            BoxDetails details = box.details();
            List<String> rolls = new ArrayList<>();
            long coins = 0;
            for (Roll roll : box.rolls()) {
                int difference = roll.coins(details.coinsPerRoll()) - details.coinsPerRoll();
                if (difference != 0 && roll.number() <= details.rolls()) {
                    rolls.add(roll.number() + " (" + roll.coins(details.coinsPerRoll()) + ")");
                    coins += difference;
                }
            }
            long sum = coins;
            if (!rolls.isEmpty()) {
                catalog.face(box.denomination(), currency)
                        .ifPresent(face -> all.add(new Shortage(
                                box.id().number(),
                                details.label(),
                                Branch.nameOf(details.bank(), details.branch()),
                                rolls,
                                sum,
                                face.multiply(BigDecimal.valueOf(sum)),
                                box.rolls().size())));
            }
        }
        return all;
    }
}
