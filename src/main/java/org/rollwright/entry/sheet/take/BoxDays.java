package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/// The days of boxes, read together: a row tells of its neighbours. Used by one thread.
final class BoxDays {
    private static final LocalDate FIRST_W = LocalDate.of(2019, 4, 1);
    private static final int ODD_DAYS = 60;

    /// Rows looked through for a neighbour with a day.
    private static final int NEAR = 200;

    private final TableFinder.Found table;
    private final Days.Order order;
    private final Lexicon words;
    /// Rows read so far with the cell of their day, for what neighbours tell.
    private final List<Draft> rows = new ArrayList<>();

    private final List<Days.@Nullable Read> days = new ArrayList<>();
    private final List<Integer> years = new ArrayList<>();
    private final List<Integer> months = new ArrayList<>();
    private final List<Integer> titles = new ArrayList<>();

    BoxDays(TableFinder.Found table, Days.Order order, Lexicon words) {
        this.table = table;
        this.order = order;
        this.words = words;
    }

    /// A row, in the order of the sheet.
    void add(Draft draft, Context context) {
        rows.add(draft);
        days.add(
                table.column("date").isPresent()
                        ? Days.read(draft.line.cell(table.column("date").get().index()), order)
                        : null);
        years.add(context.year);
        months.add(context.month);
        titles.add(context.sheetYear);
    }

    private static String name(Draft draft) {
        return BoxReader.name(draft);
    }

    /// What only all rows together tell: years that are not written, days out of their order.
    void finish() {
        @Nullable LocalDate[] known = new LocalDate[rows.size()];
        int down = 0;
        LocalDate last = null;
        for (int i = 0; i < rows.size(); i++) {
            if (days.get(i) instanceof Days.Read.Known sure) {
                known[i] = sure.inferred() ? null : sure.day();
            }
            LocalDate now = known[i];
            if (now != null && last != null) {
                down += now.isBefore(last) ? 1 : now.isAfter(last) ? -1 : 0;
            }
            last = now == null ? last : now;
        }
        boolean rising = down <= 0;
        // the surest first: what is sure of one row tells of its neighbours
        for (int pass = 0; pass < 4; pass++) {
            for (int i = 0; i < rows.size(); i++) {
                if (pass(i) == pass) {
                    settle(i, known, rising);
                }
            }
        }
        for (int i = 0; i < rows.size(); i++) {
            odd(i, known, rising);
            weekW(rows.get(i), known[i]);
        }
    }

    private int pass(int i) {
        String text = table.column("date")
                .map(column -> rows.get(i).line.text(column.index()))
                .orElse("");
        return switch (days.get(i)) {
            case null -> 0;
            case Days.Read.Known sure -> sure.inferred() ? 2 : 0;
            case Days.Read.NoYear part -> text.matches("[0-9/. -]+") ? 2 : 1;
            case Days.Read.TwoWays ways -> 2;
            case Days.Read.Impossible none -> 3;
            case Days.Read.Words spoken -> 3;
        };
    }

    private static @Nullable LocalDate near(@Nullable LocalDate[] known, int from, int step) {
        for (int i = from + step; i >= 0 && i < known.length && Math.abs(i - from) <= NEAR; i += step) {
            if (known[i] != null) {
                return known[i];
            }
        }
        return null;
    }

    private static @Nullable LocalDate second(@Nullable LocalDate[] known, int from, int step) {
        for (int i = from + step; i >= 0 && i < known.length && Math.abs(i - from) <= NEAR; i += step) {
            if (known[i] != null) {
                return near(known, i, step);
            }
        }
        return null;
    }

