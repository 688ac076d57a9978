package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.entry.Command;
import org.rollwright.entry.EntryContext;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Reading;

/// From a find of the best path to a line of the log: which mint when none was told, which design when several bear
/// the date, which varieties, and how sure all that is.
final class Proposals {
    /// Words before a date and behind it where its design may be named.
    private static final int SAID_BEFORE = 10;

    private static final int SAID_BEHIND = 8;

    /// Least weight of another meaning that is shown.
    private static final double WORTH_TELLING = 0.03;

    /// Coins struck, beside which a mintage is weighed; only the order it makes counts.
    private static final double MANY = 10_000_000;

    private final Listening heard;
    private final EntryContext context;
    private final Weights weights;

    Proposals(Listening heard, EntryContext context, Weights weights) {
        this.heard = heard;
        this.context = context;
        this.weights = weights;
    }

    /// How likely a coin whose mint is never told has no mint mark, by the habit of this voice. About half
    /// of what is found is Philadelphia's (mintages of 1909 to 1958), so a voice that leaves out much more
    /// than half leaves out other mints as well.
    double plainByHabit(List<Building> finds) {
        long untold = finds.stream()
                .filter(find ->
                        find.said == Mention.Said.NOTHING && mints(find.coin).size() > 1)
                .count();
        long told =
                finds.stream().filter(find -> find.said == Mention.Said.MARK).count();
        if (untold == 0) {
            return 1;
        }
        if (told == 0) {
            return untold <= 2 ? 0.6 : 0.3;
        }
        double share = untold / (double) finds.size();
        return share <= 0.65 ? weightsPlain() : Math.max(0.4, Math.min(weightsPlain(), 0.5 / share + 0.1));
    }

    private double weightsPlain() {
        return Math.exp(weights.of("untold_is_plain"));
    }

    private Set<String> mints(Mention.Coin coin) {
        return mints(coin, false);
    }

    /// Mints of coins that were never given out, and turn up all the same.
    private Set<String> proofs(Mention.Coin coin) {
        return mints(coin, true);
    }

    private Set<String> mints(Mention.Coin coin, boolean collectorOnly) {
        Set<String> mints = new TreeSet<>();
        Integer year = coin.year();
        if (year != null) {
            for (Issue issue : context.catalog().ofYear(coin.denomination(), year)) {
                if (issue.collectorOnly() == collectorOnly) {
                    mints.add(issue.mint().code());
                }
            }
        }
        return mints;
    }

    Narration.@Nullable Proposed of(Building find, double plainByHabit) {
        Set<String> mints = mints(find.coin);
        double sure = 1;
        String mint;
        if (!Strays.isListed(find.coin.denomination().country())) {
            mint = "";
        } else if (find.said == Mention.Said.MARK) {
            boolean exists = mints.contains(find.code) || proofs(find.coin).contains(find.code);
            mint = exists ? find.code : "?";
            sure = exists ? 1 : 0.5;
        } else if (find.said == Mention.Said.PLAIN) {
            boolean exists = mints.contains("P") || mints.contains("-");
            mint = exists || mints.isEmpty() ? "" : "?";
            sure = exists ? 1 : 0.5;
        } else if (mints.isEmpty()) {
            mint = "?";
        } else if (mints.size() == 1) {
            String only = mints.iterator().next();
            mint = only.equals("P") || only.equals("-") ? "" : only;
        } else if (plainByHabit >= 0.5 && (mints.contains("P") || mints.contains("-"))) {
            mint = "";
            sure = plainByHabit;
        } else {
            mint = "?";
            sure = 0.9;
        }
        List<String> extras = new ArrayList<>(find.coin.extras());
        Integer year = find.coin.year();
        if (year != null) {
            heard.qualities().of(find.from, find.until, year).stream()
                    .filter(one -> !find.coin.extras().contains(one))
                    .forEach(extras::add);
        }
        String line = clear(line(find, mint, extras), find);
        Identity identity = identity(line);
        if (identity == null) {
            extras = find.coin.extras();
            line = clear(line(find, mint, extras), find);
            identity = identity(line);
        }
        if (identity == null) {
            extras = List.of();
            line = clear(line(find, mint, extras), find);
            identity = identity(line);
        }
        if (identity == null) {
            return null;
        }
        Word first = heard.words().get(find.coin.word());
        double probability = weights.calibrated(find.shares[PathSearch.FRESH] * sure);
        return new Narration.Proposed(
                first.at(),
                heard.rolls().box(find.word),
                heard.rolls().roll(find.word),
                identity,
                find.count,
                extras,
                line,
                probability,
                heard.said(
                        Math.max(0, find.coin.word() - 4),
                        Math.min(heard.words().size(), Math.max(find.end, find.coin.end()))),
                first.cue(),
                otherwise(find.shares, sure, probability));
    }

