package org.rollwright.web.albums;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.album.AlbumIndex;
import org.rollwright.album.AlbumShelves;
import org.rollwright.album.AlbumState;
import org.rollwright.album.HoleAlert;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.OwnedCoin;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.desk.State;
import org.rollwright.hunt.Find;
import org.rollwright.odds.OwnRates;
import org.rollwright.web.shell.Bench;

/// The albums as the pages need them: worked out once for each state of the journal. Thread-safe.
public final class AlbumShelf {
    private record Made(long at, AlbumIndex index) {}

    private record Rated(long at, OwnRates rates) {}

    private final Bench bench;
    private final AlbumShelves shelves;
    private volatile @Nullable Made made;
    private volatile @Nullable Rated rated;

    public AlbumShelf(Bench bench) {
        this.bench = bench;
        this.shelves = new AlbumShelves(bench.catalog(), Country.US);
    }

    public AlbumShelves shelves() {
        return shelves;
    }

    /// What the hunter's own boxes say of issues.
    public OwnRates rates(State book) {
        Rated known = rated;
        if (known == null || known.at != book.last()) {
            known = new Rated(book.last(), new OwnRates(book.hunt(), bench.catalog()));
            rated = known;
        }
        return known.rates;
    }

    private AlbumIndex index(State book) {
        Made known = made;
        if (known != null && known.at == book.last()) {
            return known.index;
        }
        List<AlbumState> states = shelves.states(book.album(), book.holdings());
        java.util.Map<CoinRef, OwnedCoin> lying = new java.util.HashMap<>();
        states.forEach(state -> state.content()
                .values()
                .forEach(ref -> book.holdings().coin(ref).ifPresent(coin -> lying.put(ref, coin))));
        AlbumIndex index = new AlbumIndex(
                states, AlbumShelves.policy(book.album()), ref -> java.util.Optional.ofNullable(lying.get(ref)));
        made = new Made(book.last(), index);
        return index;
    }

    /// What a coin just being typed would do.
    public List<HoleAlert> alerts(CoinDescription facts) {
        return bench.desk().read(this::index).alerts(facts);
    }

    /// What a find already logged does; where it lies in an album, that is said instead.
    public List<HoleAlert> alerts(State book, Find find) {
        AlbumIndex index = index(book);
        List<HoleAlert> alerts = new ArrayList<>();
        for (HoleAlert alert : index.alerts(find.facts())) {
            boolean liesThere = index.albums().stream()
                    .filter(album -> album.id().equals(alert.album()))
                    .map(album -> album.content().get(alert.hole().key()))
                    .anyMatch(ref -> ref != null && ref.find() == find.id().number());
            alerts.add(
                    liesThere
                            ? new HoleAlert(
                                    alert.album(),
                                    alert.albumName(),
                                    alert.hole(),
                                    HoleAlert.Kind.HAVE,
                                    t(
                                            "album.lies-in",
                                            alert.albumName(),
                                            alert.hole().key()))
                            : alert);
        }
        return alerts;
    }
}
