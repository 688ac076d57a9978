package org.rollwright.coin;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Pattern;
import org.rollwright.text.Figures;

/// How long a text may be, which characters it may hold, which days and numbers there are: the one place that
/// says so, for pages, commands, files taken in and the record alike.
///
/// They bind what is recorded, not what is read: an older record that holds more is read as it is.
public final class Limits {
    /// Characters of a line as it is typed, and of whatever is told in sentences: a note, a caption, a rule. Two
    /// printed pages; more is a file that went astray.
    public static final int WORDS = 4_096;

    /// Characters of a name, a label, an address, a word: what stands in a column or on a label.
    public static final int NAME = 200;

    /// Coins struck before circulate in no box; the first day also lies behind every day a coin can have come.
    public static final LocalDate FIRST_DAY = LocalDate.of(1700, 1, 1);

    /// Long enough for everybody alive, near enough that days, weeks and seconds between any two days fit into the
    /// numbers that count them.
    public static final LocalDate LAST_DAY = LocalDate.of(2200, 12, 31);

    /// Ten times what a thousand boxes of the largest denomination hold; sums of a million of them stay exact.
    public static final BigDecimal MOST_MONEY = BigDecimal.valueOf(1_000_000_000L);

    /// Decimals of an amount: prices of a metal are kept for a kilogram and need more than cents.
    public static final int MOST_DECIMALS = 6;

    private static final Pattern GROUPED = Pattern.compile("[0-9]{1,3}(,[0-9]{3})++(\\.[0-9]*+)?+");

    private static final Pattern DECIMAL_COMMA = Pattern.compile("(?<=[0-9]),(?=[0-9]{1,2}(?![0-9.,]))");
    private static final Pattern GROUPING_BLANK = Pattern.compile("(?<=[0-9])[ \u00A0\u202F](?=[0-9]{3}(?![0-9]))");

    /// Grams, kilometres and everything else that is measured.
    public static final double MOST_MEASURED = 1e9;

    private static final int FIRST_PRINTABLE = 0x20;
    private static final int FIRST_LATIN = 0xA0;
    private static final int DELETE = 0x7F;

    private Limits() {}

    /// Looks at a text.
    ///
    /// @param where what it is, as a sentence begins: `The note`
    /// @param most characters it may have
    public static Optional<Refusal> text(String where, String text, int most) {
        if (text.length() > most) {
            return Optional.of(new Refusal(
                    t("coin.too-long", where, thousands(text.length())),
                    t("coin.write-at-most-characters", thousands(most))));
        }
        OptionalInt at = unfit(text);
        return at.isEmpty()
                ? Optional.empty()
                : Optional.of(new Refusal(
                        t("coin.character-refused", where, at.getAsInt() + 1, "U+%04X".formatted((int)
                                        text.charAt(at.getAsInt()))),
                        t("coin.retype")));
    }

