package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/// What the words around a date, and the other dates of the recording, tell of whether a coin is held: names of
/// observations, each with a weight of its own in weights.csv. Nothing here decides; which of them speak for a find
/// was learned from narrations whose authors knew nothing of it.
final class Cues {
    /// Words around a date that are looked at one by one, about four seconds of speech.
    private static final int NEAR = 9;

    /// Words before a date whose mere presence is noted, about twenty seconds; a date said again behind more than
    /// these is said again, not still.
    private static final int WIDE = 45;

    /// Dates on each side that are held against what was said before: a list of old ones is a recap.
    private static final int NEIGHBOURS = 5;

    /// Words on each side that may belong to a date, about six seconds.
    private static final int OWN = 14;

    /// Words behind a date within which a variety may be said of it.
    private static final int QUALITY = 30;

    /// Words behind an announcement within which what was announced is named.
    private static final int PROMISED = 40;

    private static final List<String> NONE = List.of();

    private final List<Word> words;
    private final List<Mention> mentions;
    private final Rolls rolls;
    private final Mention.@Nullable Coin[] coins;
    private final String[] shown;
    private final double[] repeated;
    private final int[] places;
    private final boolean mostlyHalves;
    private final Chains chains;
    private final Qualities qualities;
    private final boolean[] pairAgain;

    private Cues(List<Word> words, List<Mention> mentions, Rolls rolls, Chains chains, Qualities qualities) {
        this.qualities = qualities;
        this.rolls = rolls;
        this.words = words;
        this.mentions = mentions;
        this.coins = new Mention.Coin[mentions.size()];
        this.shown = new String[words.size()];
        for (int i = 0; i < shown.length; i++) {
            shown[i] = shown(words.get(i));
        }
        int halves = 0;
        int whole = 0;
        int count = 0;
        int[] dated = new int[mentions.size()];
        for (int m = 0; m < coins.length; m++) {
            coins[m] = coin(mentions.get(m));
            Mention.Coin coin = coins[m];
            if (coin != null && coin.year() != null) {
                dated[count++] = m;
                halves += coin.number() >= 0 ? 1 : 0;
                whole += coin.number() < 0 ? 1 : 0;
            }
        }
        this.places = Arrays.copyOf(dated, count);
        this.mostlyHalves = halves > 2 * whole;
        this.repeated = repeated();
        this.chains = chains;
        this.pairAgain = pairAgain();
    }

    static Mention.@Nullable Coin coin(Mention mention) {
        return mention instanceof Mention.Coin coin ? coin : mention instanceof Mention.Bare bare ? bare.coin() : null;
    }

    /// For every mention what is observed around it; nothing for those that are no coins.
    static List<List<String>> of(
            List<Word> words, List<Mention> mentions, Rolls rolls, Chains chains, Qualities qualities) {
        Cues cues = new Cues(words, mentions, rolls, chains, qualities);
        List<List<String>> all = new ArrayList<>(mentions.size());
        for (int m = 0; m < mentions.size(); m++) {
            all.add(NONE);
        }
        for (int p = 0; p < cues.places.length; p++) {
            all.set(cues.places[p], cues.of(p));
        }
        for (int m = 0; m < mentions.size(); m++) {
            Mention.Coin coin = cues.coins[m];
            if (coin != null && coin.year() == null) {
                List<String> found = new ArrayList<>();
                cues.around(coin, found, "k");
                all.set(m, found);
            }
        }
        return all;
    }

    /// A word as an observation: numbers by their shape.
    static String shown(Word word) {
        if (word.isNumber()) {
            return word.text().length() == 4 ? "#y" : word.text().length() == 2 ? "#2" : "#";
        }
        return Numbers.isWord(word.text()) ? "#w" : word.text();
    }

    /// For every date of the recording the last word at which it was said before; far back when never.
    private double[] repeated() {
        Map<String, Integer> last = new HashMap<>();
        double[] gaps = new double[places.length];
        for (int p = 0; p < places.length; p++) {
            Mention.Coin coin = at(p);
            String date = coin.denomination() + " " + coin.year();
            Integer before = last.put(date, coin.end());
            gaps[p] = before == null ? Double.POSITIVE_INFINITY : coin.word() - before;
        }
        return gaps;
    }

