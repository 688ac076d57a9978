package org.rollwright.hunt;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Mass;
import org.rollwright.journal.Growing;

/// A box, its rolls and what was seen in it.
///
/// @param searchedIn the hunt that searches it, null while it only waits
/// @param rolls rolls touched so far, by number
/// @param finds numbers of its finds in the order logged
/// @param foundCoins coins found, counting each coin of a find
/// @param tallied what is known of a box searched before this journal, null of any other
public record Box(
        BoxId id,
        Denomination denomination,
        BoxDetails details,
        @Nullable HuntId searchedIn,
        List<Roll> rolls,
        List<Enders> enders,
        List<Weight> weights,
        List<FindId> finds,
        int foundCoins,
        HuntEvent.@Nullable BoxTallied tallied) {
    /// Enders seen before opening.
    public record Enders(int matching, int visible) {}

    /// A weight read.
    public record Weight(Instant at, Mass mass, String what) {}

    public Box {
        rolls = Growing.list(rolls);
        enders = Growing.list(enders);
        weights = Growing.list(weights);
        finds = Growing.list(finds);
    }

    static Box added(HuntEvent.BoxAdded added) {
        return new Box(
                added.box(),
                added.denomination(),
                added.details(),
                null,
                Growing.list(),
                Growing.list(),
                Growing.list(),
                Growing.list(),
                0,
                null);
    }

    /// The hunt that searches it, empty while it only waits.
    public Optional<HuntId> hunt() {
        return Optional.ofNullable(searchedIn);
    }

    /// What is known of a box searched before this journal.
    public Optional<HuntEvent.BoxTallied> earlier() {
        return Optional.ofNullable(tallied);
    }

    /// Whether it waits to be searched: no hunt has it, it was not searched before this journal, and it has not gone
    /// back.
    public boolean waits() {
        return searchedIn == null && tallied == null && details.returned() == null;
    }

    /// Whether it waits and can be opened; one that is only ordered is not here yet.
    public boolean isHere() {
        return waits() && (details.pickedUp() != null || details.ordered() == null);
    }

    /// A roll touched so far.
    public @Nullable Roll roll(int number) {
        int at = place(number);
        return at < 0 ? null : rolls.get(at);
    }

    /// Where a roll stands, or where it would, as in [java.util.Collections#binarySearch].
    private int place(int number) {
        int low = 0;
        int high = rolls.size() - 1;
        if (high >= 0 && rolls.get(high).number() < number) {
            // turned to one after the other
            return -high - 2;
        }
        while (low <= high) {
            int middle = (low + high) >>> 1;
            int there = rolls.get(middle).number();
            if (there == number) {
                return middle;
            }
            if (there < number) {
                low = middle + 1;
            } else {
                high = middle - 1;
            }
        }
        return -low - 1;
    }

    /// Whether anything of it was searched, here or before this journal.
    public boolean touched() {
        return foundCoins > 0 || !rolls.isEmpty() || tallied != null;
    }

    /// How many rolls were searched; the one in hand is none of them yet.
    public long searchedRolls() {
        return rolls.stream().filter(Roll::searched).count();
    }

    /// Coins in the rolls searched; for a parcel without rolls all of it once a find or a weight shows it was
    /// opened.
    public long searchedCoins() {
        long inRolls = rolls.stream()
                .filter(Roll::searched)
                .mapToLong(roll -> roll.coins(details.coinsPerRoll()))
                .sum();
        HuntEvent.BoxTallied before = tallied;
        if (before != null) {
            return inRolls + before.coins();
        }
        boolean loose = details.rolls() == 0 && details.looseCoins() > 0 && searchedIn != null;
        return inRolls + (loose ? details.looseCoins() : 0);
    }

    Box changed(BoxDetails now) {
        return new Box(id, denomination, now, searchedIn, rolls, enders, weights, finds, foundCoins, tallied);
    }

    Box searchedIn(HuntId hunt) {
        return new Box(id, denomination, details, hunt, rolls, enders, weights, finds, foundCoins, tallied);
    }

    Box with(Roll roll) {
        int at = place(roll.number());
        List<Roll> now = at < 0 ? Growing.plus(rolls, -at - 1, roll) : Growing.with(rolls, at, roll);
        return new Box(id, denomination, details, searchedIn, now, enders, weights, finds, foundCoins, tallied);
    }

    Box with(Enders seen) {
        return observed(Growing.plus(enders, seen), weights);
    }

    Box with(Weight weight) {
        return observed(enders, Growing.plus(weights, weight));
    }

    private Box observed(List<Enders> itsEnders, List<Weight> itsWeights) {
        return new Box(id, denomination, details, searchedIn, rolls, itsEnders, itsWeights, finds, foundCoins, tallied);
    }

    Box holding(List<FindId> now, int coins) {
        return new Box(id, denomination, details, searchedIn, rolls, enders, weights, now, coins, tallied);
    }

    Box tallied(HuntEvent.BoxTallied sum) {
        int coins = foundCoins - (tallied == null ? 0 : tallied.found()) + sum.found();
        return new Box(id, denomination, details, searchedIn, rolls, enders, weights, finds, coins, sum);
    }
}
