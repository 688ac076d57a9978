package org.rollwright.till;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.rollwright.coin.Refusal;

class TillTest {
    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);

    /// Any sequence of draws, orders, finds kept, shorts, returns and fees keeps the books balanced, and
    /// nothing leaves a place that is not in it.
    @Property(tries = 300)
    void the_books_always_balance(@ForAll long seed) {
        Random random = new Random(seed);
        Ledger ledger = new Ledger();
        List<Account> accounts = List.of(Account.values());
        for (int i = 0; i < 200; i++) {
            Account from = accounts.get(random.nextInt(accounts.size()));
            Account to = accounts.get(random.nextInt(accounts.size()));
            BigDecimal amount = BigDecimal.valueOf(random.nextInt(60_000) - 1_000L, 2);
            BigDecimal before = ledger.balance(from);
            Optional<Refusal> refusal = ledger.book(new Ledger.Movement(DAY, from, to, amount, "", "", true));
            assertThat(ledger.sum()).isEqualByComparingTo("0");
            if (refusal.isPresent()) {
                assertThat(ledger.balance(from)).isEqualByComparingTo(before);
                assertThat(refusal.get().right()).endsWith(".");
            }
            for (Account account : accounts) {
                if (account != Account.OUTSIDE && account != Account.SHORT) {
                    assertThat(ledger.balance(account).signum()).isNotNegative();
                }
            }
        }
    }

    private static Ledger.Movement move(Account from, Account to, String amount, String what) {
        return new Ledger.Movement(DAY, from, to, new BigDecimal(amount), what, "", true);
    }

    @Test
    void a_return_larger_than_what_is_held_is_refused() {
        Ledger ledger = new Ledger();
        ledger.book(move(Account.OUTSIDE, Account.CASH, "25.00", ""));
        ledger.book(move(Account.CASH, Account.BOXES, "25.00", "Box 1"));
        ledger.book(move(Account.BOXES, Account.KEPT, "0.14", ""));
        ledger.book(move(Account.BOXES, Account.SHORT, "0.01", ""));
        ledger.book(move(Account.BOXES, Account.TO_RETURN, "24.85", ""));
        assertThat(ledger.book(move(Account.TO_RETURN, Account.OUTSIDE, "25.00", ""))
                        .orElseThrow()
                        .wrong())
                .isEqualTo("Only 24.85 is to be returned on 2026-03-02; 25.00 cannot leave it.");
        assertThat(ledger.cashByDay().getOrDefault(DAY, BigDecimal.ZERO)).isEqualByComparingTo("25.00");
    }

    /// Exact against trying every order of every set, on 500 random rounds.
    @Test
    void the_trip_is_as_good_as_the_best_of_all_orders() {
        Random random = new Random(4);
        for (int round = 0; round < 500; round++) {
            int n = 1 + random.nextInt(6);
            List<TripPlan.Stop> stops = new ArrayList<>();
            double[] xs = new double[n + 1];
            double[] ys = new double[n + 1];
            for (int i = 0; i <= n; i++) {
                xs[i] = random.nextDouble() * 30;
                ys[i] = random.nextDouble() * 30;
                if (i > 0) {
                    Set<DayOfWeek> open = random.nextInt(4) == 0
                            ? EnumSet.of(DayOfWeek.SATURDAY)
                            : EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.FRIDAY);
                    stops.add(new TripPlan.Stop("s" + i, random.nextInt(10), open));
                }
            }
            List<List<Double>> distances = new ArrayList<>();
            for (int i = 0; i <= n; i++) {
                List<Double> row = new ArrayList<>();
                for (int j = 0; j <= n; j++) {
                    row.add(Math.hypot(xs[i] - xs[j], ys[i] - ys[j]));
                }
                distances.add(row);
            }
            double allowed = 20 + 80 * random.nextDouble();
            TripPlan plan = TripPlan.of(stops, distances, allowed, DayOfWeek.TUESDAY);
            double best = tried(stops, distances, allowed, 0, new ArrayList<>(), 0);
            assertThat(plan.worth()).isCloseTo(best, within(1e-9));
            double length = 0;
            int at = 0;
            for (int stop : plan.order()) {
                length += distances.get(at).get(stop + 1);
                at = stop + 1;
                assertThat(stops.get(stop).open()).contains(DayOfWeek.TUESDAY);
            }
            length += distances.get(at).get(0);
            assertThat(length).isCloseTo(plan.distance(), within(1e-9)).isLessThanOrEqualTo(allowed + 1e-9);
        }
    }

    private static double tried(
            List<TripPlan.Stop> stops,
            List<List<Double>> distances,
            double allowed,
            int at,
            List<Integer> visited,
            double gone) {
        double best = 0;
        if (gone + distances.get(at).get(0) <= allowed) {
            best = visited.stream().mapToDouble(stop -> stops.get(stop).worth()).sum();
        }
        for (int next = 0; next < stops.size(); next++) {
            if (!visited.contains(next) && stops.get(next).open().contains(DayOfWeek.TUESDAY)) {
                List<Integer> further = new ArrayList<>(visited);
                further.add(next);
                best = Math.max(
                        best,
                        tried(
                                stops,
                                distances,
                                allowed,
                                next + 1,
                                further,
                                gone + distances.get(at).get(next + 1)));
            }
        }
        return best;
    }
}