    private void settle(int i, @Nullable LocalDate[] known, boolean rising) {
        Draft draft = rows.get(i);
        String name = name(draft);
        LocalDate before = near(known, i, rising ? -1 : 1);
        LocalDate after = near(known, i, rising ? 1 : -1);
        String text = table.column("date")
                .map(column -> draft.line.text(column.index()))
                .orElse("");
        switch (days.get(i)) {
            case null -> {}
            case Days.Read.Known sure -> {
                if (sure.day() != null && sure.inferred()) {
                    LocalDate fitting = swapped(sure.day(), before, after);
                    known[i] = fitting;
                    draft.infer("date", fitting.toString());
                } else {
                    draft.put("date", sure.iso());
                }
            }
            case Days.Read.TwoWays ways -> {
                boolean a = fits(ways.monthFirst(), before, after);
                boolean b = fits(ways.dayFirst(), before, after);
                if (a != b && (before != null || after != null)) {
                    known[i] = a ? ways.monthFirst() : ways.dayFirst();
                    draft.infer("date", (a ? ways.monthFirst() : ways.dayFirst()).toString());
                } else {
                    boolean sameMonth =
                            ways.monthFirst().getYear() == ways.dayFirst().getYear();
                    draft.put(
                            "date",
                            sameMonth ? Integer.toString(ways.monthFirst().getYear()) : "");
                    draft.ask("date", t("take.ask-two-ways", name, text, ways.monthFirst(), ways.dayFirst()));
                }
            }
            case Days.Read.NoYear part -> withoutYear(i, part, known, before, after, text);
            case Days.Read.Impossible none -> {
                String month = none.month();
                Matcher brief =
                        Pattern.compile("([0-9]{1,2})\\s*[/-]\\s*([0-9]{1,2})").matcher(text);
                if (month.isEmpty()
                        && years.get(i) > 0
                        && brief.matches()
                        && order == Days.Order.MONTH_FIRST
                        && Integer.parseInt(brief.group(1)) <= 12) {
                    month = "%04d-%02d".formatted(years.get(i), Integer.parseInt(brief.group(1)));
                }
                draft.put("date", month);
                draft.ask("date", t("take.ask-no-day", name, text));
            }
            case Days.Read.Words spoken -> {
                if (text.isEmpty()) {
                    return;
                }
                if (words.exact("same", text).isPresent() || text.matches("[\"'〃″]+")) {
                    if (before != null) {
                        draft.infer("date", before.toString());
                    }
                    return;
                }
                Optional<Integer> month = Days.monthIn(text);
                int section = month.isPresent() ? yearOf(i, month.get(), before, after) : 0;
                if (section > 0) {
                    draft.infer("date", "%04d-%02d".formatted(section, month.orElse(1)));
                    draft.ask("date", t("take.ask-day", name, text));
                    return;
                }
                if ((before != null && after != null && ChronoUnit.MONTHS.between(before, after) <= 1)
                        || (before != null && after != null && before.getMonth() == after.getMonth())) {
                    draft.infer("date", before.toString().substring(0, 7));
                }
                draft.ask("date", spoken.weekday() ? t("take.ask-weekday", name, text) : t("take.ask-day", name, text));
            }
        }
    }

    /// The year of a month that is written without one, 0 when it is not plain.
    private int yearOf(int i, int month, @Nullable LocalDate before, @Nullable LocalDate after) {
        if (years.get(i) > 0) {
            return years.get(i);
        }
        for (@Nullable LocalDate near : Arrays.asList(before, after)) {
            if (near != null && Math.abs(near.getMonthValue() - month) <= 2) {
                return near.getYear();
            }
        }
        return before == null && after == null ? titles.get(i) : 0;
    }

    private static boolean fits(LocalDate day, @Nullable LocalDate before, @Nullable LocalDate after) {
        return (before == null || !day.isBefore(before)) && (after == null || !day.isAfter(after));
    }

    /// A day whose order of day and month is the sheet's custom: the other order where only that fits its
    /// neighbours.
    private static LocalDate swapped(LocalDate day, @Nullable LocalDate before, @Nullable LocalDate after) {
        if (fits(day, before, after) || day.getDayOfMonth() > 12) {
            return day;
        }
        LocalDate other = LocalDate.of(day.getYear(), day.getDayOfMonth(), day.getMonthValue());
        return before != null && after != null && fits(other, before, after) ? other : day;
    }

