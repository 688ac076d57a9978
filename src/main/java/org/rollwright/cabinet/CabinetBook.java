package org.rollwright.cabinet;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.HuntBook;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Growing;

/// The cabinet: coins that came another way, what is known of each coin beyond its find, places and prices. Immutable.
public final class CabinetBook {
    /// A book in which nothing is written.
    public static final CabinetBook EMPTY = new CabinetBook(
            Growing.map(), Growing.map(), Growing.map(), Growing.map(), Growing.map(), new Numbers(0, 0));

    /// The last numbers given, also to what is taken back at present.
    private record Numbers(int added, long place) {
        Numbers added(CoinRef coin) {
            return new Numbers(Math.max(added, coin.piece()), place);
        }

        Numbers made(PlaceId id) {
            return new Numbers(added, Math.max(place, id.number()));
        }
    }

    private final Map<CoinRef, OwnedCoin> added;
    private final Map<CoinRef, CabinetNote> notes;
    private final Map<CoinRef, Acquisition> acquisitions;
    private final Map<PlaceId, Place> places;
    private final Map<Identity, List<PricePoint>> prices;
    private final Numbers numbers;

    private CabinetBook(
            Map<CoinRef, OwnedCoin> added,
            Map<CoinRef, CabinetNote> notes,
            Map<CoinRef, Acquisition> acquisitions,
            Map<PlaceId, Place> places,
            Map<Identity, List<PricePoint>> prices,
            Numbers numbers) {
        this.added = added;
        this.notes = notes;
        this.acquisitions = acquisitions;
        this.places = places;
        this.prices = prices;
        this.numbers = numbers;
    }

    /// A coin that came another way, also when it has left.
    Optional<OwnedCoin> added(CoinRef coin) {
        return Optional.ofNullable(added.get(coin));
    }

    /// Coins that came another way, in the order of their numbers, also those that have left.
    public List<OwnedCoin> added() {
        return added.values().stream()
                .sorted(Comparator.comparingInt(coin -> coin.ref().piece()))
                .toList();
    }

    /// What the cabinet knows of a coin beyond its find; also of coins that left.
    public Optional<CabinetNote> note(CoinRef coin) {
        return Optional.ofNullable(notes.get(coin));
    }

    /// Everything the cabinet knows beyond the finds, in no order.
    public Collection<CabinetNote> notes() {
        return notes.values();
    }

    /// How a coin came that was not found.
    public Optional<Acquisition> acquisition(CoinRef coin) {
        return Optional.ofNullable(acquisitions.get(coin));
    }

    /// Where a coin came from, for a person.
    public String cameFrom(OwnedCoin coin) {
        return acquisition(coin.ref()).map(Acquisition::sentence).orElse(coin.provenance());
    }

    /// Places by number.
    public List<Place> places() {
        return places.values().stream()
                .sorted(Comparator.comparingLong(place -> place.id().number()))
                .toList();
    }

    public Optional<Place> place(PlaceId id) {
        return Optional.ofNullable(places.get(id));
    }

    public PlaceId nextPlace() {
        return new PlaceId(numbers.place + 1);
    }

    public CoinRef nextAdded() {
        return new CoinRef(0, numbers.added + 1);
    }

    /// Price points by issue, in the order noted.
    public Map<Identity, List<PricePoint>> prices() {
        return java.util.Collections.unmodifiableMap(prices);
    }

    /// Why an event cannot be taken.
    public Optional<Refusal> refuse(CabinetEvent event, HuntBook hunts) {
        return CabinetChecks.refuse(new Holdings(hunts, this), event);
    }

    /// The book after an event.
    public CabinetBook apply(CabinetEvent event, Entry entry) {
        CabinetBook now = noted(event);
        return switch (event) {
            case CabinetEvent.CoinAdded one -> now.withAdded(new OwnedCoin(one.coin(), one.facts(), one.provenance()));
            case CabinetEvent.CoinAcquired one -> {
                CabinetBook with = now.withAdded(
                        new OwnedCoin(one.coin(), one.facts(), one.acquisition().inTheRecord()));
                yield new CabinetBook(
                        with.added,
                        with.notes,
                        Growing.with(with.acquisitions, one.coin(), one.acquisition()),
                        with.places,
                        with.prices,
                        with.numbers);
            }
            case CabinetEvent.CoinDescribed described ->
                now.withNote(described.coin(), note -> note.described(described.facts(), described.gradeUpTo()));
            case CabinetEvent.PlaceMade made ->
                now.withPlaces(Growing.with(places, made.place().id(), made.place()));
            case CabinetEvent.PlaceRemoved removed -> now.withPlaces(Growing.without(places, removed.place()));
            case CabinetEvent.CoinsPut put -> now.withNotes(put.coins(), note -> note.put(put.place(), entry.at()));
            case CabinetEvent.CoinsLeft left -> now.withNotes(left.coins(), note -> note.left(left.gone()));
            case CabinetEvent.CoinSubmitted submitted ->
                now.withNote(submitted.coin(), note -> note.submitted(submitted.submission()));
            case CabinetEvent.PriceNoted noted -> now.withPrice(noted.price(), true);
            case CabinetEvent.PriceForgotten forgotten -> now.withPrice(forgotten.price(), false);
        };
    }

