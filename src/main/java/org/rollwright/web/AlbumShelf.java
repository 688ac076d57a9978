package org.rollwright.web;

import java.util.List;
import org.rollwright.album.HoleAlert;
import org.rollwright.hunt.*;

final class AlbumShelf {
    AlbumShelf(Bench b) {
        java.util.Objects.requireNonNull(b);
    }

    List<HoleAlert> alerts(Logbook book, Find find) {
        java.util.Objects.requireNonNull(book);
        java.util.Objects.requireNonNull(find);
        return List.of();
    }

    List<HoleAlert> alerts(org.rollwright.coin.CoinFacts facts) {
        java.util.Objects.requireNonNull(facts);
        return List.of();
    }
}
