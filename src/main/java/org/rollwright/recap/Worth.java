package org.rollwright.recap;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.rollwright.cabinet.CabinetBook;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.ValueModel;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Rarity;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Metal;
import org.rollwright.hunt.Find;
import org.rollwright.journal.Word;
import org.rollwright.scale.Element;
import org.rollwright.scale.MetalContent;
import org.rollwright.scale.MetalPrice;
import org.rollwright.scope.AttributionNote;
import org.rollwright.scope.ScopeBook;
import org.rollwright.scope.Variety;
import org.rollwright.scope.VarietyBook;

/// What finds may be worth, so that the best ones are told first. Only the order is ever told, no amount.
///
/// @param cabinet what is known of coins beyond their finds, such as a grade told later
/// @param prices learnt from the prices the hunter typed
/// @param metals what the hunter typed that metals cost
/// @param scope which finds were attributed to a variety
public record Worth(
        Catalog catalog,
        CabinetBook cabinet,
        ValueModel prices,
        Map<Word<Element>, MetalPrice> metals,
        ScopeBook scope,
        VarietyBook varieties) {
    /// A gram of silver while the hunter typed no price of it: about 31 dollars a troy ounce, from memory, for the
    /// order only.
    private static final double SILVER_GRAM = 1;

    /// Worn coins of a date while no price of it was typed, in dollars; our own guess, for the order only. Together
    /// with the rough worths of varieties they are on one scale, so that a key date is not told after a silver
    // dime.
    private static double rough(Rarity rarity) {
        return switch (rarity) {
            case KEY -> 40;
            case SEMI_KEY -> 8;
            case SCARCE -> 1;
            case COMMON -> 0;
        };
    }

    public Worth {
        metals = Map.copyOf(metals);
    }

    private record Ranked(Find find, double worth, int weight, int year) {}

    /// The finds worth telling first, in words, each wording once: by what one coin of them may be worth, then by
    /// rarity, then by age.
    ///
    /// @param most how many
    List<String> best(List<Find> finds, Denomination expected, int most) {
        return finds.stream()
                .map(find -> {
                    Integer year = find.facts().identity().year();
                    // weighed once: the catalogue is asked for each
                    return new Ranked(find, of(find), Chapters.weight(find, catalog), year == null ? 9999 : year);
                })
                .sorted(Comparator.comparingDouble(Ranked::worth)
                        .reversed()
                        .thenComparing(Comparator.comparingInt(Ranked::weight).reversed())
                        .thenComparingInt(Ranked::year))
                .map(ranked -> words(ranked.find, expected))
                .distinct()
                .limit(most)
                .toList();
    }

    /// What one coin of a find may be worth, in the hunter's own currency; 0 when nothing speaks for more than its
    /// face. A price typed near its grade goes before what its date is roughly worth; a variety and silver count
    /// whatever is typed, because prices are those of plain coins.
    double of(Find find) {
        CoinDescription coin = told(find);
        List<Issue> issues = catalog.lookup(coin.identity());
        double plain = typed(coin)
                .orElseGet(() -> issues.stream()
                        .mapToDouble(issue -> rough(issue.rarity()))
                        .max()
                        .orElse(0));
        double metal = issues.stream().mapToDouble(this::silver).min().orElse(0);
        double variety = varieties(find, coin).mapToDouble(Variety::worth).max().orElse(0);
        return Math.max(plain, Math.max(metal, variety));
    }

    /// What the cabinet says of the first coin of a find, otherwise the find's own words.
    private CoinDescription told(Find find) {
        return cabinet.note(CoinRef.of(find.id(), 1))
                .map(CabinetNote::description)
                .orElse(find.facts());
    }

    private Optional<Double> typed(CoinDescription coin) {
        return coin.grade() == null || coin.isDetails()
                ? Optional.empty()
                : prices.value(coin.identity(), coin.grade(), coin.colour()).map(ValueModel.Value::amount);
    }

    private double silver(Issue issue) {
        if (issue.alloy().metal() != Metal.SILVER) {
            return 0;
        }
        double grams = MetalContent.of(issue.alloy(), Map.of()).grams(Element.SILVER);
        MetalPrice price = metals.get(Word.of(Element.SILVER));
        return grams * (price == null ? SILVER_GRAM : price.perKilogram().doubleValue() / 1000);
    }

    /// What the find was attributed to, and what the words on its line may mean.
    private Stream<Variety> varieties(Find find, CoinDescription coin) {
        return Stream.concat(attributed(find).stream(), varieties.of(coin).stream());
    }

    private Optional<Variety> attributed(Find find) {
        return scope.attribution(find.id())
                .filter(AttributionNote::countsAsFound)
                .map(AttributionNote::variety)
                .flatMap(varieties::variety);
    }

    /// A find in words: `2 × 1944-D VF30`, with the variety it was attributed to when its line does not say one.
    public String words(Find find, Denomination expected) {
        CoinDescription coin = told(find);
        String state = coin.state();
        String variety = coin.varieties().isEmpty()
                ? attributed(find).map(one -> " (" + one.name() + ")").orElse("")
                : "";
        return (find.count() > 1 ? find.count() + " × " : "")
                + catalog.name(coin.identity(), expected)
                + (state.isEmpty() ? "" : " " + state)
                + variety;
    }
}
