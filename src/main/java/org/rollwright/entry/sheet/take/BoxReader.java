package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/// Rows of boxes of one table. Used by one thread.
final class BoxReader {
    private static final LocalDate FIRST_W = LocalDate.of(2019, 4, 1);
    private static final int ODD_DAYS = 60;

    /// Rows looked through for a neighbour with a day.
    private static final int NEAR = 200;

    private final Lexicon words;
    private final TableFinder.Found table;
    private final Numbers.Manner manner;
    private final BankNames banks;
    private final Days.Order order;
    private final Rolls rolls;

    /// Rows read so far with the cell of their day, for what neighbours tell.
    private final List<Draft> rows = new ArrayList<>();

    private final List<Days.@Nullable Read> days = new ArrayList<>();
    private final List<Integer> years = new ArrayList<>();
    private String lastBank = "";
    private String lastDenomination = "";

    BoxReader(
            Lexicon words,
            TableFinder.Found table,
            Numbers.Manner manner,
            BankNames banks,
            Days.Order order,
            Rolls rolls) {
        this.words = words;
        this.table = table;
        this.manner = manner;
        this.banks = banks;
        this.order = order;
        this.rolls = rolls;
    }

    private Grid.Cell cell(Grid.Line line, String field) {
        return table.column(field).map(column -> line.cell(column.index())).orElse(Grid.Cell.BLANK);
    }

    /// How a question calls the row.
    static String name(Draft draft) {
        String number = draft.more.getOrDefault("number", "");
        return number.isEmpty() ? t("take.row", draft.line.number()) : t("take.box", number);
    }

    void read(Draft draft, Context context) {
        Grid.Line line = draft.line;
        draft.what = "box";
        draft.more.put("number", cell(line, "number").text());
        draft.numbered = cell(line, "number").formula().isEmpty();
        String name = name(draft);
        List<String> notes = new ArrayList<>();
        for (Column column : table.columns("note")) {
            if (!line.text(column.index()).isEmpty()) {
                notes.add(line.text(column.index()).replaceAll("\\s*[\\r\\n]+\\s*", " / "));
            }
        }
        String note = String.join("; ", notes);
        draft.put("note", note);
        String cellDenomination = cell(line, "denomination").text();
        String amount = cell(line, "amount").text();
        boolean canadian = isCanadian(cellDenomination + " " + amount)
                || context.country.equals("Canada")
                || (context.country.isEmpty() && context.sheetCountry.equals("Canada"));
        if (canadian) {
            draft.more.put("country", "Canada");
        }
        String denomination = denomination(draft, cellDenomination, amount, canadian, context, name);
        bank(draft, cell(line, "bank").text(), name);
        size(draft, denomination, line, context, note, name);
        finds(draft, line, note, name);
        grams(draft, line, name);
        doubts(draft, note, name);
        rows.add(draft);
        days.add(table.column("date").isPresent() ? Days.read(cell(line, "date"), order) : null);
        years.add(context.year);
    }

    private static boolean isCanadian(String text) {
        return Words.plain(text).matches("(?s).*\\b(cdn|canadian|canada|cad|loonies?|toonies?)\\b.*");
    }

    private String denomination(
            Draft draft, String cell, String amount, boolean canadian, Context context, String name) {
        Optional<String> found = Denominations.ofBox(cell, words).or(() -> Denominations.ofBox(amount, words));
        boolean mixed = Words.plain(cell + " " + amount)
                .matches("(?s).*\\b(mixed|mix|assorted|various|gemischt|mixte|gemengd)\\b.*");
        if (mixed && found.isEmpty()) {
            draft.ask("denomination", t("take.ask-mixed", name, cell));
            return "";
        }
        if (found.isPresent()) {
            String means = found.get();
            draft.put("denomination", means.replaceAll("\\|.*", ""));
            lastDenomination = draft.get("denomination");
        } else if (cell.isBlank() && !context.denomination.isEmpty()) {
            draft.infer("denomination", context.denomination);
        } else if (cell.isBlank() && !context.sheetDenomination.isEmpty()) {
            draft.infer("denomination", context.sheetDenomination);
        } else if (words.exact("same", cell).isPresent() || cell.matches("[\"'〃]+")) {
            draft.infer("denomination", lastDenomination);
        }
        if (!draft.has("denomination")) {
            draft.ask(
                    "denomination",
                    cell.isBlank() ? t("take.ask-denomination", name) : t("take.ask-denomination-word", name, cell));
        }
        return (canadian ? "CA " : "US ") + draft.get("denomination");
    }

