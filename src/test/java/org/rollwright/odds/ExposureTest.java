package org.rollwright.odds;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Mint;
import org.rollwright.desk.Desk;
import org.rollwright.desk.MemoryJournal;
import org.rollwright.desk.State;
import org.rollwright.entry.Recorder;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.BoxReport;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Event;

/// Which coins were looked at: a roll put back was not searched, nor is the one in hand yet. Every sum of the tool
/// is held against a tally kept here by hand, the way a hunter would on paper.
class ExposureTest {
    private static final InstantSource CLOCK = () -> Instant.parse("2026-03-01T19:00:00Z");
    private static final Watch WHEAT = new Watch("wheat", "series wheat");
    private static final HuntId HUNT = new HuntId(1);
    private static final int ROLLS = 6;
    private static final int COINS = 50;
    private static final Catalog CATALOG = CatalogFolder.catalog();

    private final Desk desk = new Desk(new MemoryJournal(), CLOCK, State.EMPTY);
    private final Recorder recorder = new Recorder(desk, CATALOG, CLOCK);

    ExposureTest() {
        desk.record(
                1,
                "",
                book -> new Event.Batch(List.of(
                        new HuntEvent.BoxAdded(
                                new BoxId(1), Denomination.US_CENT, BoxDetails.plain("Box 1", ROLLS, COINS)),
                        new HuntEvent.BoxAdded(
                                new BoxId(2), Denomination.US_CENT, BoxDetails.plain("Box 2", ROLLS, COINS)),
                        new HuntEvent.HuntStarted(
                                HUNT, "Two boxes", List.of(new BoxId(1), new BoxId(2)), List.of(WHEAT)))));
    }

    private boolean type(String line) {
        return recorder.record(HUNT, line) instanceof Recorder.Outcome.Recorded;
    }

    private HuntBook book() {
        return desk.state().hunt();
    }

    private Box box(int number) {
        return book().box(new BoxId(number)).orElseThrow();
    }

    private List<BoxReport.RollCell.State> states(int box) {
        return BoxReport.of(book(), box(box), CATALOG).strip().stream()
                .map(BoxReport.RollCell::state)
                .toList();
    }

    @Test
    void a_roll_put_back_before_its_turn_is_passed_over_and_not_searched() {
        List.of("+", "skip r2", "+", "44", "+", "+", "+")
                .forEach(line -> assertThat(type(line)).isTrue());
        assertThat(desk.state().hunt().hunt(HUNT).orElseThrow().roll()).isEqualTo(6);
        assertThat(states(1))
                .containsExactly(
                        BoxReport.RollCell.State.SEARCHED,
                        BoxReport.RollCell.State.LEFT,
                        BoxReport.RollCell.State.SEARCHED,
                        BoxReport.RollCell.State.SEARCHED,
                        BoxReport.RollCell.State.SEARCHED,
                        BoxReport.RollCell.State.IN_HAND);
        assertThat(box(1).searchedCoins()).isEqualTo(4L * COINS);
        assertThat(type("finish")).isTrue();
        assertThat(box(1).searchedCoins()).isEqualTo(5L * COINS);
        assertThat(box(1).searchedRolls()).isEqualTo(5);
    }

    @Test
    void a_roll_put_back_with_finds_in_it_is_partly_searched_and_enters_no_rate() {
        List.of("+", "44", "skip", "+", "45", "finish")
                .forEach(line -> assertThat(type(line)).isTrue());
        assertThat(states(1)).startsWith(BoxReport.RollCell.State.PARTLY, BoxReport.RollCell.State.SEARCHED);
        History history = History.of(book(), CATALOG, Denomination.US_CENT, WHEAT, 2_500);
        assertThat(history.coins()).isEqualTo(COINS);
        assertThat(history.found()).as("1944 lay in the roll put back").isEqualTo(1);
        assertThat(box(1).foundCoins()).as("a find all the same").isEqualTo(2);
        Exposure exposure = Exposure.of(book(), CATALOG, Denomination.US_CENT);
        assertThat(exposure.found().values()).containsExactly(1);
        assertThat(exposure.coins(wheat(1945))).isEqualTo(COINS);
    }

    @Test
    void all_in_one_line_it_is_the_same() {
        assertThat(type("+, skip r2, skip r3, +")).isTrue();
        assertThat(desk.state().hunt().hunt(HUNT).orElseThrow().roll()).isEqualTo(4);
        assertThat(box(1).searchedCoins()).isEqualTo(COINS);
    }

    @Test
    void rolls_put_back_at_the_end_lead_to_the_next_box() {
        List.of("r5", "skip r6", "skip r1", "+")
                .forEach(line -> assertThat(type(line)).isTrue());
        assertThat(desk.state().hunt().hunt(HUNT).orElseThrow().box()).contains(new BoxId(2));
        assertThat(box(1).searchedRolls()).isEqualTo(1);
    }

    private static Issue wheat(int year) {
        return CATALOG.issues().stream()
                .filter(issue -> issue.identity().denomination().equals(Denomination.US_CENT)
                        && issue.year() == year
                        && issue.mint().equals(Mint.P))
                .findFirst()
                .orElseThrow();
    }

