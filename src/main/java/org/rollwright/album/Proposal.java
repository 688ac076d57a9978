package org.rollwright.album;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.OwnedCoin;

/// What comparing coins with albums suggests. Nothing changes before the user accepts it.
///
/// @param looks coins somebody should hold beside the one in the hole
/// @param untold coins that might fill a hole once their kind is told
/// @param varieties coins of a variety whose date's plain hole is empty
public record Proposal(List<Move> moves, List<Look> looks, List<Untold> untold, List<Untold> varieties) {
    public Proposal {
        moves = List.copyOf(moves);
        looks = List.copyOf(looks);
        untold = List.copyOf(untold);
        varieties = List.copyOf(varieties);
    }

    /// One coin into one hole.
    ///
    /// @param group moves of one group depend on each other and are accepted together
    /// @param displaced the coin that lay there, null for an addition
    /// @param displacedTo where that coin goes: another hole in words, or `duplicates`; blank for an addition
    /// @param reason why it is better; blank for an addition
    public record Move(
            int group,
            AlbumId album,
            String albumName,
            Hole hole,
            OwnedCoin coin,
            @Nullable OwnedCoin displaced,
            String displacedTo,
            String reason) {

        /// Whether the hole was empty before.
        public boolean isAddition() {
            return displaced == null;
        }
    }

    /// A coin that may be better than the one in the hole.
    public record Look(AlbumId album, String albumName, Hole hole, OwnedCoin coin, OwnedCoin there, String reason) {}

    /// A coin whose kind has not been told, or which is of a variety, and empty holes it may belong to.
    public record Untold(AlbumId album, String albumName, List<Hole> holes, OwnedCoin coin) {}

    /// Numbers of the groups, in order.
    public List<Integer> groups() {
        return moves.stream().map(Move::group).distinct().toList();
    }

    /// What a group would change, in the record's own words: a page sends it back, so that what is accepted is what was
    /// shown.
    public String mark(int group) {
        return moves.stream()
                .filter(move -> move.group == group)
                .map(move -> move.album.number() + "/" + move.hole.key() + "=" + move.coin.ref()
                        + (move.displaced == null ? "" : "<" + move.displaced.ref()))
                .collect(Collectors.joining("|"));
    }

    /// The changes to record for some groups of moves.
    ///
    /// @param groups numbers of the groups accepted
    public List<AlbumEvent.HoleChange> accept(Set<Integer> groups) {
        List<AlbumEvent.HoleChange> changes = new ArrayList<>();
        for (Move move : moves) {
            if (groups.contains(move.group)) {
                changes.add(new AlbumEvent.HoleChange(move.album, move.hole.key(), move.coin.ref()));
            }
        }
        return changes;
    }

    /// The changes of all groups.
    public List<AlbumEvent.HoleChange> acceptAll() {
        return accept(moves.stream().map(Move::group).collect(Collectors.toSet()));
    }
}
