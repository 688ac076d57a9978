package org.rollwright.entry.sheet.take;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/// Days as people write them in cells.
final class Days {
    /// What came of a cell.
    sealed interface Read {
        /// A day, or the month or the year where that is all there is.
        record Known(String iso, boolean inferred) implements Read {
            @Nullable
            LocalDate day() {
                return iso.length() == 10 ? LocalDate.parse(iso) : null;
            }
        }

        /// Two days it may be.
        record TwoWays(LocalDate monthFirst, LocalDate dayFirst) implements Read {}

        /// Day and month without a year.
        record NoYear(List<int[]> monthAndDay) implements Read {}

        /// No such day.
        ///
        /// @param month the month it lies in, blank when that is not plain either
        record Impossible(String month) implements Read {}

        /// A day of the week, or words that are no day.
        record Words(boolean weekday) implements Read {}
    }

    /// Which of day and month stands first.
    enum Order {
        MONTH_FIRST,
        DAY_FIRST,
        UNKNOWN
    }

    private static final Map<String, Integer> MONTHS = Map.ofEntries(
            Map.entry("jan", 1),
            Map.entry("ene", 1),
            Map.entry("feb", 2),
            Map.entry("fev", 2),
            Map.entry("fe", 2),
            Map.entry("mar", 3),
            Map.entry("maa", 3),
            Map.entry("mrt", 3),
            Map.entry("mrz", 3),
            Map.entry("apr", 4),
            Map.entry("avr", 4),
            Map.entry("abr", 4),
            Map.entry("may", 5),
            Map.entry("mei", 5),
            Map.entry("mai", 5),
            Map.entry("jun", 6),
            Map.entry("juin", 6),
            Map.entry("jul", 7),
            Map.entry("juil", 7),
            Map.entry("aug", 8),
            Map.entry("aou", 8),
            Map.entry("ago", 8),
            Map.entry("sep", 9),
            Map.entry("oct", 10),
            Map.entry("okt", 10),
            Map.entry("nov", 11),
            Map.entry("dec", 12),
            Map.entry("dez", 12),
            Map.entry("dic", 12));

    private static final String MONTH_WORDS = "(?:january|february|march|april|may|june|july|august|september|october"
            + "|november|december|januari|februari|maart|april|mei|juni|juli|augustus|oktober|januar|februar|marz|mai"
            + "|dezember|janvier|fevrier|mars|avril|juin|juillet|aout|septembre|octobre|novembre|decembre|enero|febrero"
            + "|marzo|abril|mayo|junio|julio|agosto|septiembre|octubre|noviembre|diciembre|jan|feb|mar|apr|jun|jul|aug"
            + "|sep|sept|oct|okt|nov|dec|dez|fev|avr|juil|mrt|mrz|ene|abr|ago|dic|janv|fevr)";

