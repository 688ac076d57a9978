package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/// How many rolls and coins a box had, as rolls, an amount or coins tell it. Used by one thread.
final class BoxSize {
    /// More rolls than anybody carries home at once: twenty boxes (our choice).
    private static final int MOST_ROLLS = 1_000;

    private final TableFinder.Found table;
    private final Numbers.Manner manner;
    private final Lexicon words;
    private final Rolls rolls;
    private final boolean wordy;

    /// @param wordy whether other amounts of the table are boxes or rolls, so that a bare `1` may be either
    BoxSize(TableFinder.Found table, Numbers.Manner manner, Lexicon words, Rolls rolls, boolean wordy) {
        this.wordy = wordy;
        this.table = table;
        this.manner = manner;
        this.words = words;
        this.rolls = rolls;
    }

    private Grid.Cell cell(Grid.Line line, String field) {
        return table.column(field).map(column -> line.cell(column.index())).orElse(Grid.Cell.BLANK);
    }

    void read(Draft draft, String denomination, Grid.Line line, Context context, String note, String name) {
        String rollText = plain(cell(line, "rolls").text()).strip();
        String amountText = plain(cell(line, "amount").text()).strip();
        String beside = sizeIn(cell(line, "denomination").text());
        String sized = sizeIn(amountText);
        if (sized.matches(".*(box|roll).*")) {
            amountText = sized;
        }
        if (amountText.isEmpty()) {
            amountText = beside;
        } else if (rollText.isEmpty()) {
            rollText = beside;
        }
        String coinText = cell(line, "coins").text();
        if (rollText.contains("$") && amountText.isEmpty()) {
            amountText = rollText;
            rollText = "";
        }
        // two statements in one cell, `$300, 20 rolls`, are compared as if they stood in two
        Matcher both = Pattern.compile("([0-9]{1,4})[a-z ]* ?rolls?").matcher(amountText);
        if (rollText.isEmpty() && amountText.matches(".*[$][ ]?[0-9].*") && both.find()) {
            rollText = both.group();
            amountText = amountText.replace(both.group(), " ").strip();
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
            boolean sum = rollText.matches(".*(box|roll).*\\+.*(box|roll).*");
            doubt = rollText.contains("?") || (rollText.contains("+") && !sum) || rollText.contains("~");
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
        Matcher counted = Pattern.compile("([0-9]{1,6}) ?(?:coins?|pcs|pieces?|munten|munzen|monedas)\\b.*")
                .matcher(amountText);
        if (coinText.isEmpty() && counted.matches()) {
            coinText = counted.group(1);
            amountText = "";
            fromAmount = null;
            coinsOfAmount = null;
        }
        if (wordy && fromAmount != null && amountText.matches("[0-9]{1,2}") && rollText.isEmpty()) {
            draft.ask("rolls", t("take.ask-rolls-word", name, amountText));
            return;
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
                && (table.column("rolls").isEmpty() || rollText.isEmpty())) {
            said = coins.divide(BigDecimal.valueOf(perRoll), 0, RoundingMode.UNNECESSARY);
            draft.inferred.add("rolls");
        }
        if (said != null && said.compareTo(BigDecimal.valueOf(MOST_ROLLS)) > 0) {
            draft.ask("rolls", t("take.ask-many-rolls", name, Numbers.plain(said)));
            return;
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

    private static final Map<Pattern, String> WORDS = words();

    private static Map<Pattern, String> words() {
        Map<String, String> plain = new LinkedHashMap<>();
        plain.put(
                "(?:1/2|½|media|medio|demie?|halbe|halber|halve)(?=[ -]+(?:box|bx|caja|kiste|boite|doos|roll|rol|roul))",
                "half");
        plain.put("bxe?s|cajas|kisten|boites|dozen|dozijn|bricks|cases", "boxes");
        plain.put("bx|caja|kiste|boite|doos|brick|case", "box");
        plain.put("rls|rollos|rouleaux|rollen|rollitos|cartuchos|tubes|tubos", "rolls");
        plain.put("rl|rollo|rouleau|rolle|rol|cartucho", "roll");
        Map<Pattern, String> words = new LinkedHashMap<>();
        plain.forEach((from, to) -> words.put(Pattern.compile("(?<![a-z])(?:" + from + ")(?![a-z])"), to));
        return words;
    }

    /// A size in plain words, whichever language and short form it is written in.
    static String plain(String text) {
        String plain = Words.plain(text);
        for (Map.Entry<Pattern, String> word : WORDS.entrySet()) {
            plain = word.getKey().matcher(plain).replaceAll(word.getValue());
        }
        plain = plain.replace("half-", "half ");
        return SPELLED.getOrDefault(plain.strip(), plain);
    }

    private static final Map<String, String> SPELLED = Map.of(
            "ten",
            "10",
            "twelve",
            "12",
            "fifteen",
            "15",
            "twenty",
            "20",
            "twenty five",
            "25",
            "twenty-five",
            "25",
            "thirty",
            "30",
            "forty",
            "40",
            "fifty",
            "50",
            "hundred",
            "100");

    private static final Pattern SIZE =
            Pattern.compile("[$€£]\\s?[0-9][0-9.,]*(?!\\s*(?:coin|s\\b))|[0-9][0-9.,]*\\s?[€£]"
                    + "|(?:(?:half|quarter|full|a|one|two|three|[0-9]{1,4})(?: a| of a)?[ -]*)?\\bbox(?:es)?\\b"
                    + "|(?:half|[0-9]{1,4})(?: ?x)?(?: [a-z]{3,10}){0,2} ?rolls?\\b");

    /// The size in a cell that names a denomination: `quarters $200 cdn`, `half box dimes`.
    static String sizeIn(String text) {
        return SIZE.matcher(plain(text))
                .results()
                .map(MatchResult::group)
                .reduce((a, b) -> a + (a.matches(".*(box|roll).*") && b.matches(".*(box|roll).*") ? " + " : " ") + b)
                .orElse("");
    }

    /// A text without the sizes in it: `half box dimes` is of dimes, not of halves.
    static String without(String text) {
        return SIZE.matcher(plain(text)).replaceAll(" ").strip();
    }

    /// Rolls of a parcel as words or an amount tell it, null when they do not.
    private @Nullable BigDecimal parcel(
            String text, String denomination, boolean money, @Nullable BigDecimal face, int perRoll) {
        String[] parts = text.split("\\s*(?:\\+|&|\\band\\b|\\by\\b|\\bet\\b|\\bund\\b|\\ben\\b)\\s*", -1);
        if (parts.length == 2 && Stream.of(parts).allMatch(part -> part.matches(".*(box|roll).*"))) {
            BigDecimal first = parcel(parts[0], denomination, money, face, perRoll);
            BigDecimal second = parcel(parts[1], denomination, money, face, perRoll);
            return first == null || second == null ? null : first.add(second);
        }
        Matcher box = Pattern.compile(
                        "(half|1/2|½|0[.,]5|¼|1/4|quarter|full|a|one|two|three|[0-9]+)?\\s*(?:a |of a )?box(?:es)?\\b.*")
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
                        "([0-9]{1,5})\\s*(?:x\\s*)?(?:[a-z]{3,10} ){0,2}(?:rolls?|rls?|rollen|rouleaux|rollos|tubes)\\b.*")
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
}
