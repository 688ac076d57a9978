package org.rollwright.entry.narration;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Mass;
import org.rollwright.entry.EntryContext;

/// Reads how the search goes on: rolls, boxes, weights, counts promised and running.
abstract class CourseGrammar extends Hearing {
    static final int LONGEST_ROLL = 500;

    /// Most coins of a roll that are announced as `two in 23`.
    private static final int MOST_IN_ROLL = 9;
    /// What makes a figure something else than a date, a count or a roll.
    static final Set<String> UNITS = RollWords.with(RollWords.MEASURES, "enders", "ender", "more", "of", "out", "and");
    /// What running counts count.
    static final Set<String> COUNTED = RollWords.with(RollWords.KEEPERS, "one", "wheatback", "back", "backs");
    private static final Set<String> TOTAL_LEADS =
            Set.of("makes", "us", "number", "at", "was", "is", "it", "that's", "so");

    CourseGrammar(List<Word> words, EntryContext context, Phrases phrases) {
        super(words, context, phrases);
    }

    /// What the words at a place say of the search, null when they say nothing of it.
    @Nullable
    Mention course(int i) {
        Mention mention = weight(i);
        mention = mention == null ? roll(i) : mention;
        mention = mention == null ? box(i) : mention;
        mention = mention == null ? promise(i) : mention;
        return mention == null ? total(i) : mention;
    }

    private @Nullable Mention weight(int i) {
        Optional<Numbers.Spoken> first = count(i);
        if (first.isEmpty()) {
            return null;
        }
        int at = first.get().end();
        if (is(at, "pound", "pounds", "lb", "lbs")) {
            int after = is(at + 1, "and", "comma") ? at + 2 : at + 1;
            Optional<Numbers.Spoken> ounces = after < words.size() ? count(after) : Optional.empty();
            boolean both = ounces.isPresent() && is(ounces.get().end(), "ounce", "ounces", "oz");
            double grams = Mass.ofPoundsAndOunces(
                            first.get().value(), both ? ounces.get().value() : 0)
                    .grams();
            return new Mention.Weight(i, both ? ounces.get().end() + 1 : at + 1, Mass.ofGrams(grams));
        }
        if (is(at, "ounce", "ounces", "oz")) {
            return new Mention.Weight(
                    i, at + 1, Mass.ofPoundsAndOunces(0, first.get().value()));
        }
        if (is(at, "gram", "grams")) {
            return new Mention.Weight(i, at + 1, Mass.ofGrams(first.get().value()));
        }
        return null;
    }

    private @Nullable Mention roll(int i) {
        if (is(i, "roll")) {
            int at = is(i + 1, "number") ? i + 2 : i + 1;
            Optional<Numbers.Spoken> number = count(at);
            if (number.isPresent()
                    && !number.get().ordinal()
                    && number.get().value() >= 1
                    && number.get().value() <= LONGEST_ROLL
                    && !isDateBehindRoll(i, number.get())) {
                int value = number.get().value();
                int end = number.get().end();
                while (is(end, "and", "through", "to")) {
                    Optional<Numbers.Spoken> further = count(end + 1);
                    boolean goesOn = further.isPresent()
                            && further.get().value() > value
                            && further.get().value() <= value + 6;
                    if (!goesOn) {
                        break;
                    }
                    value = further.get().value();
                    end = further.get().end();
                }
                return new Mention.RollTo(i, end, value);
            }
            return null;
        }
        Optional<Numbers.Spoken> ordinal = number(i);
        if (ordinal.isPresent()
                && ordinal.get().ordinal()
                && is(ordinal.get().end(), "roll")
                && !opens(ordinal.get().end())
                && ordinal.get().value() <= LONGEST_ROLL) {
            return new Mention.RollTo(i, ordinal.get().end() + 1, ordinal.get().value());
        }
        if (is(i, "next", "another") && is(i + 1, "roll")) {
            return is(i + 2, "number") || sequence(i + 2, "that's", "roll")
                    ? null
                    : new Mention.RollNext(i, i + 2, true);
        }
        if (is(i, "next") && opens(i)) {
            if (is(i + 1, "one") && stops(i + 1)) {
                return new Mention.RollNext(i, i + 2, false);
            }
            return stops(i) ? new Mention.RollNext(i, i + 1, false) : null;
        }
        return null;
    }

    private @Nullable Mention box(int i) {
        if (!is(i, "box")) {
            return null;
        }
        int at = is(i + 1, "number") ? i + 2 : i + 1;
        Optional<Numbers.Spoken> number = count(at);
        boolean usable = number.isPresent()
                && !number.get().ordinal()
                && number.get().value() >= 1
                && number.get().value() <= 50;
        return usable ? new Mention.BoxTo(i, number.get().end(), number.get().value()) : null;
    }

