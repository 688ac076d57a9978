package org.rollwright.album;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.journal.Event;

/// What happens to albums.
public sealed interface AlbumEvent extends Event {
    /// An album was made or its rule rewritten.
    record AlbumDefined(AlbumId album, String name, String rule) implements AlbumEvent {}

    /// An album was given up; its coins stay owned.
    record AlbumRemoved(AlbumId album) implements AlbumEvent {}

    /// Coins went into holes or out of them, all at once.
    record HolesFilled(List<HoleChange> changes) implements AlbumEvent {
        public HolesFilled {
            changes = List.copyOf(changes);
        }
    }

    /// The order in which coins are compared was changed.
    record PolicyChanged(String policy) implements AlbumEvent {}

    /// One hole's new content.
    ///
    /// @param hole the hole's key within its album
    /// @param coin null when the hole was emptied
    record HoleChange(AlbumId album, String hole, @Nullable CoinRef coin) {}
}
