package org.rollwright.scale;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.rollwright.coin.Refusal;
import org.rollwright.journal.Contradiction;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Growing;
import org.rollwright.journal.Word;

/// The scale: cups, counted piles and the prices of metals. Immutable.
public final class ScaleBook {
    /// A book in which nothing is written.
    public static final ScaleBook EMPTY = new ScaleBook(Growing.map(), Growing.map(), Growing.map());

    private final Map<String, Cup> cups;
    private final Map<String, CountedPile> piles;
    private final Map<Word<Element>, MetalPrice> metalPrices;

    private ScaleBook(
            Map<String, Cup> cups, Map<String, CountedPile> piles, Map<Word<Element>, MetalPrice> metalPrices) {
        this.cups = cups;
        this.piles = piles;
        this.metalPrices = metalPrices;
    }

    /// Cups by name.
    public Collection<Cup> cups() {
        return new TreeMap<>(cups).values();
    }

    Optional<Cup> cup(String name) {
        return Optional.ofNullable(cups.get(name));
    }

    /// The counted pile of each alloy, the latest.
    public SortedMap<String, CountedPile> piles() {
        return new TreeMap<>(piles);
    }

    /// The price of each metal, the latest.
    public SortedMap<Word<Element>, MetalPrice> metalPrices() {
        SortedMap<Word<Element>, MetalPrice> sorted = new TreeMap<>(Comparator.comparing(Word::word));
        sorted.putAll(metalPrices);
        return sorted;
    }

    /// Why an event cannot be taken.
    public Optional<Refusal> refuse(ScaleEvent event) {
        return ScaleChecks.refuse(this, event);
    }

    /// The book after an event.
    public ScaleBook apply(ScaleEvent event, Entry entry) {
        return switch (event) {
            case ScaleEvent.CupBegun begun -> with(begun.cup());
            case ScaleEvent.CupRead read -> {
                Cup before = cups.get(read.cup());
                if (before == null) {
                    throw new Contradiction("there is no cup " + read.cup());
                }
                List<Cup.Reading> readings = new ArrayList<>(before.readings());
                readings.add(new Cup.Reading(read.what(), read.mass(), entry.at()));
                yield with(new Cup(
                        before.name(), before.alloy(), before.tare(), before.resolution(), before.since(), readings));
            }
            case ScaleEvent.PileCounted counted ->
                new ScaleBook(cups, Growing.with(piles, counted.pile().alloy(), counted.pile()), metalPrices);
            case ScaleEvent.MetalPriced priced ->
                new ScaleBook(
                        cups, piles, Growing.with(metalPrices, priced.price().metal(), priced.price()));
        };
    }

    private ScaleBook with(Cup cup) {
        return new ScaleBook(Growing.with(cups, cup.name(), cup), piles, metalPrices);
    }

    /// A [ScaleBook] as plain values, for a snapshot.
    public record Image(List<Cup> cups, List<CountedPile> piles, List<MetalPrice> metalPrices) {}

    /// The book as plain values.
    public Image image() {
        return new Image(List.copyOf(cups.values()), List.copyOf(piles.values()), List.copyOf(metalPrices.values()));
    }

    /// The book an image shows.
    public static ScaleBook of(Image image) {
        Map<String, Cup> cups = new HashMap<>();
        image.cups.forEach(cup -> cups.put(cup.name(), cup));
        Map<String, CountedPile> piles = new HashMap<>();
        image.piles.forEach(pile -> piles.put(pile.alloy(), pile));
        Map<Word<Element>, MetalPrice> prices = new HashMap<>();
        image.metalPrices.forEach(price -> prices.put(price.metal(), price));
        return new ScaleBook(Growing.map(cups), Growing.map(piles), Growing.map(prices));
    }
}