    /// The figures that go up by one; whether something that may be a date ends right before them, or a word before.
    static Chains chains(List<Word> words, List<Mention> mentions) {
        boolean[] dated = new boolean[words.size() + 2];
        for (Mention mention : mentions) {
            Mention.Coin coin = coin(mention);
            if (coin != null && coin.year() != null) {
                dated[Math.min(coin.end(), words.size())] = true;
                dated[Math.min(coin.end() + 1, words.size())] = true;
            }
        }
        return new Chains(words, dated);
    }

    /// For every date whether it and the one before were said in this order before: what a recap does.
    private boolean[] pairAgain() {
        java.util.Set<String> seen = new HashSet<>();
        boolean[] again = new boolean[places.length];
        for (int p = 1; p < places.length; p++) {
            String pair =
                    at(p - 1).denomination() + " " + at(p - 1).year() + " " + at(p).denomination() + " " + at(p).year();
            boolean same = java.util.Objects.equals(at(p - 1).year(), at(p).year());
            again[p] = !same && !seen.add(pair);
        }
        return again;
    }

    private Mention.Coin at(int p) {
        return java.util.Objects.requireNonNull(coins[places[p]]);
    }

    private List<String> of(int p) {
        Mention.Coin coin = at(p);
        Mention mention = mentions.get(places[p]);
        List<String> found = new ArrayList<>();
        Integer year = java.util.Objects.requireNonNull(coin.year());
        String shape = shape(coin, mention);
        found.add("shape " + shape);
        found.add("shape " + shape + (mostlyHalves ? " halves" : " whole"));
        found.add("said " + coin.said());
        String mint =
                coin.said() == Mention.Said.MARK ? coin.code() : coin.said().toString();
        found.add("mint " + mint);
        found.add("minted " + coin.denomination().key() + " " + age(coin, year) + " " + mint);
        found.add("year " + year);
        found.add("age " + coin.denomination().key() + " " + age(coin, year));
        found.add("age " + age(coin, year) + " " + shape);
        if (coin.count() > 1) {
            found.add("counted");
        }
        if (mention instanceof Mention.Bare bare && bare.strong()) {
            found.add("like a total");
        }
        around(coin, found, "");
        neighbours(p, coin, found);
        return found;
    }

    private String shape(Mention.Coin coin, Mention mention) {
        Word first = words.get(coin.word());
        String digits = first.isNumber() ? "d" : "w";
        String length = coin.number() < 0 ? "y" : Numbers.digit(first.text()) >= 0 ? "g" : "h";
        boolean alone = mention instanceof Mention.Bare bare && bare.alone();
        return length + digits + (alone ? " alone" : "");
    }

    /// Rough classes of age that hunters go by, common practice: reverses and metals end at these years (wheat ears
    /// 1958, copper 1982, silver 1964 and 1970, war nickels 1942 to 1945; in Canada kings to 1952, silver to 1968).
    private static String age(Mention.Coin coin, int year) {
        boolean canada = coin.denomination().country().code().equals("CA");
        int[] steps = canada
                ? new int[] {1922, 1937, 1953, 1965, 1969, 1983}
                : switch (coin.denomination().key()) {
                    case "cent" -> new int[] {1909, 1934, 1959, 1983, 2000};
                    case "nickel" -> new int[] {1938, 1942, 1946, 1960, 1970};
                    default -> new int[] {1947, 1965, 1971, 1983, 2000};
                };
        int step = 0;
        while (step < steps.length && year >= steps[step]) {
            step++;
        }
        return (canada ? "ca" : "") + step;
    }

    private void around(Mention.Coin coin, List<String> found, String kind) {
        int start = coin.word();
        int end = coin.end();
        for (int k = 1; k <= 3; k++) {
            found.add(kind + "-" + k + " " + word(start - k));
            found.add(kind + "+" + k + " " + word(end + k - 1));
        }
        found.add(kind + "-2-1 " + word(start - 2) + " " + word(start - 1));
        found.add(kind + "+1+2 " + word(end) + " " + word(end + 1));
        Set<String> bag = new HashSet<>();
        for (int i = start - 1; i >= Math.max(0, start - NEAR); i--) {
            boolean same = !crosses(i, start);
            bag.add((same ? "<" : "<<") + shown[i]);
        }
        for (int i = end; i < Math.min(words.size(), end + NEAR); i++) {
            boolean same = !crosses(end - 1, i);
            bag.add((same ? ">" : ">>") + shown[i]);
        }
        for (int i = start - 1; i >= Math.max(0, start - WIDE); i--) {
            bag.add("<<<" + shown[i]);
        }
        for (String one : bag) {
            found.add(kind + one);
        }
        found.add(kind + (start == 0 || words.get(start).opens() ? "opens" : "goes on"));
        found.add(kind + (words.get(end - 1).stops() ? "stops" : "runs on"));
        if (end < words.size() && words.get(end - 1).asks()) {
            found.add(kind + "asks");
        }
    }