    private void bank(Draft draft, String text, String name) {
        if (text.matches("(?i)n/?a\\.?|none|-+")) {
            return;
        }
        if (text.matches("[?]+")) {
            draft.ask("bank", t("take.ask-bank", name));
        } else if (words.exact("named", text).isPresent() || text.matches("[$]?[0-9][0-9.,]*( rolls?)?")) {
            // a cell is missing before it: everything stands one column too far left
            draft.ask("bank", t("take.ask-shifted", name, text));
        } else if (words.exact("same", text).isPresent() || text.matches("[\"'〃″-]+")) {
            draft.infer("bank", lastBank);
        } else if (!text.isEmpty()) {
            String full = banks.full(text.replaceAll("\\s*\\?$", ""));
            draft.put("bank", full);
            if (!full.equals(text)) {
                draft.inferred.add("bank");
            }
            if (text.endsWith("?")) {
                draft.ask("bank", t("take.ask-bank-sure", name, full));
            }
            lastBank = full;
        }
    }

    private void size(Draft draft, String denomination, Grid.Line line, Context context, String note, String name) {
        String rollText = Words.plain(cell(line, "rolls").text()).strip();
        String amountText = Words.plain(cell(line, "amount").text() + " "
                        + moneyIn(cell(line, "denomination").text()))
                .strip();
        String coinText = cell(line, "coins").text();
        if (rollText.contains("$") && amountText.isEmpty()) {
            amountText = rollText;
            rollText = "";
        }
        String boxCount = Words.plain(cell(line, "box-count").text()).strip();
        if (rollText.isEmpty() && boxCount.matches("[0-9]{1,3}|1/2|½|0[.,]5|half")) {
            rollText = boxCount + " boxes";
        }
        int perRoll = rolls.coins(denomination);
        BigDecimal face = Money.face(draft.get("denomination"));
        boolean doubt = false;
        BigDecimal said = null;
        if (!rollText.isEmpty()) {
            said = parcel(rollText, denomination, false, null, perRoll);
            if (rollText.matches("[0-9]+\\s*\\+.*") && draft.get("denomination").isEmpty()) {
                return;
            }
            doubt = rollText.contains("?") || rollText.contains("+") || rollText.contains("~");
            if (said == null && !rollText.matches("[-?]+")) {
                draft.ask(
                        "rolls",
                        t("take.ask-rolls-word", name, cell(line, "rolls").text()));
            }
        }
        boolean loose = amountText.contains("loose") || rollText.contains("loose");
        BigDecimal fromAmount = null;
        BigDecimal coinsOfAmount = null;
        if (!amountText.isEmpty()) {
            fromAmount = parcel(amountText, denomination, true, face, perRoll);
            Optional<Money> money = Money.read(
                    cell(line, "amount").number() == null ? Grid.Cell.of(amountText) : cell(line, "amount"),
                    manner,
                    words,
                    false);
            if (money.isPresent()
                    && money.get().amount() != null
                    && face != null
                    && face.signum() > 0
                    && !amountText.contains("box")) {
                coinsOfAmount = money.get().amount().divide(face, 6, RoundingMode.HALF_UP);
            }
        }
        BigDecimal coins = null;
        if (!coinText.isEmpty()) {
            coins = Numbers.read(coinText.replaceAll("[^0-9.,]", ""), manner).orElse(null);
            if (coins == null || coinText.contains("?")) {
                draft.ask("coins", t("take.ask-coins-word", name, coinText));
            }
        }
        if (loose && coinsOfAmount != null) {
            draft.infer("coins", Numbers.plain(coinsOfAmount.setScale(0, RoundingMode.HALF_UP)));
            return;
        }
        if (said == null && fromAmount != null) {
            said = fromAmount;
            draft.inferred.add("rolls");
        }
        if (said == null && coins == null && rollText.isEmpty() && amountText.isEmpty()) {
            Matcher told = Pattern.compile(
                            "(?:^|[^a-z0-9])((?:half|1/2|½|two|three|[0-9]{1,3}) ?(?:box(?:es)?|rolls?))(?![a-z])")
                    .matcher(Words.plain(note));
            if (told.find()) {
                said = parcel(told.group(1), denomination, false, null, perRoll);
                draft.inferred.add("rolls");
            }
        }
        if (said == null && coins == null && rollText.isEmpty() && amountText.isEmpty()) {
            boolean none =
                    table.column("rolls").isEmpty() && table.column("amount").isEmpty();
            if ((none && context.boxes) || context.blankRollsAreBoxes) {
                said = rolls.box(denomination);
                if (said != null) {
                    draft.inferred.add("rolls");
                }
            }
        }
        if (said == null
                && coins != null
                && perRoll > 0
                && coins.remainder(BigDecimal.valueOf(perRoll)).signum() == 0
                && coins.signum() > 0
                && table.column("rolls").isEmpty()) {
            said = coins.divide(BigDecimal.valueOf(perRoll), 0, RoundingMode.UNNECESSARY);
            draft.inferred.add("rolls");
        }
        if (said != null) {
            boolean whole = said.stripTrailingZeros().scale() <= 0;
            if (whole) {
                draft.put("rolls", Numbers.plain(said));
            } else if (fromAmount != null && rollText.isEmpty()) {
                draft.inferred.remove("rolls");
                if (coinsOfAmount != null && coinsOfAmount.stripTrailingZeros().scale() <= 0) {
                    draft.infer("coins", Numbers.plain(coinsOfAmount));
                }
                return;
            }
        }
        if (coins != null) {
            draft.put("coins", Numbers.plain(coins));
            if (said != null && perRoll > 0) {
                BigDecimal nominal = said.multiply(BigDecimal.valueOf(perRoll));
                boolean far =
                        nominal.subtract(coins).abs().multiply(BigDecimal.TEN).compareTo(nominal) > 0;
                if (far) {
                    draft.fields.remove("coins");
                    draft.ask(
                            "coins",
                            t(
                                    "take.ask-rolls-coins",
                                    name,
                                    Numbers.plain(said),
                                    Numbers.plain(nominal),
                                    Numbers.plain(coins)));
                }
            }
            return;
        }
        if (said == null || draft.get("denomination").isEmpty()) {
            if (draft.has("denomination") && draft.asks.isEmpty()) {
                draft.ask("rolls", t("take.ask-rolls", name));
            }
            return;
        }
        if (fromAmount != null && !rollText.isEmpty() && fromAmount.compareTo(said) != 0 && !loose) {
            draft.ask(
                    "rolls",
                    t(
                            "take.ask-amount-rolls",
                            name,
                            cell(line, "amount").text(),
                            Numbers.plain(fromAmount),
                            Numbers.plain(said)));
            return;
        }
        if (doubt) {
            draft.ask(
                    "rolls", t("take.ask-rolls-sure", name, cell(line, "rolls").text()));
            return;
        }
        if (perRoll > 0) {
            BigDecimal all = said.multiply(BigDecimal.valueOf(perRoll));
            Matcher missing = Pattern.compile(
                            "(?:missing|short|minus|lacking|less)\\s*(?:by\\s*)?([0-9]{1,3})(?:\\s*coins?| cents?| pennies)?|([0-9]{1,3})\\s*(?:coins? )?(?:short|missing)")
                    .matcher(Words.plain(note));
            Matcher over = Pattern.compile("([0-9]{1,3})\\s*(?:coins? )?(?:extra|over|too many)")
                    .matcher(Words.plain(note));
            if (missing.find()) {
                String few = missing.group(1) == null ? missing.group(2) : missing.group(1);
                all = all.subtract(new BigDecimal(few));
            } else if (over.find()) {
                all = all.add(new BigDecimal(over.group(1)));
            }
            draft.infer("coins", Numbers.plain(all));
        }
    }

