package org.rollwright.entry.narration;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Denomination;
import org.rollwright.entry.EntryContext;

/// Reads what is said of a mint: behind a date, before it, and alone.
abstract class MintGrammar extends CourseGrammar {
    /// Mints said before their dates that make a habit.
    private static final int FEW_MINTS = 6;

    /// Whether this voice says the mint before the date.
    final boolean mintFirst;

    MintGrammar(List<Word> words, EntryContext context, Phrases phrases) {
        super(words, context, phrases);
        this.mintFirst = mintFirst();
    }

    /// What the box in hand at a word holds.
    abstract Denomination home(int i);

    /// Whether what follows a date speaks of several: `57 d's`, `1968 Denvers`, `46s`.
    boolean plural(int i) {
        return is(i, "ds", "d's", "s's", "denvers", "dees")
                || (is(i, "s") && isGlued(i))
                || is(i + 1, "both", "each", "coins", "cents", "nickels", "dimes", "quarters", "halves");
    }

    boolean marked(int i) {
        return is(i, "d", "s", "ds", "d's", "s's", "p", "w")
                || heard("plain", i)
                || heard("mint D", i)
                || heard("mint S", i);
    }

    record Mark(Mention.Said said, String code, int end, boolean plural, boolean decade) {}

    /// The mint told right behind a date.
    Mark mark(int from, int year, boolean counted, int dateFrom) {
        int i = from;
        boolean glued = i < words.size()
                && words.get(i).is("s")
                && words.get(i).cue() == words.get(i - 1).cue()
                && isGlued(i);
        if (glued && (counted || !is(dateFrom - 1, "a", "an", "another", "it's"))) {
            boolean decade = year % 10 == 0 && is(dateFrom - 1, "the", "early", "late", "mid");

            Mark further = mark(i + 1, year, counted, dateFrom);
            return further.said == Mention.Said.NOTHING
                    ? new Mark(Mention.Said.NOTHING, "", i + 1, true, decade)
                    : new Mark(further.said, further.code, further.end, true, decade);
        }
        for (int skip = 0; skip <= 3 && i + skip < words.size(); skip++) {
            int at = i + skip;
            if (words.get(at - 1).stops() || number(at).isPresent()) {
                break;
            }
            String text = words.get(at).text();
            boolean letter = text.length() == 1 && "dspw".contains(text);
            if (skip > 0 && (onlyWished(from, at) || denied(from, at))) {
                break;
            }
            if (letter && (skip == 0 || is(at - 1, "a", "an", "the", "little", "with") || is(at + 1, "mint"))) {
                boolean plain = text.equals("p") && !showsP(year, at);
                return new Mark(
                        plain ? Mention.Said.PLAIN : Mention.Said.MARK,
                        plain ? "" : text.toUpperCase(Locale.ROOT),
                        at + 1,
                        false,
                        false);
            }
            if ((text.equals("ds") || text.equals("d's") || text.equals("denvers")) && skip == 0) {
                return new Mark(Mention.Said.MARK, "D", at + 1, true, false);
            }
            if (heard("plain", at)) {
                return new Mark(Mention.Said.PLAIN, "", over("plain", at), false, false);
            }
            if (heard("mint D", at)) {
                return new Mark(Mention.Said.MARK, "D", over("mint D", at), false, false);
            }
            if (heard("mint S", at)) {
                return new Mark(Mention.Said.MARK, "S", over("mint S", at), false, false);
            }
            if (heard("mint W", at)) {
                return new Mark(Mention.Said.MARK, "W", over("mint W", at), false, false);
            }
        }
        // recognisers write `47 the.` for 47 D and `37 as.` for 37 S
        boolean misheard = from < words.size()
                && is(from, "the", "as")
                && stops(from)
                && !words.get(from - 1).stops();
        if (misheard) {
            return new Mark(Mention.Said.MARK, is(from, "the") ? "D" : "S", from + 1, false, false);
        }
        return new Mark(Mention.Said.NOTHING, "", from, false, false);
    }

    /// The mint told right before a date: `a Denver, nineteen fifty`.
    Mark markBefore(int dateFrom, int end) {
        int i = dateFrom - 1;
        if (i < 0 || !isMint(i)) {
            return new Mark(Mention.Said.NOTHING, "", end, false, false);
        }
        int first = i;
        while (first > 0 && isMint(first - 1) && !words.get(first - 1).stops()) {
            first--;
        }
        boolean ofLast = first > 0
                && number(first - 1).isPresent()
                && !words.get(first - 1).stops();
        boolean led = first == 0 || opens(first) || is(first - 1, "a", "an", "another");
        if (!mintFirst && (!led || ofLast || words.get(i).stops())) {
            return new Mark(Mention.Said.NOTHING, "", end, false, false);
        }
        if (heard("plain", i)) {
            return new Mark(Mention.Said.PLAIN, "", end, false, false);
        }
        String code = is(i, "d") || heard("mint D", i) ? "D" : is(i, "s") || heard("mint S", i) ? "S" : "W";
        return new Mark(Mention.Said.MARK, code, end, false, false);
    }

