package org.rollwright.journal;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.Constructor;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.lang.reflect.WildcardType;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.rollwright.album.AlbumEvent;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Mass;
import org.rollwright.coin.Mint;
import org.rollwright.desk.Desk;
import org.rollwright.desk.EventKinds;
import org.rollwright.desk.MemoryJournal;
import org.rollwright.desk.State;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;

/// Nothing out of proportion enters the record, through whichever part of whichever event.
class BoundsTest {
    private static final Instant NOW = Instant.parse("2026-03-01T12:00:00Z");

    /// Builds an event of a kind with ordinary content, but for one text, day or number in it.
    private static final class Maker {
        private final Object odd;
        private final int wanted;
        private int seen;
        private String where = "";

        Maker(Object odd, int wanted) {
            this.odd = odd;
            this.wanted = wanted;
        }

        private Object place(String name, Object plain) {
            if (plain.getClass() != odd.getClass()) {
                return plain;
            }
            boolean here = seen == wanted;
            seen++;
            if (here) {
                where = name;
            }
            return here ? odd : plain;
        }

        Object make(String name, Type type) throws ReflectiveOperationException {
            if (type instanceof WildcardType wild) {
                return make(name, wild.getUpperBounds()[0]);
            }
            if (type instanceof ParameterizedType list) {
                if (list.getRawType() == Word.class) {
                    return new Word<>((String) make(name, String.class));
                }
                Type[] of = list.getActualTypeArguments();
                return list.getRawType() == Map.class
                        ? Map.of(make(name + " key", of[0]), make(name, of[1]))
                        : list.getRawType() == Set.class ? Set.of(make(name, of[0])) : List.of(make(name, of[0]));
            }
            Class<?> kind = (Class<?>) type;
            if (kind == String.class) {
                return place(name, "word");
            } else if (kind == LocalDate.class) {
                return place(name, LocalDate.of(2026, 3, 1));
            } else if (kind == BigDecimal.class) {
                return place(name, BigDecimal.ONE);
            } else if (kind == double.class || kind == Double.class) {
                return place(name, 1.0);
            } else if (kind == Mass.class) {
                return place(name, Mass.ofGrams(1));
            } else if (kind == Instant.class) {
                return place(name, NOW);
            } else if (kind == int.class || kind == Integer.class) {
                return place(name, 1);
            } else if (kind == long.class || kind == Long.class) {
                return place(name, 1L);
            } else if (kind == boolean.class) {
                return true;
            } else if (kind == Identity.class) {
                return new Identity(Denomination.US_CENT, 1936, Mint.D, (String) place("kind", "small date"), "");
            } else if (kind == Grade.class) {
                return new Grade(30);
            } else if (kind == Denomination.class) {
                return Denomination.US_CENT;
            } else if (kind == Country.class) {
                return Country.US;
            } else if (kind == Mint.class) {
                return Mint.D;
            } else if (kind == DayOfWeek.class) {
                return DayOfWeek.MONDAY;
            } else if (kind.isEnum()) {
                return kind.getEnumConstants()[0];
            } else if (kind == Event.class) {
                return make(name, HuntEvent.Noted.class);
            }
            List<Object> values = new ArrayList<>();
            for (RecordComponent part : kind.getRecordComponents()) {
                values.add(make(kind.getSimpleName() + "." + part.getName(), part.getGenericType()));
            }
            Constructor<?> constructor = kind.getDeclaredConstructors()[0];
            for (Constructor<?> one : kind.getDeclaredConstructors()) {
                if (one.getParameterCount() == values.size()) {
                    constructor = one;
                }
            }
            constructor.setAccessible(true);
            return constructor.newInstance(values.toArray());
        }
    }

    private static List<String> accepted(Object odd) throws ReflectiveOperationException {
        List<String> accepted = new ArrayList<>();
        int tried = 0;
        for (Class<?> kind : EventKinds.all()) {
            for (int at = 0; ; at++) {
                Maker maker = new Maker(odd, at);
                Event event;
                try {
                    event = (Event) maker.make("", kind);
                } catch (java.lang.reflect.InvocationTargetException e) {
                    // the part refuses it by itself
                    tried++;
                    continue;
                }
                if (maker.seen <= at) {
                    break;
                }
                tried++;
                Desk desk = new Desk(new MemoryJournal(), () -> NOW, State.EMPTY);
                Event.Batch alone = new Event.Batch(List.of(new AlbumEvent.PolicyChanged("x"), event));
                boolean refused = refusedForSize(desk.record(0, "", book -> event));
                boolean within = event instanceof Event.Batch || refusedForSize(desk.record(0, "", book -> alone));
                if (!refused || !within) {
                    accepted.add(kind.getSimpleName() + " " + maker.where);
                }
            }
        }
        assertThat(tried).as("places tried").isPositive();
        return accepted;
    }

    /// Whether it was refused for this reason: an event made at random may be refused for another as well.
    private static boolean refusedForSize(Desk.Outcome outcome) {
        return outcome instanceof Desk.Outcome.Refused refused
                && refused.refusal()
                        .toString()
                        .matches("(?s).*(Write at most|Write a day from|Write a number up to|Take it out).*");
    }

