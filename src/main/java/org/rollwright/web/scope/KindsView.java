package org.rollwright.web.scope;

import static org.rollwright.text.Texts.t;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Kinds;
import org.rollwright.catalog.Side;
import org.rollwright.catalog.Spot;
import org.rollwright.coin.Alloy;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Mint;
import org.rollwright.scale.SingleCoin;
import org.rollwright.scope.Variety;
import org.rollwright.scope.VarietyBook;
import org.rollwright.web.shell.Choice;
import org.rollwright.web.shell.CoinPictures;

/// What the page that settles kinds shows.
///
/// @param coin country and denomination
/// @param asked whether a date was told that the catalogue knows
/// @param next the question, null when there is none
/// @param look where to look for it
/// @param grams whether the answer is a weight
/// @param settled the coin, when one is left; blank otherwise
/// @param left names of the coins it may still be
/// @param rarities varieties of the date that weight or magnet tells
/// @param again the address without answers
public record KindsView(
        String coin,
        String year,
        String mint,
        List<Choice> coins,
        boolean asked,
        @Nullable Next next,
        CoinPictures.Look look,
        boolean grams,
        Map<String, String> told,
        List<Step> steps,
        String settled,
        List<String> left,
        List<Rarity> rarities,
        String again,
        String problem) {

    /// The question, with where each answer leads.
    public record Next(String id, String text, List<Answer> answers, String cannot) {}

    /// An answer.
    ///
    /// @param figure the side that shows it, null where no drawing of a whole side does
    public record Answer(String words, String href, CoinPictures.@Nullable Figure figure) {}

    /// What was answered, and the address from before it.
    public record Step(String question, String answer, String back) {}

    /// A variety to think of.
    public record Rarity(String key, String name, String marker) {}

    /// The scale's step that a weight is taken to have, grams.
    private static final double STEP = 0.01;

    static KindsView of(Catalog catalog, VarietyBook varieties, Map<String, String> told) {
        String coin = told.getOrDefault("coin", "US-cent");
        Optional<Denomination> denomination = catalog.denominations().stream()
                .map(DenominationFacts::denomination)
                .filter(one -> name(one).equals(coin))
                .findFirst();
        String year = told.getOrDefault("year", "");
        String mint = told.getOrDefault("of", "");
        List<Choice> coins = catalog.denominations().stream()
                .filter(facts -> catalog.covers(facts.denomination()))
                .map(facts -> new Choice(name(facts.denomination()), VarietyViews.name(catalog, facts.denomination())))
                .toList();
        boolean known = denomination.isPresent()
                && year.matches("[0-9]{4}")
                && !catalog.ofYear(denomination.get(), Integer.parseInt(year)).isEmpty();
        if (!known) {
            String problem = year.isEmpty() ? "" : t("kinds.no-such-date", year);
            return new KindsView(
                    coin,
                    year,
                    mint,
                    coins,
                    false,
                    null,
                    CoinPictures.Look.NONE,
                    false,
                    Map.of(),
                    List.of(),
                    "",
                    List.of(),
                    List.of(),
                    "",
                    problem);
        }
        Kinds begun = Kinds.of(catalog, denomination.get(), Integer.parseInt(year), mint(mint));
        Kinds now = begun.following(
                told, (grams, alloys) -> SingleCoin.of(grams, STEP, alloys).fits());
        Map<String, String> base = new LinkedHashMap<>();
        base.put("coin", coin);
        base.put("year", year);
        base.put("of", mint);
        Map<String, String> all = new LinkedHashMap<>(base);
        all.putAll(now.said());
        Optional<Kinds.Question> question = now.next();
        boolean grams = question.filter(one -> one.id().equals(Kinds.WEIGHT)).isPresent();
        List<Issue> left = now.left();
        return new KindsView(
                coin,
                year,
                mint,
                coins,
                true,
                question.map(one -> next(catalog, one, all)).orElse(null),
                question.map(one -> look(catalog, left, one)).orElse(CoinPictures.Look.NONE),
                grams,
                all,
                steps(base, begun, now.said()),
                question.isEmpty() && left.size() == 1 ? called(catalog, left.getFirst()) : "",
                left.stream().map(issue -> called(catalog, issue)).toList(),
                rarities(varieties, denomination.get(), Integer.parseInt(year)),
                address(base),
                problem(question, told));
    }

    private static String problem(Optional<Kinds.Question> question, Map<String, String> told) {
        return question.map(Kinds.Question::id)
                .filter(id -> !told.getOrDefault(id, "").isBlank())
                .map(id -> id.equals(Kinds.WEIGHT)
                        ? t("kinds.no-such-weight", told.getOrDefault(id, ""))
                        : t("kinds.no-such-answer", told.getOrDefault(id, "")))
                .orElse("");
    }

    private static @Nullable Mint mint(String code) {
        return code.matches("[A-Z]{1,2}|-") ? new Mint(code) : null;
    }

    private static String name(Denomination denomination) {
        return denomination.country().code() + "-" + denomination.key();
    }

    private static String called(Catalog catalog, Issue issue) {
        return catalog.name(issue.identity(), issue.identity().denomination());
    }

    private static Next next(Catalog catalog, Kinds.Question question, Map<String, String> said) {
        List<Answer> answers = new ArrayList<>();
        for (Kinds.Choice choice : question.choices()) {
            CoinPictures.Figure figure = question.id().equals(Kinds.DESIGN)
                    ? CoinPictures.side(catalog, choice.example(), Side.REVERSE).orElse(null)
                    : null;
            answers.add(new Answer(choice.words(), with(said, question.id(), choice.key()), figure));
        }
        return new Next(question.id(), question.text(), answers, with(said, question.id(), Kinds.CANNOT_TELL));
    }

    private static CoinPictures.Look look(Catalog catalog, List<Issue> left, Kinds.Question question) {
        // of several designs the one that has the zone
        List<Spot> spots = question.looks();
        return left.stream()
                .filter(issue -> spots.stream().allMatch(spot -> catalog.zones().has(issue, spot)))
                .findFirst()
                .map(issue -> CoinPictures.look(catalog, issue, spots))
                .orElse(CoinPictures.Look.NONE);
    }

    private static List<Step> steps(Map<String, String> base, Kinds begun, Map<String, String> said) {
        List<Step> steps = new ArrayList<>();
        Map<String, String> so = new LinkedHashMap<>();
        said.forEach((id, answer) -> {
            Map<String, String> before = new LinkedHashMap<>(base);
            before.putAll(so);
            Kinds then = begun.following(so, KindsView::fits);
            String question = then.next().map(Kinds.Question::text).orElse(id);
            String words = then.next().stream()
                    .flatMap(one -> one.choices().stream())
                    .filter(choice -> choice.key().equals(answer))
                    .map(Kinds.Choice::words)
                    .findFirst()
                    .orElse(answer.equals(Kinds.CANNOT_TELL) ? t("attribution.cannot-tell-word") : answer);
            steps.add(new Step(question, words, address(before)));
            so.put(id, answer);
        });
        return steps;
    }

    private static List<Alloy> fits(double grams, List<Alloy> alloys) {
        return SingleCoin.of(grams, STEP, alloys).fits();
    }

    private static List<Rarity> rarities(VarietyBook varieties, Denomination denomination, int year) {
        return varieties.varieties().stream()
                .filter(one -> one.denomination().equals(denomination)
                        && one.years().first() == year
                        && one.years().last() == year
                        && one.rarity() == Variety.RarityClass.VERY_RARE
                        && one.looks().contains(new Spot.Whole()))
                .map(one -> new Rarity(
                        one.key(), one.name(), one.markers().getFirst().text()))
                .toList();
    }

    /// The address that begins with a coin.
    ///
    /// @param mint null when it was not looked at
    static String address(Denomination denomination, int year, @Nullable Mint mint) {
        Map<String, String> told = new LinkedHashMap<>();
        told.put("coin", name(denomination));
        told.put("year", Integer.toString(year));
        told.put("of", mint == null ? "" : mint.code());
        return address(told);
    }

    private static String with(Map<String, String> said, String question, String answer) {
        Map<String, String> now = new LinkedHashMap<>(said);
        now.put(question, answer);
        return address(now);
    }

    private static String address(Map<String, String> told) {
        return "/scope/kinds?"
                + told.entrySet().stream()
                        .filter(one -> !one.getValue().isEmpty())
                        .map(one -> one.getKey() + "=" + URLEncoder.encode(one.getValue(), StandardCharsets.UTF_8))
                        .collect(Collectors.joining("&"));
    }
}
