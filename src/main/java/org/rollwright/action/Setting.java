package org.rollwright.action;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import org.rollwright.album.AlbumShelves;
import org.rollwright.catalog.Catalog;
import org.rollwright.scope.VarietyShelf;

/// With what, where and when something is done.
///
/// @param zone where the hunter's days begin
/// @param milesMeant whether a road typed without its unit is in miles
public record Setting(
        Catalog catalog, VarietyShelf varieties, AlbumShelves albums, Instant now, ZoneId zone, boolean milesMeant) {
    /// The hunter's day.
    public LocalDate today() {
        return LocalDate.ofInstant(now, zone);
    }

    /// The same at another moment.
    public Setting at(Instant moment) {
        return new Setting(catalog, varieties, albums, moment, zone, milesMeant);
    }
}
