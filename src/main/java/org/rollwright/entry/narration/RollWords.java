package org.rollwright.entry.narration;

import java.util.HashSet;
import java.util.Map;
import java.util.Set;

/// The words that [RollSigns] goes by. Common speech.
final class RollWords {
    private RollWords() {}

    static final Set<String> VERBS = Set.of(
            "has", "had", "have", "gave", "gives", "is", "was", "were", "starts", "started", "got", "isn't", "wasn't",
            "didn't", "don't", "doesn't", "hasn't", "are", "aren't");
    static final Set<String> FILLERS = Set.of(
            "has", "had", "gave", "is", "was", "were", "are", "a", "an", "just", "all", "got", "uh", "um", "also",
            "both", "s", "me", "another", "i", "have", "there", "there's", "with");
    static final Set<String> INTO = Set.of("did", "opened", "in", "into", "from", "through", "on", "out", "of");
    static final Set<String> OWNERS = Set.of("my", "mine", "his", "her");
    static final Set<String> LEADS = Set.of(
            "makes", "that's", "at", "be", "total", "count", "we're", "i'm", "keeper", "keepers", "find", "finds",
            "coin", "is", "it's", "was", "about", "around", "only", "than", "maybe", "says", "said", "worth");
    static final Set<String> ARTICLES = Set.of("a", "an", "another", "the", "these", "those", "this", "that");
    /// What is found and counted.
    static final Set<String> KEEPERS = Set.of(
            "wheat", "cent", "cents", "penny", "pennies", "coin", "coins", "find", "finds", "keeper", "keepers",
            "silver", "silvers", "dime", "dimes", "nickel", "nickels");
    static final Set<String> THINGS = with(
            KEEPERS,
            "wheats",
            "quarter",
            "quarters",
            "half",
            "halves",
            "king",
            "kings",
            "queen",
            "queens",
            "canadian",
            "steel",
            "war",
            "old",
            "new",
            "of",
            "more",
            "different",
            "memorials",
            "shields",
            "indian",
            "people",
            "kinds");
    /// Behind a figure that is an amount, a measure or a time.
    static final Set<String> MEASURES = Set.of(
            "dollar",
            "dollars",
            "percent",
            "million",
            "billion",
            "thousand",
            "year",
            "years",
            "minutes",
            "minute",
            "hours",
            "boxes",
            "box",
            "bucks",
            "times",
            "am",
            "pm",
            "ounces",
            "ounce",
            "pounds",
            "pound",
            "grams",
            "roll",
            "hundred");
    static final Set<String> UNITS = with(
            MEASURES,
            "hour",
            "gram",
            "miles",
            "degrees",
            "o'clock",
            "point",
            "power",
            "holes",
            "weeks",
            "months",
            "days",
            "centimetres",
            "millimetres",
            "millimeters",
            "inches",
            "feet",
            "o",
            "oh",
            "seconds");
    static final Map<String, Integer> ALIKE =
            Map.of("to", 2, "too", 2, "for", 4, "fore", 4, "won", 1, "ate", 8, "then", 10, "tree", 3, "fourth", 4);

    /// A set with more words.
    static Set<String> with(Set<String> some, String... more) {
        Set<String> all = new HashSet<>(some);
        all.addAll(Set.of(more));
        return Set.copyOf(all);
    }
}
