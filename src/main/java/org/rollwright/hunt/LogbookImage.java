package org.rollwright.hunt;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;

/// The whole state of a [Logbook] as plain values, for a snapshot. It saves time only: the journal makes it
/// anew.
///
/// @param last position of the last entry folded in
/// @param numbers the last numbers given: box, hunt, find, album, added coin
public record LogbookImage(
        long last,
        List<Long> numbers,
        String policy,
        List<HuntImage> hunts,
        List<BoxImage> boxes,
        List<Find> finds,
        List<AlbumImage> albums,
        List<OwnedCoin> added,
        List<Logbook.Balance> balances,
        List<AttributionNote> attributions,
        Map<String, Map<String, String>> varieties,
        List<PhotoNote> photos,
        List<CabinetNote> cabinet,
        List<Coming> acquisitions,
        List<Place> places,
        List<PricePoint> prices,
        List<Cup> cups,
        List<CountedPile> piles,
        List<MetalPrice> metalPrices,
        List<CashMove> cashMoves,
        List<Branch> branches,
        List<Order> orders,
        List<Effort> efforts,
        List<TakenBack> takenBack) {

    /// What redo would bring back in a scope, by positions in the journal, the next one last.
    public record TakenBack(long scope, List<Long> entries) {}

    /// How a coin came.
    public record Coming(CoinRef coin, Acquisition acquisition) {}

    /// A hunt as values.
    public record HuntImage(
            HuntId id,
            String name,
            Instant started,
            Instant touched,
            @Nullable Instant finished,
            List<BoxId> boxes,
            List<Watch> watches,
            @Nullable BoxId box,
            int roll,
            int lastOrdinal,
            List<FindId> finds,
            List<Hunt.Remark> marks,
            List<Hunt.Remark> notes,
            List<Hunt.Trial> trials) {}

    /// A box as values.
    public record BoxImage(
            BoxId id,
            Denomination denomination,
            BoxDetails details,
            @Nullable HuntId hunt,
            List<Roll> rolls,
            List<Box.Enders> enders,
            List<Box.Weight> weights,
            List<FindId> finds,
            Event.@Nullable BoxTallied earlier) {}

    /// An album as values.
    public record AlbumImage(AlbumId id, String name, String rule, Map<String, CoinRef> holes) {}

    /// Takes the image of a state.
    public static LogbookImage of(Logbook book) {
        return new LogbookImage(
                book.last,
                List.of(
                        book.lastBox,
                        book.lastHunt,
                        book.lastFind,
                        book.lastAlbum,
                        (long) book.lastAdded,
                        book.lastPlace,
                        book.lastOrder),
                book.policy,
                book.hunts.values().stream().map(LogbookImage::hunt).toList(),
                book.boxes.values().stream().map(LogbookImage::box).toList(),
                book.finds.values().stream()
                        .sorted((a, b) -> Long.compare(a.id().number(), b.id().number()))
                        .toList(),
                book.albums.values().stream()
                        .map(album -> new AlbumImage(album.id(), album.name(), album.rule(), Map.copyOf(album.holes())))
                        .toList(),
                List.copyOf(book.added.values()),
                List.copyOf(book.balances),
                List.copyOf(book.attributions.values()),
                Map.copyOf(book.varieties),
                List.copyOf(book.photos),
                List.copyOf(book.cabinet.values()),
                book.acquisitions.entrySet().stream()
                        .map(entry -> new Coming(entry.getKey(), entry.getValue()))
                        .toList(),
                List.copyOf(book.places.values()),
                book.prices.values().stream().flatMap(List::stream).toList(),
                List.copyOf(book.cups.values()),
                List.copyOf(book.piles.values()),
                List.copyOf(book.metalPrices.values()),
                List.copyOf(book.cashMoves),
                List.copyOf(book.branches.values()),
                List.copyOf(book.orders.values()),
                List.copyOf(book.efforts),
                book.takenBack());
    }

    private static HuntImage hunt(Hunt hunt) {
        return new HuntImage(
                hunt.id(),
                hunt.name(),
                hunt.started(),
                hunt.touched,
                hunt.finished,
                List.copyOf(hunt.boxes),
                hunt.watches,
                hunt.box,
                hunt.roll,
                hunt.lastOrdinal,
                List.copyOf(hunt.finds()),
                List.copyOf(hunt.marks),
                List.copyOf(hunt.notes),
                List.copyOf(hunt.trials));
    }

    private static BoxImage box(Box box) {
        return new BoxImage(
                box.id(),
                box.denomination(),
                box.details,
                box.hunt,
                List.copyOf(box.rolls.values()),
                List.copyOf(box.enders),
                List.copyOf(box.weights),
                List.copyOf(box.finds()),
                box.earlier);
    }

    /// The state this image shows. Steps before it are undone through the journal.
    public Logbook toLogbook() {
        Logbook book = new Logbook();
        book.fromImage = true;
        book.imaged = last;
        book.last = last;
        book.lastBox = numbers.get(0);
        book.lastHunt = numbers.get(1);
        book.lastFind = numbers.get(2);
        book.lastAlbum = numbers.get(3);
        book.lastAdded = Math.toIntExact(numbers.get(4));
        book.lastPlace = numbers.get(5);
        book.lastOrder = numbers.get(6);
        book.policy = policy;
        for (BoxImage image : boxes) {
            Box box = new Box(image.id, image.denomination, image.details);
            box.hunt = image.hunt;
            image.rolls.forEach(roll -> box.rolls.put(roll.number(), roll));
            box.enders.addAll(image.enders);
            box.weights.addAll(image.weights);
            image.finds.forEach(box.finds::add);
            Event.BoxTallied earlier = image.earlier;
            if (earlier != null) {
                box.earlier = earlier;
                box.foundCoins = earlier.counts().stream()
                        .mapToInt(Event.WatchCount::found)
                        .sum();
            }
            book.boxes.put(image.id, box);
        }
        for (HuntImage image : hunts) {
            Hunt hunt = new Hunt(image.id, image.name, image.started, image.boxes, image.watches);
            hunt.touched = image.touched;
            hunt.finished = image.finished;
            hunt.box = image.box;
            hunt.roll = image.roll;
            hunt.lastOrdinal = image.lastOrdinal;
            image.finds.forEach(hunt.finds::add);
            hunt.marks.addAll(image.marks);
            hunt.notes.addAll(image.notes);
            hunt.trials.addAll(image.trials);
            image.trials.forEach(trial -> book.countCheck(trial.variety(), 1));
            book.hunts.put(image.id, hunt);
            book.ordinals.put(image.id, image.lastOrdinal);
        }
        for (Find find : finds) {
            book.finds.put(find.id(), find);
            book.tally(find, 1);
        }
        for (AlbumImage image : albums) {
            Album album = new Album(image.id, image.name, image.rule);
            album.holes.putAll(image.holes);
            book.albums.put(image.id, album);
        }
        added.forEach(coin -> book.added.put(coin.ref(), coin));
        book.balances.addAll(balances);
        attributions.forEach(note -> book.attributions.put(note.find(), note));
        book.varieties.putAll(varieties);
        book.photos.addAll(photos);
        cabinet.forEach(note -> book.cabinet.put(note.coin(), note));
        acquisitions.forEach(coming -> book.acquisitions.put(coming.coin, coming.acquisition));
        places.forEach(place -> book.places.put(place.id(), place));
        for (PricePoint price : prices) {
            java.util.List<PricePoint> known =
                    new java.util.ArrayList<>(book.prices.getOrDefault(price.issue(), List.of()));
            known.add(price);
            book.prices.put(price.issue(), List.copyOf(known));
        }
        cups.forEach(cup -> book.cups.put(cup.name(), cup));
        piles.forEach(pile -> book.piles.put(pile.alloy(), pile));
        metalPrices.forEach(price -> book.metalPrices.put(price.metal(), price));
        book.cashMoves.addAll(cashMoves);
        branches.forEach(branch -> book.branches.put(branch.name(), branch));
        orders.forEach(order -> book.orders.put(order.number(), order));
        book.efforts.addAll(efforts);
        book.imagedTakenBack = takenBack;
        return book;
    }
}
