package org.rollwright.entry.narration;

import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
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

    /// What coins of other countries are called, and one of them.
    private static final Map<String, String> ABROAD = abroad();

    private static Map<String, String> abroad() {
        Map<String, String> all = new HashMap<>();
        for (String one : List.of(
                "penny pence pennies",
                "cent cents",
                "centavo centavos",
                "centesimo centesimos centésimo centésimos",
                "centime centimes",
                "centimo centimos",
                "decimo decimos",
                "peso pesos",
                "peseta pesetas",
                "florin florins",
                "farthing farthings",
                "shilling shillings",
                "grosz groszy",
                "pfennig pfennigs pfennige",
                "mark marks",
                "rappen",
                "franc francs",
                "lira lire",
                "escudo escudos",
                "sentimo sentimos",
                "piso pisos",
                "paisa paise",
                "rupee rupees",
                "sen",
                "yen",
                "won",
                "ore",
                "krone kroner kronor krona",
                "kopek kopeks kopecks",
                "quarter",
                "dime",
                "nickel")) {
            String[] words = one.split(" ");
            for (String word : words) {
                all.put(word, words[0]);
            }
        }
        return Map.copyOf(all);
    }

    /// Figures that coins bear.
    private static final Set<Integer> FACES = Set.of(2, 3, 5, 10, 15, 20, 25, 50, 100, 200, 500);

    private static final Map<String, Integer> SPANISH =
            Map.of("un", 1, "uno", 1, "dos", 2, "cinco", 5, "diez", 10, "veinte", 20, "cincuenta", 50, "cien", 100);

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

    /// What the coin itself says, `5-centavos`; the box's own denomination when it is not told.
    private String coinAbroad(int start, int end, Denomination home) {
        for (int away = 1; away <= REACH; away++) {
            for (int i : new int[] {start - away, end + away - 1}) {
                String face = i < 0 || i >= grammar.words.size()
                        ? null
                        : ABROAD.get(grammar.words.get(i).text());
                if (face != null) {
                    int value = value(i - 1);
                    return value > 1 ? value + "-" + grammar.words.get(i).text() : face;
                }
            }
        }
        return home.key().equals("half") || home.key().contains("dollar") ? "coin" : home.key();
    }

    /// The figure that ends with a word, 1 when none does.
    private int value(int i) {
        if (i < 0 || grammar.words.get(i).stops()) {
            return 1;
        }
        Integer spanish = SPANISH.get(grammar.words.get(i).text());
        if (spanish != null) {
            return spanish;
        }
        for (int from = Math.max(0, i - 1); from <= i; from++) {
            Optional<Numbers.Spoken> figure = Numbers.at(grammar.words, from)
                    .filter(number -> number.end() == i + 1 && !number.year() && FACES.contains(number.value()));
            if (figure.isPresent()) {
                return figure.get().value();
            }
        }
        return 1;
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
