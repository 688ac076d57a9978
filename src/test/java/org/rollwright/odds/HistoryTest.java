package org.rollwright.odds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.Denomination;
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

class HistoryTest {
    private static final InstantSource CLOCK = () -> Instant.parse("2026-03-01T19:00:00Z");
    private static final Watch WHEAT = new Watch("wheat", "series wheat");

    private static BoxHistory box(int number, @Nullable LocalDate day, int found, Integer... perRoll) {
        return new SomeBox(number, found).on(day).rolls(perRoll).made();
    }

    @Test
    void only_rolls_opened_while_watching_count_and_finds_outside_the_watch_enter_no_rate() {
        Desk desk = new Desk(new MemoryJournal(), CLOCK, State.EMPTY);
        Recorder recorder = new Recorder(desk, CatalogFolder.catalog(), CLOCK);
        desk.record(
                1,
                "",
                book -> new Event.Batch(List.of(
                        new HuntEvent.BoxAdded(new BoxId(1), Denomination.US_CENT, BoxDetails.plain("Box 1", 50, 50)),
                        new HuntEvent.HuntStarted(new HuntId(1), "Box 1", List.of(new BoxId(1)), List.of()))));
        for (String line : List.of("+ 44", "+ 45", "watch wheat", "+ 46", "r4 49", "47", "+ 1967", "ca 61", "r6")) {
            assertThat(recorder.record(new HuntId(1), line)).isInstanceOf(Recorder.Outcome.Recorded.class);
        }
        desk.record(0, "", book -> new HuntEvent.OpeningBalance(Denomination.US_CENT, "wheat", 40, 100_000, 451));
        History history =
                desk.read(book -> History.of(book.hunt(), CatalogFolder.catalog(), Denomination.US_CENT, WHEAT, 2_500));
        assertThat(history.boxes()).singleElement().satisfies(box -> {
            assertThat(box.rolls()).containsExactly(3, 4, 5);
            assertThat(box.exposedCoins()).isEqualTo(50 + 49 + 50);
            assertThat(box.found())
                    .as("46 and 47; 44 and 45 came before the watch, 1967 is no wheat cent")
                    .isEqualTo(2);
            assertThat(box.perRoll()).containsExactly(1, 1, 0);
        });
        assertThat(history.found()).isEqualTo(453);
        assertThat(history.coins()).isEqualTo(100_149);
    }

    @Test
    void a_hoard_in_neighbouring_rolls_is_called_what_it_looks_like() {
        List<BoxHistory> boxes = new ArrayList<>();
        for (int i = 1; i <= 12; i++) {
            boxes.add(box(i, null, 3 + i % 4, new Integer[] {1, 0, 1, 0, 1, 0, 0, 0, 0, 0}));
        }
        Integer[] rolls = new Integer[50];
        java.util.Arrays.fill(rolls, 0);
        for (int r = 21; r <= 30; r++) {
            rolls[r] = 4;
        }
        rolls[3] = 1;
        BoxHistory hoard = box(99, null, 41, rolls);
        boxes.add(hoard);
        History history = new History(Denomination.US_CENT, WHEAT, boxes, List.of());
        Surprise surprise = Surprise.of(history, hoard, 1);
        assertThat(surprise.unusual()).isTrue();
        assertThat(surprise.sentence())
                .startsWith("41 wheat where")
                .contains("of them came in rolls 22 to 31")
                .endsWith("This looks like somebody's accumulation, not ordinary circulation.");
        assertThat(Surprise.of(history, boxes.getFirst(), 1).unusual()).isFalse();
        History young = new History(Denomination.US_CENT, WHEAT, List.of(boxes.getFirst(), hoard), List.of());
        assertThat(Surprise.of(young, hoard, 1).sentence()).contains("nothing can be called unusual yet");
    }

    @Test
    void an_unusual_mixture_of_dates_is_noticed_and_a_usual_one_is_not() {
        Map<String, Integer> usual =
                Map.of("1944", 60, "1945", 50, "1946", 40, "1957-D", 80, "1958-D", 70, "1919-S", 1);
        assertThat(Mixture.of(Map.of("1944", 3, "1957-D", 5, "1958-D", 3, "1945", 2), usual, 1)
                        .orElseThrow()
                        .p())
                .isGreaterThan(0.1);
        Mixture hoard = Mixture.of(Map.of("1919-S", 6, "1912-D", 3, "1944", 2), usual, 1)
                .orElseThrow();
        assertThat(hoard.p()).isLessThan(0.002);
        assertThat(hoard.stands()).containsExactlyInAnyOrder("1919-S", "1912-D");
        assertThat(Mixture.of(Map.of("1944", 3), usual, 1)).isEmpty();
    }