    private static final Pattern THREE =
            Pattern.compile("([0-9]{1,4})\\s*[/.-]\\s*([0-9]{1,2})\\s*[/.-]\\s*([0-9]{1,4})");
    private static final Pattern TWO = Pattern.compile("([0-9]{1,2})\\s*[/.-]\\s*([0-9]{1,2})\\.?");
    private static final Pattern MONTH_YEAR = Pattern.compile("([0-9]{1,2})\\s*[/.-]\\s*([0-9]{4})");
    private static final Pattern YEAR_MONTH = Pattern.compile("([12][0-9]{3})\\s*[/.-]\\s*([0-9]{1,2})");
    private static final Pattern YEAR =
            Pattern.compile("(?:ca?\\.? ?|about |around |circa |vers |um |rond |~ ?|fin |debut |early |late "
                    + "|spring |summer |fall |autumn |winter |ete |hiver |printemps |automne |sommer |herbst |zomer |herfst |lente |noel |xmas "
                    + "|christmas |kerst |weihnachten |ostern |paques |navidad |verano |easter )?([12][0-9]{3})");
    private static final Pattern CHRISTMAS = Pattern.compile(
            "(?:noel|xmas|christmas|x-mas|kerst|kerstmis|weihnachten|navidad|navidades)[ ,']*([12][0-9]{3})");
    private static final Pattern DAY_MONTH =
            Pattern.compile("(?:[a-z]{2,10}\\.?,? )?([0-9]{1,2})(?:st|nd|rd|th|er|e|ter)?[. -]*(?:de |of )?("
                    + MONTH_WORDS + ")\\.?(?:[ ,.'-]*(?:de |del )?([0-9]{4}|[0-9]{2}))?");
    private static final Pattern MONTH_DAY = Pattern.compile("(?:[a-z]{2,10}\\.?,? )?(" + MONTH_WORDS
            + ")\\.?[ -]*([0-9]{1,2})(?:st|nd|rd|th)?(?:[ ,.'-]+([0-9]{4}|[0-9]{2}))?");
    private static final Pattern MONTH_ONLY =
            Pattern.compile("(?:early |mid |late |debut |fin |mi |anfang |ende |begin |eind )?(" + MONTH_WORDS
                    + ")\\.?(?:[ ,.'/-]*([0-9]{4}|[0-9]{2}))?");
    private static final Pattern WEEKDAY = Pattern.compile(
            "(?:last |next )?(?:mon|tue|tues|wed|thu|thur|thurs|fri|sat|sun|ma|di|wo|do|vr|za|zo|mo|mi|fr|sa|so|lun|mar|mer|jeu|ven|sam|dim)[a-z]*\\.?");

    /// A month and nothing beside it but perhaps a year.
    static final Pattern MONTH_HEADING = Pattern.compile("(?:month of |mois de |mes de |monat )?" + MONTH_WORDS
            + "\\.?(?:[ ,.'/-]*(?:de |del )?([0-9]{4}|[0-9]{2}))?");

    private static final Pattern MONTH_FIRST_WORD = Pattern.compile(
            "(?:early |mid |late |debut |fin |mi |anfang |ende |begin |eind |some time in |sometime in )?("
                    + MONTH_WORDS + ")(?![a-z]).*");

    private Days() {}

    /// The month a text begins with.
    static Optional<Integer> monthIn(String text) {
        Matcher month = MONTH_FIRST_WORD.matcher(Words.plain(text).strip());
        return month.matches() ? Optional.of(month(month.group(1))) : Optional.empty();
    }

    /// Reads a cell.
    ///
    /// @param order which of day and month stands first where both can be
    static Read read(Grid.Cell cell, Order order) {
        return cell.day() == null
                ? read(cell.text(), order)
                : new Read.Known(cell.day().toString(), false);
    }

