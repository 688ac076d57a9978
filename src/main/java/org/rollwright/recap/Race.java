package org.rollwright.recap;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.Roll;

/// Two boxes side by side, roll for roll.
public record Race(Runner one, Runner other) {
    /// A box in the race.
    ///
    /// @param run finds after the first, second … roll searched, in the order of their numbers
    public record Runner(String name, List<Integer> run) {
        public Runner {
            run = List.copyOf(run);
        }

        /// Finds after some rolls; what it had at its end when it has no more.
        int after(int rolls) {
            return run.isEmpty() || rolls < 1 ? 0 : run.get(Math.min(rolls, run.size()) - 1);
        }
    }

    /// Rolls that both have behind them.
    public int rolls() {
        return Math.min(one.run.size(), other.run.size());
    }

    public int ofOne() {
        return one.after(rolls());
    }

    public int ofOther() {
        return other.after(rolls());
    }

    /// How it stands, in one sentence.
    public String sentence() {
        if (rolls() == 0) {
            return t("recap.against-not-begun", one.name, other.name);
        }
        int lead = ofOne() - ofOther();
        return lead == 0
                ? t("recap.and-are-level-at", rolls(), one.name, other.name, ofOne())
                : t(
                        "recap.leads-to",
                        rolls(),
                        lead > 0 ? one.name : other.name,
                        Math.max(ofOne(), ofOther()),
                        Math.min(ofOne(), ofOther()));
    }

    /// The box in hand against the other one of its hunt, or else against the best box of its kind so far.
    public static Optional<Race> of(HuntBook book, Hunt hunt) {
        Optional<Box> inHand = hunt.box().flatMap(book::box);
        if (inHand.isEmpty()) {
            return Optional.empty();
        }
        Box box = inHand.get();
        Optional<Box> sibling = hunt.boxes().stream()
                .filter(id -> !id.equals(box.id()))
                .map(book::box)
                .flatMap(Optional::stream)
                .filter(Box::touched)
                .findFirst();
        return sibling.or(() -> book.boxes().stream()
                        .filter(other -> !other.id().equals(box.id())
                                && other.denomination().equals(box.denomination())
                                && other.earlier().isEmpty()
                                && other.searchedRolls() > 0)
                        .max(Comparator.comparingInt(Box::foundCoins)))
                .map(other -> new Race(runner(book, box), runner(book, other)));
    }

    private static Runner runner(HuntBook book, Box box) {
        Map<Integer, Integer> perRoll = new TreeMap<>();
        box.rolls().stream().filter(Roll::searched).forEach(roll -> perRoll.put(roll.number(), 0));
        int loose = 0;
        for (Find find :
                box.finds().stream().map(book::find).flatMap(Optional::stream).toList()) {
            if (perRoll.containsKey(find.roll())) {
                perRoll.merge(find.roll(), find.count(), Integer::sum);
            } else {
                loose += find.count();
            }
        }
        List<Integer> run = new ArrayList<>();
        int sum = loose;
        for (int found : perRoll.values()) {
            sum += found;
            run.add(sum);
        }
        return new Runner(box.details().label(), run);
    }
}