    /// The money in a cell that names a denomination: `quarters $200 cdn`.
    private static String moneyIn(String text) {
        Matcher money = Pattern.compile(
                        "[$€£]\\s?[0-9][0-9.,]*(?!\\s*(?:coin|s\\b))|[0-9][0-9.,]*\\s?[€£]|\\b(?:half|1/2)?\\s*box\\b|½\\s*box")
                .matcher(text);
        return money.find() ? money.group() : "";
    }

    /// Rolls of a parcel as words or an amount tell it, null when they do not.
    private @Nullable BigDecimal parcel(
            String text, String denomination, boolean money, @Nullable BigDecimal face, int perRoll) {
        Matcher box = Pattern.compile(
                        "(half|1/2|½|0[.,]5|¼|1/4|quarter|full|a|one|two|three|[0-9]+)?\\s*(?:a |of a )?(?:box(?:es)?|brick|case|doos|kiste|boite|caja)\\b.*")
                .matcher(text);
        BigDecimal full = rolls.box(denomination);
        if (box.matches() && full != null) {
            String part = box.group(1) == null ? "1" : box.group(1);
            return switch (part) {
                case "half", "1/2", "½", "0.5", "0,5" -> full.divide(BigDecimal.TWO, 1, RoundingMode.HALF_UP);
                case "¼", "1/4", "quarter" -> full.divide(BigDecimal.valueOf(4), 1, RoundingMode.HALF_UP);
                case "two" -> full.multiply(BigDecimal.TWO);
                case "three" -> full.multiply(BigDecimal.valueOf(3));
                case "full", "a", "one" -> full;
                default -> full.multiply(new BigDecimal(part));
            };
        }
        if (text.matches("(full|voll|vol|plein)\\b.*") && full != null) {
            return full;
        }
        Matcher rollWord = Pattern.compile(
                        "([0-9]{1,5})\\s*(?:x\\s*)?(?:rolls?|rls?|rollen|rouleaux|rollos|tubes)\\b.*")
                .matcher(text);
        if (rollWord.matches()) {
            return new BigDecimal(rollWord.group(1));
        }
        Matcher number = Pattern.compile("[^0-9]{0,12}?([0-9][0-9.,]*)(.*)").matcher(text);
        if (!number.matches()) {
            return null;
        }
        Optional<BigDecimal> value = Numbers.read(number.group(1).replaceAll("[.,]+$", ""), manner);
        if (value.isEmpty()) {
            return null;
        }
        if (!money) {
            return value.get();
        }
        if (face == null || face.signum() == 0 || perRoll == 0) {
            return null;
        }
        return value.get().divide(face.multiply(BigDecimal.valueOf(perRoll)), 4, RoundingMode.HALF_UP);
    }

