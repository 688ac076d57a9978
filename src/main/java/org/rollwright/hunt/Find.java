package org.rollwright.hunt;

import java.time.Instant;
import org.rollwright.coin.CoinDescription;

/// One find: one coin, or several alike found together.
///
/// @param ordinal which find of its hunt it is, from 1; never reused, so that `f12` keeps its meaning
/// @param roll from 1; 0 when it lay in no roll
/// @param count coins alike, 1 or more
/// @param ender whether it was visible at the end of a roll
/// @param at when it was logged
public record Find(
        FindId id,
        HuntId hunt,
        int ordinal,
        BoxId box,
        int roll,
        CoinDescription facts,
        int count,
        boolean ender,
        Disposition disposition,
        Instant at) {

    public Find {
        if (count < 1) {
            throw new IllegalArgumentException("a find is at least one coin, was " + count);
        }
        if (roll < 0) {
            throw new IllegalArgumentException("rolls count from 1, was " + roll);
        }
    }

    Find corrected(CoinDescription newFacts, int newCount, boolean newEnder) {
        return new Find(id, hunt, ordinal, box, roll, newFacts, newCount, newEnder, disposition, at);
    }

    Find moved(BoxId newBox, int newRoll) {
        return new Find(id, hunt, ordinal, newBox, newRoll, facts, count, ender, disposition, at);
    }

    Find disposed(Disposition newDisposition) {
        return new Find(id, hunt, ordinal, box, roll, facts, count, ender, newDisposition, at);
    }

    Find part(FindId newId, int newOrdinal, int coins) {
        return new Find(newId, hunt, newOrdinal, box, roll, facts, coins, ender, disposition, at);
    }
}