    @Test
    void a_falling_yield_is_told_from_chance() {
        List<BoxHistory> falling = new ArrayList<>();
        List<BoxHistory> level = new ArrayList<>();
        int[] noise = {0, 2, -1, 1, -2, 0, 1, -1};
        for (int i = 0; i < 40; i++) {
            LocalDate day = LocalDate.of(2020, 1, 1).plusDays(45L * i);
            falling.add(box(i + 1, day, (int) Math.max(
                    0, Math.round(20 * Math.pow(0.75, i * 45 / 365.25)) + noise[i % 8])));
            level.add(box(i + 1, day, 8 + noise[i % 8]));
        }
        Optional<Trend> down = Trend.of(new History(Denomination.US_CENT, WHEAT, falling, List.of()));
        assertThat(down.orElseThrow().perYear()).isCloseTo(0.75, within(0.04));
        assertThat(down.orElseThrow().sentence()).startsWith("Your yield is falling");
        assertThat(Trend.of(new History(Denomination.US_CENT, WHEAT, level, List.of()))
                        .orElseThrow()
                        .sentence())
                .startsWith("No trend");
        assertThat(Trend.of(new History(Denomination.US_CENT, WHEAT, level.subList(0, 4), List.of())))
                .isEmpty();
    }

    @Test
    void a_rich_start_promises_a_rich_rest() {
        List<YieldModel.Seen> seen = new ArrayList<>();
        for (int count : new int[] {0, 12, 3, 25, 1, 7, 2, 18}) {
            seen.add(new YieldModel.Seen("A", 1, 1, count));
        }
        YieldModel model = YieldModel.fit(seen);
        double poor = model.rest("A", 0.4, 0, 0.6).mean();
        double rich = model.rest("A", 0.4, 15, 0.6).mean();
        assertThat(poor).isLessThan(model.next("A", 0.6).mean());
        assertThat(rich).isGreaterThan(model.next("A", 0.6).mean());
    }

    @Test
    void clumping_delays_nothing_on_average_but_spreads_completion() {
        List<GammaRate> holes = new ArrayList<>();
        for (int i = 0; i < 30; i++) {
            holes.add(new GammaRate(50, 50 * 2_500 * (5.0 + i % 7)));
        }
        AlbumForecast even = AlbumForecast.simulate(holes, 2_500, 1e6, new int[] {5, 20, 80}, 20_000, 1);
        for (int q = 0; q < 3; q++) {
            double coins = new int[] {5, 20, 80}[q] * 2_500.0;
            assertThat(even.completeWithin().get(q)).isCloseTo(Completion.complete(holes, coins), within(0.012));
            assertThat(even.filledWithin().get(q)).isCloseTo(Completion.expectedFilled(holes, coins), within(0.1));
        }
        assertThat((double) even.boxesForHalf()).isCloseTo(Completion.coinsFor(holes, 0.5) / 2_500, within(2.0));
        assertThat(AlbumForecast.simulate(holes, 2_500, 1, new int[] {5}, 2_000, 9))
                .isEqualTo(AlbumForecast.simulate(holes, 2_500, 1, new int[] {5}, 2_000, 9));
    }

    @Test
    void a_variety_never_found_is_bounded_not_excluded() {
        VarietyOdds never = VarietyOdds.of("1955 ddo", 59, 0, 100);
        // the rule of three at 95 % one-sided: 3/59 (common practice)
        assertThat(never.share().high()).isCloseTo(3.0 / 59, within(0.002));
        assertThat(never.sentence()).contains("never to one in 20");
        assertThat(VarietyOdds.of("1936-D rpm", 40, 4, 10).inNext()).isBetween(0.5, 0.75);
    }