    private void finds(Draft draft, Grid.Line line, String note, String name) {
        FindWords finds = new FindWords(words, draft, name);
        for (Column column : table.columns("finds-text")) {
            finds.told(line.text(column.index()));
        }
        FindWords counted = new FindWords(words, draft, name);
        for (Column column : table.columns("find")) {
            counted.column(column.kind(), line.cell(column.index()));
        }
        boolean including = counted.fromWords().stream().anyMatch(kind -> kind.startsWith("incl "));
        finds.counts().forEach((kind, count) -> {
            if (!counted.fromWords().contains("incl " + kind)) {
                counted.counts().merge(kind, count, (old, more) -> old.equals("0") ? more : old);
            }
        });
        counted.parted(note);
        draft.put("finds", counted.text());
        subset(draft, finds, counted, including, name);
        Optional<Long> wheat = number(counted, "wheat");
        Optional<Long> copper = number(counted, "copper");
        if (wheat.isPresent() && copper.isPresent() && wheat.get() > copper.get()) {
            draft.ask("finds", t("take.ask-wheat-copper", name, wheat.get(), copper.get()));
        }
        String coins = draft.get("coins");
        if (!coins.isEmpty()) {
            counted.counts().forEach((kind, count) -> {
                String digits = count.replace("~", "");
                if (digits.matches("[0-9]{1,9}") && Long.parseLong(digits) > Long.parseLong(coins)) {
                    draft.ask("finds", t("take.ask-more-than-coins", name, count, kind, coins));
                }
            });
        }
    }