    /// Where the first character stands that no text of the record may hold, from 0.
    ///
    /// Control characters steer a terminal and break a workbook; half a surrogate pair cannot be written to a file
    /// and would come back as a question mark; characters that turn the direction of writing make a line read
    /// otherwise than it is. Tabs and line breaks are text; isolates and marks of direction end with their own
    /// word and are needed by those who write from right to left.
    public static OptionalInt unfit(String text) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (Character.isHighSurrogate(c) && i + 1 < text.length() && Character.isLowSurrogate(text.charAt(i + 1))) {
                i++;
                continue;
            }
            boolean control =
                    (c < FIRST_PRINTABLE && c != '\t' && c != '\n' && c != '\r') || (c >= DELETE && c < FIRST_LATIN);
            boolean turning = c >= '\u202A' && c <= '\u202E';
            boolean none = c == '\uFFFE' || c == '\uFFFF';
            if (control || turning || none || Character.isSurrogate(c)) {
                return OptionalInt.of(i);
            }
        }
        return OptionalInt.empty();
    }

    /// A day as it is written, `2026-03-01`; empty when it is none or lies outside the record's days.
    public static Optional<LocalDate> day(String text) {
        try {
            return Optional.of(LocalDate.parse(text)).filter(Limits::isDay);
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }

    /// Whether a day is one of the record's.
    public static boolean isDay(LocalDate day) {
        return !day.isBefore(FIRST_DAY) && !day.isAfter(LAST_DAY);
    }

    /// Whether a moment lies on one of the record's days.
    public static boolean isMoment(Instant moment) {
        return !moment.isBefore(FIRST_DAY.atStartOfDay().toInstant(ZoneOffset.UTC))
                && moment.isBefore(LAST_DAY.plusDays(1).atStartOfDay().toInstant(ZoneOffset.UTC));
    }

    /// Looks at a moment.
    public static Optional<Refusal> moment(Instant moment) {
        return isMoment(moment) ? Optional.empty() : Optional.of(outside(moment));
    }

    /// Looks at a day.
    public static Optional<Refusal> day(LocalDate day) {
        return isDay(day) ? Optional.empty() : Optional.of(outside(day));
    }

    private static Refusal outside(Object when) {
        return new Refusal(t("coin.day-out-of-range", when), t("coin.write-a-day-from-to", FIRST_DAY, LAST_DAY));
    }

    /// Reads an amount of money as it is typed: digits, a point and at most two decimals, nothing else that a program
    /// might take for a number.
    ///
    /// @return with two decimals; empty when it is none
    public static Optional<BigDecimal> money(String text) {
        return text.matches("[0-9]{1,9}(\\.[0-9]{1,2})?")
                ? Optional.of(new BigDecimal(text).setScale(2, RoundingMode.UNNECESSARY))
                : Optional.empty();
    }

    /// A number without the commas between its thousands. A comma that stands anywhere else, as in `1,50`, stays:
    /// it may mean a point, and a dollar and a half must not become a hundred and fifty.
    public static String ungrouped(String text) {
        return GROUPED.matcher(text).matches() ? text.replace(",", "") : text;
    }

    /// A number as a person types it into a field, with a decimal point and its thousands together.
    ///
    /// A comma with one or two digits behind it can be nothing but a decimal comma. One with three, as in `1,250`,
    /// tells thousands apart for those who write a decimal point; where the language in use writes a decimal comma
    /// it is left as it is, to be refused: it would be wrong by a factor of a thousand one way or the other.
    public static String typed(String text) {
        String plain = pointed(GROUPING_BLANK.matcher(text).replaceAll(""));
        return Figures.comma() ? plain : ungrouped(plain);
    }

    /// A text whose decimal commas are points, where they can be nothing else: one or two digits follow.
    public static String pointed(String text) {
        return text.chars().filter(letter -> letter == ',').count() == 1
                ? DECIMAL_COMMA.matcher(text).replaceAll(".")
                : text;
    }

    /// Looks at an amount of money.
    public static Optional<Refusal> amount(BigDecimal amount) {
        // the order matters: neither look unfolds a number such as 1e999999999
        boolean far = amount.precision() - (long) amount.scale() > MOST_MONEY.precision();
        if (far || amount.abs().compareTo(MOST_MONEY) > 0) {
            return Optional.of(new Refusal(
                    t("coin.too-large", amount.precision() > NAME ? "…" : amount),
                    t("coin.write-an-amount-up-to", thousands(MOST_MONEY.longValueExact()))));
        }
        return amount.scale() > MOST_DECIMALS
                ? Optional.of(new Refusal(
                        t("coin.too-many-decimals", amount.precision() > NAME ? "…" : amount),
                        t("coin.write-at-most-decimals", MOST_DECIMALS)))
                : Optional.empty();
    }

    /// Looks at something measured.
    public static Optional<Refusal> measured(double value) {
        return Math.abs(value) <= MOST_MEASURED
                ? Optional.empty()
                : Optional.of(new Refusal(
                        t("coin.too-large", value), t("coin.write-an-amount-up-to", thousands((long) MOST_MEASURED))));
    }

    /// A number with its thousands told apart, for a sentence.
    public static String thousands(long number) {
        return Figures.whole(number);
    }
}
