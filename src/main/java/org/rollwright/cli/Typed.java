package org.rollwright.cli;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import org.joda.money.CurrencyUnit;
import org.joda.money.IllegalCurrencyException;
import org.rollwright.coin.Limits;

/// Numbers, days and words as they stand in a script, read in one place: digits and a point, never what else a
/// program might take for a number.
final class Typed {
    /// A part of a line that cannot be used, told as one sentence.
    static final class Unread extends RuntimeException {
        private static final long serialVersionUID = 1L;

        Unread(String sentence) {
            super(sentence, null, false, false);
        }

        String sentence() {
            return String.valueOf(getMessage());
        }
    }

    private static final int LONGEST_QUOTE = 60;

    private Typed() {}

    /// What was typed, short enough for a sentence.
    static String quote(String text) {
        return "'" + (text.length() > LONGEST_QUOTE ? text.substring(0, LONGEST_QUOTE) + "…" : text) + "'";
    }

    /// A whole number.
    static long whole(String key, String text, long least, long most) {
        if (text.matches("[0-9]{1,18}")) {
            long number = Long.parseLong(text);
            if (number >= least && number <= most) {
                return number;
            }
        }
        throw new Unread(
                key + ": " + quote(text) + " is no whole number from " + least + " to " + Limits.thousands(most) + ".");
    }

    static int small(String key, String text, int least, int most) {
        return (int) whole(key, text, least, most);
    }

    /// An amount of money, to the cent.
    static BigDecimal money(String key, String text) {
        return Limits.money(text)
                .orElseThrow(() -> new Unread(key + ": " + quote(text)
                        + " is no amount of money. Write digits, with two decimals at most, such as 12.35."));
    }

    /// A number with a fraction, 0 or more.
    static BigDecimal decimal(String key, String text, int most) {
        BigDecimal number = text.matches("[0-9]{1,6}(\\.[0-9]{1,3})?") ? new BigDecimal(text) : BigDecimal.valueOf(-1);
        if (number.signum() < 0 || number.compareTo(BigDecimal.valueOf(most)) > 0) {
            throw new Unread(key + ": " + quote(text) + " is no number from 0 to " + Limits.thousands(most)
                    + " with three decimals at most.");
        }
        return number;
    }

    /// A day of the record.
    static LocalDate day(String key, String text) {
        return Limits.day(text)
                .orElseThrow(() -> new Unread(
                        text.isEmpty()
                                ? key + " is missing. Write it as 2026-03-01."
                                : key + ": " + quote(text) + " is no day from " + Limits.FIRST_DAY + " to "
                                        + Limits.LAST_DAY + ". Write it as 2026-03-01."));
    }

    /// A moment of the record.
    static Instant moment(String text) {
        try {
            Instant moment = Instant.parse(text);
            if (Limits.isMoment(moment)) {
                return moment;
            }
        } catch (DateTimeException e) {
            // falls through to the sentence, which quotes what was typed
        }
        throw new Unread(quote(text) + " is no time from " + Limits.FIRST_DAY + " to " + Limits.LAST_DAY + ".");
    }

    /// One word of a list, in capitals or not.
    static <E extends Enum<E>> E word(String what, String text, Class<E> list) {
        return Arrays.stream(list.getEnumConstants())
                .filter(one -> one.name().equals(text.toUpperCase(Locale.ROOT)))
                .findFirst()
                .orElseThrow(() -> new Unread(quote(text) + " is no " + what + ". There are "
                        + Arrays.stream(list.getEnumConstants())
                                .map(one -> one.name().toLowerCase(Locale.ROOT))
                                .collect(Collectors.joining(", "))
                        + "."));
    }

    /// The code of a currency.
    static String currency(String text) {
        try {
            return CurrencyUnit.of(text.toUpperCase(Locale.ROOT)).getCode();
        } catch (IllegalCurrencyException e) {
            throw new Unread(quote(text) + " is no currency. Write USD, CAD or another ISO 4217 code.");
        }
    }
}
