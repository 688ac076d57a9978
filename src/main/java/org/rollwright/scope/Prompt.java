package org.rollwright.scope;

import static org.rollwright.text.Texts.labelled;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.rollwright.coin.Identity;

/// What deserves a look on a coin just entered.
///
/// @param chance that a coin of this date is it, 0 to 1
/// @param worthASecond chance times worth by seconds of the first look, dollars a second; for the order only
public record Prompt(Variety variety, double chance, double worthASecond) {
    /// What to check on a coin, the most worthwhile first.
    ///
    /// @param checked coins of this date and mint checked in vain, by variety
    public static List<Prompt> of(VarietyBook book, Identity coin, Map<String, Integer> checked) {
        return book.of(coin).stream()
                .map(variety -> {
                    double chance = Investigation.chance(variety, checked.getOrDefault(variety.key(), 0));
                    return new Prompt(variety, chance, chance * variety.worth() / variety.firstLookSeconds());
                })
                .sorted(Comparator.comparingDouble(Prompt::worthASecond).reversed())
                .toList();
    }

    /// One line: where to look and what for.
    public String sentence() {
        return labelled(
                variety.where(),
                variety.name() + ", " + variety.markers().getFirst().text());
    }

    /// About one in how many coins of the date.
    public long oneIn() {
        return Math.round(1 / chance);
    }
}
