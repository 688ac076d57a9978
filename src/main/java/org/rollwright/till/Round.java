package org.rollwright.till;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.rollwright.journal.Word;

/// A round of pick-ups and returns on one day: which branches, in which order.
///
/// The map is the hunter's own: the road from home and the direction of each branch. Between two branches with
/// a direction the road is taken as the straight line between the points these make; where a direction is
/// missing, as the way through home, which is never too short.
///
/// @param day when
/// @param calls in order of visit
/// @param kilometres home again
/// @param worth what the calls are worth together, in the hunter's own points
public record Round(LocalDate day, List<Call> calls, double kilometres, double worth) {
    /// A branch that could be visited.
    ///
    /// @param worth points a visit is worth to the hunter, 0 or more
    /// @param from first day on which there is something to do there
    /// @param why what there is to do
    public record Wish(Branch branch, double worth, LocalDate from, List<String> why) {
        public Wish {
            why = List.copyOf(why);
        }
    }

    /// One call of the round.
    ///
    /// @param kilometres from the call before, or from home
    public record Call(Branch branch, double kilometres, List<String> why) {
        public Call {
            why = List.copyOf(why);
        }
    }

    public Round {
        calls = List.copyOf(calls);
    }

    /// The best round of each day.
    ///
    /// @param wishes at most [TripPlan#MOST]
    /// @param days how many days from the first on
    /// @param allowed longest road of a round, in kilometres
    /// @throws IllegalArgumentException when there are too many wishes
    public static List<Round> plan(List<Wish> wishes, LocalDate first, int days, double allowed) {
        List<List<Double>> roads = roads(wishes.stream().map(Wish::branch).toList());
        List<Round> rounds = new ArrayList<>();
        for (int i = 0; i < days; i++) {
            LocalDate day = first.plusDays(i);
            DayOfWeek weekday = day.getDayOfWeek();
            List<TripPlan.Stop> stops = wishes.stream()
                    .map(wish -> new TripPlan.Stop(
                            wish.branch.name(),
                            wish.worth,
                            wish.branch.closed() || day.isBefore(wish.from) ? java.util.Set.of() : wish.branch.open()))
                    .toList();
            TripPlan best = TripPlan.of(stops, roads, allowed, weekday);
            List<Call> calls = new ArrayList<>();
            int at = 0;
            for (int stop : best.order()) {
                Wish wish = wishes.get(stop);
                calls.add(new Call(wish.branch, roads.get(at).get(stop + 1), wish.why));
                at = stop + 1;
            }
            rounds.add(new Round(day, calls, best.distance(), best.worth()));
        }
        return rounds;
    }

    /// Roads between home (first) and the branches.
    static List<List<Double>> roads(List<Branch> branches) {
        List<List<Double>> roads = new ArrayList<>();
        List<Double> home = new ArrayList<>(List.of(0.0));
        branches.forEach(branch -> home.add(branch.kilometres()));
        roads.add(home);
        for (Branch one : branches) {
            List<Double> row = new ArrayList<>(List.of(one.kilometres()));
            for (Branch other : branches) {
                row.add(road(one, other));
            }
            roads.add(row);
        }
        return roads;
    }

    private static double road(Branch one, Branch other) {
        if (one.equals(other)) {
            return 0;
        }
        if (one.bearing().word().isBlank() || other.bearing().word().isBlank()) {
            return one.kilometres() + other.kilometres();
        }
        double angle = Math.toRadians(degrees(one) - degrees(other));
        double a = one.kilometres();
        double b = other.kilometres();
        return Math.sqrt(Math.max(0, a * a + b * b - 2 * a * b * Math.cos(angle)));
    }

    private static double degrees(Branch branch) {
        // also in small letters, as older records may have it
        return new Word<Bearing>(branch.bearing().word().toUpperCase(Locale.ROOT))
                .in(Bearing.class)
                .map(Bearing::degrees)
                .orElse(0.0);
    }
}
