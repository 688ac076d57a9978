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
import org.rollwright.entry.Recorder;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Desk;
import org.rollwright.hunt.Event;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Logbook;
import org.rollwright.hunt.MemoryJournal;
import org.rollwright.hunt.Watch;

class HistoryTest {
    private static final InstantSource CLOCK = () -> Instant.parse("2026-03-01T19:00:00Z");
    private static final Watch WHEAT = new Watch("wheat", "series wheat");

    private static BoxHistory box(int number, @Nullable LocalDate day, int found, Integer... perRoll) {
        List<Integer> rolls = new ArrayList<>();
        for (int i = 1; i <= perRoll.length; i++) {
            rolls.add(i);
        }
        return new BoxHistory(
                new BoxId(number),
                "Box " + number,
                "A",
                "",
                "",
                day,
                2_500,
                2_500,
                found,
                List.of(perRoll),
                rolls,
                0,
                0,
                true,
                Map.of());
    }

    @Test
    void only_rolls_opened_while_watching_count_and_finds_outside_the_watch_enter_no_rate() {
        Desk desk = new Desk(new MemoryJournal(), CLOCK, new Logbook());
        Recorder recorder = new Recorder(desk, CatalogFolder.catalog(), CLOCK);
        desk.record(
                1,
                "",
                book -> new Event.Batch(List.of(
                        new Event.BoxAdded(new BoxId(1), Denomination.US_CENT, BoxDetails.plain("Box 1", 50, 50)),
                        new Event.HuntStarted(new HuntId(1), "Box 1", List.of(new BoxId(1)), List.of()))));
        for (String line : List.of("+ 44", "+ 45", "watch wheat", "+ 46", "r4 49", "47", "+ 1967", "ca 61")) {
            assertThat(recorder.record(new HuntId(1), line)).isInstanceOf(Recorder.Outcome.Recorded.class);
        }
        desk.record(0, "", book -> new Event.OpeningBalance(Denomination.US_CENT, "wheat", 40, 100_000, 451));
        History history =
                desk.read(book -> History.of(book, CatalogFolder.catalog(), Denomination.US_CENT, WHEAT, 2_500));
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
}
