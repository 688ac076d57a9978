package org.rollwright.odds;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.rollwright.hunt.BoxId;

/// A box as it may have been: whole, of 2,500 coins, from source A, nothing else noted, but for what a test
/// says.
final class SomeBox {
    private final int number;
    private final int found;
    private String source = "A";
    private String sisters = "";
    private @Nullable LocalDate day;
    private long coins = 2_500;
    private List<Integer> perRoll = List.of();
    private int matching;
    private int visible;
    private boolean whole = true;
    private Map<String, Integer> dates = Map.of();

    SomeBox(int number, int found) {
        this.number = number;
        this.found = found;
    }

    SomeBox from(String name) {
        source = name;
        return this;
    }

    SomeBox sisters(String word) {
        sisters = word;
        return this;
    }

    SomeBox on(@Nullable LocalDate date) {
        day = date;
        return this;
    }

    SomeBox coins(long searched) {
        coins = searched;
        return this;
    }

    /// Finds of roll 1, 2 …
    SomeBox rolls(Integer... finds) {
        perRoll = List.of(finds);
        return this;
    }

    SomeBox enders(int match, int seen) {
        matching = match;
        visible = seen;
        return this;
    }

    SomeBox inPart() {
        whole = false;
        return this;
    }

    SomeBox dates(Map<String, Integer> byDate) {
        dates = byDate;
        return this;
    }

    BoxHistory made() {
        return new BoxHistory(
                new BoxId(number),
                "Box " + number,
                source,
                "",
                sisters,
                day,
                2_500,
                coins,
                found,
                perRoll,
                IntStream.rangeClosed(1, perRoll.size()).boxed().toList(),
                matching,
                visible,
                whole,
                dates);
    }
}
