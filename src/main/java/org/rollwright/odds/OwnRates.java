package org.rollwright.odds;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.HuntBook;

/// How long a hunter's own boxes let one wait for an issue, by everything watched for and found in the boxes of its
/// denomination. Each denomination is fitted when it is first asked for. Thread-safe.
public final class OwnRates {
    /// Fewer issues than this cannot tell a pattern.
    static final int FEWEST = 5;

    /// Coins of a box whose denomination the catalogue does not know, and as many as a first guess weighs: those of a
    /// box of cents, common practice.
    private static final long USUAL_BOX = 2_500;

    private static final Duration A_YEAR = Duration.ofDays(365);

    private final HuntBook book;
    private final Catalog catalog;
    private final Map<Denomination, Map<Identity, GammaRate>> fitted = new HashMap<>();

    public OwnRates(HuntBook book, Catalog catalog) {
        this.book = book;
        this.catalog = catalog;
    }

    /// Full boxes searched for an even chance of one of some issues of one denomination.
    ///
    /// @return empty when the boxes say nothing of any of them
    public synchronized OptionalDouble boxes(List<Issue> issues) {
        List<GammaRate> rates = rates(issues);
        return rates.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(Completion.coinsForAny(rates, 0.5)
                        / perBox(issues.getFirst().identity().denomination()));
    }

    /// The probability that as many coins as were searched in the twelve months before a moment hold one of some issues
    /// of one denomination.
    ///
    /// @return 0 to 1; empty when the boxes say nothing of any of them
    public synchronized OptionalDouble ofAYear(List<Issue> issues, Instant before) {
        List<GammaRate> rates = rates(issues);
        return rates.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(Completion.any(
                        rates, (double) searched(issues.getFirst().identity().denomination(), before)));
    }

    private List<GammaRate> rates(List<Issue> issues) {
        List<GammaRate> rates = new ArrayList<>();
        for (Issue issue : issues) {
            GammaRate rate = fitted.computeIfAbsent(issue.identity().denomination(), this::fit)
                    .get(issue.identity());
            if (rate != null) {
                rates.add(rate);
            }
        }
        return rates;
    }

    private long perBox(Denomination coins) {
        return catalog.facts(coins).map(DenominationFacts::coinsPerBox).orElse(USUAL_BOX);
    }

    /// Coins searched in hunts that were gone on with in the twelve months before a moment.
    private long searched(Denomination coins, Instant before) {
        return book.boxes().stream()
                .filter(box -> box.denomination().equals(coins)
                        && box.hunt()
                                .flatMap(book::hunt)
                                .filter(hunt -> hunt.touched().isAfter(before.minus(A_YEAR)))
                                .isPresent())
                .mapToLong(Box::searchedCoins)
                .sum();
    }

    private Map<Identity, GammaRate> fit(Denomination coins) {
        List<IssueRates.Counted> counted = counted(book, catalog, coins);
        Map<Identity, GammaRate> rates = new HashMap<>();
        double weight = USUAL_BOX;
        if (counted.size() >= FEWEST) {
            IssueRates fitted = IssueRates.fit(counted);
            rates.putAll(fitted.rates());
            weight = fitted.weight();
        }
        addBlanks(rates, issues(catalog, coins), Exposure.of(book, catalog, coins), weight);
        return rates;
    }

    /// Issues without a mintage: before their own finds each is taken for the middle one of those with a mintage, and
    /// while there are none of these, for an even share of all that was found.
    private static void addBlanks(
            Map<Identity, GammaRate> rates, List<Issue> issues, Exposure exposure, double weight) {
        List<IssueRates.Counted> blanks = issues.stream()
                .filter(issue -> !rates.containsKey(issue.identity()))
                .map(issue -> new IssueRates.Counted(
                        issue.identity(),
                        issue.year(),
                        issue.mint().code(),
                        1,
                        exposure.found().getOrDefault(issue.identity(), 0),
                        exposure.coins(issue)))
                .filter(one -> one.coins() > 0)
                .toList();
        double[] means =
                rates.values().stream().mapToDouble(GammaRate::mean).sorted().toArray();
        double found = blanks.stream().mapToLong(IssueRates.Counted::found).sum();
        double coins = blanks.stream().mapToDouble(IssueRates.Counted::coins).sum();
        double middle = means.length > 0 ? means[means.length / 2] : (found + 0.5) / Math.max(1, coins);
        for (IssueRates.Counted one : blanks) {
            rates.put(
                    one.identity(),
                    new GammaRate(Math.max(1e-12, middle * weight), weight).after((double) one.found(), one.coins()));
        }
    }

    /// Issues of a denomination that were watched for, with what was found of them and among how many coins.
    static List<IssueRates.Counted> counted(HuntBook book, Catalog catalog, Denomination denomination) {
        Exposure exposure = Exposure.of(book, catalog, denomination);
        return IssueRates.counted(issues(catalog, denomination), exposure.found(), exposure::coins);
    }

    private static List<Issue> issues(Catalog catalog, Denomination denomination) {
        return catalog.issues().stream()
                .filter(issue -> issue.identity().denomination().equals(denomination) && !issue.collectorOnly())
                .toList();
    }
}