    private static BoxDetails parcel(int rolls, int loose, String bank, String branch, String wrap) {
        return new BoxDetails(
                "Parcel",
                rolls == 0 ? BoxDetails.Form.JAR : BoxDetails.Form.BOX,
                rolls,
                50,
                loose,
                bank,
                branch,
                wrap,
                "",
                "",
                null,
                null,
                null,
                "",
                "");
    }

    @Test
    void a_source_is_called_by_what_is_known_of_it() {
        assertThat(History.source(parcel(50, 0, "", "", ""))).isEqualTo("source not noted");
        assertThat(History.source(parcel(50, 0, "", "", "machine"))).isEqualTo("source not noted (machine-wrapped)");
        assertThat(History.source(parcel(50, 0, "Hill Bank", "", ""))).isEqualTo("Hill Bank");
        assertThat(History.source(parcel(50, 0, "Hill Bank", "Main Street", "hand")))
                .isEqualTo("Hill Bank, Main Street (hand-wrapped)");
    }

    private static Desk desk() {
        return new Desk(new MemoryJournal(), CLOCK, State.EMPTY);
    }

    private static void record(Desk desk, long scope, Event... events) {
        assertThat(desk.record(scope, "", book -> new Event.Batch(List.of(events))))
                .isInstanceOf(Desk.Outcome.Kept.class);
    }

    private static void type(Desk desk, int hunt, String... lines) {
        Recorder recorder = new Recorder(desk, CatalogFolder.catalog(), CLOCK);
        for (String line : lines) {
            assertThat(recorder.record(new HuntId(hunt), line)).as(line).isInstanceOf(Recorder.Outcome.Recorded.class);
        }
    }

    private static History history(Desk desk, Watch watch) {
        return desk.read(book -> History.of(book.hunt(), CatalogFolder.catalog(), Denomination.US_CENT, watch, 2_500));
    }

    @Test
    void a_jar_counts_by_its_coins_when_its_hunt_watches() {
        Desk desk = desk();
        record(
                desk,
                1,
                new HuntEvent.BoxAdded(new BoxId(1), Denomination.US_CENT, parcel(0, 300, "", "", "")),
                new HuntEvent.HuntStarted(new HuntId(1), "Jar", List.of(new BoxId(1)), List.of(WHEAT)));
        record(
                desk,
                2,
                new HuntEvent.BoxAdded(new BoxId(2), Denomination.US_CENT, parcel(0, 200, "", "", "")),
                new HuntEvent.HuntStarted(
                        new HuntId(2), "Jar", List.of(new BoxId(2)), List.of(new Watch("copper", "metal copper"))));
        record(desk, 3, new HuntEvent.BoxAdded(new BoxId(3), Denomination.US_CENT, parcel(0, 100, "", "", "")));
        record(
                desk,
                4,
                new HuntEvent.BoxAdded(new BoxId(4), Denomination.US_CENT, parcel(0, 0, "", "", "")),
                new HuntEvent.HuntStarted(new HuntId(4), "Jar", List.of(new BoxId(4)), List.of(WHEAT)));
        type(desk, 1, "44d", "x2 45", "1967");
        type(desk, 2, "46");
        type(desk, 4, "47");
        assertThat(history(desk, WHEAT).boxes()).singleElement().satisfies(box -> {
            assertThat(box.id()).isEqualTo(new BoxId(1));
            assertThat(box.exposedCoins()).isEqualTo(300);
            assertThat(box.found()).isEqualTo(3);
            assertThat(box.perRoll()).isEmpty();
            assertThat(box.whole()).isFalse();
            assertThat(box.dates()).isEqualTo(Map.of("1944-D", 1, "1945", 2));
            assertThat(box.fullBoxes()).isEqualTo(0.12);
        });
    }

    @Test
    void counts_from_before_the_journal_enter_by_their_own_watch() {
        Desk desk = desk();
        record(
                desk,
                0,
                new HuntEvent.BoxAdded(new BoxId(1), Denomination.US_CENT, parcel(50, 0, "Hill Bank", "", "")),
                new HuntEvent.BoxTallied(
                        new BoxId(1),
                        2_000,
                        List.of(
                                new HuntEvent.WatchCount(WHEAT, 7),
                                new HuntEvent.WatchCount(new Watch("copper", "metal copper"), 400))));
        record(desk, 0, new HuntEvent.OpeningBalance(Denomination.US_CENT, "wheat", 4, 10_000, 41));
        record(desk, 0, new HuntEvent.OpeningBalance(Denomination.US_CENT, "copper", 4, 10_000, 2_000));
        record(
                desk,
                0,
                new HuntEvent.OpeningBalance(
                        new Denomination(org.rollwright.coin.Country.US, "dime"), "wheat", 4, 10_000, 41));
        History history = history(desk, WHEAT);
        assertThat(history.boxes()).isEmpty();
        assertThat(history.before())
                .containsExactly(
                        new YieldModel.Seen("Hill Bank", 1, 0.8, 7),
                        new YieldModel.Seen("before this journal", 4, 4, 41));
        assertThat(history.found()).isEqualTo(48);
        assertThat(history.seen(null)).isEqualTo(history.before());
    }