    static Read read(String text, Order order) {
        String plain = Words.plain(text).strip().replaceAll("\\s+", " ").replaceAll("[ ,;]+$", "");
        plain = plain.replaceAll("( [0-9]{1,2}:[0-9]{2}(:[0-9]{2})?( ?[ap]m)?)$", "")
                .replaceAll("t00:00.*$", "");
        Matcher three = THREE.matcher(plain);
        if (three.matches()) {
            return three(three.group(1), three.group(2), three.group(3), plain.contains("."), order);
        }
        if (plain.matches("(19|20)[0-9]{6}")) {
            return day(Integer.parseInt(plain.substring(0, 4)), plain.substring(4, 6), plain.substring(6), false);
        }
        if (plain.matches("[2-5][0-9]{4}(\\.0+)?")) {
            // a day as spreadsheets count it, whose format was lost
            return new Read.Known(
                    LocalDate.of(1899, 12, 30)
                            .plusDays(Long.parseLong(plain.substring(0, 5)))
                            .toString(),
                    false);
        }
        Matcher yearMonth = YEAR_MONTH.matcher(plain);
        if (yearMonth.matches()) {
            return month(yearMonth.group(1), Integer.parseInt(yearMonth.group(2)));
        }
        Matcher monthYear = MONTH_YEAR.matcher(plain);
        if (monthYear.matches()) {
            return month(monthYear.group(2), Integer.parseInt(monthYear.group(1)));
        }
        Matcher two = TWO.matcher(plain);
        if (two.matches()) {
            return two(Integer.parseInt(two.group(1)), Integer.parseInt(two.group(2)), plain.contains("."), order);
        }
        Matcher christmas = CHRISTMAS.matcher(plain);
        if (christmas.matches()) {
            return month(christmas.group(1), 12);
        }
        Matcher year = YEAR.matcher(plain);
        if (year.matches()) {
            return new Read.Known(year.group(1), false);
        }
        Matcher dayMonth = DAY_MONTH.matcher(plain);
        if (dayMonth.matches()) {
            return named(month(dayMonth.group(2)), Integer.parseInt(dayMonth.group(1)), dayMonth.group(3));
        }
        Matcher monthDay = MONTH_DAY.matcher(plain);
        Matcher monthOnly = MONTH_ONLY.matcher(plain);
        if (monthOnly.matches()) {
            String of = monthOnly.group(2);
            if (of != null && (of.length() == 4 || plain.contains("'") || Integer.parseInt(of) > 31)) {
                return month(of.length() == 4 ? of : Integer.toString(year(of)), month(monthOnly.group(1)));
            }
            if (of == null) {
                return new Read.Words(false);
            }
        }
        if (monthDay.matches()) {
            return named(month(monthDay.group(1)), Integer.parseInt(monthDay.group(2)), monthDay.group(3));
        }
        return new Read.Words(WEEKDAY.matcher(plain).matches());
    }

    private static Read three(String a, String b, String c, boolean points, Order order) {
        if (a.length() >= 3) {
            return day(Integer.parseInt(a), b, c, false);
        }
        if (c.length() == 3 || c.length() == 1) {
            return new Read.Words(false);
        }
        int year = year(c);
        int first = Integer.parseInt(a);
        int second = Integer.parseInt(b);
        Optional<LocalDate> monthFirst = points ? Optional.empty() : of(year, first, second);
        Optional<LocalDate> dayFirst = of(year, second, first);
        if (monthFirst.isPresent() && dayFirst.isPresent() && !monthFirst.equals(dayFirst)) {
            return switch (order) {
                case MONTH_FIRST -> new Read.Known(monthFirst.get().toString(), true);
                case DAY_FIRST -> new Read.Known(dayFirst.get().toString(), true);
                case UNKNOWN -> new Read.TwoWays(monthFirst.get(), dayFirst.get());
            };
        }
        Optional<LocalDate> only = monthFirst.or(() -> dayFirst);
        if (only.isPresent()) {
            return new Read.Known(only.get().toString(), false);
        }
        boolean plainMonth = order == Order.MONTH_FIRST ? first <= 12 : second <= 12;
        int month = order == Order.MONTH_FIRST ? first : second;
        return new Read.Impossible(plainMonth && month > 0 ? "%04d-%02d".formatted(year, month) : "");
    }

    private static Read two(int first, int second, boolean points, Order order) {
        List<int[]> pairs = new ArrayList<>();
        if (!points && order != Order.DAY_FIRST && of(2000, first, second).isPresent()) {
            pairs.add(new int[] {first, second});
        }
        if ((order != Order.MONTH_FIRST || pairs.isEmpty())
                && of(2000, second, first).isPresent()
                && first != second) {
            pairs.add(new int[] {second, first});
        }
        if (pairs.isEmpty() && of(2000, first, second).isPresent()) {
            pairs.add(new int[] {first, second});
        }
        return pairs.isEmpty() ? new Read.Impossible("") : new Read.NoYear(List.copyOf(pairs));
    }