    /// The book with the numbers that an event gave, whether or not the event counts at present.
    public CabinetBook noted(CabinetEvent event) {
        Numbers now =
                switch (event) {
                    case CabinetEvent.CoinAdded coin -> numbers.added(coin.coin());
                    case CabinetEvent.CoinAcquired coin -> numbers.added(coin.coin());
                    case CabinetEvent.PlaceMade made ->
                        numbers.made(made.place().id());
                    default -> numbers;
                };
        return now.equals(numbers) ? this : new CabinetBook(added, notes, acquisitions, places, prices, now);
    }

    private CabinetBook withAdded(OwnedCoin coin) {
        return new CabinetBook(Growing.with(added, coin.ref(), coin), notes, acquisitions, places, prices, numbers);
    }

    private CabinetBook withPlaces(Map<PlaceId, Place> now) {
        return new CabinetBook(added, notes, acquisitions, now, prices, numbers);
    }

    private CabinetBook withNotes(List<CoinRef> coins, UnaryOperator<CabinetNote> change) {
        CabinetBook now = this;
        for (CoinRef coin : coins) {
            now = now.withNote(coin, change);
        }
        return now;
    }

    private CabinetBook withNote(CoinRef coin, UnaryOperator<CabinetNote> change) {
        CabinetNote before = notes.getOrDefault(coin, CabinetNote.blank(coin));
        return new CabinetBook(
                added, Growing.with(notes, coin, change.apply(before)), acquisitions, places, prices, numbers);
    }

    /// One price for a cell: the latest word holds.
    private CabinetBook withPrice(PricePoint price, boolean kept) {
        List<PricePoint> points = new ArrayList<>(prices.getOrDefault(price.issue(), List.of()));
        points.removeIf(price::sameCell);
        if (kept) {
            points.add(price);
        }
        return new CabinetBook(
                added,
                notes,
                acquisitions,
                places,
                points.isEmpty()
                        ? Growing.without(prices, price.issue())
                        : Growing.with(prices, price.issue(), List.copyOf(points)),
                numbers);
    }

    /// A [CabinetBook] as plain values, for a snapshot.
    public record Image(
            List<OwnedCoin> added,
            List<CabinetNote> notes,
            List<Coming> acquisitions,
            List<Place> places,
            List<PricePoint> prices,
            int lastAdded,
            long lastPlace) {
        /// How a coin came.
        public record Coming(CoinRef coin, Acquisition acquisition) {}
    }

    /// The book as plain values.
    public Image image() {
        return new Image(
                added(),
                new ArrayList<>(notes.values()),
                acquisitions.entrySet().stream()
                        .map(entry -> new Image.Coming(entry.getKey(), entry.getValue()))
                        .toList(),
                places(),
                prices.values().stream().flatMap(List::stream).toList(),
                numbers.added,
                numbers.place);
    }

    /// The book an image shows.
    public static CabinetBook of(Image image) {
        Map<CoinRef, OwnedCoin> added = new HashMap<>();
        image.added.forEach(coin -> added.put(coin.ref(), coin));
        Map<CoinRef, CabinetNote> notes = new HashMap<>();
        image.notes.forEach(note -> notes.put(note.coin(), note));
        Map<CoinRef, Acquisition> acquisitions = new HashMap<>();
        image.acquisitions.forEach(coming -> acquisitions.put(coming.coin, coming.acquisition));
        Map<PlaceId, Place> places = new HashMap<>();
        image.places.forEach(place -> places.put(place.id(), place));
        Map<Identity, List<PricePoint>> prices = new HashMap<>();
        image.prices.forEach(price -> prices.computeIfAbsent(price.issue(), issue -> new ArrayList<>())
                .add(price));
        prices.replaceAll((issue, points) -> List.copyOf(points));
        return new CabinetBook(
                Growing.map(added),
                Growing.map(notes),
                Growing.map(acquisitions),
                Growing.map(places),
                Growing.map(prices),
                new Numbers(image.lastAdded, image.lastPlace));
    }
}
