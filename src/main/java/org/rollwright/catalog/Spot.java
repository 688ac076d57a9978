package org.rollwright.catalog;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/// Where to look at a coin: a zone of one side, the whole coin (scale, magnet) or the edge.
public sealed interface Spot {
    /// The coin as a whole: what a scale, a magnet or a first glance tells.
    record Whole() implements Spot {
        @Override
        public String toString() {
            return "coin";
        }
    }

    /// The edge, which no drawing of a side shows.
    record Edge() implements Spot {
        @Override
        public String toString() {
            return "edge";
        }
    }

    /// A zone of a side.
    ///
    /// @param zone its id on the face
    record On(Side side, String zone) implements Spot {
        @Override
        public String toString() {
            return side.word() + ":" + zone;
        }
    }

    /// Names of zones.
    Pattern ZONE = Pattern.compile("[a-z0-9-]+");

    /// What an empty cell says.
    Optional<List<Spot>> NOWHERE = Optional.of(List.of());

    /// Reads what a cell holds, such as `obverse:date;coin`.
    ///
    /// @return empty when a part has another form; an empty list for a blank cell
    static Optional<List<Spot>> parse(String cell) {
        if (cell.isEmpty()) {
            return NOWHERE;
        }
        List<Spot> spots = new ArrayList<>();
        for (String part : cell.split(";")) {
            String word = part.strip();
            if (word.isEmpty()) {
                continue;
            }
            Optional<? extends Spot> spot =
                    switch (word) {
                        case "coin" -> Optional.of(new Whole());
                        case "edge" -> Optional.of(new Edge());
                        default -> on(word);
                    };
            if (spot.isEmpty()) {
                return Optional.empty();
            }
            spots.add(spot.get());
        }
        return Optional.of(List.copyOf(spots));
    }

    private static Optional<On> on(String word) {
        int colon = word.indexOf(':');
        String zone = word.substring(colon + 1);
        return colon > 0 && ZONE.matcher(zone).matches()
                ? Side.of(word.substring(0, colon)).map(side -> new On(side, zone))
                : Optional.empty();
    }

    /// As a cell holds them.
    static String written(List<Spot> spots) {
        return String.join(";", spots.stream().map(Spot::toString).toList());
    }
}
