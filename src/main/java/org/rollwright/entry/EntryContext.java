package org.rollwright.entry;

import java.util.List;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Selection;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;

/// What a line is read against.
///
/// @param denomination of the box in hand; its country is the hunter's own
/// @param watches what is being watched for
/// @param thisYear no coin bears a later year
public record EntryContext(Catalog catalog, Denomination denomination, List<Selection> watches, int thisYear) {
    public EntryContext {
        watches = List.copyOf(watches);
    }

    Country home() {
        return denomination.country();
    }
}
