package org.rollwright.album;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.OwnedCoin;
import org.rollwright.coin.CoinDescription;

/// Answers at once what a coin would do for the albums. Made anew when albums change; thread-safe.
public final class AlbumIndex {
    private final List<AlbumState> albums;
    private final Policy policy;
    private final Function<CoinRef, Optional<OwnedCoin>> coins;

    /// @param coins finds the facts of a coin in a hole
    public AlbumIndex(List<AlbumState> albums, Policy policy, Function<CoinRef, Optional<OwnedCoin>> coins) {
        this.albums = List.copyOf(albums);
        this.policy = policy;
        this.coins = coins;
    }

    public List<AlbumState> albums() {
        return albums;
    }

    /// What a coin would do, album by album; nothing for albums it does not belong in.
    public List<HoleAlert> alerts(CoinDescription facts) {
        List<HoleAlert> alerts = new ArrayList<>();
        for (AlbumState album : albums) {
            Places.Fit fit = album.places().fit(facts);
            fit.holes().forEach(hole -> alerts.add(alert(album, hole, facts)));
            fit.plain().stream()
                    .filter(hole -> isEmpty(album, hole))
                    .forEach(hole -> alerts.add(new HoleAlert(
                            album.id(),
                            album.name(),
                            hole,
                            HoleAlert.Kind.MAY_UPGRADE,
                            t("album.plain-one-wanted", album.name() + ", " + hole.key()))));
        }
        return alerts;
    }

    private boolean isEmpty(AlbumState album, Hole hole) {
        CoinRef there = album.content().get(hole.key());
        return there == null || coins.apply(there).isEmpty();
    }

    private HoleAlert alert(AlbumState album, Hole hole, CoinDescription facts) {
        String where = album.name() + ", " + hole.key();
        CoinRef there = album.content().get(hole.key());
        Optional<OwnedCoin> coin = there == null ? Optional.empty() : coins.apply(there);
        if (coin.isEmpty()) {
            return new HoleAlert(album.id(), album.name(), hole, HoleAlert.Kind.FILLS, t("album.fills-a-hole", where));
        }
        return switch (policy.compare(facts, coin.get().description())) {
            case Policy.Verdict.Better better ->
                new HoleAlert(
                        album.id(),
                        album.name(),
                        hole,
                        HoleAlert.Kind.UPGRADES,
                        t("album.upgrade", where, better.reason()));
            case Policy.Verdict.Look look ->
                new HoleAlert(
                        album.id(),
                        album.name(),
                        hole,
                        HoleAlert.Kind.MAY_UPGRADE,
                        t("album.may-upgrade", where, look.reason()));
            case Policy.Verdict.Same same ->
                new HoleAlert(
                        album.id(), album.name(), hole, HoleAlert.Kind.HAVE, t("album.filled-with-one-as-good", where));
            case Policy.Verdict.Worse worse ->
                new HoleAlert(
                        album.id(),
                        album.name(),
                        hole,
                        HoleAlert.Kind.HAVE,
                        t("album.filled-with-a-better-one", where, worse.reason()));
        };
    }
}
