package org.rollwright.odds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;

/// The models on what hunters published: reference/surveys.csv and reference/finds_lists.csv, whose last
/// columns name the forum threads, blogs and magazine pages.
class SurveysTest {
    private static List<NamedCsvRecord> rows(String file) throws IOException {
        List<NamedCsvRecord> rows = new ArrayList<>();
        try (CsvReader<NamedCsvRecord> reader =
                CsvReader.builder().ofNamedCsvRecord(Path.of("src/test/resources/reference", file))) {
            reader.forEach(rows::add);
        }
        return rows;
    }

    /// Two batches of 10,000 coins of one hunter in one year gave 14 and 91 wheat cents (surveys CGH20090129
    /// and CGH20090416). Under one constant rate that is a matter of 5 in 10^15 (from memory); clumped counts
    /// allow it.
    @Test
    void one_constant_rate_is_refuted_for_the_hunter_with_14_and_91_in_10000() throws IOException {
        Map<String, Integer> wheats = new HashMap<>();
        rows("surveys.csv").forEach(row -> {
            if (!row.getField("wheats").isEmpty()) {
                wheats.put(row.getField("survey_id"), Integer.parseInt(row.getField("wheats")));
            }
        });
        int few = wheats.getOrDefault("CGH20090129", -1);
        int many = wheats.getOrDefault("CGH20090416", -1);
        assertThat(few).isEqualTo(14);
        assertThat(many).isEqualTo(91);
        double p = 2 * ExactIntervals.atLeast(many, few + many, 0.5);
        System.out.printf(
                "14 and 91 wheat cents in 10,000 each: a constant rate gives that or worse with p = %.1e%n", p);
        assertThat(p).isBetween(1e-15, 2e-14);
        Clustering dispersion = Clustering.of(new int[] {few, many}, 1, 1);
        assertThat(dispersion.p()).isLessThan(1e-10);
        // four boxes whose sizes of 0.7 add up make 91 where 52.5 are expected nothing rare
        NegativeBinomial clumped = new NegativeBinomial(52.5, 4 * 0.7);
        assertThat(clumped.atLeast(many)).isGreaterThan(0.05);
    }

    @Test
    void surveys_as_sources_are_pooled() throws IOException {
        List<YieldModel.Seen> seen = new ArrayList<>();
        double coins = 0;
        long found = 0;
        for (NamedCsvRecord row : rows("surveys.csv")) {
            boolean canadianBox = row.getField("notes").contains("CANADIAN box");
            if (row.getField("coins_searched").isEmpty()
                    || row.getField("wheats").isEmpty()
                    || canadianBox) {
                continue;
            }
            double boxes = Double.parseDouble(row.getField("coins_searched")) / 2500;
            long wheats = Long.parseLong(row.getField("wheats"));
            seen.add(new YieldModel.Seen(row.getField("survey_id"), Math.max(1, boxes), boxes, wheats));
            coins += boxes * 2500;
            found += wheats;
        }
        assertThat(seen).hasSizeGreaterThan(15);
        YieldModel model = YieldModel.fit(seen);
        System.out.printf(
                "%d surveys, %,.0f coins, %d wheat cents: plain share %.2f per box%n",
                seen.size(), coins, found, 2500 * found / coins);
        for (String source : List.of("TN1996", "CGH20090416", "COINWEEK", "MONEYORG")) {
            Interval ninety = model.meanInterval(source, 0.9);
            System.out.printf(
                    "%s: %.1f wheat cents per box (%.1f to %.1f)%n",
                    source, model.mean(source), ninety.low(), ninety.high());
        }
        // one roll of 50 with one wheat would be 50 in a box; pooling does not believe that
        assertThat(model.mean("MONEYORG")).isLessThan(30);
        // a hundred thousand coins hardly move: 396 wheats are 9.9 per box
        assertThat(model.mean("TN1996")).isCloseTo(9.9, within(2.0));
        assertThat(model.mean("a new source")).isBetween(5.0, 30.0);
    }

    private record Wheat(int year, String mint) {}

