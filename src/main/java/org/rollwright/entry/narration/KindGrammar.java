package org.rollwright.entry.narration;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.entry.EntryContext;

/// Reads which country's and denomination's coin is meant, and which century.
abstract class KindGrammar extends MintGrammar {
    static final Country CANADA = new Country("CA");
    static final Country UNITED_STATES = new Country("US");

    KindGrammar(List<Word> words, EntryContext context, Phrases phrases) {
        super(words, context, phrases);
    }

    /// What the words around a date say of a coin from elsewhere.
    abstract Optional<Denomination> stray(int start, int end, Denomination home);

    Optional<Integer> otherCentury(Denomination denomination, int twoDigits, String code) {
        return Stream.of(2000, 1900, 1800)
                .map(century -> century + twoDigits)
                .filter(year -> year <= context.thisYear() && bears(denomination, year, code))
                .findFirst();
    }

    /// Whether there are coins of a year with a mint mark.
    boolean bears(Denomination denomination, int year, String code) {
        return context.catalog().ofYear(denomination, year).stream()
                .anyMatch(issue -> issue.mint().code().equals(code));
    }

    /// The year two digits mean: one that is watched for, else one of the last century.
    Optional<Integer> year(int twoDigits, Denomination denomination) {
        Optional<Integer> plausible = Optional.empty();
        for (int century : new int[] {1900, 2000, 1800}) {
            int year = century + twoDigits;
            if (year > context.thisYear()
                    || context.catalog().ofYear(denomination, year).isEmpty()) {
                continue;
            }
            if (watched(year, denomination)) {
                return Optional.of(year);
            }
            plausible = plausible.or(() -> Optional.of(year));
        }
        return plausible;
    }

    boolean watched(int year, Denomination denomination) {
        for (Issue issue : context.catalog().ofYear(denomination, year)) {
            boolean chosen = context.watches().stream()
                    .anyMatch(watch -> watch.selects(
                            CoinDescription.plain(issue.identity()), List.of(issue), denomination.country()));
            if (chosen) {
                return true;
            }
        }
        return false;
    }

    Country country(int i, Country otherwise) {
        if (is(i, "canadian", "canada", "queen", "maple", "caribou", "beaver", "elizabeth", "schooner", "bluenose")
                || sequence(i, "king", "george")) {
            return CANADA;
        }
        return is(i, "american", "lincoln", "wheat", "jefferson", "roosevelt", "washington", "kennedy")
                ? UNITED_STATES
                : otherwise;
    }

    /// Whether several foreign coins were announced shortly before: `two Canadians, a 1964 and a 1974`.
    boolean severalAbroad(int i) {
        for (int k = i; k >= Math.max(1, i - 8); k--) {
            if (is(k, "canadian", "american")
                    && !opens(k)
                    && count(k - 1).filter(n -> n.value() > 1).isPresent()) {
                return true;
            }
        }
        return false;
    }

    Denomination denomination(int start, int end) {
        Denomination home = home(start);
        Optional<Denomination> stray = stray(start, end, home);
        if (stray.isPresent()) {
            return stray.get();
        }
        Country country = home.country();
        int stops = 0;
        for (int i = start - 1; i >= Math.max(0, start - 9); i--) {
            stops += words.get(i).stops() ? 1 : 0;
            boolean far = stops > 1 || (stops == 1 && start - i > 4);
            if (far || (number(i).isPresent() && !is(i, "one")) || (start - i <= 4 && is(i, "and", "then", "with"))) {
                break;
            }
            country = country(i, country);
            if (!country.equals(home.country())) {
                break;
            }
        }
        boolean list = !mentions.isEmpty()
                && mentions.getLast() instanceof Mention.Coin before
                && before.abroad()
                && start - before.end() <= 3
                && severalAbroad(before.word())
                && country.equals(home.country());
        if (list) {
            country = ((Mention.Coin) mentions.getLast()).denomination().country();
        }
        for (int i = end;
                i < Math.min(words.size(), end + 3) && !words.get(i - 1).stops();
                i++) {
            country = country(i, country);
        }
        return country.equals(home.country()) ? home : new Denomination(country, home.key());
    }
}
