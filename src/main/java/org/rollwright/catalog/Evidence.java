package org.rollwright.catalog;

/// What a row of the catalogue stands on: its existence on one source, its mintage on another.
///
/// @param source title of what says that the coin exists
/// @param kind of that source
/// @param mintageSource title of what gives the mintage; the row's own source where no other is named, blank
///     where no mintage is given
/// @param mintageKind kind of that source; [SourceKind#MEMORY] where no mintage is given
/// @param precision how the figure counts
/// @param otherMintage figures of other sources and why the one given was chosen; blank when none differs
public record Evidence(
        String source,
        SourceKind kind,
        String mintageSource,
        SourceKind mintageKind,
        Precision precision,
        String otherMintage) {

    /// Whether another source has another figure.
    public boolean disputed() {
        return !otherMintage.isEmpty();
    }
}
