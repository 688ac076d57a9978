package org.rollwright.till;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/// What there is to do at branches, and the best round of each of the next days.
///
/// @param wishes what there is to do, a branch each
/// @param rounds of each day, the first day first; empty when there is nothing to do
/// @param best the round worth most, null when there is none
public record Trip(
        List<Round.Wish> wishes,
        List<Round> rounds,
        @Nullable Round best,
        LocalDate first) {
    /// Days that are looked at.
    public static final int DAYS = 7;

    /// A road that no round of a day reaches, in kilometres.
    public static final double ANY_ROAD = 1_000;

    private static final double PICK_UP = 3;
    private static final double RETURN = 2;
    private static final double RETURN_WHERE_BOXES_COME_FROM = 1;
    private static final double ASK = 1;

    public Trip {
        wishes = List.copyOf(wishes);
        rounds = List.copyOf(rounds);
    }

    /// How amounts and days are written.
    public interface Manner {
        String amount(BigDecimal amount);

        String day(LocalDate day);
    }

    /// Plans from what is to be picked up, returned and asked for.
    ///
    /// @param ledger in the currency that is returned
    /// @param own what visits are worth to the hunter instead, by number of the wish, from 1
    /// @param allowed longest road of a round, in kilometres
    public static Trip plan(
            TillBook till, Ledger ledger, LocalDate today, Map<Integer, Double> own, double allowed, Manner manner) {
        List<Round.Wish> wishes = wishes(till, ledger, today, own, allowed, manner);
        List<Round.Wish> taken = wishes.stream()
                .filter(wish -> wish.worth() > 0)
                .sorted(Comparator.comparingDouble(Round.Wish::worth).reversed())
                .limit(TripPlan.MOST)
                .toList();
        List<Round> rounds = taken.isEmpty() ? List.of() : Round.plan(taken, today, DAYS, allowed);
        Optional<Round> best = rounds.stream()
                .filter(round -> !round.calls().isEmpty())
                .max(Comparator.comparingDouble(Round::worth)
                        .thenComparing(
                                Comparator.comparingDouble(Round::kilometres).reversed())
                        .thenComparing(Comparator.comparing(Round::day).reversed()));
        return new Trip(wishes, rounds, best.orElse(null), today);
    }

    /// What there is to do at each branch, in the order of branches.
    private static List<Round.Wish> wishes(
            TillBook till, Ledger ledger, LocalDate today, Map<Integer, Double> own, double allowed, Manner manner) {
        BigDecimal toReturn = ledger.balance(Account.TO_RETURN);
        List<String> loops = ledger.loops();
        Optional<Branch> goesTo =
                toReturn.signum() > 0 ? whereReturnsGo(till, loops, today, allowed) : Optional.empty();
        List<Round.Wish> wishes = new ArrayList<>();
        for (Branch branch : till.branches()) {
            if (branch.closed()) {
                continue;
            }
            List<String> why = new ArrayList<>();
            double worth = 0;
            LocalDate from = today;
            List<Order> due = till.orders().stream()
                    .filter(order -> order.isOpen() && order.branch().equals(branch.name()))
                    .sorted(Comparator.comparing(Order::due))
                    .toList();
            boolean back = goesTo.filter(branch::equals).isPresent();
            for (Order order : due) {
                worth += PICK_UP;
                why.add(t("till.pick-up-due", order.boxes(), order.denomination(), manner.day(order.due())));
            }
            if (back) {
                boolean loop = isLoop(branch, loops);
                worth += loop ? RETURN_WHERE_BOXES_COME_FROM : RETURN;
                why.add(
                        loop
                                ? t("till.return-in-a-loop", manner.amount(toReturn))
                                : t("till.return-up-to", manner.amount(toReturn)));
            }
            if (!back && goesTo.isPresent() && branch.takes()) {
                why.add(t("till.returns-go-elsewhere", goesTo.get().name()));
            }
            if (!due.isEmpty() && !back) {
                from = due.getFirst().due();
            }
            if (due.isEmpty() && branch.gives()) {
                worth += ASK;
                why.add(t("till.ask-for-boxes"));
            }
            wishes.add(new Round.Wish(
                    branch, own.getOrDefault(wishes.size() + 1, worth), from.isBefore(today) ? today : from, why));
        }
        return wishes;
    }

    /// The one branch that gets what goes back: open on one of the days and within reach, better one that gives no
    /// boxes, then the nearest. Coins can be carried to one place only, so no other is told of them.
    private static Optional<Branch> whereReturnsGo(TillBook till, List<String> loops, LocalDate today, double allowed) {
        return till.branches().stream()
                .filter(branch -> branch.takes()
                        && IntStream.range(0, DAYS).anyMatch(day -> branch.openOn(today.plusDays(day)))
                        && 2 * branch.kilometres() <= allowed)
                .min(Comparator.comparing((Branch branch) -> isLoop(branch, loops))
                        .thenComparingDouble(Branch::kilometres));
    }

    /// Whether coins returned there may come back in the next box.
    private static boolean isLoop(Branch branch, List<String> loops) {
        return branch.gives() || loops.contains(branch.name());
    }
}
