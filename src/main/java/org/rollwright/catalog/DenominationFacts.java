package org.rollwright.catalog;

import java.util.List;
import org.joda.money.Money;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;

/// What a bank's wrapping says of a denomination.
///
/// @param name in full: `one cent`
/// @param words what a hunter types or says for it
/// @param face face value of one coin
/// @param coinsPerRoll coins in a full roll
/// @param rollsPerBox rolls in a full box, null where no figure is known
public record DenominationFacts(
        Denomination denomination,
        String name,
        List<String> words,
        Money face,
        int coinsPerRoll,
        @Nullable Integer rollsPerBox,
        String source) {
    public DenominationFacts {
        words = List.copyOf(words);
    }

    /// Coins in a full box; fifty rolls where no figure is known (common practice).
    public long coinsPerBox() {
        Integer rolls = rollsPerBox;
        return (long) coinsPerRoll * (rolls == null ? 50 : rolls);
    }
}
