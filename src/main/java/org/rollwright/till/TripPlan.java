package org.rollwright.till;

import java.time.DayOfWeek;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;

/// Which branches to visit on a day, in which order: as much worth as fits into the time and distance allowed,
/// exactly, for up to twelve stops (an orienteering problem, by dynamic programming over sets of stops).
///
/// @param order places in the list of stops, in order of visit
/// @param worth of the stops visited
/// @param distance of the whole round, home again, in the unit of the distances
public record TripPlan(List<Integer> order, double worth, double distance) {
    /// Most stops that are planned exactly.
    public static final int MOST = 12;

    /// A place to stop at.
    ///
    /// @param worth what a visit is worth to the hunter, 0 or more
    /// @param open days on which it is open
    public record Stop(String name, double worth, Set<DayOfWeek> open) {
        public Stop {
            open = Set.copyOf(open);
        }
    }

    public TripPlan {
        order = List.copyOf(order);
    }

    /// @param stops at most [#MOST]
    /// @param distances square; row and column 0 are home, then the stops in order; every value 0 or more
    /// @param allowed longest round
    /// @throws IllegalArgumentException when there are too many stops or the distances do not match them
    public static TripPlan of(List<Stop> stops, List<List<Double>> distances, double allowed, DayOfWeek day) {
        int n = stops.size();
        if (n > MOST) {
            throw new IllegalArgumentException("at most " + MOST + " stops can be planned, there are " + n);
        }
        if (distances.size() != n + 1 || distances.stream().anyMatch(row -> row.size() != n + 1)) {
            throw new IllegalArgumentException("distances must be a square of home and " + n + " stops");
        }
        int sets = 1 << n;
        double[][] shortest = new double[sets][n];
        int[][] before = new int[sets][n];
        for (double[] row : shortest) {
            Arrays.fill(row, Double.POSITIVE_INFINITY);
        }
        for (int last = 0; last < n; last++) {
            shortest[1 << last][last] = distances.get(0).get(last + 1);
            before[1 << last][last] = -1;
        }
        int bestSet = 0;
        int bestLast = -1;
        double bestWorth = 0;
        double bestDistance = 0;
        for (int set = 1; set < sets; set++) {
            double worth = worth(stops, set, day);
            if (worth < 0) {
                continue;
            }
            for (int last = 0; last < n; last++) {
                if ((set & 1 << last) == 0 || Double.isInfinite(shortest[set][last])) {
                    continue;
                }
                double home = shortest[set][last] + distances.get(last + 1).get(0);
                boolean better = worth > bestWorth + 1e-12
                        || (Math.abs(worth - bestWorth) <= 1e-12 && bestSet != 0 && home < bestDistance - 1e-12);
                if (home <= allowed + 1e-9 && better) {
                    bestSet = set;
                    bestLast = last;
                    bestWorth = worth;
                    bestDistance = home;
                }
                for (int next = 0; next < n; next++) {
                    if ((set & 1 << next) == 0) {
                        int with = set | 1 << next;
                        double length =
                                shortest[set][last] + distances.get(last + 1).get(next + 1);
                        if (length < shortest[with][next]) {
                            shortest[with][next] = length;
                            before[with][next] = last;
                        }
                    }
                }
            }
        }
        List<Integer> order = new ArrayList<>();
        int set = bestSet;
        int last = bestLast;
        while (last >= 0) {
            order.addFirst(last);
            int previous = before[set][last];
            set &= ~(1 << last);
            last = previous;
        }
        return new TripPlan(order, bestWorth, bestDistance);
    }

    /// Worth of a set, below zero when one of it is closed.
    private static double worth(List<Stop> stops, int set, DayOfWeek day) {
        double worth = 0;
        for (int i = 0; i < stops.size(); i++) {
            if ((set & 1 << i) != 0) {
                if (!stops.get(i).open.contains(day)) {
                    return -1;
                }
                worth += stops.get(i).worth;
            }
        }
        return worth;
    }
}