    @Test
    void a_box_tells_its_rolls_its_ends_and_its_day() {
        Desk desk = desk();
        record(
                desk,
                1,
                new HuntEvent.BoxAdded(new BoxId(1), Denomination.US_CENT, parcel(3, 0, "", "", "")),
                new HuntEvent.BoxAdded(new BoxId(2), Denomination.US_CENT, parcel(3, 0, "", "", "")),
                new HuntEvent.HuntStarted(new HuntId(1), "Two", List.of(new BoxId(1), new BoxId(2)), List.of(WHEAT)));
        type(desk, 1, "e 1/6", "e 2/4", "+ 44d", "+", "+ 45 rpm, x2 44d", "r3 48");
        type(desk, 1, "b2", "r2");
        History history = history(desk, WHEAT);
        assertThat(history.boxes()).hasSize(2);
        BoxHistory whole = history.boxes().getFirst();
        assertThat(whole.whole()).isTrue();
        assertThat(whole.exposedCoins()).isEqualTo(148);
        assertThat(whole.perRoll()).containsExactly(1, 0, 3);
        assertThat(whole.rolls()).containsExactly(1, 2, 3);
        assertThat(whole.endersMatching()).isEqualTo(3);
        assertThat(whole.endersVisible()).isEqualTo(10);
        assertThat(whole.day()).as("of its first find").isEqualTo(LocalDate.of(2026, 3, 1));
        BoxHistory part = history.boxes().getLast();
        assertThat(part.whole()).isFalse();
        assertThat(part.day()).as("nothing tells").isNull();
        assertThat(history.seen(whole)).containsExactly(part.seen());
        assertThat(history.seen(null)).containsExactly(whole.seen(), part.seen());
        assertThat(history(desk, new Watch("wheat", "variety rpm")).found())
                .as("a rule that looks at the coin's state")
                .isEqualTo(1);
        assertThat(history(desk, new Watch("wheat", "no rule at all")).found()).isZero();
        assertThat(history(desk, new Watch("another name", "series wheat")).boxes())
                .isEmpty();
        assertThat(ofBox(desk, WHEAT)).contains(whole);
        assertThat(ofBox(desk, new Watch("copper", "metal copper"))).isEmpty();
    }

    private static Optional<BoxHistory> ofBox(Desk desk, Watch watch) {
        return desk.read(book -> History.ofBox(
                book.hunt(),
                CatalogFolder.catalog(),
                book.hunt().box(new BoxId(1)).orElseThrow(),
                watch,
                2_500));
    }

    private static History plain(int... found) {
        List<BoxHistory> boxes = new ArrayList<>();
        for (int i = 0; i < found.length; i++) {
            boxes.add(box(i + 1, LocalDate.of(2024, 1, 1).plusDays(7L * i), found[i], 0, 0, 0));
        }
        return new History(Denomination.US_CENT, WHEAT, boxes, List.of());
    }