    private String word(int i) {
        return i < 0 || i >= words.size() ? "|" : shown[i];
    }

    private boolean crosses(int from, int to) {
        for (int i = Math.max(0, from); i < to && i < words.size(); i++) {
            if (words.get(i).stops()) {
                return true;
            }
        }
        return false;
    }

    private void neighbours(int p, Mention.Coin coin, List<String> found) {
        int before = p == 0 ? 999 : coin.word() - at(p - 1).end();
        int after = p + 1 == places.length ? 999 : at(p + 1).word() - coin.end();
        found.add("before " + gap(before));
        found.add("after " + gap(after));
        found.add("between " + gap(before) + " " + gap(after));
        found.add("again " + gap(repeated[p]));
        int old = 0;
        int all = 0;
        int near = 0;
        for (int q = Math.max(0, p - NEIGHBOURS); q <= Math.min(places.length - 1, p + NEIGHBOURS); q++) {
            if (q != p) {
                all++;
                old += repeated[q] > WIDE && repeated[q] < Double.POSITIVE_INFINITY ? 1 : 0;
            }
            int away = Math.abs(at(q).word() - coin.word());
            near += q != p && away <= 30 ? 1 : 0;
        }
        String share = all == 0 ? "0" : Integer.toString((int) Math.round(4.0 * old / all));
        boolean own = repeated[p] > WIDE && repeated[p] < Double.POSITIVE_INFINITY;
        found.add("recap " + share + (own ? " own" : ""));
        boolean pair = pairAgain[p] || (p + 1 < pairAgain.length && pairAgain[p + 1]);
        found.add("pair again " + pair + (own ? " own" : ""));
        territory(p, coin, found);
        double meant = rolls.meant(coin.word());
        found.add("meant as a roll " + (meant < 0.02 ? 0 : meant < 0.2 ? 1 : meant < 0.6 ? 2 : meant < 0.9 ? 3 : 4));
        found.add("dense " + Math.min(6, near) / 2);
        found.add("recap " + share + " dense " + Math.min(6, near) / 2);
        double part = coin.word() / (double) words.size();
        found.add("part "
                + (part < 0.03 ? "first" : part < 0.1 ? "early" : part > 0.97 ? "last" : part > 0.9 ? "late" : ""));
        for (int m = places[p] - 1; m >= Math.max(0, places[p] - 3); m--) {
            Mention mention = mentions.get(m);
            int away = coin.word() - mention.end();
            if (mention instanceof Mention.RollTo || mention instanceof Mention.RollNext) {
                found.add("roll " + gap(away));
                break;
            }
        }
        found.add("promised " + promised(p));
        if (places[p] > 0 && mentions.get(places[p] - 1) instanceof Mention.Total total) {
            found.add("total before " + gap(coin.word() - total.end()));
        }
        if (places[p] + 1 < mentions.size() && mentions.get(places[p] + 1) instanceof Mention.Total total) {
            found.add("total after " + gap(total.word() - coin.end()));
        }
    }

    /// Whether a date is one of those announced, `two in 23, fifty-three and fifty-two`: how many were announced, and
    /// whether so many were named already.
    private String promised(int p) {
        int word = at(p).word();
        for (int m = places[p] - 1; m >= 0 && word - mentions.get(m).word() < PROMISED; m--) {
            Mention mention = mentions.get(m);
            if (mention instanceof Mention.RollTo || mention instanceof Mention.RollNext) {
                return "none";
            }
            if (mention instanceof Mention.Promise promise) {
                int named = 0;
                for (int q = p - 1; q >= 0 && at(q).word() >= promise.end(); q--) {
                    named += isDate(q, at(p)) ? Math.max(1, at(q).count()) : 0;
                }
                return Math.min(promise.value(), 4) + (named < promise.value() ? " open" : " over");
            }
        }
        return "none";
    }