    private static Optional<Long> number(FindWords finds, String kind) {
        String count = finds.counts().getOrDefault(kind, "");
        return count.matches("[0-9]{1,9}") ? Optional.of(Long.valueOf(count)) : Optional.empty();
    }

    private static final List<String> SILVERS = List.of(
            "Mercury",
            "Barber",
            "Roosevelt",
            "walking Liberty",
            "Franklin",
            "standing Liberty",
            "seated Liberty",
            "1973 mountie",
            "Kennedy",
            "Washington");

    /// A silver kind told in words beside a count of silver: it may be one of them.
    private static void subset(Draft draft, FindWords told, FindWords all, boolean including, String name) {
        for (String silver : List.of("silver", "90% silver")) {
            Optional<Long> count = number(all, silver);
            if (including || count.isEmpty() || count.get() == 0) {
                continue;
            }
            for (String kind : told.fromWords()) {
                if (SILVERS.contains(kind)) {
                    draft.ask("finds", t("take.ask-one-of", name, kind, count.get(), silver));
                }
            }
        }
    }

    private void grams(Draft draft, Grid.Line line, String name) {
        Optional<Column> column = table.column("grams");
        if (column.isEmpty() || line.text(column.get().index()).isEmpty()) {
            return;
        }
        Grid.Cell cell = line.cell(column.get().index());
        Optional<Weights> weight = Weights.read(cell, Weights.unit(column.get().heading()), manner);
        if (weight.isEmpty()) {
            if (!cell.text().matches("[-?]+")) {
                draft.leftOut.add(t("take.left-cell", column.get().heading(), cell.text()));
            }
            return;
        }
        draft.put("grams", Long.toString(weight.get().grams()));
        if (!weight.get().unitSaid()) {
            draft.inferred.add("grams");
            draft.ask(
                    "grams", t("take.ask-unit", name, cell.text(), weight.get().grams()));
        }
    }

    private void doubts(Draft draft, String note, String name) {
        String plain = Words.plain(note);
        if (words.has(note, "unopened") && !draft.get("finds").matches(".*:~?[1-9].*")) {
            draft.ask("finds", t("take.ask-opened", name));
        }
        if (plain.matches(".*\\b(her|his|their) (finds|half|share|box)\\b.*")) {
            draft.ask("finds", t("take.ask-whose", name, note));
        }
        if (plain.matches(".*\\b(date|day|rolls?|count|coins|box|number|wheats?|which|lbs|kg|weight)\\b[^?]{0,20}\\?.*")
                && draft.asks.isEmpty()
                && !plain.contains("hoard?")) {
            draft.ask("note", t("take.ask-note", name, note));
        }
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
                if ((before != null && after != null && ChronoUnit.MONTHS.between(before, after) <= 1)
                        || (before != null && after != null && before.getMonth() == after.getMonth())) {
                    draft.infer("date", before.toString().substring(0, 7));
                }
                draft.ask("date", spoken.weekday() ? t("take.ask-weekday", name, text) : t("take.ask-day", name, text));
            }
        }
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
        }
        List<int[]> pairs = new ArrayList<>(part.monthAndDay());
        if (pairs.size() == 1 && pairs.getFirst()[1] <= 12 && text.matches("[0-9]{1,2}\\s*[/-]\\s*[0-9]{1,2}")) {
            pairs.add(new int[] {pairs.getFirst()[1], pairs.getFirst()[0]});
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
                                && (candidates.contains(usual)
                                        || (candidates.isEmpty()
                                                && part.monthAndDay().size() == 1))
                                && (part.monthAndDay().size() == 1 || order != Days.Order.UNKNOWN)
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