    private static Read named(int month, int day, @Nullable String year) {
        if (year == null) {
            return of(2000, month, day).isPresent()
                    ? new Read.NoYear(List.of(new int[] {month, day}))
                    : new Read.Impossible("");
        }
        int of = year.length() == 4 ? Integer.parseInt(year) : year(year);
        return of(of, month, day)
                .<Read>map(found -> new Read.Known(found.toString(), false))
                .orElseGet(() -> new Read.Impossible("%04d-%02d".formatted(of, month)));
    }

    private static Read month(String year, int month) {
        return month >= 1 && month <= 12
                ? new Read.Known("%s-%02d".formatted(year, month), false)
                : new Read.Impossible("");
    }

    private static Read day(int year, String month, String day, boolean inferred) {
        int monthNumber = Integer.parseInt(month);
        return of(year, monthNumber, Integer.parseInt(day))
                .<Read>map(found -> new Read.Known(found.toString(), inferred))
                .orElseGet(() -> new Read.Impossible(
                        monthNumber >= 1 && monthNumber <= 12 ? "%04d-%02d".formatted(year, monthNumber) : ""));
    }

    static Optional<LocalDate> of(int year, int month, int day) {
        try {
            return year < 1000 ? Optional.empty() : Optional.of(LocalDate.of(year, month, day));
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }

    /// A year of two digits, in the hundred years from 1950 on.
    private static int year(String digits) {
        int year = Integer.parseInt(digits);
        return digits.length() > 2 ? year : year >= 50 ? 1900 + year : 2000 + year;
    }

    private static int month(String word) {
        if (word.startsWith("juil")) {
            return 7;
        }
        if (word.startsWith("juin")) {
            return 6;
        }
        return MONTHS.getOrDefault(word.substring(0, 3), 0);
    }

    /// The order that all days of some cells agree on.
    ///
    /// @param weak how days are written where nothing tells, by the language and the money of the sheet
    static Order order(List<Grid.Cell> cells, Order weak) {
        int monthFirst = 0;
        int dayFirst = 0;
        int hinted = 0;
        for (Grid.Cell cell : cells) {
            if (cell.day() != null) {
                String format = cell.format().toLowerCase(java.util.Locale.ROOT);
                int m = format.indexOf('m');
                int d = format.indexOf('d');
                if (m >= 0 && d >= 0 && !format.startsWith("y") && format.indexOf('/') > 0) {
                    hinted += m < d ? 1 : -1;
                }
                continue;
            }
            String plain = Words.plain(cell.text()).strip();
            Matcher three = THREE.matcher(plain);
            Matcher two = TWO.matcher(plain);
            if (three.matches() && three.group(1).length() <= 2) {
                int first = Integer.parseInt(three.group(1));
                int second = Integer.parseInt(three.group(2));
                if (first > 12 && second <= 12) {
                    dayFirst++;
                } else if (second > 12 && first <= 12) {
                    monthFirst++;
                }
            } else if (two.matches() && !plain.contains(".")) {
                int first = Integer.parseInt(two.group(1));
                int second = Integer.parseInt(two.group(2));
                if (first > 12 && second <= 12) {
                    dayFirst++;
                } else if (second > 12 && first <= 12) {
                    monthFirst++;
                }
            }
        }
        if (monthFirst > 0 && dayFirst == 0) {
            return Order.MONTH_FIRST;
        }
        if (dayFirst > 0 && monthFirst == 0) {
            return Order.DAY_FIRST;
        }
        if (monthFirst > 0) {
            // one slip among many days does not change the keeper's habit
            return monthFirst >= 3 * dayFirst
                    ? Order.MONTH_FIRST
                    : dayFirst >= 3 * monthFirst ? Order.DAY_FIRST : Order.UNKNOWN;
        }
        return hinted > 0 ? Order.MONTH_FIRST : hinted < 0 ? Order.DAY_FIRST : weak;
    }
}
