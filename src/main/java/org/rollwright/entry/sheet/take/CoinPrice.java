package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/// How many coins a row is, and what was paid for them. Used by one thread.
final class CoinPrice {
    private final Lexicon words;
    private final TableFinder.Found table;
    private final CoinReader.Custom custom;

    CoinPrice(Lexicon words, TableFinder.Found table, CoinReader.Custom custom) {
        this.words = words;
        this.table = table;
        this.custom = custom;
    }

    private Grid.Cell cell(Grid.Line line, String field) {
        return table.column(field).map(column -> line.cell(column.index())).orElse(Grid.Cell.BLANK);
    }

    private String text(Grid.Line line, String field) {
        return cell(line, field).text();
    }

    void quantity(Draft draft, Grid.Line line, String coin, String name) {
        Grid.Cell cell = cell(line, "quantity");
        String text = Words.plain(cell.text()).strip();
        if (text.isEmpty()) {
            Matcher inCoin = Pattern.compile(
                            "(?:^|\\s)(?:x\\s?([0-9]{1,4})|([0-9]{1,4})\\s?x|lot of ([0-9]{1,4})|\\(([0-9]{1,3})(?: coins?| pcs| st)?\\))(?=\\s|$|,)")
                    .matcher(Words.plain(coin));
            if (inCoin.find()) {
                for (int g = 1; g <= 4; g++) {
                    if (inCoin.group(g) != null) {
                        draft.infer("quantity", inCoin.group(g));
                    }
                }
                return;
            }
            if (cell.isOpen()) {
                draft.ask("quantity", t("take.ask-formula", name, "quantity", cell.formula()));
                return;
            }
            Matcher noted = Pattern.compile(
                            "x ?([2-9]|[1-9][0-9]{1,2})|([2-9]|[1-9][0-9]{1,2}) ?(?:x|x vorhanden|stuck|stk|pcs|pieces|of them|of these|exemplaires|ex|stuks?|piezas|uds?|coins)\\.?")
                    .matcher(Words.plain(text(line, "note")).strip());
            Matcher roll = Pattern.compile(
                            "\\b(?:roll|tube|lot|bag|rolle|rouleau|rol) (?:of|de|van|mit|zu) ([2-9]|[1-9][0-9]{1,2})\\b")
                    .matcher(Words.plain(text(line, "note")));
            if (table.column("quantity").isEmpty() && roll.find()) {
                draft.infer("quantity", roll.group(1));
                return;
            }
            if (table.column("quantity").isEmpty() && noted.matches()) {
                draft.infer("quantity", noted.group(1) == null ? noted.group(2) : noted.group(1));
                return;
            }
            draft.infer("quantity", "1");
            return;
        }
        Matcher number = Pattern.compile(
                        "(?:x\\s*)?([0-9]{1,6})(?:[.,]0+)?\\s*(?:x|st|stuks?|stk|stuck|pcs?|ex|ex\\.|pieces?|coins?|st\\.)?")
                .matcher(text);
        if (number.matches()) {
            String digits = Integer.toString(Integer.parseInt(number.group(1)));
            if (digits.equals("0")) {
                draft.ask("quantity", t("take.ask-none-left", name));
            }
            draft.put("quantity", digits);
            return;
        }
        Matcher about = Pattern.compile("[^0-9]*([0-9]{1,6})[^0-9]*").matcher(text);
        if (about.matches()) {
            draft.put("quantity", about.group(1));
        }
        draft.ask("quantity", t("take.ask-quantity", name, cell.text()));
    }

