package org.rollwright.album;

/// What a coin just seen would do for an album.
///
/// @param sentence for a person, with album and hole named
public record HoleAlert(AlbumId album, String albumName, Hole hole, Kind kind, String sentence) {
    /// How good the news is.
    public enum Kind {
        /// The hole is empty.
        FILLS,
        /// It is better than the coin that lies there.
        UPGRADES,
        /// It may be better; somebody must look.
        MAY_UPGRADE,
        /// The hole is filled with one as good.
        HAVE
    }
}
