package org.rollwright.entry.narration;

import java.util.BitSet;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;

/// Coins that do not belong into the box in hand: of another country, or another denomination, as the words around
/// the date say. The country's words are data in catalog/narration/phrases.csv: those of countries.csv are for typing,
/// and codes such as `in` or `no` mean nothing when spoken.
final class Strays {
    /// Words before and behind a date where its country may be named, and its denomination.
    private static final int REACH = 16;

    private static final int AHEAD = 9;
    private static final int NEAR = 7;

    /// Denominations that stray into other boxes, by their word.
    private static final Map<String, String> COINS =
            Map.of("dime", "dime", "quarter", "quarter", "nickel", "nickel", "penny", "cent", "cent", "cent");

    /// What coins of other countries are called.
    private static final Map<String, String> ABROAD = Map.ofEntries(
            Map.entry("penny", "penny"),
            Map.entry("pence", "penny"),
            Map.entry("pennies", "penny"),
            Map.entry("cent", "cent"),
            Map.entry("cents", "cent"),
            Map.entry("centavo", "centavo"),
            Map.entry("centavos", "centavo"),
            Map.entry("peso", "peso"),
            Map.entry("pesos", "peso"),
            Map.entry("florin", "florin"),
            Map.entry("farthing", "farthing"),
            Map.entry("grosz", "grosz"),
            Map.entry("quarter", "quarter"),
            Map.entry("dime", "dime"),
            Map.entry("nickel", "nickel"));

    private final Grammar grammar;
    private final Map<Country, BitSet> countries = new HashMap<>();
    private final BitSet named = new BitSet();

    Strays(Grammar grammar, Phrases phrases) {
        this.grammar = grammar;
        phrases.heard(grammar.words).forEach((kind, places) -> {
            if (kind.startsWith("country ")) {
                countries.put(new Country(kind.substring(8)), places);
                named.or(places);
            }
        });
    }

    /// Whether the catalogue lists a country's coins, so that a year must be one of theirs.
    static boolean isListed(Country country) {
        return country.equals(Country.US) || country.equals(Country.CANADA);
    }

    /// What a coin is whose date stands between two words, when it is not of the box in hand.
    Optional<Denomination> at(int start, int end, Denomination home) {
        Country country = country(start, end);
        if (country != null) {
            return Optional.of(new Denomination(country, coinAbroad(start, end, home)));
        }
        return denomination(start, end, home);
    }

    private @Nullable Country country(int start, int end) {
        if (named.isEmpty()) {
            return null;
        }
        int stops = 0;
        for (int i = start - 1; i >= Math.max(0, start - REACH); i--) {
            stops += grammar.words.get(i).stops() ? 1 : 0;
            if (stops > 2 || isDate(i) || grammar.is(i, "roll", "canadian", "american", "wheat")) {
                break;
            }
            if (named.get(i)) {
                return of(i);
            }
        }
        stops = 0;
        for (int i = end; i < Math.min(grammar.words.size(), end + AHEAD); i++) {
            stops += grammar.words.get(i - 1).stops() ? 1 : 0;
            boolean figure =
                    Numbers.at(grammar.words, i).isPresent() && !grammar.is(i, "one", "five", "ten", "1", "5", "10");
            if (stops > 1 || figure || grammar.is(i, "roll", "canadian", "american", "next", "and")) {
                break;
            }
            if (named.get(i)) {
                return of(i);
            }
        }
        return null;
    }

    private @Nullable Country of(int i) {
        // the last one listed: of the euro area, where its cent is named
        Country found = null;
        for (Map.Entry<Country, BitSet> one : countries.entrySet()) {
            if (one.getValue().get(i)) {
                found = one.getKey();
            }
        }
        return found;
    }

    /// A figure that may itself be a date: a year in full, or two digits that are no count of pence.
    private boolean isDate(int i) {
        return Numbers.at(grammar.words, i)
                .filter(said -> said.year() || (said.twoDigits() && said.value() > 10 && !isFace(said.end())))
                .isPresent();
    }

    private boolean isFace(int i) {
        return i < grammar.words.size()
                && ABROAD.containsKey(grammar.words.get(i).text());
    }

    private String coinAbroad(int start, int end, Denomination home) {
        for (int away = 1; away <= REACH; away++) {
            for (int i : new int[] {start - away, end + away - 1}) {
                String face = i < 0 || i >= grammar.words.size()
                        ? null
                        : ABROAD.get(grammar.words.get(i).text());
                if (face != null) {
                    return face;
                }
            }
        }
        return home.key().equals("half") || home.key().contains("dollar") ? "coin" : home.key();
    }

    /// `there's a dime, 2001`: another denomination named as a coin, right before the date or right behind it.
    private Optional<Denomination> denomination(int start, int end, Denomination home) {
        int stops = 0;
        for (int i = start - 1; i >= Math.max(0, start - NEAR); i--) {
            stops += grammar.words.get(i).stops() ? 1 : 0;
            String coin = COINS.get(grammar.words.get(i).text());
            if (stops > 1
                    || Numbers.at(grammar.words, i).filter(n -> n.value() != 1).isPresent()
                    || grammar.is(i, "roll", "box")) {
                return Optional.empty();
            }
            if (coin != null) {
                boolean led = grammar.opens(i)
                        || grammar.is(
                                i - 1,
                                "a",
                                "an",
                                "another",
                                "canadian",
                                "american",
                                "roosevelt",
                                "stray",
                                "silver",
                                "mercury");
                boolean other =
                        !coin.equals(home.key()) && led && !grammar.is(i + 1, "roll", "box", "hunt", "size", "sized");
                return other ? Optional.of(new Denomination(near(i, home), coin)) : Optional.empty();
            }
        }
        for (int i = end;
                i < Math.min(grammar.words.size(), end + 3)
                        && !grammar.words.get(i - 1).stops();
                i++) {
            String coin = COINS.get(grammar.words.get(i).text());
            if (coin != null && !grammar.is(i, "cent")) {
                return coin.equals(home.key()) ? Optional.empty() : Optional.of(new Denomination(near(i, home), coin));
            }
        }
        return Optional.empty();
    }

    /// The country that is named near a coin's name, the box's own otherwise.
    private Country near(int i, Denomination home) {
        for (int k = i - 1; k >= Math.max(0, i - 4) && !grammar.words.get(k).stops(); k--) {
            if (grammar.is(k, "canadian", "canada")) {
                return Country.CANADA;
            }
            if (grammar.is(k, "american")) {
                return Country.US;
            }
        }
        return home.country();
    }
}