    void paid(Draft draft, Grid.Line line, String note, String name) {
        String field = table.column("paid").isPresent()
                ? "paid"
                : table.column("paid-all").isPresent() ? "paid-all" : "paid-each";
        Grid.Cell cell = cell(line, field);
        if (field.equals("paid") && cell.isBlank()) {
            for (String other : List.of("paid-all", "paid-each")) {
                if (cell.isBlank() && !cell(line, other).isBlank()) {
                    field = other;
                    cell = cell(line, other);
                }
            }
        }
        if (field.equals("paid") && !cell(line, "paid-all").text().isEmpty()) {
            field = "paid-all";
            cell = cell(line, "paid-all");
        }
        if (cell.isOpen()) {
            draft.ask("paid", t("take.ask-formula", name, field, cell.formula()));
            return;
        }
        if (cell.text().isEmpty() || cell.text().matches("[?.-]+")) {
            return;
        }
        boolean dutch = draft.get("country").equals("Netherlands")
                || (custom.currency().equals("EUR")
                        && note.toLowerCase(Locale.ROOT).contains("gulden"));
        Optional<Money> read = Money.read(
                cell,
                custom.manner(),
                words,
                dutch
                        || (custom.currency().equals("EUR")
                                && Words.plain(cell.text()).startsWith("f ")));
        if (read.isEmpty()) {
            if (words.has(cell.text(), "gift")) {
                draft.leftOut.add(t(
                        "take.left-cell",
                        table.column(field).map(Column::heading).orElse(""),
                        cell.text()));
            } else {
                draft.ask("paid", t("take.ask-paid", name, cell.text()));
            }
            return;
        }
        Money money = read.get();
        String heading = table.column(field).map(Column::heading).orElse("");
        Money.Per per = money.per() != Money.Per.UNSAID
                ? money.per()
                : field.equals("paid-each") ? Money.Per.EACH : field.equals("paid-all") ? Money.Per.ALL : per(heading);
        if (per == Money.Per.UNSAID) {
            per = custom.priceNote();
        }
        String quantityText = draft.get("quantity");
        BigDecimal quantity = quantityText.matches("[0-9]{1,6}") ? new BigDecimal(quantityText) : BigDecimal.ONE;
        BigDecimal face = Money.face(draft.get("denomination"));
        if (money.face()) {
            String home = Money.home(draft.get("country"), draft.get("denomination"));
            if (face == null || home.isEmpty()) {
                draft.ask("paid", t("take.ask-face", name, cell.text()));
                return;
            }
            draft.infer("paid", Numbers.plain(face.multiply(quantity)));
            draft.infer("currency", home);
            return;
        }
        BigDecimal amount = money.amount();
        if (amount == null) {
            return;
        }
        String column = text(line, "currency");
        String of = !Money.currency(column).isEmpty() ? Money.currency(column) : money.currency();
        boolean product = cell.formula().contains("*");
        BigDecimal all = amount;
        if (per == Money.Per.EACH) {
            all = amount.multiply(quantity);
        } else if (per == Money.Per.UNSAID
                && quantity.compareTo(BigDecimal.ONE) > 0
                && !product
                && amount.signum() > 0) {
            boolean faceValue = face != null && face.multiply(quantity).compareTo(amount) == 0;
            if (!faceValue) {
                draft.ask("paid", t("take.ask-each", name, cell.text(), quantityText, draft.get("denomination")));
            }
        }
        draft.put("paid", Numbers.plain(all));
        if (all.compareTo(amount) != 0) {
            draft.inferred.add("paid");
        }
        if (!of.isEmpty()) {
            draft.put("currency", of);
        } else {
            draft.put("currency", custom.currency());
            if (!custom.currencySaid()) {
                draft.inferred.add("currency");
            }
            if (custom.currency().isEmpty()) {
                draft.ask("currency", t("take.ask-currency", name, cell.text()), t("take.no-currency"));
            }
        }
        if (money.doubtful() && draft.asks.stream().noneMatch(ask -> ask.field().equals("paid"))) {
            draft.ask("paid", t("take.ask-paid-sure", name, cell.text()));
        }
        if (cell.number() == null && ambiguousThousands(cell.text()) && draft.asks.isEmpty()) {
            draft.ask("paid", t("take.ask-paid-sure", name, cell.text()));
        }
    }

    /// 1,250 beside nothing that tells how decimals are written, 1.250 where commas are decimals never twice.
    private boolean ambiguousThousands(String text) {
        return (custom.manner().decimalComma() && text.matches("[^0-9]*[0-9]{1,3},[0-9]{3}[^0-9]*"))
                || (!custom.manner().decimalComma() && text.matches("[^0-9]*[0-9]{1,3}\\.[0-9]{3}[^0-9]*"));
    }

    private Money.Per per(String heading) {
        if (words.has(heading, "each")) {
            return Money.Per.EACH;
        }
        return words.find(heading, "all").stream().anyMatch(hit -> !hit.means().isEmpty())
                ? Money.Per.ALL
                : Money.Per.UNSAID;
    }
}