    private void withoutYear(
            int i,
            Days.Read.NoYear part,
            @Nullable LocalDate[] known,
            @Nullable LocalDate before,
            @Nullable LocalDate after,
            String text) {
        Draft draft = rows.get(i);
        List<LocalDate> candidates = new ArrayList<>();
        List<Integer> of = new ArrayList<>();
        if (years.get(i) > 0) {
            of.add(years.get(i));
        } else {
            if (before != null) {
                of.add(before.getYear());
                of.add(before.getYear() + 1);
            }
            if (after != null && !of.contains(after.getYear())) {
                of.add(after.getYear());
            }
            if (titles.get(i) > 0 && of.isEmpty()) {
                of.add(titles.get(i));
            }
        }
        List<int[]> pairs = new ArrayList<>(part.monthAndDay());
        if (pairs.size() == 1 && pairs.getFirst()[1] <= 12 && text.matches("[0-9]{1,2}\\s*[/-]\\s*[0-9]{1,2}")) {
            pairs.add(new int[] {pairs.getFirst()[1], pairs.getFirst()[0]});
        }
        int section = months.get(i);
        if (section > 0 && pairs.stream().anyMatch(pair -> pair[0] == section)) {
            pairs.removeIf(pair -> pair[0] != section);
        }
        for (int year : of) {
            for (int[] pair : pairs) {
                Days.of(year, pair[0], pair[1])
                        .filter(day -> fits(day, before, after))
                        .ifPresent(day -> {
                            if (!candidates.contains(day)) {
                                candidates.add(day);
                            }
                        });
            }
        }
        LocalDate usual = of.isEmpty()
                ? null
                : Days.of(of.getFirst(), pairs.getFirst()[0], pairs.getFirst()[1])
                        .orElse(null);
        LocalDate day = candidates.size() == 1
                ? candidates.getFirst()
                : usual != null
                                && (candidates.contains(usual) || (candidates.isEmpty() && pairs.size() == 1))
                                && (pairs.size() == 1 || order != Days.Order.UNKNOWN)
                        ? usual
                        : null;
        if (day == null) {
            draft.ask(
                    "date",
                    of.isEmpty() ? t("take.ask-year", name(draft), text) : t("take.ask-day", name(draft), text));
            return;
        }
        known[i] = day;
        draft.infer("date", day.toString());
    }

    private void odd(int i, @Nullable LocalDate[] known, boolean rising) {
        LocalDate day = known[i];
        if (day == null) {
            return;
        }
        Draft draft = rows.get(i);
        LocalDate before = near(known, i, rising ? -1 : 1);
        LocalDate after = near(known, i, rising ? 1 : -1);
        int section = years.get(i);
        boolean wrongYear = section > 0
                && Math.abs(day.getYear() - section) >= 1
                && !(Math.abs(day.getYear() - section) == 1 && (day.getMonthValue() == 1 || day.getMonthValue() == 12));
        boolean between = before != null
                && after != null
                && !after.isBefore(before)
                && !fits(day, before.minusDays(ODD_DAYS), after.plusDays(ODD_DAYS));
        LocalDate further = after == null ? null : second(known, i, rising ? 1 : -1);
        LocalDate earlier = before == null ? null : second(known, i, rising ? -1 : 1);
        boolean neighbour =
                (further != null && fits(day, before, further)) || (earlier != null && fits(day, earlier, after));
        if (!wrongYear && (!between || neighbour || section == day.getYear())) {
            return;
        }
        // a neighbour may be the odd one: only the row that does not fit both sides is asked about
        for (int year : new int[] {
            section > 0 ? section : before == null ? day.getYear() : before.getYear(),
            after == null ? day.getYear() : after.getYear()
        }) {
            Optional<LocalDate> moved = Days.of(year, day.getMonthValue(), day.getDayOfMonth());
            if (moved.isPresent() && fits(moved.get(), before, after)) {
                draft.ask("date", t("take.ask-odd-year", name(draft), day, moved.get()));
                draft.infer("date", moved.get().toString());
                return;
            }
        }
        if (between) {
            draft.ask("date", t("take.ask-odd-day", name(draft), day, before, after));
        } else if (section > 0) {
            draft.ask("date", t("take.ask-odd-section", name(draft), day, section));
        }
    }

    private static void weekW(Draft draft, @Nullable LocalDate day) {
        Matcher w = Pattern.compile("W mint:([0-9]+)").matcher(draft.get("finds"));
        if (day != null && day.isBefore(FIRST_W) && w.find() && !w.group(1).equals("0")) {
            draft.ask("date", t("take.ask-w-early", name(draft), day));
        }
    }
}