    @Test
    void no_part_of_any_event_takes_a_text_without_end() throws ReflectiveOperationException {
        assertThat(accepted("x".repeat(Limits.WORDS + 1))).isEmpty();
        assertThat(accepted("x".repeat(21_000_000))).isEmpty();
    }

    @Test
    void no_part_of_any_event_takes_a_day_a_million_years_away() throws ReflectiveOperationException {
        assertThat(accepted(LocalDate.MAX)).isEmpty();
        assertThat(accepted(LocalDate.MIN)).isEmpty();
        assertThat(accepted(LocalDate.of(9999, 12, 31))).isEmpty();
        assertThat(accepted(Instant.MAX)).isEmpty();
    }

    @Test
    void no_part_of_any_event_takes_a_number_without_end() throws ReflectiveOperationException {
        assertThat(accepted(new BigDecimal("1e99999999"))).isEmpty();
        assertThat(accepted(new BigDecimal("1e-99999999"))).isEmpty();
        assertThat(accepted(new BigDecimal("-1000000000.01"))).isEmpty();
        assertThat(accepted(1e300)).isEmpty();
        assertThat(accepted(Double.NaN)).isEmpty();
        assertThat(accepted(Mass.ofGrams(1e300))).isEmpty();
        assertThat(accepted(Long.MAX_VALUE)).isEmpty();
        assertThat(accepted(Integer.MAX_VALUE)).isEmpty();
    }

    @Test
    void no_part_of_any_event_takes_what_breaks_a_terminal_a_file_or_a_line() throws ReflectiveOperationException {
        for (String odd :
                List.of("\u0000", "a\u001B[2J", "a\u009Bm", "a\u007F", "a\uD800", "\uDC00b", "a\u202Eb", "\uFFFF")) {
            assertThat(accepted(odd)).as(odd).isEmpty();
        }
    }

    @Test
    void what_people_write_is_taken() {
        for (String text : List.of(
                "",
                "Müller's, 5 ¢",
                "two\nlines\tand a tab\r\n",
                "\uD83E\uDE99 found",
                "שלום",
                "\u2068عربي\u2069",
                "=1+1")) {
            assertThat(Limits.unfit(text)).as(text).isEmpty();
        }
    }

    @Test
    void a_refusal_says_where_how_long_and_how_long_it_may_be() {
        Desk desk = new Desk(new MemoryJournal(), () -> NOW, State.EMPTY);
        Desk.Outcome outcome = desk.record(
                0,
                "",
                book -> new HuntEvent.BoxAdded(
                        book.hunt().nextBox(), Denomination.US_CENT, BoxDetails.plain("x".repeat(21_000_000), 50, 50)));
        assertThat(((Desk.Outcome.Refused) outcome).refusal().toString())
                .isEqualTo("The label has 21,000,000 characters. Write at most 200.");
        assertThat(desk.read(State::last)).isZero();
    }

    @Test
    void a_step_of_a_million_parts_is_refused() {
        Desk desk = new Desk(new MemoryJournal(), () -> NOW, State.EMPTY);
        Event many = new Event.Batch(Collections.nCopies(1_000_000, new AlbumEvent.PolicyChanged("x")));
        assertThat(((Desk.Outcome.Refused) desk.record(0, "", book -> many))
                        .refusal()
                        .toString())
                .isEqualTo("That is too much at once: 1,000,000. Record at most 100,000 at once.");
        Event large =
                new Event.Batch(Collections.nCopies(5_000, new AlbumEvent.PolicyChanged("x".repeat(Limits.WORDS))));
        assertThat(((Desk.Outcome.Refused) desk.record(0, "", book -> large))
                        .refusal()
                        .toString())
                .startsWith("That is too much text at once.");
    }

    @Test
    void a_line_without_end_or_a_clock_gone_mad_is_refused() {
        Desk desk = new Desk(new MemoryJournal(), () -> NOW, State.EMPTY);
        assertThat(desk.record(0, "x".repeat(5_000), book -> new AlbumEvent.PolicyChanged("x")))
                .isInstanceOf(Desk.Outcome.Refused.class);
        assertThat(desk.recordAt(Instant.MAX, "", book -> new Desk.Step(0, new AlbumEvent.PolicyChanged("x"))))
                .isInstanceOf(Desk.Outcome.Refused.class);
    }

    @Test
    void what_an_older_record_holds_is_read_undone_and_brought_back() {
        MemoryJournal journal = new MemoryJournal();
        String long21 = "x".repeat(21_000);
        BoxDetails details = BoxDetails.plain(long21, 50, 50).returnedOn(LocalDate.MAX, "");
        journal.append(
                new Entry(1, NOW, 0, long21, new HuntEvent.BoxAdded(new BoxId(1), Denomination.US_CENT, details)));
        Desk desk = new Desk(journal, () -> NOW, State.EMPTY);
        String label = desk.read(
                book -> book.hunt().box(new BoxId(1)).orElseThrow().details().label());
        assertThat(label).isEqualTo(long21);
        assertThat(desk.undo(0, "")).isInstanceOf(Desk.Outcome.Kept.class);
        assertThat(desk.redo(0, "")).isInstanceOf(Desk.Outcome.Kept.class);
        boolean back = desk.read(book -> book.hunt().box(new BoxId(1)).isPresent());
        assertThat(back).isTrue();
    }
}
