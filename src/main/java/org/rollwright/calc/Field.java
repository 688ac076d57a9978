package org.rollwright.calc;

import java.util.List;
import java.util.function.Supplier;

/// A field of a calculator.
///
/// @param key by which it is said: in JSON, and in the address of the page
/// @param label in words
/// @param kind what may stand in it
/// @param example what may stand in it, as it is typed
/// @param use whether it must be said
public record Field(String key, Supplier<String> label, Kind kind, String example, Use use) {
    /// Whether a field must be said.
    public enum Use {
        /// It must.
        NEEDED,
        /// It may be left blank.
        OPTIONAL,
        /// It may be left blank, and its example does not go with those of the other fields: another way to ask.
        OTHERWISE
    }

    /// What may stand in a field.
    public sealed interface Kind {}

    /// A number.
    ///
    /// @param least that it may be
    /// @param most that it may be
    record Figure(double least, double most, boolean whole) implements Kind {}

    /// Some numbers.
    record Numbers(Figure each, int fewest, int most) implements Kind {}

    /// Some rows of numbers.
    ///
    /// @param columns names of the numbers in a row; none when another field says how many there are
    record Rows(Figure each, int fewest, int most, List<String> columns) implements Kind {
        Rows {
            columns = List.copyOf(columns);
        }
    }

    /// Some names.
    record Words(int fewest, int most) implements Kind {}

    /// Numbers beyond these bounds mean nothing here, and could keep the computer busy for hours.
    private static final double LEAST = 1e-6;

    private static final double MOST = 1e9;

    static final Figure ABOVE_ZERO = new Figure(LEAST, MOST, false);
    static final Figure FROM_ZERO = new Figure(0, MOST, false);
    /// A chance that is neither none nor a certainty.
    static final Figure CHANCE = new Figure(LEAST, 1 - LEAST, false);

    static Figure whole(int least, int most) {
        return new Figure(least, most, true);
    }

    static Figure number(double least, double most) {
        return new Figure(least, most, false);
    }

    static Field needed(String key, Supplier<String> label, Kind kind, String example) {
        return new Field(key, label, kind, example, Use.NEEDED);
    }

    static Field maybe(String key, Supplier<String> label, Kind kind, String example) {
        return new Field(key, label, kind, example, Use.OPTIONAL);
    }

    static Field otherwise(String key, Supplier<String> label, Kind kind, String example) {
        return new Field(key, label, kind, example, Use.OTHERWISE);
    }

    /// What a form shows in it at first.
    public String shown() {
        return use == Use.OTHERWISE ? "" : example;
    }

    /// Whether it takes lines, not one.
    public boolean rows() {
        return kind instanceof Rows;
    }
}