    /// What else the words may mean: what the calibrated probability leaves, as the paths and the mint divide it.
    private static List<Narration.Share> otherwise(double[] shares, double sure, double probability) {
        double counts = shares[PathSearch.TOTAL_FITS] + shares[PathSearch.TOTAL_SLIPS] + shares[PathSearch.TOTAL_NOISE];
        List<Narration.Share> all = List.of(
                new Narration.Share(Narration.Meaning.AGAIN, shares[PathSearch.SAME]),
                new Narration.Share(Narration.Meaning.OTHER_MINT, shares[PathSearch.FRESH] * (1 - sure)),
                new Narration.Share(Narration.Meaning.COUNT, counts),
                new Narration.Share(Narration.Meaning.NUMBER, shares[PathSearch.PASSES]),
                new Narration.Share(Narration.Meaning.SPOKEN_OF, shares[PathSearch.ASIDE]));
        double sum = all.stream().mapToDouble(Narration.Share::weight).sum();
        return all.stream()
                .map(one -> new Narration.Share(one.meaning(), sum == 0 ? 0 : (1 - probability) * one.weight() / sum))
                .filter(one -> one.weight() >= WORTH_TELLING)
                .sorted(Comparator.comparingDouble(one -> -one.weight()))
                .toList();
    }

    private String line(Building find, String mint, List<String> extras) {
        List<String> words = new ArrayList<>();
        if (find.count > 1) {
            words.add("x" + find.count);
        }
        Denomination coin = find.coin.denomination();
        boolean several = heard.homes().stream().distinct().count() > 1;
        boolean abroad =
                several || !coin.country().equals(context.denomination().country());
        if (abroad) {
            words.add(coin.country().code().toLowerCase(Locale.ROOT));
        }
        boolean named = several || (abroad && !Strays.isListed(coin.country()));
        if ((named || !coin.key().equals(context.denomination().key()))
                && !coin.key().equals("coin")) {
            words.add(coin.key());
        }
        Integer year = find.coin.year();
        words.add(year == null ? "nd" : year + mint.toLowerCase(Locale.ROOT));
        words.addAll(extras);
        return String.join(" ", words);
    }

    /// A line that may mean several designs, made clear: the one whose name is said near the date, or else the one
    /// of which most were struck.
    private String clear(String line, Building find) {
        if (!(EntryParser.parse(line, context) instanceof Reading.Choose choose)) {
            return line;
        }
        Set<String> said = new HashSet<>();
        for (int i = Math.max(0, find.word - SAID_BEFORE);
                i < Math.min(heard.words().size(), Math.max(find.until, find.end + SAID_BEHIND));
                i++) {
            said.add(heard.words().get(i).text());
        }
        String best = line;
        double most = -1;
        for (Reading.Option option : choose.options()) {
            List<String> added = new ArrayList<>(List.of(option.line().split(" ")));
            added.removeAll(List.of(line.split(" ")));
            double score = added.stream()
                            .flatMap(word -> Stream.of(word.split("-")))
                            .filter(said::contains)
                            .count()
                    + struck(option.line());
            if (score > most) {
                most = score;
                best = option.line();
            }
        }
        return best;
    }

    /// How many were struck, between 0 and 1: 10 million are half.
    private double struck(String line) {
        Identity identity = identity(line);
        if (identity == null || identity.year() == null) {
            return 0;
        }
        return context.catalog().ofYear(identity.denomination(), identity.year()).stream()
                .filter(issue -> issue.identity().equals(identity))
                .mapToDouble(issue -> issue.mintage() == null ? 0 : issue.mintage() / (issue.mintage() + MANY))
                .max()
                .orElse(0);
    }

    private @Nullable Identity identity(String line) {
        Reading reading = EntryParser.parse(line, context);
        if (reading instanceof Reading.Clear clear
                && clear.commands().size() == 1
                && clear.commands().getFirst() instanceof Command.Found found) {
            return found.draft().facts().identity();
        }
        return null;
    }
}
