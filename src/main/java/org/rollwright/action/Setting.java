package org.rollwright.action;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import org.rollwright.catalog.Catalog;

/// Where and when something is done.
///
/// @param milesMeant whether a road typed without its unit is in miles
/// @param zone where the hunter's days begin
public record Setting(Catalog catalog, Instant now, ZoneId zone, boolean milesMeant) {
    /// The hunter's day.
    public LocalDate today() {
        return LocalDate.ofInstant(now, zone);
    }
}