    @Provide
    Arbitrary<List<String>> evenings() {
        return Arbitraries.of(
                        "+", "+", "+", "+", "r1", "r2", "r3", "r4", "r5", "r6", "skip", "skip r1", "skip r2", "skip r3",
                        "skip r6", "44", "45", "x2 46", "b1", "b2", "<", ">", "finish", "resume")
                .list()
                .ofMinSize(1)
                .ofMaxSize(40);
    }

    /// What a hunter's own tally would hold: for each box its rolls, each open, searched or put back.
    private record Paper(
            Map<Integer, Character> first,
            Map<Integer, Character> second,
            List<int[]> finds,
            int box,
            int roll,
            boolean over) {
        Paper copy(int newBox, int newRoll, boolean newOver) {
            return new Paper(
                    new TreeMap<>(first), new TreeMap<>(second), new ArrayList<>(finds), newBox, newRoll, newOver);
        }

        Map<Integer, Character> rolls(int which) {
            return which == 1 ? first : second;
        }

        Paper leaving() {
            Paper now = copy(box, roll, over);
            now.rolls(box).computeIfPresent(roll, (number, state) -> state == 'o' ? 's' : state);
            return now;
        }

        Paper to(int which, int number) {
            Paper now = (which == box && number == roll ? copy(box, roll, over) : leaving()).copy(which, number, over);
            if (number > 0) {
                now.rolls(which).merge(number, 'o', (before, open) -> before == 'l' ? open : before);
            }
            return now;
        }

        Paper after(String line) {
            return switch (line.charAt(0)) {
                case '+' -> {
                    int next = roll + 1;
                    while (next <= ROLLS
                            && Character.valueOf('l').equals(rolls(box).get(next))) {
                        next++;
                    }
                    if (next > ROLLS && box == 1) {
                        int there = 1;
                        while (there < ROLLS && Character.valueOf('l').equals(second.get(there))) {
                            there++;
                        }
                        yield to(2, there);
                    }
                    yield to(box, next);
                }
                case 'r' -> line.equals("resume") ? copy(box, roll, false) : to(box, line.charAt(1) - '0');
                case 'b' -> {
                    int which = line.charAt(1) - '0';
                    yield to(
                            which,
                            rolls(which).entrySet().stream()
                                    .filter(one -> one.getValue() != 'l')
                                    .mapToInt(Map.Entry::getKey)
                                    .max()
                                    .orElse(1));
                }
                case 's' -> {
                    Paper now = copy(box, roll, over);
                    now.rolls(box).put(line.length() > 5 ? line.charAt(6) - '0' : roll, 'l');
                    yield now;
                }
                case 'f' -> leaving().copy(box, roll, true);
                default -> {
                    Paper now = copy(box, roll, over);
                    now.finds.add(new int[] {box, roll, line.startsWith("x2") ? 2 : 1});
                    yield now;
                }
            };
        }
    }

    @Property(tries = 400)
    void every_sum_is_the_one_a_hunter_would_keep_on_paper(@ForAll("evenings") List<String> lines) {
        ExposureTest evening = new ExposureTest();
        List<Paper> before = new ArrayList<>();
        List<Paper> undone = new ArrayList<>();
        Paper paper = new Paper(new TreeMap<>(), new TreeMap<>(), new ArrayList<>(), 1, 0, false);
        for (String line : lines) {
            // behind the first line lies the beginning of the hunt, which no line of the evening takes back
            boolean nothing = line.equals("<") && before.isEmpty();
            if (nothing || !evening.type(line)) {
                continue;
            }
            if (line.equals("<")) {
                undone.add(paper);
                paper = before.removeLast();
            } else if (line.equals(">")) {
                before.add(paper);
                paper = undone.removeLast();
            } else {
                before.add(paper);
                undone.clear();
                paper = paper.after(line);
            }
        }
        long searched = 0;
        long found = 0;
        for (int number = 1; number <= 2; number++) {
            Map<Integer, Character> rolls = paper.rolls(number);
            long full = rolls.values().stream().filter(state -> state == 's').count();
            searched += full;
            assertThat(evening.box(number).searchedRolls()).as(lines.toString()).isEqualTo(full);
            assertThat(evening.box(number).searchedCoins()).isEqualTo(full * COINS);
            for (int[] find : paper.finds) {
                boolean counts = find[0] == number && Character.valueOf('s').equals(rolls.get(find[1]));
                found += counts ? find[2] : 0;
            }
        }
        History history = History.of(evening.book(), CATALOG, Denomination.US_CENT, WHEAT, 2_500);
        assertThat(history.coins()).as(lines.toString()).isEqualTo(searched * COINS);
        assertThat(history.found()).as(lines.toString()).isEqualTo(found);
        Exposure exposure = Exposure.of(evening.book(), CATALOG, Denomination.US_CENT);
        assertThat(exposure.coins(wheat(1944))).isEqualTo(searched * COINS);
        assertThat(exposure.found().values().stream()
                        .mapToInt(Integer::intValue)
                        .sum())
                .isEqualTo((int) found);
    }
}
