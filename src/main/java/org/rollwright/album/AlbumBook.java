package org.rollwright.album;

import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.Holdings;
import org.rollwright.coin.Refusal;
import org.rollwright.journal.Contradiction;
import org.rollwright.journal.Growing;

/// The albums, what lies in them, and by what order coins are compared. Immutable.
public final class AlbumBook {
    /// A book in which nothing is written.
    public static final AlbumBook EMPTY = new AlbumBook(Growing.map(), "", 0);

    private final Map<AlbumId, Album> albums;
    private final String policy;

    /// The last number given, also to an album taken back at present.
    private final long lastAlbum;

    private AlbumBook(Map<AlbumId, Album> albums, String policy, long lastAlbum) {
        this.albums = albums;
        this.policy = policy;
        this.lastAlbum = lastAlbum;
    }

    /// Albums by number.
    public List<Album> albums() {
        return albums.values().stream()
                .sorted(Comparator.comparingLong(album -> album.id().number()))
                .toList();
    }

    public Optional<Album> album(AlbumId id) {
        return Optional.ofNullable(albums.get(id));
    }

    /// Where coins lie, in words: `Wheats, 1944-D`.
    public Map<CoinRef, String> lying() {
        Map<CoinRef, String> lying = new HashMap<>();
        albums().forEach(album -> album.holes().forEach((hole, coin) -> lying.put(coin, album.name() + ", " + hole)));
        return lying;
    }

    /// The comparison policy as the user last wrote it, blank when never changed.
    public String policy() {
        return policy;
    }

    public AlbumId nextAlbum() {
        return new AlbumId(lastAlbum + 1);
    }

    /// Why an event cannot be taken.
    public Optional<Refusal> refuse(AlbumEvent event, Holdings coins) {
        return AlbumChecks.refuse(this, event, coins);
    }

    /// The book after an event.
    ///
    /// @throws Contradiction when the event speaks of an album that is not here
    public AlbumBook apply(AlbumEvent event) {
        AlbumBook now = noted(event);
        return switch (event) {
            case AlbumEvent.AlbumDefined defined -> {
                Album known = albums.get(defined.album());
                yield now.with(
                        known == null
                                ? new Album(defined.album(), defined.name(), defined.rule(), Map.of())
                                : known.told(defined.name(), defined.rule()));
            }
            case AlbumEvent.AlbumRemoved removed ->
                now.with(Growing.without(albums, known(removed.album()).id()));
            case AlbumEvent.HolesFilled filled -> now.filled(filled.changes());
            case AlbumEvent.PolicyChanged changed -> new AlbumBook(albums, changed.policy(), lastAlbum);
        };
    }

    /// The book with the numbers that an event gave, whether or not the event counts at present.
    public AlbumBook noted(AlbumEvent event) {
        return event instanceof AlbumEvent.AlbumDefined defined
                        && defined.album().number() > lastAlbum
                ? new AlbumBook(albums, policy, defined.album().number())
                : this;
    }

    private AlbumBook filled(List<AlbumEvent.HoleChange> changes) {
        Map<AlbumId, Map<String, CoinRef>> holes = new LinkedHashMap<>();
        for (AlbumEvent.HoleChange change : changes) {
            Map<String, CoinRef> of = holes.computeIfAbsent(
                    change.album(), id -> new TreeMap<>(known(id).holes()));
            CoinRef coin = change.coin();
            if (coin == null) {
                of.remove(change.hole());
            } else {
                of.put(change.hole(), coin);
            }
        }
        AlbumBook now = this;
        for (Map.Entry<AlbumId, Map<String, CoinRef>> album : holes.entrySet()) {
            now = now.with(known(album.getKey()).filled(album.getValue()));
        }
        return now;
    }

    private Album known(AlbumId id) {
        Album album = albums.get(id);
        if (album == null) {
            throw new Contradiction("there is no album " + id);
        }
        return album;
    }

    private AlbumBook with(Album album) {
        return with(Growing.with(albums, album.id(), album));
    }

    private AlbumBook with(Map<AlbumId, Album> now) {
        return new AlbumBook(now, policy, lastAlbum);
    }

    /// An [AlbumBook] as plain values, for a snapshot.
    public record Image(List<Album> albums, String policy, long lastAlbum) {}

    /// The book as plain values.
    public Image image() {
        return new Image(albums(), policy, lastAlbum);
    }

    /// The book an image shows.
    public static AlbumBook of(Image image) {
        Map<AlbumId, Album> albums = new HashMap<>();
        image.albums.forEach(album -> albums.put(album.id(), album));
        return new AlbumBook(Growing.map(albums), image.policy, image.lastAlbum);
    }
}
