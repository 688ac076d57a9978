package org.rollwright.odds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.desk.Desk;
import org.rollwright.desk.MemoryJournal;
import org.rollwright.desk.State;
import org.rollwright.entry.Recorder;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Event;
import org.rollwright.journal.Word;
import org.rollwright.scope.ScopeEvent;

/// The report says what was counted: fourteen boxes entered line by line, counted again here by hand. The
/// models behind the intervals are checked against published values elsewhere.
class OddsReportTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();
    private static final InstantSource CLOCK = () -> Instant.parse("2026-03-01T19:00:00Z");
    private static final Watch WHEAT = new Watch("wheat", "series wheat");
    private static final List<String> DATES = List.of("44d", "45", "46s", "57d", "58d", "46", "40");

    /// Wheat cents of each box; two of one shipment stand side by side, the last two are empty.
    private static final int[] FOUND = {12, 11, 3, 4, 20, 18, 7, 8, 15, 14, 2, 3, 0, 0};

    /// Matching of 20 visible enders of each box.
    private static final int[] ENDERS = {1, 0, 0, 0, 2, 1, 0, 0, 1, 0, 0, 0, 0, 0};

    private OddsReport report;
    private History history;

    @BeforeEach
    void fourteen_boxes() {
        Desk desk = new Desk(new MemoryJournal(), CLOCK, State.EMPTY);
        Recorder recorder = new Recorder(desk, CATALOG, CLOCK);
        for (int n = 1; n <= FOUND.length; n++) {
            int number = n;
            BoxDetails details = new BoxDetails(
                    "Box " + n,
                    BoxDetails.Form.BOX,
                    50,
                    50,
                    0,
                    n % 4 < 2 ? "Hill Bank" : "Mill Bank",
                    "",
                    "machine",
                    "",
                    "pair " + (n + 1) / 2,
                    null,
                    LocalDate.of(2025, 1, 1).plusDays(20L * n),
                    null,
                    "",
                    "");
            desk.record(
                    n,
                    "",
                    book -> new Event.Batch(List.of(
                            new HuntEvent.BoxAdded(new BoxId(number), Denomination.US_CENT, details),
                            new HuntEvent.HuntStarted(
                                    new HuntId(number), "Box " + number, List.of(new BoxId(number)), List.of(WHEAT)))));
            line(recorder, n, "e " + ENDERS[n - 1] + "/20");
            for (int roll = 0; roll < 50; roll++) {
                line(recorder, n, roll < FOUND[n - 1] ? "+ " + DATES.get((roll + n) % DATES.size()) : "+");
            }
            line(recorder, n, "finish");
        }
        history = desk.read(book -> History.of(book.hunt(), CATALOG, Denomination.US_CENT, WHEAT, 2_500));
        Map<String, List<Issue>> holes = new LinkedHashMap<>();
        holes.put("1944-D", issue(1944, Mint.D));
        holes.put("1931-S", issue(1931, Mint.S));
        report = desk.read(book -> OddsReport.of(
                book.hunt(), book.scope(), CATALOG, history, 2_500, List.of(new OddsReport.Wanted("Wheats", holes))));
    }

    private static List<Issue> issue(int year, Mint mint) {
        return CATALOG.lookup(Identity.of(Denomination.US_CENT, year, mint));
    }

    private static void line(Recorder recorder, int hunt, String line) {
        assertThat(recorder.record(new HuntId(hunt), line)).as(line).isInstanceOf(Recorder.Outcome.Recorded.class);
    }

    private static int all() {
        int sum = 0;
        for (int found : FOUND) {
            sum += found;
        }
        return sum;
    }

    @Test
    void counts_are_those_entered() {
        assertThat(history.boxes()).hasSize(FOUND.length).allMatch(BoxHistory::whole);
        assertThat(report.found()).isEqualTo(all());
        assertThat(report.yieldSentence())
                .startsWith(String.format(Locale.ROOT, "%d wheat in %,d coins searched", all(), 2_500 * FOUND.length));
        Map<String, Long> bySource = new LinkedHashMap<>();
        for (int n = 1; n <= FOUND.length; n++) {
            bySource.merge(n % 4 < 2 ? "Hill Bank" : "Mill Bank", (long) FOUND[n - 1], Long::sum);
        }
        assertThat(report.sources()).hasSize(2).allSatisfy(line -> {
            String bank = line.source().startsWith("Hill") ? "Hill Bank" : "Mill Bank";
            assertThat(line.boxes()).isEqualTo(7);
            assertThat(line.fullBoxes()).isCloseTo(7, within(1e-9));
            assertThat(line.found()).isEqualTo(bySource.get(bank));
            assertThat(line.mean()).isBetween(line.half().low(), line.half().high());
            assertThat(line.half().low()).isGreaterThan(line.ninety().low());
            assertThat(line.half().high()).isLessThan(line.ninety().high());
            // drawn together, so between its own mean and that of all
            double own = bySource.getOrDefault(bank, 0L) / 7.0;
            double common = all() / 14.0;
            assertThat(line.mean()).isBetween(Math.min(own, common) - 0.8, Math.max(own, common) + 0.8);
        });
        assertThat(report.compareSentence()).contains("looks best");
    }

    @Test
    void the_next_box_is_that_of_the_source_seen_last() {
        Predictive next = YieldModel.fit(history.seen(null)).next(report.next().source(), 1);
        assertThat(report.next().source()).isEqualTo(history.byDay().getLast().source());
        assertThat(report.next().mean()).isEqualTo(next.mean());
        assertThat(report.next().none()).isEqualTo(next.probabilities().getFirst());
        assertThat(report.next().sentence())
                .isEqualTo(String.format(
                        Locale.ROOT,
                        "The next box from %s should hold %d to %d wheat (9 in 10), %.1f on average; %.0f %% for none at all.",
                        report.next().source(),
                        (int) next.interval(0.9).low(),
                        (int) next.interval(0.9).high(),
                        next.mean(),
                        100 * next.probabilities().getFirst()));
        assertThat(report.dueSentence())
                .startsWith(String.format(
                        Locale.ROOT,
                        "2 empty boxes in a row. You are not due: the chance that the next one is empty too is %.0f %%",
                        100 * report.next().none()));
    }

    @Test
    void sister_boxes_that_are_alike_are_said_to_be() {
        assertThat(report.sisterSentence())
                .startsWith("Sister boxes in 7 shipments: they do resemble each other")
                .containsPattern("in [0-4] % of cases");
    }

    @Test
    void enders_are_compared_with_the_whole_box() {
        int matching = 0;
        for (int one : ENDERS) {
            matching += one;
        }
        double share = matching / (all() * (20.0 * FOUND.length) / (2_500.0 * FOUND.length));
        EnderHistory enders = EnderHistory.of(history);
        assertThat(enders.boxes()).isEqualTo(FOUND.length);
        assertThat(enders.ratio()).isCloseTo(share, within(1e-9));
        assertThat(report.enderSentence())
                .startsWith("Three matching enders of 48 would raise what you expect of a closed box from ")
                .contains(String.format(
                        Locale.ROOT, "In your 14 boxes with enders noted, roll ends held %.1f times (", share));
        // the exact interval of a count of 5, 90 %: 1.970 to 10.513 (Garwood; from memory of the tables)
        double expected = matching / share;
        assertThat(enders.ratioInterval().low() * expected).isCloseTo(1.970, within(0.001));
        assertThat(enders.ratioInterval().high() * expected).isCloseTo(10.513, within(0.001));
        assertThat(enders.sentence(new EnderLook(2_500, enders.a(), enders.b(), 20, 0), "wheat"))
                .startsWith("Enders: 0 of 20 match. Before the look ")
                .contains("so trust this less");
        double before = new EnderLook(2_500, enders.a(), enders.b(), 20, 0).meanBefore();
        assertThat(before).isBetween(0.5 * all() / FOUND.length, 2.0 * all() / FOUND.length);
        assertThat(new EnderLook(2_500, enders.a(), enders.b(), 20, 0).mean()).isLessThan(before);
        assertThat(new EnderLook(2_500, enders.a(), enders.b(), 20, 3).mean()).isGreaterThan(before);
    }

    @Test
    void every_date_found_is_listed_with_its_count() {
        Map<String, Integer> counted = new LinkedHashMap<>();
        for (int n = 1; n <= FOUND.length; n++) {
            for (int roll = 0; roll < FOUND[n - 1]; roll++) {
                counted.merge(DATES.get((roll + n) % DATES.size()), 1, Integer::sum);
            }
        }
        assertThat(report.issues()).isNotEmpty();
        assertThat(report.issues().stream()
                        .mapToInt(OddsReport.IssueLine::found)
                        .sum())
                .isEqualTo(all());
        assertThat(report.issues().stream()
                        .filter(line -> line.issue().contains("1944-D"))
                        .mapToInt(OddsReport.IssueLine::found)
                        .sum())
                .isEqualTo(counted.get("44d"));
        List<Double> rates =
                report.issues().stream().map(OddsReport.IssueLine::perBox).toList();
        assertThat(rates).isSortedAccordingTo((a, b) -> Double.compare(b, a));
        report.issues().forEach(line -> {
            // a date never found may have a mean above its own interval: so skewed is what is left of it
            if (line.found() > 0) {
                assertThat(line.perBox())
                        .isBetween(line.ninety().low(), line.ninety().high());
            }
            assertThat(line.boxesForHalf()).isPositive();
        });
    }

    @Test
    void an_album_fills_hole_by_hole_and_its_curve_agrees_with_them() {
        OddsReport.AlbumLine album = report.albums().getFirst();
        assertThat(report.albums()).hasSize(1);
        assertThat(album.empty()).isEqualTo(2);
        assertThat(album.unknown()).isZero();
        assertThat(album.holes()).extracting(OddsReport.HoleLine::hole).containsExactly("1944-D", "1931-S");
        double sum =
                album.holes().stream().mapToDouble(OddsReport.HoleLine::inTen).sum();
        assertThat(album.expectedInTen()).isCloseTo(sum, within(1e-9));
        assertThat(album.curve()).hasSize(20).isSorted();
        assertThat(album.curve().getFirst()).isCloseTo(sum, within(1e-9));
        assertThat(album.half()).isLessThanOrEqualTo(album.ninety());
        album.holes().forEach(hole -> {
            assertThat(hole.boxesForHalf()).isLessThanOrEqualTo(hole.boxesForNinety());
            assertThat(hole.inTen() >= 0.5).isEqualTo(hole.boxesForHalf() <= 10);
            assertThat(hole.sane()).isEqualTo(hole.boxesForHalf() <= 1_000);
        });
        assertThat(album.holes().getFirst().boxesForNinety())
                .isGreaterThan(album.holes().getFirst().boxesForHalf())
                .isFinite();
        assertThat(album.half()).isGreaterThanOrEqualTo(album.holes().getLast().boxesForHalf());
        assertThat(album.sentence())
                .startsWith(String.format(Locale.ROOT, "Ten more boxes should fill %.1f of 2 empty holes.", sum))
                .contains("takes " + OddsReport.boxes(album.half()) + " boxes, nine in ten "
                        + OddsReport.boxes(album.ninety()));
        assertThat(OddsReport.boxes(Double.POSITIVE_INFINITY)).isEqualTo("more than a lifetime's");
        assertThat(OddsReport.boxes(0.2)).isEqualTo("1");
        assertThat(OddsReport.boxes(1_234.4)).isEqualTo("1,234");
    }

    @Test
    void predictions_are_held_against_what_came() {
        List<Honesty.Step> steps = report.honesty().steps();
        assertThat(steps).hasSize(FOUND.length - 5);
        List<Integer> came = new ArrayList<>();
        int inside = 0;
        for (Honesty.Step step : steps) {
            came.add(step.found());
            inside += step.found() >= step.low() && step.found() <= step.high() ? 1 : 0;
        }
        assertThat(came).containsExactly(18, 7, 8, 15, 14, 2, 3, 0, 0);
        assertThat(report.honesty().sentence())
                .startsWith("Of 9 boxes, each predicted from those before it, " + inside
                        + " fell into the interval called 90 %");
    }

    @Test
    void the_series_and_the_boxes_judged_are_those_entered() {
        assertThat(report.series()).hasSize(FOUND.length);
        for (int i = 0; i < FOUND.length; i++) {
            assertThat(report.series().get(i).label()).isEqualTo("Box " + (i + 1));
            assertThat(report.series().get(i).found()).isEqualTo(FOUND[i]);
            assertThat(report.series().get(i).low())
                    .isLessThan(report.series().get(i).high());
        }
        assertThat(report.unusual()).hasSize(8);
        assertThat(report.unusual().stream()
                        .filter(line -> line.label().equals("Box 14"))
                        .toList())
                .singleElement()
                .satisfies(line -> {
                    assertThat(line.found()).isZero();
                    assertThat(line.sentence()).contains("0 wheat");
                });
        assertThat(report.trendSentence()).isNotBlank();
    }

    @Test
    void the_pace_of_a_box_half_searched_is_told() {
        YieldModel model = YieldModel.fit(history.seen(null));
        BoxHistory best = history.boxes().get(4);
        Pace pace = Pace.of(model, "wheat", best, 1_250);
        assertThat(pace.sentence())
                .startsWith("Pace: 20 wheat in 50 rolls is at the "
                        + Pace.ordinal((int) Math.round(100 * pace.percentile())) + " percentile of your own boxes.")
                .contains(pace.more().atLeast(1) > 0.995 ? "above 99 %" : " %.");
        // twenty are more than in any other box
        assertThat(pace.percentile()).isBetween(0.75, 1.0);
        assertThat(List.of(1, 2, 3, 4, 11, 12, 13, 21, 22, 93, 111).stream()
                        .map(Pace::ordinal)
                        .toList())
                .containsExactly("1st", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "22nd", "93rd", "111th");
    }

    private static BoxHistory box(int number, String source, String sisters, int found) {
        return some(number, source, sisters, found).made();
    }

    private static SomeBox some(int number, String source, String sisters, int found) {
        return new SomeBox(number, found)
                .from(source)
                .sisters(sisters)
                .on(LocalDate.of(2025, 1, 1).plusDays(number));
    }

    private static OddsReport of(List<BoxHistory> boxes, YieldModel.Seen... before) {
        return OddsReport.of(
                State.EMPTY.hunt(),
                State.EMPTY.scope(),
                CATALOG,
                new History(Denomination.US_CENT, WHEAT, boxes, List.of(before)),
                2_500,
                List.of(new OddsReport.Wanted("Wheats", Map.of("1944-D", issue(1944, Mint.D)))));
    }

    @Test
    void a_bench_without_boxes_is_told_what_is_missing() {
        OddsReport nothing = of(List.of());
        assertThat(nothing.denomination()).isEqualTo("US cent");
        assertThat(nothing.yieldSentence()).startsWith("Nothing was searched while watching for wheat yet");
        assertThat(nothing.next().source()).isEqualTo("source not noted");
        assertThat(nothing.sources()).isEmpty();
        assertThat(nothing.compareSentence()).startsWith("One source so far");
        assertThat(nothing.sisterSentence()).startsWith("Too few sister boxes");
        assertThat(nothing.enderSentence()).startsWith("No enders were noted yet");
        assertThat(nothing.issueSentence()).startsWith("Too few issues were watched for");
        assertThat(nothing.dueSentence()).startsWith("Your last box was not empty.");
        assertThat(nothing.trendSentence()).startsWith("Too few dated boxes");
        assertThat(nothing.albums()).singleElement().satisfies(album -> {
            assertThat(album.empty()).isEqualTo(1);
            assertThat(album.unknown()).isEqualTo(1);
            assertThat(album.holes()).isEmpty();
            assertThat(album.sentence()).isEqualTo("No hole of this album is empty that your watches look for.");
            assertThat(album.clumped()).isZero();
        });
        assertThat(nothing.varieties()).isEmpty();
        assertThat(nothing.unusual()).isEmpty();
        assertThat(nothing.series()).isEmpty();
    }

    @Test
    void sources_are_listed_best_first_with_what_came_before() {
        OddsReport one = of(
                List.of(box(1, "Mill Bank", "", 2), box(2, "Mill Bank", "", 0)),
                new YieldModel.Seen("before this journal", 3, 3, 90));
        assertThat(one.boxesBefore()).isEqualTo(3);
        assertThat(one.found()).isEqualTo(92);
        assertThat(one.coins()).isEqualTo(12_500);
        assertThat(one.sources())
                .extracting(OddsReport.SourceLine::source)
                .containsExactly("before this journal", "Mill Bank");
        assertThat(one.sources().getLast().boxes()).isEqualTo(2);
        assertThat(one.sources().getLast().found()).isEqualTo(2);
        assertThat(one.sources().getFirst().fullBoxes()).isEqualTo(3);
        assertThat(one.compareSentence())
                .as("what came before is no source to compare")
                .startsWith("One source so far");
        assertThat(one.dueSentence()).startsWith("1 empty box in a row. You are not due");
        OddsReport two = of(List.of(
                box(1, "Mill Bank", "", 2),
                box(2, "Hill Bank", "", 3),
                box(3, "source not noted (machine-wrapped)", "", 50)));
        assertThat(two.compareSentence())
                .matches("Hill Bank looks best; that it really is better than Mill Bank has a chance of 5\\d %, which"
                        + " is little\\.");
        List<BoxHistory> apart = new ArrayList<>();
        for (int n = 1; n <= 12; n++) {
            apart.add(box(n, n % 2 == 0 ? "Mill Bank" : "Hill Bank", "", n % 2 == 0 ? 1 + n % 3 : 40 + n));
        }
        assertThat(of(apart).compareSentence())
                .matches("Hill Bank looks best; that it really is better than Mill Bank has a chance of (99|100) %\\.");
        assertThat(of(apart).next().source()).isEqualTo("Mill Bank");
        apart.add(box(13, "Hill Bank", "", 44));
        assertThat(of(apart).next().sentence())
                .startsWith("The next box from Hill Bank should hold ")
                .endsWith("on average; a box without any wheat would be a rare thing.");
    }

    @Test
    void sister_boxes_need_two_shipments_of_two() {
        assertThat(of(List.of(box(1, "A", "x", 5), box(2, "A", "x", 6), box(3, "A", "y", 9)))
                        .sisterSentence())
                .startsWith("Too few sister boxes");
        List<BoxHistory> unlike = new ArrayList<>();
        for (int n = 1; n <= 12; n++) {
            unlike.add(box(n, "A", "pair " + (n + 1) / 2, n % 2 == 0 ? 1 : 40));
        }
        unlike.add(box(13, "A", "", 7));
        // of all ways to deal six rich and six poor boxes into pairs, every one is at least as alike
        assertThat(of(unlike).sisterSentence())
                .isEqualTo("Sister boxes in 6 shipments: no sign that they resemble each other (boxes dealt out at"
                        + " random are at least as alike in 100 % of cases).");
        List<BoxHistory> alike = new ArrayList<>();
        for (int n = 1; n <= 6; n++) {
            alike.add(box(n, "A", "pair " + (n + 1) / 2, 10 * ((n + 1) / 2)));
        }
        // three pairs: 1 of 15 ways to pair six boxes keeps them together
        assertThat(of(alike).sisterSentence()).containsPattern("no sign .* in [67] % of cases");
    }

    @Test
    void enders_without_a_box_searched_whole_say_what_they_would_change() {
        OddsReport part = of(List.of(some(1, "A", "", 5).enders(7, 20).inPart().made(), box(2, "A", "", 4)));
        EnderHistory known = EnderHistory.of(new History(
                Denomination.US_CENT,
                WHEAT,
                List.of(some(1, "A", "", 5).enders(7, 20).inPart().made(), box(2, "A", "", 4)),
                List.of()));
        EnderLook three = new EnderLook(2_500, known.a(), known.b(), 48, 3);
        EnderLook none = new EnderLook(2_500, known.a(), known.b(), 48, 0);
        assertThat(part.enderSentence())
                .isEqualTo(String.format(
                        Locale.ROOT,
                        "Three matching enders of 48 would raise what you expect of a closed box from %.0f to %.0f; none would lower it to %.0f.",
                        three.meanBefore(),
                        three.mean(),
                        none.mean()));
    }

    @Test
    void varieties_count_what_was_checked_and_what_was_found() {
        Desk desk = new Desk(new MemoryJournal(), CLOCK, State.EMPTY);
        Recorder recorder = new Recorder(desk, CATALOG, CLOCK);
        desk.record(
                1,
                "",
                book -> new Event.Batch(List.of(
                        new HuntEvent.BoxAdded(new BoxId(1), Denomination.US_CENT, BoxDetails.plain("Box 1", 50, 50)),
                        new HuntEvent.HuntStarted(new HuntId(1), "Box 1", List.of(new BoxId(1)), List.of(WHEAT)))));
        for (String line : List.of(
                "+ 44d",
                "- rpm",
                "x4 44d",
                "- rpm",
                "44d rpm",
                "45 ddo",
                "55",
                "f5 - \"cent-1955-doubled-date\"",
                "55",
                "55",
                "55")) {
            line(recorder, 1, line);
        }
        List<org.rollwright.hunt.FindId> ids = desk.read(book ->
                List.copyOf(book.hunt().hunt(new HuntId(1)).orElseThrow().finds()));
        for (int i = 5; i < 8; i++) {
            String verdict = List.of("confirmed", "probable", "unsure").get(i - 5);
            int at = i;
            desk.record(
                    1,
                    "",
                    book -> new ScopeEvent.Attributed(
                            ids.get(at), "cent-1955-doubled-date", new Word<>(verdict), List.of(), ""));
        }
        OddsReport told = desk.read(book -> OddsReport.of(
                book.hunt(),
                book.scope(),
                CATALOG,
                History.of(book.hunt(), CATALOG, Denomination.US_CENT, WHEAT, 2_500),
                2_500,
                List.of()));
        assertThat(told.varieties())
                .extracting(VarietyOdds::name, VarietyOdds::checked, VarietyOdds::found)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("1944-D rpm", 6, 1),
                        org.assertj.core.groups.Tuple.tuple("1955 doubled date", 3, 2));
    }

    @Test
    void a_hole_hardly_ever_found_is_better_bought() {
        assertThat(report.albums().getFirst().holes().getLast().sane()).isFalse();
        assertThat(report.albums().getFirst().sentence())
                .endsWith(" 1 hole is practically not to be found by hunting: buying is the sane way there.");
        assertThat(report.albums().getFirst().clumped()).isEqualTo(-1);
    }

    @Test
    void issues_share_the_exposure_of_their_watch() {
        // fourteen boxes of 2,500 under "wheat": its issues were watched for all the while, later ones never
        assertThat(report.issues())
                .noneMatch(
                        line -> line.issue().startsWith("1959") || line.issue().startsWith("1982"));
        assertThat(report.issues()).anyMatch(line -> line.issue().equals("1909-S vdb"));
        assertThat(report.issueSentence())
                .startsWith("Against its mintage, a coin is found ")
                .contains("; mint P ", "; mint S ")
                .endsWith(" times. Fitted to your finds and drawn towards what you really found of each.");
    }
}