    private boolean isMint(int i) {
        return is(i, "d", "s") || heard("plain", i) || heard("mint D", i) || heard("mint S", i) || heard("mint W", i);
    }

    /// Whether this voice says the mint before the date: most mints next to a date stand before it, and not behind one.
    private boolean mintFirst() {
        int before = 0;
        int behind = 0;
        for (int i = 1; i < words.size(); i++) {
            if (!isMint(i) || isMint(i - 1)) {
                continue;
            }
            int end = i + 1;
            while (end < words.size() && isMint(end)) {
                end++;
            }
            boolean dateBehind =
                    number(end).filter(n -> n.year() || n.twoDigits()).isPresent();
            boolean dateBefore = words.get(i - 1).isNumber()
                    || Numbers.isWord(words.get(i - 1).text());
            before += dateBehind && (!dateBefore || words.get(i - 1).stops()) ? 1 : 0;
            behind += dateBefore && !words.get(i - 1).stops() && !dateBehind ? 1 : 0;
        }
        return before >= FEW_MINTS && before > 2 * behind;
    }

    /// Whether nothing lies between a word and the one before it, as in `1944s`.
    boolean isGlued(int i) {
        return words.get(i).from() == words.get(i - 1).to();
    }

    int over(String kind, int at) {
        int i = at;
        while (heard(kind, i) && (i == at || !words.get(i - 1).stops())) {
            i++;
        }
        return i;
    }

    /// Whether coins of the year show a P: war nickels, and from 1979 on most others.
    private boolean showsP(int year, int i) {
        boolean nickel = home(i).key().equals("nickel");
        return (nickel && year >= 1942 && year <= 1945) || year >= 1979;
    }

    /// Whether a mint is only asked for, hoped for, or one of two it may be.
    boolean onlyWished(int from, int i) {
        if (is(i + 1, "or") || asks(i + 1)) {
            return true;
        }
        for (int k = i - 1; k >= from && !words.get(k).stops(); k--) {
            boolean asking = (is(k, "is", "was") && is(k + 1, "it", "there", "that")) || is(k, "or", "if", "whether");
            boolean wishing = is(
                    k, "please", "hope", "hoping", "want", "wanted", "wants", "need", "wish", "looking", "maybe",
                    "could", "might");
            if (asking || wishing) {
                return true;
            }
        }
        return false;
    }

    boolean denied(int from, int i) {
        for (int k = i - 1; k >= from && !words.get(k).stops(); k--) {
            if (is(k, "no", "not", "isn't", "ain't", "without", "never", "wasn't", "aint", "isnt")) {
                return true;
            }
        }
        return false;
    }

    int lastCoinEnd() {
        for (int m = mentions.size() - 1; m >= 0; m--) {
            if (mentions.get(m) instanceof Mention.Coin coin) {
                return coin.end();
            }
            if (mentions.get(m) instanceof Mention.Bare bare && bare.coin() != null) {
                return bare.end();
            }
        }
        return Integer.MIN_VALUE / 2;
    }

    @Nullable
    Mention mintOnly(int i) {
        if (mentions.isEmpty() || i - lastCoinEnd() > 16) {
            return null;
        }
        boolean correcting = before("correction", i, 8) || before("correction", i + 1, 1) || is(i - 1, "no");
        boolean named = heard("mint D", i) || heard("mint S", i) || heard("mint W", i) || is(i, "d", "s", "w");
        if (named && onlyWished(Math.max(0, i - 7), i)) {
            return null;
        }
        if (named && !opens(i) && denied(Math.max(0, i - 4), i)) {
            // `no D`: plain, unless it is told better later
            return new Mention.MintOnly(i, i + 1, Mention.Said.PLAIN, "", false, true);
        }
        if (heard("plain", i)) {
            return new Mention.MintOnly(i, over("plain", i), Mention.Said.PLAIN, "", correcting, false);
        }
        if (heard("mint D", i)) {
            return new Mention.MintOnly(i, over("mint D", i), Mention.Said.MARK, "D", correcting, false);
        }
        if (heard("mint S", i)) {
            return new Mention.MintOnly(i, over("mint S", i), Mention.Said.MARK, "S", correcting, false);
        }
        if (heard("mint W", i)) {
            return new Mention.MintOnly(i, over("mint W", i), Mention.Said.MARK, "W", correcting, false);
        }
        boolean letter = is(i, "d", "s", "w");
        boolean answer = opens(i) && stops(i);
        boolean led = answer
                || is(i - 1, "a", "an", "little", "big", "the", "it's", "with", "mint", "letter", "says")
                || is(i + 1, "mint");
        boolean closed = stops(i) || opens(i + 1) || is(i + 1, "mint", "under", "over", "above", "on", "too");
        return letter && led && closed
                ? new Mention.MintOnly(
                        i, i + 1, Mention.Said.MARK, words.get(i).text().toUpperCase(Locale.ROOT), correcting, false)
                : null;
    }

    boolean asks(int end) {
        for (int k = Math.max(0, end - 1); k < Math.min(words.size(), end + 6); k++) {
            if (words.get(k).asks()) {
                return true;
            }
            if (words.get(k).stops()) {
                return false;
            }
        }
        return false;
    }
}
