package org.rollwright.hunt;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/// How quickly rolls are opened in a box, pauses left out.
///
/// @param rollsAnHour above 0
/// @param left of the rolls neither opened nor put back, how long they take at this rate; nothing when all were opened
public record Tempo(double rollsAnHour, Duration left) {
    /// A roll takes minutes; longer than this between two of them was a pause (our own).
    private static final Duration PAUSE = Duration.ofMinutes(20);

    /// Nobody looks at a roll in less (our own).
    private static final Duration LEAST = Duration.ofSeconds(5);

    /// Times between rolls from which a rate is told (our own).
    private static final int FEWEST = 3;

    /// The rate in a box, by all times between one roll opened and the next; empty while there are too few.
    public static Optional<Tempo> of(Box box) {
        List<Instant> opened = box.rolls().stream()
                .map(Roll::opened)
                .filter(at -> at != null)
                .sorted()
                .toList();
        Duration spent = Duration.ZERO;
        int rolls = 0;
        for (int i = 1; i < opened.size(); i++) {
            Duration between = Duration.between(opened.get(i - 1), opened.get(i));
            if (!between.isZero() && between.compareTo(PAUSE) <= 0) {
                spent = spent.plus(between);
                rolls++;
            }
        }
        if (rolls < FEWEST) {
            return Optional.empty();
        }
        Duration each = spent.dividedBy(rolls);
        if (each.compareTo(LEAST) < 0) {
            // lines of a script, not coins in hands
            return Optional.empty();
        }
        long put = box.rolls().stream()
                .filter(roll -> roll.opened() == null && roll.left())
                .count();
        long waiting = Math.max(0, box.details().rolls() - opened.size() - put);
        return Optional.of(new Tempo(3600e9 / each.toNanos(), each.multipliedBy(waiting)));
    }
}
