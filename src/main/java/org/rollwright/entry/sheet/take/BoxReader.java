package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/// Rows of boxes of one table. Used by one thread.
final class BoxReader {
    /// Several behind or before a name: `pennies x2`, `2x dimes`.
    private static final Pattern TIMES =
            Pattern.compile("(?i)(?:^|[^0-9a-z])(?:x ?(?:[2-9]|[1-9][0-9])|(?:[2-9]|[1-9][0-9]) ?x)(?![0-9a-z])");

    private final Lexicon words;
    private final TableFinder.Found table;
    private final Numbers.Manner manner;
    private final BankNames banks;
    private final BoxSize sizes;
    private final BoxDays days;

    private String lastBank = "";
    private String lastDenomination = "";

    BoxReader(
            Lexicon words,
            TableFinder.Found table,
            Numbers.Manner manner,
            BankNames banks,
            Days.Order order,
            Rolls rolls,
            boolean wordy) {
        this.words = words;
        this.table = table;
        this.manner = manner;
        this.banks = banks;
        this.sizes = new BoxSize(table, manner, words, rolls, wordy);
        this.days = new BoxDays(table, order, words);
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
        sizes.read(draft, denomination, line, context, note, name);
        Matcher times = TIMES.matcher(cellDenomination);
        if (times.find() && draft.asks.stream().noneMatch(ask -> ask.field().equals("rolls"))) {
            // each of them would have a rank and a rate of its own
            draft.fields.remove("rolls");
            draft.fields.remove("coins");
            draft.ask("rolls", t("take.ask-times", name, cellDenomination));
        }
        finds(draft, line, note, name);
        grams(draft, line, name);
        doubts(draft, note, name);
        days.add(draft, context);
    }

    /// What only all rows together tell.
    void finish() {
        days.finish();
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
        } else if (slip(cell).isPresent()) {
            draft.infer("denomination", slip(cell).get());
            lastDenomination = draft.get("denomination");
        } else if (BoxSize.without(cell).isBlank() && !context.denomination.isEmpty()) {
            draft.infer("denomination", context.denomination);
        } else if (BoxSize.without(cell).isBlank() && !context.sheetDenomination.isEmpty()) {
            draft.infer("denomination", context.sheetDenomination);
        } else if (BoxSize.without(cell).isBlank()
                && !context.tableDenomination.isEmpty()
                && Denominations.ofBox(amount, words).isEmpty()) {
            draft.infer("denomination", context.tableDenomination);
        } else if (words.exact("same", cell).isPresent() || cell.matches("[\"'〃]+")) {
            draft.infer("denomination", lastDenomination);
        }
        String guess = draft.has("denomination") ? "" : guess(draft);
        if (!guess.isEmpty()) {
            draft.infer("denomination", guess);
            draft.ask("denomination", t("take.ask-denomination-guess", name, guess));
        } else if (!draft.has("denomination")) {
            draft.ask(
                    "denomination",
                    BoxSize.without(cell).isEmpty()
                            ? t("take.ask-denomination", name)
                            : t("take.ask-denomination-word", name, cell),
                    BoxSize.without(cell).isEmpty() ? t("take.nothing-said") : cell);
        }
        return (canadian ? "CA " : "US ") + draft.get("denomination");
    }

    /// A denomination with one slip of the pen in it: `quaters`.
    private static Optional<String> slip(String cell) {
        return Words.of(cell).stream()
                .map(Words.Token::text)
                .filter(word -> word.length() >= 5)
                .flatMap(word ->
                        SPELLED.entrySet().stream().filter(known -> BankNames.distance(word, known.getKey()) == 1))
                .map(Map.Entry::getValue)
                .findFirst();
    }

    private static final Map<String, String> SPELLED = Map.of(
            "pennies", "1 cent",
            "penny", "1 cent",
            "nickels", "5 cents",
            "nickel", "5 cents",
            "dimes", "10 cents",
            "quarters", "25 cents",
            "quarter", "25 cents",
            "halves", "50 cents",
            "dollars", "1 dollar");

    /// What the remark or the finds of a row without a denomination suggest, blank when they do not.
    private String guess(Draft draft) {
        List<String> named = words.find(draft.get("note"), "named").stream()
                .map(hit -> hit.means().replaceAll("\\|.*", ""))
                .distinct()
                .toList();
        if (named.size() == 1) {
            return named.getFirst();
        }
        Set<String> homes = new HashSet<>();
        for (Column column : table.columns("finds-text")) {
            words.find(draft.line.text(column.index()), "kind", "find").stream()
                    .map(hit -> FindWords.home(hit.means()))
                    .filter(home -> !home.isEmpty())
                    .forEach(homes::add);
        }
        for (Column column : table.columns("find")) {
            if (draft.line.text(column.index()).matches("~?[1-9][0-9]*")
                    && !FindWords.home(column.kind()).isEmpty()) {
                homes.add(FindWords.home(column.kind()));
            }
        }
        return homes.size() == 1 ? homes.iterator().next() : "";
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
            List<String> meant = banks.banks(text.replaceAll("\\s*\\?$", ""));
            if (meant.size() > 1) {
                draft.put("bank", text);
                draft.ask("bank", t("take.ask-which-bank", name, text, String.join(", ", meant)), text);
                return;
            }
            String full = meant.getFirst();
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
                    "grams", t("take.ask-unit", name, cell.text(), weight.get().grams()), t("take.no-unit"));
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
}