    // counts

    private int overCounted(int i) {
        int at = i;
        while (is(at, "wheat", "silver", "steel", "more", "other")
                || (at < words.size() && COUNTED.contains(words.get(at).text()))) {
            at++;
        }
        return at;
    }

    /// Whether a figure is most likely the number of a roll.
    abstract boolean meantAsRoll(int i);

    private @Nullable Mention promise(int i) {
        Optional<Numbers.Spoken> number = count(i);
        if (number.isEmpty()
                || number.get().ordinal()
                || number.get().value() < 1
                || number.get().value() > 12) {
            return null;
        }
        int value = number.get().value();
        int end = number.get().end();
        int at = overCounted(end);
        boolean said = is(at, "in")
                && (is(at + 1, "this", "that", "here")
                        || sequence(at + 1, "the", "same")
                        || sequence(at + 1, "a", "row")
                        || sequence(at + 1, "one", "roll"));
        boolean oneRoll = at > end && sequence(at, "one", "roll");
        boolean oneRollEaten = at > end && is(at - 1, "one") && is(at, "roll");
        boolean ofThem = sequence(end, "of", "them") && is(i - 1, "has", "had", "are");
        boolean here = is(end, "here") || is(end, "more");
        boolean hasCounted = is(i - 1, "has", "had") && at > end;
        boolean inRoll = is(end, "in")
                && value <= MOST_IN_ROLL
                && count(end + 1)
                        .filter(roll -> !roll.ordinal() && roll.value() <= LONGEST_ROLL)
                        .isPresent()
                && meantAsRoll(end + 1);
        if (inRoll) {
            return new Mention.Promise(i, end + 1, value);
        }
        if (!(said || oneRoll || oneRollEaten || ofThem || here || hasCounted)) {
            return null;
        }
        return new Mention.Promise(i, Math.max(end, at), value);
    }

    private @Nullable Mention total(int i) {
        Optional<Numbers.Spoken> number = count(i);
        if (number.isEmpty() || number.get().value() > 999 || number.get().value() < 1) {
            return null;
        }
        int value = number.get().value();
        int end = number.get().end();
        int at = overCounted(end);
        if (is(end, "canadian") || is(at, "canadian")) {
            return null;
        }
        if (number.get().ordinal()) {
            boolean lead = is(i - 1, "our", "the", "my") || (opens(i) && at > end);
            boolean coin = at > end || stops(end - 1) || opens(end);
            boolean second = value <= 3 && is(end, "one") && !is(i - 1, "our", "my");
            return lead && coin && !second && !is(end, "roll", "box", "time", "mint", "year")
                    ? new Mention.Total(i, at, value)
                    : null;
        }
        boolean unit = end < words.size()
                && !words.get(end).opens()
                && UNITS.contains(words.get(end).text());
        boolean soFar = sequence(at, "so", "far") || is(at, "now", "total", "today", "altogether");
        boolean inRolls = is(at, "in", "after")
                && count(at + 1).filter(n -> is(n.end(), "roll")).isPresent();
        boolean closes = stops(at - 1)
                || opens(at)
                || is(at, "and", "so", "which", "i", "already", "with")
                || at >= words.size();
        boolean lead = i > 0 && TOTAL_LEADS.contains(words.get(i - 1).text()) && leads(i - 1);
        boolean counted = soFar && (at > end || lead || opens(i) || is(i - 1, "have", "got", "with"));
        if (!unit && (counted || inRolls || (lead && (closes || at > end)))) {
            int last = inRolls ? count(at + 1).orElseThrow().end() + 1 : at;
            return new Mention.Total(i, last, value);
        }
        return null;
    }

    /// Whether the words up to a place lead into a running count.
    private boolean leads(int i) {
        return switch (words.get(i).text()) {
            case "makes", "number" -> !is(i - 1, "roll", "box", "lucky");
            case "us" -> is(i + 1, "to") || is(i - 1, "gives", "gave");
            case "at" -> is(i - 1, "we're", "are", "i'm", "now");
            case "it" -> is(i - 1, "makes", "made");
            case "was" -> is(i - 1, "that");
            case "is" -> is(i - 1, "that");
            case "that's", "so" -> true;
            default -> false;
        };
    }

    /// `same roll, sixty-six`, `last nickel in the roll, forty-eight S`: the coin, and no number of a roll.
    private boolean isDateBehindRoll(int i, Numbers.Spoken number) {
        boolean marked = is(number.end(), "d", "s", "w", "plain", "denver", "philly", "frisco") && !opens(number.end());
        boolean other = is(i - 1, "same", "this", "that", "whole") || (is(i - 1, "the") && is(i - 2, "in", "of"));
        return other && (marked || opens(i + 1));
    }
}
