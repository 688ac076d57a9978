package org.rollwright.odds;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.rng.sampling.ArraySampler;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.HuntBook;
import org.rollwright.scope.AttributionNote;
import org.rollwright.scope.ScopeBook;
import org.rollwright.text.Figures;

/// Everything the Odds page says of one target in boxes of one denomination. Every number has its interval, and
/// every part begins with a sentence.
/// Long, because its parts are told of one history, one model and one set of rates, fitted once.
public record OddsReport(
        String denomination,
        String target,
        int boxes,
        double boxesBefore,
        long coins,
        long found,
        String yieldSentence,
        List<SourceLine> sources,
        String compareSentence,
        NextBox next,
        List<SurpriseLine> unusual,
        String sisterSentence,
        String enderSentence,
        String issueSentence,
        List<IssueLine> issues,
        String dueSentence,
        List<AlbumLine> albums,
        List<VarietyOdds> varieties,
        String trendSentence,
        Honesty honesty,
        List<SeriesPoint> series) {

    /// What a source yields: mean finds per full box and its intervals.

    public record SourceLine(
            String source, int boxes, double fullBoxes, long found, double mean, Interval half, Interval ninety) {}

    /// The next box.
    public record NextBox(String source, double mean, Interval half, Interval ninety, double none, String sentence) {}

    /// A box judged.
    public record SurpriseLine(long box, String label, int found, double expected, boolean unusual, String sentence) {}

    /// How common an issue is.
    ///
    /// @param perBox finds in a full box
    /// @param boxesForHalf boxes for an even chance of one
    public record IssueLine(String issue, int found, double perBox, Interval ninety, double boxesForHalf) {}

    /// When an album will be full.
    ///
    /// @param half boxes for an even chance that it is full, infinity when never
    /// @param expectedInTen additions expected in the next ten boxes
    /// @param clumped the same even chance when boxes clump, by simulation; -1 beyond the horizon
    /// @param curve holes expected to be filled after 10, 20 … 200 more boxes
    public record AlbumLine(
            String album,
            int empty,
            int unknown,
            double half,
            double ninety,
            double expectedInTen,
            int clumped,
            String sentence,
            List<HoleLine> holes,
            List<Double> curve) {}

    /// One empty hole.
    ///
    /// @param inTen chance in the next ten boxes
    /// @param boxesForHalf boxes for an even chance
    /// @param sane whether an even chance takes at most a thousand boxes
    public record HoleLine(String hole, double inTen, double boxesForHalf, double boxesForNinety, boolean sane) {}

    /// A box on the chart.
    public record SeriesPoint(String label, int found, double boxes, double low, double high) {}

    /// An album's empty holes, as the caller knows them.
    ///
    /// @param holes issues that fit, by the hole's name
    public record Wanted(String album, Map<String, List<Issue>> holes) {}

    private static final int JUDGED = 8;
    private static final int HORIZON = 400;
    private static final int DRAWS = 2_000;
    private static final double SANE = 1_000;
    private static final int CHECKED_NEXT = 100;

    /// Builds the report.
    ///
    /// @param coinsPerBox coins of a full box
    /// @param wanted albums with their empty holes
    public static OddsReport of(
            HuntBook book, ScopeBook scope, Catalog catalog, History history, long coinsPerBox, List<Wanted> wanted) {
        YieldModel model = YieldModel.fit(history.seen(null));
        String target = history.watch().name();
        String mainSource = history.boxes().isEmpty()
                ? History.unknownSource()
                : history.byDay().getLast().source();
        List<SourceLine> sources = sources(history, model);
        Predictive predictive = model.next(mainSource, 1);
        Interval ninety = predictive.interval(0.9);
        Interval half = predictive.interval(0.5);
        NextBox next = new NextBox(
                mainSource,
                predictive.mean(),
                half,
                ninety,
                predictive.probabilities().getFirst(),
                f(
                        "odds.next-box",
                        mainSource,
                        (int) ninety.low(),
                        (int) ninety.high(),
                        target,
                        predictive.mean(),
                        none(predictive.probabilities().getFirst(), target)));
        Interval all = overall(model);
        double before =
                history.before().stream().mapToDouble(YieldModel.Seen::boxes).sum();
        String yields = history.coins() == 0
                ? t("odds.only-prior", target)
                : f("odds.prior-only-source", history.found(), target, history.coins(), all.low(), all.high());
        IssuePart issues = issues(book, catalog, history, coinsPerBox);
        return new OddsReport(
                history.denomination().toString(),
                target,
                history.boxes().size(),
                before,
                history.coins(),
                history.found(),
                yields,
                sources,
                compare(model, sources),
                next,
                unusual(history),
                sisters(history),
                enders(history, coinsPerBox),
                issues.sentence,
                issues.lines,
                due(history, model, mainSource),
                wanted.stream()
                        .map(album -> album(album, issues.rates, coinsPerBox, model.size()))
                        .toList(),
                varieties(book, scope),
                Trend.of(history).map(Trend::sentence).orElse(t("odds.too-few-dates")),
                Honesty.of(history),
                series(history, model));
    }

    private static String none(double chance, String target) {
        return chance < 0.005 ? t("odds.empty-would-be-rare", target) : f("odds.0f-for-none-at-all", 100 * chance);
    }

    private static Interval overall(YieldModel model) {
        return model.meanInterval("\u0000a source never seen", 0.9);
    }

    private static List<SourceLine> sources(History history, YieldModel model) {
        Map<String, double[]> sums = new LinkedHashMap<>();
        history.boxes().forEach(box -> add(sums, box.source(), 1, box.fullBoxes(), box.found()));
        history.before()
                .forEach(seen -> add(sums, seen.source(), seen.boxes(), seen.fullBoxes(), (double) seen.found()));
        List<SourceLine> lines = new ArrayList<>();
        sums.forEach((source, sum) -> lines.add(new SourceLine(
                source,
                (int) Math.round(sum[0]),
                sum[1],
                Math.round(sum[2]),
                model.mean(source),
                model.meanInterval(source, 0.5),
                model.meanInterval(source, 0.9))));
        lines.sort(Comparator.comparingDouble(SourceLine::mean).reversed());
        return lines;
    }

    private static void add(Map<String, double[]> sums, String source, double boxes, double full, double found) {
        double[] sum = sums.computeIfAbsent(source, key -> new double[3]);
        sum[0] += boxes;
        sum[1] += full;
        sum[2] += found;
    }

    private static String compare(YieldModel model, List<SourceLine> sources) {
        List<SourceLine> named = sources.stream()
                .filter(line ->
                        !line.source.equals(History.earlier()) && !line.source.startsWith(History.unknownSource()))
                .toList();
        if (named.size() < 2) {
            return t("odds.one-source");
        }
        SourceLine best = named.getFirst();
        SourceLine second = named.get(1);
        double better = model.better(best.source, second.source);
        return better < 0.8
                ? f("odds.best-little", best.source, second.source, 100 * better)
                : f("odds.best", best.source, second.source, 100 * better);
    }

    private static List<SurpriseLine> unusual(History history) {
        List<BoxHistory> last = history.byDay();
        // side by side on all processors; the order, and every seed, stay what they are
        return last.reversed().stream()
                .limit(JUDGED)
                .parallel()
                .map(box -> {
                    Surprise surprise = Surprise.of(history, box, box.id().number());
                    return new SurpriseLine(
                            box.id().number(),
                            box.label(),
                            box.found(),
                            surprise.expected(),
                            surprise.unusual(),
                            surprise.sentence());
                })
                .toList();
    }

    /// Do sister boxes resemble each other more than other boxes do? A permutation of the boxes over the
    /// groups.
    private static String sisters(History history) {
        Map<String, List<Double>> groups = new LinkedHashMap<>();
        for (BoxHistory box : history.boxes()) {
            if (!box.sisters().isEmpty()) {
                // the square root evens out the spread of counts
                double value = Math.sqrt(box.found() / Math.max(1e-9, box.fullBoxes()));
                groups.computeIfAbsent(box.sisters(), key -> new ArrayList<>()).add(value);
            }
        }
        groups.values().removeIf(group -> group.size() < 2);
        List<Double> grouped = groups.values().stream().flatMap(List::stream).toList();
        if (groups.size() < 2) {
            return t("odds.too-few-sisters");
        }
        List<Integer> sizes = groups.values().stream().map(List::size).toList();
        double own = within(grouped, sizes);
        java.util.SplittableRandom random = new java.util.SplittableRandom(11);
        double[] values = grouped.stream().mapToDouble(Double::doubleValue).toArray();
        int asClose = 0;
        int draws = 4_000;
        for (int draw = 0; draw < draws; draw++) {
            ArraySampler.shuffle(random::nextLong, values);
            List<Double> shuffled = java.util.Arrays.stream(values).boxed().toList();
            asClose += within(shuffled, sizes) <= own + 1e-12 ? 1 : 0;
        }
        double p = (asClose + 1.0) / (draws + 1.0);
        return f(
                "odds.sisters",
                groups.size(),
                p < 0.05 ? t("odds.they-do-resemble-each-other") : t("odds.no-likeness"),
                100 * p);
    }

    private static double within(List<Double> values, List<Integer> sizes) {
        double sum = 0;
        int at = 0;
        for (int size : sizes) {
            List<Double> group = values.subList(at, at + size);
            double mean =
                    group.stream().mapToDouble(Double::doubleValue).average().orElse(0);
            for (double value : group) {
                sum += (value - mean) * (value - mean);
            }
            at += size;
        }
        return sum;
    }

    private static String enders(History history, long coinsPerBox) {
        EnderHistory known = EnderHistory.of(history);
        if (history.boxes().stream().noneMatch(box -> box.endersVisible() > 0)) {
            return t("odds.no-enders");
        }
        EnderLook three = new EnderLook((int) coinsPerBox, known.a(), known.b(), 48, 3);
        EnderLook none = new EnderLook((int) coinsPerBox, known.a(), known.b(), 48, 0);
        String look = f("odds.enders-beforehand", three.meanBefore(), three.mean(), none.mean());
        if (Double.isNaN(known.ratio())) {
            return look;
        }
        return look + " "
                + f(
                        "odds.ends-share",
                        known.boxes(),
                        known.ratio(),
                        known.ratioInterval().low(),
                        known.ratioInterval().high());
    }

    private record IssuePart(String sentence, List<IssueLine> lines, java.util.Optional<IssueRates> rates) {}

    private static IssuePart issues(HuntBook book, Catalog catalog, History history, long coinsPerBox) {
        List<IssueRates.Counted> counted = OwnRates.counted(book, catalog, history.denomination());
        if (counted.size() < OwnRates.FEWEST) {
            return new IssuePart(t("odds.too-few-issues"), List.of(), java.util.Optional.empty());
        }
        IssueRates rates = IssueRates.fit(counted);
        List<IssueLine> lines = new ArrayList<>();
        for (IssueRates.Counted one : counted) {
            GammaRate rate = rates.rate(one.identity()).orElseThrow();
            Interval ninety = rate.interval(0.9);
            lines.add(new IssueLine(
                    one.identity().dateAndMint()
                            + (one.identity().kind().isEmpty()
                                    ? ""
                                    : " " + one.identity().kind()),
                    (int) one.found(),
                    rate.mean() * coinsPerBox,
                    new Interval(ninety.low() * coinsPerBox, ninety.high() * coinsPerBox, 0.9),
                    Completion.coinsFor(List.of(rate), 0.5) / coinsPerBox));
        }
        lines.sort(Comparator.comparingDouble(IssueLine::perBox).reversed());
        List<String> factors = new ArrayList<>(List.of(f("odds.per-decade", rates.perDecade())));
        rates.mintFactors().forEach((mint, factor) -> factors.add(f("odds.mint-s-2f-times", mint, factor)));
        return new IssuePart(String.join("; ", factors) + ". " + t("odds.fitted"), lines, java.util.Optional.of(rates));
    }

    private static String due(History history, YieldModel model, String source) {
        int dry = 0;
        List<BoxHistory> boxes = history.byDay();
        for (int i = boxes.size() - 1; i >= 0 && boxes.get(i).found() == 0; i--) {
            dry++;
        }
        double none = model.next(source, 1).probabilities().getFirst();
        return dry == 0 ? t("odds.not-empty") : f("odds.not-due", dry, 100 * none);
    }

    private static AlbumLine album(Wanted wanted, java.util.Optional<IssueRates> rates, long coinsPerBox, double size) {
        List<GammaRate> known = new ArrayList<>();
        List<HoleLine> lines = new ArrayList<>();
        int unknown = 0;
        for (Map.Entry<String, List<Issue>> hole : wanted.holes.entrySet()) {
            GammaRate best = null;
            for (Issue issue : hole.getValue()) {
                GammaRate rate =
                        rates.flatMap(all -> all.rate(issue.identity())).orElse(null);
                if (rate != null && (best == null || rate.mean() > best.mean())) {
                    best = rate;
                }
            }
            if (best == null) {
                unknown++;
                continue;
            }
            known.add(best);
            double half = Completion.coinsFor(List.of(best), 0.5) / coinsPerBox;
            lines.add(new HoleLine(
                    hole.getKey(),
                    best.atLeastOne(10.0 * coinsPerBox),
                    half,
                    Completion.coinsFor(List.of(best), 0.9) / coinsPerBox,
                    half <= SANE));
        }
        lines.sort(Comparator.comparingDouble(HoleLine::boxesForHalf));
        double half = Completion.coinsFor(known, 0.5) / coinsPerBox;
        double ninety = Completion.coinsFor(known, 0.9) / coinsPerBox;
        double ten = Completion.expectedFilled(known, 10.0 * coinsPerBox);
        int clumped = known.isEmpty()
                ? 0
                : AlbumForecast.simulate(known, (int) coinsPerBox, size, new int[] {10, HORIZON}, DRAWS, 3)
                        .boxesForHalf();
        long hopeless = lines.stream().filter(line -> !line.sane).count();
        String sentence = known.isEmpty()
                ? t("odds.no-hole")
                : f("odds.album-answer", ten, known.size(), boxes(half), boxes(ninety))
                        + (hopeless == 0 ? "" : " " + t("odds.holes-are-practically-not", hopeless));
        List<Double> curve = new ArrayList<>();
        for (int boxes = 10; boxes <= 200; boxes += 10) {
            curve.add(Completion.expectedFilled(known, (double) boxes * coinsPerBox));
        }
        return new AlbumLine(
                wanted.album, wanted.holes.size(), unknown, half, ninety, ten, clumped, sentence, lines, curve);
    }

    static String boxes(double boxes) {
        return Double.isInfinite(boxes) || boxes > 1e7
                ? t("odds.more-than-a-lifetime-s")
                : Figures.of("%,d", Math.max(1, Math.round(boxes)));
    }

    private static List<VarietyOdds> varieties(HuntBook book, ScopeBook scope) {
        Map<String, int[]> counts = new LinkedHashMap<>();
        book.hunts()
                .forEach(hunt -> hunt.trials()
                        .forEach(trial -> book.find(trial.find()).ifPresent(find -> {
                            String name = nameOf(find, trial.variety());
                            counts.computeIfAbsent(name, key -> new int[2])[0] += find.count();
                        })));
        for (Find find : book.finds()) {
            for (String variety : find.facts().varieties()) {
                found(counts, nameOf(find, variety), find.count());
            }
            AttributionNote note = scope.attribution(find.id()).orElse(null);
            if (note != null && note.countsAsFound()) {
                found(counts, nameOf(find, note.variety()), find.count());
            }
        }
        List<VarietyOdds> odds = new ArrayList<>();
        counts.forEach((name, count) -> odds.add(VarietyOdds.of(name, count[0], count[1], CHECKED_NEXT)));
        return odds;
    }

    private static void found(Map<String, int[]> counts, String name, int coins) {
        int[] count = counts.get(name);
        if (count != null) {
            count[0] += coins;
            count[1] += coins;
        }
    }

    /// A variety of the catalogue has a name that says its date; a word such as `rpm` has not.
    private static String nameOf(Find find, String variety) {
        String own = find.facts().identity().denomination().key() + "-";
        return variety.startsWith(own)
                ? variety.substring(own.length()).replace('-', ' ')
                : find.facts().identity().dateAndMint() + " " + variety;
    }

    private static List<SeriesPoint> series(History history, YieldModel model) {
        List<SeriesPoint> points = new ArrayList<>();
        Map<String, Interval> bands = new HashMap<>();
        for (BoxHistory box : history.byDay()) {
            Interval band = bands.computeIfAbsent(
                    box.source() + "|" + Math.round(20 * box.fullBoxes()),
                    key -> model.next(box.source(), box.fullBoxes()).interval(0.9));
            points.add(new SeriesPoint(box.label(), box.found(), box.fullBoxes(), band.low(), band.high()));
        }
        return points;
    }
}