    /// Issue frequencies learned from all surveys but one, asked which date and mint the next find of the one
    /// left out is: better than mintage alone, by log-score and by rank correlation.
    @Test
    void mintage_with_survival_and_finds_beats_mintage_alone_on_surveys_held_out() throws IOException {
        List<Issue> issues = CatalogFolder.catalog().issues().stream()
                .filter(issue -> issue.series().id().equals("us-cent-lincoln-wheat")
                        && issue.identity().kind().isEmpty()
                        && issue.mintage() != null)
                .toList();
        Map<Wheat, Issue> known = new LinkedHashMap<>();
        issues.forEach(
                issue -> known.putIfAbsent(new Wheat(issue.year(), issue.mint().code()), issue));
        Map<String, Map<Identity, Integer>> surveys = new LinkedHashMap<>();
        for (NamedCsvRecord row : rows("finds_lists.csv")) {
            Issue issue = known.get(new Wheat(Integer.parseInt(row.getField("year")), row.getField("mint")));
            if (issue != null) {
                surveys.computeIfAbsent(row.getField("survey_id"), key -> new HashMap<>())
                        .merge(issue.identity(), Integer.parseInt(row.getField("count")), Integer::sum);
            }
        }
        Set<String> large = new HashSet<>();
        surveys.forEach((survey, finds) -> {
            if (finds.values().stream().mapToInt(Integer::intValue).sum() >= 6) {
                large.add(survey);
            }
        });
        assertThat(large).hasSizeGreaterThanOrEqualTo(5);
        double model = 0;
        double mintage = 0;
        int finds = 0;
        List<Double> predicted = new ArrayList<>();
        List<Double> byMintage = new ArrayList<>();
        List<Double> observed = new ArrayList<>();
        for (String left : large) {
            Map<Identity, Integer> train = new HashMap<>();
            surveys.forEach((survey, counts) -> {
                if (!survey.equals(left)) {
                    counts.forEach((identity, count) -> train.merge(identity, count, Integer::sum));
                }
            });
            IssueRates rates = IssueRates.fit(IssueRates.counted(List.copyOf(known.values()), train, issue -> 100_000));
            double allRates = 0;
            double allMintage = 0;
            for (Issue issue : known.values()) {
                allRates += rates.rate(issue.identity()).orElseThrow().mean();
                allMintage += mintageOf(issue);
            }
            Map<Identity, Integer> held = surveys.getOrDefault(left, Map.of());
            for (Issue issue : known.values()) {
                int count = held.getOrDefault(issue.identity(), 0);
                double p = rates.rate(issue.identity()).orElseThrow().mean() / allRates;
                double q = mintageOf(issue) / allMintage;
                model += count * Math.log(p);
                mintage += count * Math.log(q);
                finds += count;
                predicted.add(p);
                byMintage.add(q);
                observed.add((double) count);
            }
        }
        double rankModel = spearman(predicted, observed);
        double rankMintage = spearman(byMintage, observed);
        System.out.printf(
                "%d finds held out: log-score per find %.3f against %.3f by mintage alone; rank correlation %.3f against %.3f%n",
                finds, model / finds, mintage / finds, rankModel, rankMintage);
        assertThat(model).isGreaterThan(mintage);
        assertThat(rankModel).isGreaterThan(rankMintage);
    }

    private static double mintageOf(Issue issue) {
        Long mintage = issue.mintage();
        return mintage == null ? 0 : mintage;
    }

    private static double spearman(List<Double> a, List<Double> b) {
        double[] x = ranks(a);
        double[] y = ranks(b);
        double mean = (x.length + 1) / 2.0;
        double xy = 0;
        double xx = 0;
        double yy = 0;
        for (int i = 0; i < x.length; i++) {
            xy += (x[i] - mean) * (y[i] - mean);
            xx += (x[i] - mean) * (x[i] - mean);
            yy += (y[i] - mean) * (y[i] - mean);
        }
        return xy / Math.sqrt(xx * yy);
    }

    private static double[] ranks(List<Double> values) {
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < values.size(); i++) {
            order.add(i);
        }
        order.sort(java.util.Comparator.comparing(values::get));
        double[] ranks = new double[values.size()];
        int i = 0;
        while (i < order.size()) {
            int j = i;
            while (j + 1 < order.size() && values.get(order.get(j + 1)).equals(values.get(order.get(i)))) {
                j++;
            }
            for (int k = i; k <= j; k++) {
                ranks[order.get(k)] = (i + j) / 2.0 + 1;
            }
            i = j + 1;
        }
        return ranks;
    }

    @Test
    void rates_follow_what_was_found_when_much_was_searched() {
        Identity common = Identity.of(Denomination.US_CENT, 1944, Mint.P);
        Identity rare = Identity.of(Denomination.US_CENT, 1950, Mint.S);
        IssueRates rates = IssueRates.fit(List.of(
                new IssueRates.Counted(common, 1944, "P", 1.4e9, 400, 1e6),
                new IssueRates.Counted(rare, 1950, "S", 1.2e8, 90, 1e6)));
        assertThat(rates.rate(common).orElseThrow().mean()).isCloseTo(4e-4, within(4e-5));
        assertThat(rates.rate(rare).orElseThrow().mean()).isBetween(4e-5, 1e-4);
        assertThat(rates.rate(Identity.of(Denomination.US_CENT, 1909, Mint.S))).isEmpty();
    }
}