    @Test
    void a_box_far_out_is_said_to_be_with_its_odds() {
        History history = plain(6, 5, 7, 6, 5, 6, 7, 6, 60, 6, 5, 7, 6, 0);
        BoxHistory rich = history.boxes().get(8);
        Predictive others = YieldModel.fit(history.seen(rich)).next("A", 1);
        Surprise many = Surprise.of(history, rich, 1);
        assertThat(many.expected()).isEqualTo(others.mean());
        assertThat(many.atLeast()).isEqualTo(others.atLeast(60)).isLessThan(0.01);
        assertThat(many.atMost()).isEqualTo(others.atMost(60));
        assertThat(many.unusual()).isTrue();
        assertThat(many.clustering()).as("three rolls are too few to say").isEmpty();
        assertThat(many.sentence())
                .isEqualTo(String.format(
                        java.util.Locale.ROOT,
                        "60 wheat where %.1f were to be expected (%d to %d in nine boxes of ten): more than all but one in %s boxes like yours.",
                        others.mean(),
                        (int) others.interval(0.9).low(),
                        (int) others.interval(0.9).high(),
                        Surprise.odds(many.atLeast())));
        History poor = plain(40, 44, 39, 41, 45, 40, 43, 38, 42, 1);
        Surprise few = Surprise.of(poor, poor.boxes().getLast(), 1);
        assertThat(few.unusual()).isTrue();
        assertThat(few.sentence())
                .contains("fewer than all but one in " + Surprise.odds(few.atMost()) + " boxes like yours.");
        Surprise ordinary = Surprise.of(poor, poor.boxes().getFirst(), 1);
        assertThat(ordinary.unusual()).isFalse();
        assertThat(ordinary.sentence())
                .startsWith("An ordinary box: 40 wheat, with ")
                .endsWith(" in nine boxes of ten).");
        History three = plain(6, 60, 5);
        assertThat(Surprise.of(three, three.boxes().get(1), 1).sentence())
                .isEqualTo("With 2 other boxes to compare with, nothing can be called unusual yet.");
        assertThat(Surprise.of(three, three.boxes().get(1), 1).unusual()).isFalse();
        History two = plain(6, 60);
        assertThat(Surprise.of(two, two.boxes().get(1), 1).sentence()).startsWith("With 1 other box to");
        History summed = new History(
                Denomination.US_CENT,
                WHEAT,
                plain(6, 5, 60).boxes(),
                List.of(new YieldModel.Seen("before this journal", 9, 9, 54)));
        assertThat(Surprise.of(summed, summed.boxes().getLast(), 1).sentence())
                .as("sums from before count as another")
                .startsWith("60 wheat where");
        assertThat(Surprise.odds(0.25)).isEqualTo("4");
        assertThat(Surprise.odds(1 / 999.0)).isEqualTo("999");
        assertThat(Surprise.odds(1 / 1_234.0)).isEqualTo("1,200");
        assertThat(Surprise.odds(1e-6)).isEqualTo("a million");
        assertThat(Surprise.odds(0)).isEqualTo("a million");
        assertThat(Surprise.odds(1.2e-6)).isEqualTo("833,300");
    }

    @Test
    void finds_of_one_roll_are_called_by_it() {
        List<BoxHistory> boxes = new ArrayList<>(plain(4, 5, 4, 6, 5).boxes());
        BoxHistory one = box(50, null, 5, 0, 0, 5, 0, 0, 0, 0, 0, 0, 0, 0, 0);
        boxes.add(one);
        History history = new History(Denomination.US_CENT, WHEAT, boxes, List.of());
        Surprise surprise = Surprise.of(history, one, 1);
        assertThat(surprise.unusual()).isTrue();
        assertThat(surprise.sentence())
                .startsWith("An ordinary box: 5 wheat")
                .contains("5 of them came in roll 3: evenly spread finds do that in one box of ")
                .doesNotContain("accumulation");
        assertThat(Surprise.of(history, box(51, null, 5, 1, 1, 0, 1, 1, 1, 0), 1)
                        .clustering())
                .isPresent();
        assertThat(Surprise.of(history, box(51, null, 3, 1, 1, 0, 1, 0), 1).clustering())
                .isPresent();
        assertThat(Surprise.of(history, box(51, null, 2, 1, 1, 0, 0, 0), 1).clustering())
                .isEmpty();
        assertThat(Surprise.of(history, box(51, null, 3, 1, 1, 0, 1), 1).clustering())
                .isEmpty();
    }

    private static BoxHistory mixed(int number, int found, Map<String, Integer> dates) {
        return new SomeBox(number, found).dates(dates).made();
    }

