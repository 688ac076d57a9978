package org.rollwright.entry.sheet.take;

import java.math.BigDecimal;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;

/// Roll and box sizes by what a sheet calls a denomination: `US 25 cents`.
public record Rolls(Catalog catalog) {
    private static final Map<String, String> KEYS = Map.of(
            "1 cent", "cent",
            "5 cents", "nickel",
            "10 cents", "dime",
            "25 cents", "quarter",
            "50 cents", "half",
            "1 dollar", "dollar",
            "2 dollars", "two-dollars");

    private static final BigDecimal USUAL = BigDecimal.valueOf(50);

    /// The catalogue's word for a denomination as sheets are read: `cent` for `1 cent`.
    public static Optional<String> key(String denomination) {
        return Optional.ofNullable(KEYS.get(denomination));
    }

    /// The catalogue's denomination of a sheet's.
    Optional<DenominationFacts> facts(String denomination) {
        return key(denomination.length() < 4 ? "" : denomination.substring(3))
                .flatMap(key -> catalog.facts(new Denomination(new Country(denomination.substring(0, 2)), key)));
    }

    /// Coins in a roll, 0 when that is not known.
    int coins(String denomination) {
        return facts(denomination).map(DenominationFacts::coinsPerRoll).orElse(0);
    }

    /// Rolls in a box; fifty where the catalogue has no figure (common practice).
    @Nullable
    BigDecimal box(String denomination) {
        return facts(denomination)
                .map(facts -> facts.rollsPerBox() == null ? USUAL : BigDecimal.valueOf(facts.rollsPerBox()))
                .orElse(null);
    }
}
