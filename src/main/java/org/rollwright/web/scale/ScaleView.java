package org.rollwright.web.scale;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Alloy;
import org.rollwright.coin.MassText;
import org.rollwright.coin.Metal;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.scale.AlloyWeight;
import org.rollwright.scale.CountByWeight;
import org.rollwright.scale.Cup;
import org.rollwright.scale.Element;
import org.rollwright.scale.MetalContent;
import org.rollwright.scale.MetalPrice;
import org.rollwright.scale.MixedPile;
import org.rollwright.scale.SingleCoin;
import org.rollwright.text.Figures;
import org.rollwright.web.mat.Answer;
import org.rollwright.web.shell.Choice;
import org.rollwright.web.shell.Manner;

/// What the Scale shows.
public record ScaleView(
        List<String> problems,
        List<CupTable> cups,
        List<Choice> alloys,
        List<String> boxes,
        List<Pile> piles,
        Map<String, String> typed,
        List<Answer> answers,
        List<MetalRow> metals,
        List<String> prices,
        String caution,
        long undoAsOf) {

    /// A cup with what each box added.
    public record CupTable(String name, String alloy, String tare, List<CupRow> rows, String total, boolean copper) {}

    /// One reading.
    public record CupRow(String what, String day, String reading, String added, String coins) {}

    /// A counted pile.
    public record Pile(String alloy, String sentence) {}

    /// The answer of one of the small forms.
    public record Answer(String form, String sentence, boolean wrong) {}

    /// Metal of one coin.
    public record MetalRow(String coin, String weight, String content, String value, boolean cautioned) {}

    private static final double Z90 = 1.645;

    /// What stands in a field of one of the small forms: what was typed there, or the usual.
    public String typed(String form, String field, String otherwise) {
        return form.equals(typed.get("form")) ? typed.getOrDefault(field, otherwise) : otherwise;
    }

    static ScaleView of(State book, Catalog catalog, Map<String, String> typed, List<String> problems) {
        List<Alloy> alloys = catalog.alloys().stream()
                .filter(alloy -> catalog.issues().stream()
                        .anyMatch(issue -> issue.alloys().contains(alloy)))
                .toList();
        return new ScaleView(
                problems,
                book.scale().cups().stream().map(cup -> cup(book, catalog, cup)).toList(),
                alloys.stream().map(one -> new Choice(one.name(), name(one))).toList(),
                book.hunt().boxes().stream()
                        .sorted(java.util.Comparator.comparingLong(
                                        (Box box) -> box.id().number())
                                .reversed())
                        .limit(30)
                        .map(box -> box.details().label())
                        .toList(),
                book.scale().piles().values().stream()
                        .map(pile -> new Pile(
                                pile.alloy(),
                                f(
                                        "scale.pile-counted",
                                        pile.coins(),
                                        Manner.mass(pile.mass().grams()),
                                        pile.gramsPerCoin(),
                                        Manner.day(pile.at()))))
                        .toList(),
                typed,
                answers(book, catalog, typed),
                metals(book, catalog),
                book.scale().metalPrices().values().stream()
                        .map(ScaleView::price)
                        .toList(),
                MetalContent.caution(),
                book.undoAsOf(0));
    }

    static String name(Alloy alloy) {
        return alloy.name().replace('-', ' ') + ", "
                + Figures.plain(alloy.weight().grams()) + " g";
    }

    private static Optional<Alloy> alloy(Catalog catalog, String name) {
        return catalog.alloys().stream().filter(one -> one.name().equals(name)).findFirst();
    }

    private static CupTable cup(State book, Catalog catalog, Cup cup) {
        Optional<Alloy> alloy = alloy(catalog, cup.alloy());
        List<CupRow> rows = new ArrayList<>();
        double before = cup.tare().grams();
        for (Cup.Reading reading : cup.readings()) {
            double added = reading.mass().grams() - before;
            before = reading.mass().grams();
            rows.add(new CupRow(
                    reading.what(),
                    Manner.day(reading.at()),
                    Manner.mass(reading.mass().grams()),
                    Manner.mass(Math.max(0, added)),
                    alloy.map(one -> coins(
                                    book,
                                    one,
                                    Math.max(0, added),
                                    cup.resolution().grams(),
                                    2))
                            .orElse("")));
        }
        double all = Math.max(0, before - cup.tare().grams());
        return new CupTable(
                cup.name(),
                alloy.map(ScaleView::name).orElse(cup.alloy()),
                Manner.mass(cup.tare().grams()),
                rows,
                Manner.mass(all)
                        + alloy.map(one -> ", "
                                        + coins(book, one, all, cup.resolution().grams(), 2))
                                .orElse(""),
                alloy.map(one -> one.metal() == Metal.COPPER).orElse(false));
    }

    /// `610 coins (9 in 10: 605 to 615)`.
    private static String coins(State book, Alloy alloy, double grams, double resolution, int readings) {
        CountByWeight count = AlloyWeight.of(alloy, book.scale().piles()).count(grams, resolution, readings);
        double half = Z90 * count.standardError();
        return f(
                "scale.coins-9-in-10",
                count.coins(),
                Math.max(0, Math.floor(count.coins() - half)),
                Math.ceil(count.coins() + half));
    }

    private static List<Answer> answers(State book, Catalog catalog, Map<String, String> typed) {
        String form = typed.getOrDefault("form", "");
        if (form.isEmpty()) {
            return List.of();
        }
        return switch (form) {
            case "count" -> List.of(count(book, catalog, typed));
            case "mixed" -> List.of(mixed(book, catalog, typed));
            case "single" -> single(catalog, typed);
            default -> List.of();
        };
    }

    private static @Nullable Double step(Map<String, String> typed) {
        return MassText.read(typed.getOrDefault("step", "")) instanceof MassText.Result.Good good
                        && good.mass().grams() > 0
                ? (Double) good.mass().grams()
                : null;
    }

    private static Answer count(State book, Catalog catalog, Map<String, String> typed) {
        Double step = step(typed);
        Optional<Alloy> alloy = alloy(catalog, typed.getOrDefault("alloy", ""));
        if (step == null || alloy.isEmpty()) {
            return new Answer("count", step == null ? t("scale.step-form") : t("scale.choose-an-alloy"), true);
        }
        return switch (MassText.read(typed.getOrDefault("weight", ""))) {
            case MassText.Result.Bad bad -> new Answer("count", bad.flaw().toString(), true);
            case MassText.Result.Good good ->
                new Answer(
                        "count",
                        t(
                                "scale.coins-by",
                                coins(book, alloy.get(), good.mass().grams(), step, 1),
                                AlloyWeight.of(alloy.get(), book.scale().piles())
                                        .source()),
                        false);
        };
    }

    private static Answer mixed(State book, Catalog catalog, Map<String, String> typed) {
        Double step = step(typed);
        Optional<Alloy> heavy = alloy(catalog, typed.getOrDefault("heavy", "us-cent-brass"));
        Optional<Alloy> light = alloy(catalog, typed.getOrDefault("light", "us-cent-zinc"));
        String coinsText = typed.getOrDefault("coins", "").strip();
        if (step == null) {
            return new Answer("mixed", t("scale.step-form"), true);
        }
        if (!coinsText.matches("[0-9]{1,5}") || Integer.parseInt(coinsText) < 1) {
            return new Answer("mixed", t("scale.count-out-of-range"), true);
        }
        if (heavy.isEmpty()
                || light.isEmpty()
                || heavy.get().weight().compareTo(light.get().weight()) <= 0) {
            return new Answer("mixed", t("scale.two-alloys"), true);
        }
        if (!(MassText.read(typed.getOrDefault("weight", "")) instanceof MassText.Result.Good whole)) {
            MassText.Result.Bad bad = (MassText.Result.Bad) MassText.read(typed.getOrDefault("weight", ""));
            return new Answer("mixed", bad.flaw().toString(), true);
        }
        String wrapText = typed.getOrDefault("wrap", "").strip();
        double wrap = 0;
        if (!wrapText.isEmpty()) {
            if (!(MassText.read(wrapText) instanceof MassText.Result.Good good)) {
                MassText.Result.Bad bad = (MassText.Result.Bad) MassText.read(wrapText);
                return new Answer(
                        "mixed",
                        t("scale.wrapping-wrong", bad.flaw().wrong(), bad.flaw().right()),
                        true);
            }
            wrap = good.mass().grams();
        }
        double net = whole.mass().grams() - wrap;
        if (net <= 0) {
            return new Answer("mixed", t("scale.wrapping-too-heavy"), true);
        }
        int coins = Integer.parseInt(coinsText);
        AlloyWeight one = AlloyWeight.of(heavy.get(), book.scale().piles());
        AlloyWeight two = AlloyWeight.of(light.get(), book.scale().piles());
        if (net < 0.9 * coins * two.mean() || net > 1.1 * coins * one.mean()) {
            return new Answer(
                    "mixed",
                    f(
                            "scale.mixture-impossible",
                            coins,
                            Manner.mass(coins * two.mean()),
                            Manner.mass(coins * one.mean()),
                            Manner.mass(net)),
                    true);
        }
        MixedPile pile = MixedPile.of(net, coins, one.mean(), two.mean(), one.sd(), two.sd(), step);
        double gap = one.mean() - two.mean();
        double wear = coins * Math.max(one.meanSd(), two.meanSd()) / gap;
        double sd = Math.sqrt(pile.sd() * pile.sd() + wear * wear);
        double low = Math.max(0, Math.floor(pile.mean() - Z90 * sd));
        double high = Math.min(coins, Math.ceil(pile.mean() + Z90 * sd));
        return new Answer(
                "mixed",
                f("scale.mixture-answer", pile.mean(), coins, 100 * pile.mean() / coins, low, high, wear),
                false);
    }

    private static List<Answer> single(Catalog catalog, Map<String, String> typed) {
        Double step = step(typed);
        if (step == null) {
            return List.of(new Answer("single", t("scale.step-form"), true));
        }
        if (!(MassText.read(typed.getOrDefault("weight", "")) instanceof MassText.Result.Good good)) {
            MassText.Result.Bad bad = (MassText.Result.Bad) MassText.read(typed.getOrDefault("weight", ""));
            return List.of(new Answer("single", bad.flaw().toString(), true));
        }
        String year = typed.getOrDefault("year", "").strip();
        String denomination = typed.getOrDefault("denomination", "cent");
        if (!year.matches("[0-9]{4}")) {
            return List.of(new Answer("single", t("scale.year-wrong"), true));
        }
        List<Issue> issues = catalog.ofYear(
                new org.rollwright.coin.Denomination(org.rollwright.coin.Country.US, denomination),
                Integer.parseInt(year));
        if (issues.isEmpty()) {
            return List.of(new Answer("single", t("scale.not-in-catalogue", denomination, year), true));
        }
        List<Alloy> ofYear = issues.stream()
                .flatMap(issue -> issue.alloys().stream())
                .distinct()
                .toList();
        List<Answer> answers = new ArrayList<>();
        SingleCoin coin = SingleCoin.of(good.mass().grams(), step, ofYear);
        answers.add(new Answer("single", coin.sentence(), false));
        List<String> kinds = issues.stream()
                .filter(issue ->
                        !issue.identity().kind().isEmpty() && coin.fits().contains(issue.alloy()))
                .map(issue ->
                        issue.identity().dateAndMint() + " " + issue.identity().kind())
                .distinct()
                .toList();
        if (!kinds.isEmpty()) {
            answers.add(new Answer("single", t("scale.sorted-by-date", String.join(", ", kinds)), false));
        }
        return answers;
    }

    private static List<MetalRow> metals(State book, Catalog catalog) {
        List<MetalRow> rows = new ArrayList<>();
        Map<String, String> names = new java.util.LinkedHashMap<>();
        Map<String, Boolean> cautioned = new java.util.HashMap<>();
        for (Issue issue : catalog.issues()) {
            if (issue.identity().denomination().country().equals(org.rollwright.coin.Country.US)) {
                String alloy = issue.alloy().name();
                names.putIfAbsent(alloy, issue.identity().denomination().key());
                boolean low = List.of("cent", "nickel")
                                .contains(issue.identity().denomination().key())
                        && issue.alloy().metal() != Metal.SILVER;
                cautioned.merge(alloy, low, (a, b) -> a || b);
            }
        }
        for (Alloy alloy : catalog.alloys()) {
            String coin = names.get(alloy.name());
            if (coin == null) {
                continue;
            }
            MetalContent content = MetalContent.of(alloy, book.scale().metalPrices());
            String silver = content.grams(Element.SILVER) > 0
                    ? f("scale.oz-t-silver", content.grams(Element.SILVER) / MetalContent.TROY_OUNCE)
                    : "";
            rows.add(new MetalRow(
                    coin + ", " + alloy.name().replace('-', ' '),
                    Figures.plain(alloy.weight().grams()) + " g",
                    alloy.composition() + silver,
                    content.value().signum() == 0
                            ? ""
                            : content.complete() ? Figures.plain(content.value()) : t("scale.in-part", content.value()),
                    cautioned.getOrDefault(alloy.name(), false)));
        }
        return rows;
    }

    private static String price(MetalPrice price) {
        String metal = price.metal()
                .in(Element.class)
                .map(one -> switch (one) {
                    case COPPER -> t("scale.copper");
                    case ZINC -> t("scale.zinc");
                    case NICKEL -> t("scale.nickel");
                    case SILVER -> t("scale.silver");
                    default -> one.word();
                })
                .orElse(price.metal().word());
        return t(
                "scale.metal-price",
                metal,
                price.asTyped().replace(" per ", " " + t("scale.per") + " "),
                Manner.day(price.day()));
    }
}