    @Test
    void strange_dates_make_a_box_unusual_though_its_count_is_not() {
        List<BoxHistory> boxes = new ArrayList<>();
        for (int i = 1; i <= 6; i++) {
            boxes.add(mixed(i, 11, Map.of("1944", 3, "1945", 3, "1957-D", 3, "1958-D", 2)));
        }
        BoxHistory strange = mixed(7, 11, Map.of("1919-S", 5, "1912-D", 3, "1944", 3));
        boxes.add(strange);
        History history = new History(Denomination.US_CENT, WHEAT, boxes, List.of());
        Surprise surprise = Surprise.of(history, strange, 1);
        assertThat(surprise.unusual()).isTrue();
        assertThat(surprise.sentence())
                .startsWith("An ordinary box: 11 wheat")
                .contains(" Its dates are not your usual mixture, with too many of 1919-S, 1912-D (one box in ");
        assertThat(Surprise.of(history, boxes.getFirst(), 1).unusual()).isFalse();
    }

    @Test
    void the_pace_is_a_place_among_ones_own_boxes() {
        History history = plain(6, 5, 7, 6, 5, 6, 7, 6, 9, 3);
        YieldModel model = YieldModel.fit(history.seen(null));
        BoxHistory half = new SomeBox(70, 3).coins(1_250).rolls(1, 2).inPart().made();
        Pace pace = Pace.of(model, "wheat", half, 1_250);
        Predictive soFar = model.next("A", 0.5);
        double expected = soFar.atMost(2) + (soFar.atMost(3) - soFar.atMost(2)) / 2;
        assertThat(pace.percentile()).isCloseTo(expected, within(1e-12));
        Predictive rest = model.rest("A", 0.5, 3, 0.5);
        assertThat(pace.more()).isEqualTo(rest);
        assertThat(pace.sentence())
                .isEqualTo(String.format(
                        java.util.Locale.ROOT,
                        "Pace: 3 wheat in 2 rolls is at the %s percentile of your own boxes. The rest should give %d to %d more (4 in 5); at least one more: %.0f %%.",
                        Pace.ordinal((int) Math.round(100 * expected)),
                        (int) rest.interval(0.8).low(),
                        (int) rest.interval(0.8).high(),
                        100 * rest.atLeast(1)));
        assertThat(Pace.of(model, "wheat", half, 0).sentence()).endsWith("at least one more: below 1 %.");
        assertThat(Pace.of(model, "wheat", history.boxes().get(8), 250_000).sentence())
                .endsWith("at least one more: above 99 %.");
    }

    @Test
    void predictions_begin_with_the_sixth_box_and_are_the_last_forty() {
        Honesty few = Honesty.of(plain(6, 5, 7, 6, 5));
        assertThat(few.boxes()).isZero();
        assertThat(few.held()).containsExactly(Double.NaN, Double.NaN, Double.NaN);
        assertThat(few.sentence()).startsWith("There are too few boxes");
        int[] found = new int[47];
        for (int i = 0; i < found.length; i++) {
            found[i] = 4 + i * 7 % 5;
        }
        found[46] = 60;
        History history = plain(found);
        Honesty honesty = Honesty.of(history);
        assertThat(honesty.boxes()).isEqualTo(40);
        assertThat(honesty.steps().getFirst().label()).isEqualTo("Box 8");
        int[] held = new int[3];
        for (int i = 7; i < 47; i++) {
            List<YieldModel.Seen> before =
                    history.boxes().subList(0, i).stream().map(BoxHistory::seen).toList();
            Predictive predictive = YieldModel.fit(before).next("A", 1);
            double[] levels = {0.5, 0.8, 0.9};
            for (int level = 0; level < 3; level++) {
                Interval interval = predictive.interval(levels[level]);
                held[level] += found[i] < interval.low() || found[i] > interval.high() ? 0 : 1;
            }
            Honesty.Step step = honesty.steps().get(i - 7);
            assertThat(step)
                    .isEqualTo(new Honesty.Step(
                            "Box " + (i + 1),
                            (int) predictive.interval(0.9).low(),
                            (int) predictive.interval(0.9).high(),
                            predictive.mean(),
                            found[i]));
        }
        assertThat(honesty.held()).containsExactly(held[0] / 40.0, held[1] / 40.0, held[2] / 40.0);
        assertThat(held[2]).isLessThan(40);
        assertThat(honesty.sentence())
                .startsWith("Of 40 boxes, each predicted from those before it, " + held[2]
                        + " fell into the interval called 90 %, " + held[1] + " into the one called 80 % and " + held[0]
                        + " into the one called 50 %.");
    }
}