    /// What belongs to this date alone: the words up to the next date and back to the last one, and the figures among
    /// them: rolls, members of a chain, or neither.
    private void territory(int p, Mention.Coin coin, List<String> found) {
        int until = Math.min(words.size(), coin.end() + OWN);
        for (int q = p + 1; q < places.length && at(q).word() < until; q++) {
            if (isDate(q, coin)) {
                until = at(q).word();
            }
        }
        int from = Math.max(0, coin.word() - OWN);
        for (int q = p - 1; q >= 0 && at(q).end() > from; q--) {
            if (isDate(q, coin)) {
                from = at(q).end();
            }
        }
        int reach = Math.min(words.size(), coin.end() + QUALITY);
        for (int q = p + 1; q < places.length && at(q).word() < reach; q++) {
            if (isDate(q, coin)) {
                reach = at(q).word();
            }
        }
        Integer year = java.util.Objects.requireNonNull(coin.year());
        boolean quality = !qualities.of(from, reach, year).isEmpty();
        found.add("quality " + quality);
        Set<String> own = new LinkedHashSet<>();
        String behind = "none";
        String count = "none";
        int end = until;
        for (int i = coin.end(); i < end; i++) {
            own.add("own>" + shown[i]);
            if (chains.end(i) > 0) {
                String figure = figure(i);
                behind = behind.equals("none") ? gap(i - coin.end()) + " " + figure : behind;
                int next = chains.end(i);
                if (figure.equals("roll") && i == coin.end() && next < end && chains.strength(next) > 4) {
                    // `62, 48, 19`: date, roll, count
                    continue;
                }
                if (figure.equals("roll")) {
                    end = i;
                    break;
                }
                count = count.compareTo(figure) < 0 || count.equals("none") ? figure : count;
            }
        }
        String before = "none";
        boolean roll = false;
        String led = "none";
        for (int i = coin.word() - 1; i >= from; i--) {
            own.add("own<" + shown[i]);
            if (chains.end(i) > 0 && chains.end(i) <= coin.word()) {
                String figure = figure(i);
                before = before.equals("none") ? gap(coin.word() - chains.end(i)) + " " + figure : before;
                roll |= figure.equals("roll");
                led = figure.equals("roll") || (!led.equals("none") && led.compareTo(figure) >= 0) ? led : figure;
            }
        }
        found.addAll(own);
        String self = coin.number() < 0 ? "year" : strength(chains.strength(coin.word()));
        found.add("chain self " + self);
        found.add("chain behind " + behind);
        found.add("chain before " + before);
        found.add("chain " + before + " self " + self + " " + behind);
        found.add("count own " + count);
        found.add("count led " + led);
        found.add("count both " + led + " " + count + " " + self);
        found.add("roll own " + roll);
        String length = end - coin.end() == 0 ? "0" : end - coin.end() <= 3 ? "1" : end - coin.end() <= 9 ? "2" : "3";
        found.add("own length " + length);
        found.add("own first " + length + " " + (coin.end() < end ? shown[coin.end()] : "|"));
        found.add("own form " + coin.said() + " " + length + " " + !count.equals("none") + " " + roll);
    }

    /// Whether a neighbour is a date of its own, rather than the same date again, a count or a roll.
    private boolean isDate(int q, Mention.Coin coin) {
        Mention.Coin other = at(q);
        if (java.util.Objects.equals(other.year(), coin.year())) {
            return false;
        }
        return other.number() < 0
                || other.said() != Mention.Said.NOTHING
                || (rolls.meant(other.word()) < 0.5 && chains.strength(other.word()) < 2);
    }

    private String figure(int i) {
        double meant = rolls.meant(i);
        return meant > 0.5 ? "roll" : strength(chains.strength(i));
    }

    private static String strength(double strength) {
        return strength < 0.7 ? "0" : strength < 2 ? "1" : strength < 4 ? "2" : strength < 8 ? "3" : "4";
    }

    private static String gap(double words) {
        return words <= 1
                ? "0"
                : words <= 4
                        ? "1"
                        : words <= 10 ? "2" : words <= 25 ? "3" : words <= 80 ? "4" : words < 1e9 ? "5" : "never";
    }
}
