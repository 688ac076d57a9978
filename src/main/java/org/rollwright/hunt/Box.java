package org.rollwright.hunt;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Mass;

/// A box, its rolls and what was seen in it. Part of the [Logbook]: read it only inside [Desk#read].
public final class Box {
    /// Enders seen before opening.
    public record Enders(int matching, int visible) {}

    /// A weight read.
    public record Weight(Instant at, Mass mass, String what) {}

    private final BoxId id;
    private final Denomination denomination;
    BoxDetails details;

    @Nullable
    HuntId hunt;

    final NavigableMap<Integer, Roll> rolls = new TreeMap<>();
    final List<Enders> enders = new ArrayList<>();
    final List<Weight> weights = new ArrayList<>();
    final FindList finds = new FindList();
    int foundCoins;

    /// The scope it was added in, and how many changes of other scopes lie on it: they would hang in the air if
    /// it were taken back.
    long scope;

    int changedElsewhere;
    Event.@Nullable BoxTallied earlier;

    Box(BoxId id, Denomination denomination, BoxDetails details) {
        this.id = id;
        this.denomination = denomination;
        this.details = details;
    }

    public BoxId id() {
        return id;
    }

    public Denomination denomination() {
        return denomination;
    }

    public BoxDetails details() {
        return details;
    }

    /// The hunt that searches it, empty while it only waits.
    public Optional<HuntId> hunt() {
        return Optional.ofNullable(hunt);
    }

    /// Rolls touched so far, by number.
    public NavigableMap<Integer, Roll> rolls() {
        return Collections.unmodifiableNavigableMap(rolls);
    }

    public List<Enders> enders() {
        return Collections.unmodifiableList(enders);
    }

    public List<Weight> weights() {
        return Collections.unmodifiableList(weights);
    }

    /// What is known of a box searched before this journal.
    public Optional<Event.BoxTallied> earlier() {
        return Optional.ofNullable(earlier);
    }

    /// Whether anything of it was searched, here or before this journal.
    public boolean touched() {
        return foundCoins > 0 || !rolls.isEmpty() || earlier != null;
    }

    /// Numbers of its finds in the order logged.
    public List<FindId> finds() {
        return finds.ids();
    }

    /// Coins found, counting each coin of a find.
    public int foundCoins() {
        return foundCoins;
    }

    /// How many rolls were searched, the one in hand included.
    public long searchedRolls() {
        return rolls.values().stream().filter(Roll::searched).count();
    }

    /// Coins in the rolls searched; for a parcel without rolls all of it once a find or a weight shows it was
    /// opened.
    public long searchedCoins() {
        long inRolls = rolls.values().stream()
                .filter(Roll::searched)
                .mapToLong(roll -> roll.coins(details.coinsPerRoll()))
                .sum();
        Event.BoxTallied before = earlier;
        if (before != null) {
            return inRolls + before.coins();
        }
        boolean loose = details.rolls() == 0 && details.looseCoins() > 0 && hunt != null;
        return inRolls + (loose ? details.looseCoins() : 0);
    }
}
