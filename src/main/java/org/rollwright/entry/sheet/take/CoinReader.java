package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Denomination;

/// Rows of coins of one table. Used by one thread.
final class CoinReader {
    private static final Map<String, String> OF_KIND = Map.ofEntries(
            Map.entry("Indian head", "1 cent"),
            Map.entry("wheat", "1 cent"),
            Map.entry("memorial", "1 cent"),
            Map.entry("shield", "1 cent"),
            Map.entry("flying eagle", "1 cent"),
            Map.entry("large cent", "1 cent"),
            Map.entry("Liberty head (V)", "5 cents"),
            Map.entry("buffalo", "5 cents"),
            Map.entry("war nickel", "5 cents"),
            Map.entry("Jefferson", "5 cents"),
            Map.entry("shield nickel", "5 cents"),
            Map.entry("Mercury", "10 cents"),
            Map.entry("Roosevelt", "10 cents"),
            Map.entry("Washington", "25 cents"),
            Map.entry("state", "25 cents"),
            Map.entry("standing Liberty", "25 cents"),
            Map.entry("walking Liberty", "50 cents"),
            Map.entry("Franklin", "50 cents"),
            Map.entry("Kennedy", "50 cents"),
            Map.entry("Morgan", "1 dollar"),
            Map.entry("Peace", "1 dollar"),
            Map.entry("Ike dollar", "1 dollar"),
            Map.entry("Susan B. Anthony", "1 dollar"),
            Map.entry("Sacagawea", "1 dollar"),
            Map.entry("presidential", "1 dollar"));

    private static final Map<String, String> MINTS = Map.ofEntries(
            Map.entry("philadelphia", "P"),
            Map.entry("philly", "P"),
            Map.entry("denver", "D"),
            Map.entry("san francisco", "S"),
            Map.entry("new orleans", "O"),
            Map.entry("carson city", "CC"),
            Map.entry("west point", "W"),
            Map.entry("paris", "A"),
            Map.entry("berlin", "A"),
            Map.entry("munich", "D"),
            Map.entry("munchen", "D"),
            Map.entry("stuttgart", "F"),
            Map.entry("karlsruhe", "G"),
            Map.entry("hamburg", "J"),
            Map.entry("rouen", "B"),
            Map.entry("strasbourg", "BB"),
            Map.entry("bordeaux", "K"),
            Map.entry("lyon", "D"),
            Map.entry("beaumont", "B"),
            Map.entry("beaumont le roger", "B"),
            Map.entry("castelsarrasin", "C"),
            Map.entry("marseille", "M"),
            Map.entry("lille", "W"),
            Map.entry("bern", "B"));

    /// Dates of which so few exist that a slip of the pen is likelier (common practice).
    private static final Set<String> RARE = Set.of(
            "United Kingdom|1 penny|1933",
            "United Kingdom|1 penny|1954",
            "United States|1 dollar|1804",
            "United States|5 cents|1913|Liberty head (V)",
            "United States|1 dollar|1964",
            "Canada|50 cents|1921",
            "Canada|5 cents|1921");

    private static final Set<String> VARIANT_METALS =
            Set.of("steel", "copper", "zinc", "tombac", "aluminium", "iron", "clad");

    private final Map<Denomination, Integer> firsts = new HashMap<>();
    private final Lexicon words;
    private final Catalog catalog;
    private final Rolls rolls;
    private final TableFinder.Found table;
    private final Numbers.Manner manner;
    private final Days.Order order;
    private final String currency;
    private final boolean currencySaid;
    private final Money.Per priceNote;

    /// What the table says of all its rows.
    ///
    /// @param currency of amounts without a sign, blank when not known
    record Custom(
            Numbers.Manner manner, Days.Order order, String currency, boolean currencySaid, Money.Per priceNote) {}

    CoinReader(Lexicon words, Catalog catalog, TableFinder.Found table, Custom custom) {
        this.words = words;
        this.catalog = catalog;
        this.rolls = new Rolls(catalog);
        this.table = table;
        this.manner = custom.manner();
        this.order = custom.order();
        this.currency = custom.currency();
        this.currencySaid = custom.currencySaid();
        this.priceNote = custom.priceNote();
    }

    private Grid.Cell cell(Grid.Line line, String field) {
        return table.column(field).map(column -> line.cell(column.index())).orElse(Grid.Cell.BLANK);
    }

    private String text(Grid.Line line, String field) {
        return cell(line, field).text();
    }

    static String name(Draft draft) {
        String number = draft.more.getOrDefault("number", "");
        return number.isEmpty() ? t("take.row", draft.line.number()) : t("take.number", number);
    }

    void read(Draft draft, Context context) {
        Grid.Line line = draft.line;
        draft.what = "coin";
        draft.more.put("number", text(line, "number"));
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
        String coin = text(line, "coin");
        String denomination = text(line, "denomination");
        String kindCell = text(line, "kind");
        YearCell year = YearCell.read(text(line, "year"), words, true);
        if (text(line, "year").isEmpty()) {
            Matcher inCoin = Pattern.compile("(?<![0-9])(1[5-9][0-9]{2}|20[0-9]{2})(?![0-9]).*")
                    .matcher(coin + " " + kindCell);
            if (inCoin.find()) {
                year = YearCell.read(inCoin.group(), words, false);
            }
        }
        if (text(line, "year").matches("[?]+")) {
            draft.ask("year", t("take.ask-which-year", name));
        }
        String said = country(draft, line, context, name);
        Denominations.Said value = denomination(draft, denomination, coin, kindCell, said, context);
        country(draft, said, value, context, name);
        year(draft, year, line, name);
        draft.put(
                "denomination",
                Denominations.since(draft.get("denomination"), draft.get("country"), draft.get("year")));
        mint(draft, year, text(line, "mint"), name);
        Grades grades = Grades.read(text(line, "grade"), words);
        kinds(
                draft,
                Stream.of(coin, kindCell, denomination, grades.rest())
                        .filter(text -> !text.isEmpty())
                        .toList(),
                year,
                note,
                context,
                name);
        grade(draft, line, grades, name);
        quantity(draft, line, coin, name);
        String place = text(line, "place");
        if (!place.matches("[?-]*")) {
            draft.put("place", place);
        }
        paid(draft, line, note, name);
        acquired(draft, line, name);
        for (String beside : List.of("from", "worth")) {
            if (!text(line, beside).isEmpty()) {
                draft.more.put(beside, text(line, beside));
            }
        }
        check(draft, name);
        doubts(draft, note, name);
        if (coin.length() + kindCell.length() > 0) {
            draft.more.put("written", (coin + " " + kindCell).strip());
        }
    }

    private String country(Draft draft, Grid.Line line, Context context, String name) {
        String cell = text(line, "country");
        if (cell.matches("[?]+")) {
            draft.ask("country", t("take.ask-country", name));
            return "";
        }
        if (cell.isEmpty()) {
            String coin = text(line, "coin");
            List<Lexicon.Hit> hits = words.find(coin, "country").stream()
                    .filter(hit -> hit.to() - hit.from() >= 3
                            || coin.substring(hit.from(), hit.to()).matches("US|UK|GB|NZ|NL|CH"))
                    .toList();
            if (!hits.isEmpty() && table.column("country").isEmpty()) {
                return hits.getFirst().means();
            }
            return context.country;
        }
        Optional<String> known = words.exact("country", cell)
                .or(() -> words.exact(
                        "country", cell.replaceAll("\\([^)]*\\)|[?]", " ").strip()));
        if (known.isPresent()) {
            if (cell.contains("?")) {
                draft.ask("country", t("take.ask-country-sure", name, known.get()));
            }
            return known.get();
        }
        List<Lexicon.Hit> part = words.find(cell, "country").stream()
                .filter(hit -> hit.to() - hit.from() >= 4)
                .toList();
        if (part.size() == 1) {
            return part.getFirst().means();
        }
        // a country the table does not have is still a country
        if (cell.length() >= 3 && !cell.contains("?")) {
            draft.ask("country", t("take.ask-country-word", name, cell));
        }
        return cell;
    }

    private void country(Draft draft, String said, Denominations.Said value, Context context, String name) {
        if (!said.isEmpty()) {
            draft.put("country", said);
            if (table.column("country").isEmpty()) {
                draft.inferred.add("country");
            }
            return;
        }
        boolean column = table.column("country").isPresent();
        if (!value.country().isEmpty()) {
            draft.infer(
                    "country",
                    value.country().equals("United States") && context.sheetCountry.equals("Canada")
                            ? "Canada"
                            : value.country());
        } else if (!column && !context.sheetCountry.isEmpty()) {
            draft.infer("country", context.sheetCountry);
        } else if (!column && !context.usualCountry.isEmpty()) {
            draft.infer("country", context.usualCountry);
        }
        if (!draft.has("country")) {
            draft.ask("country", t("take.ask-country", name));
        } else if (column && draft.asks.isEmpty() && value.country().isEmpty()) {
            draft.ask("country", t("take.ask-country", name));
        }
    }

    private Denominations.Said denomination(
            Draft draft, String cell, String coin, String kind, String country, Context context) {
        List<String> texts = List.of(cell, coin, kind);
        Denominations.Said value = Denominations.Said.NONE;
        for (String text : texts) {
            if (value.from() < 0 && !text.isEmpty()) {
                value = Denominations.ofCoin(text, country, words);
            }
        }
        String kindSaid = words.find(coin + " ; " + kind, "kind").stream()
                .map(Lexicon.Hit::means)
                .filter(OF_KIND::containsKey)
                .findFirst()
                .orElse("");
        boolean american = country.isEmpty() || country.equals("United States");
        if (value.from() < 0 && american && OF_KIND.containsKey(kindSaid)) {
            value = new Denominations.Said(OF_KIND.getOrDefault(kindSaid, ""), "United States", 0, 0);
            draft.inferred.add("denomination");
        }
        if (value.from() < 0
                && !cell.isEmpty()
                && cell.matches("0?[.,][0-9]{1,2}|[0-9]([.,][0-9]{1,2})?")
                && american) {
            value = Denominations.ofBox(cell.replace(',', '.'), words)
                    .map(means -> new Denominations.Said(means.replaceAll("\\|.*", ""), "United States", 0, 0))
                    .orElse(value);
        }
        if (value.from() < 0 && !context.denomination.isEmpty()) {
            value = new Denominations.Said(context.denomination, "", 0, 0);
            draft.inferred.add("denomination");
        }
        if (value.from() < 0 && (cell + coin).isEmpty() && !context.sheetDenomination.isEmpty()) {
            value = new Denominations.Said(context.sheetDenomination, "United States", 0, 0);
            draft.inferred.add("denomination");
        }
        draft.put("denomination", value.text());
        return value;
    }

    private void year(Draft draft, YearCell year, Grid.Line line, String name) {
        if (year.range()) {
            draft.ask("year", t("take.ask-lot", name, text(line, "year")));
            return;
        }
        if (year.doubtful()) {
            draft.ask("year", t("take.ask-year-sure", name, year.year().isEmpty() ? text(line, "year") : year.year()));
            return;
        }
        if (!year.year().isEmpty()) {
            draft.put("year", year.year());
            if (!text(line, "year").replaceAll("[^0-9]", "").startsWith(year.year())) {
                draft.inferred.add("year");
            }
            return;
        }
        if (!text(line, "year").isEmpty()
                && !year.undated()
                && !text(line, "year").matches("[?]+")) {
            draft.ask("year", t("take.ask-year-word", name, text(line, "year")));
        }
    }

    private void mint(Draft draft, YearCell year, String cell, String name) {
        if (cell.isEmpty()) {
            draft.put("mint", year.mint());
            return;
        }
        String plain = cell.replaceAll("[().']", "").strip();
        if (plain.matches("[-–—]+") || words.exact("nomint", plain).isPresent()) {
            draft.put("mint", "none");
        } else if (plain.matches("[A-Za-z]{1,2}")) {
            draft.put("mint", plain.toUpperCase(Locale.ROOT));
        } else if (MINTS.containsKey(Words.key(plain))) {
            draft.put("mint", MINTS.getOrDefault(Words.key(plain), ""));
            draft.inferred.add("mint");
        } else {
            draft.ask("mint", t("take.ask-mint", name, cell));
        }
    }

    private void kinds(Draft draft, List<String> primary, YearCell year, String note, Context context, String name) {
        boolean american =
                draft.get("country").isEmpty() || draft.get("country").equals("United States");
        String behind = year.rest();
        String kind = "";
        List<String> varieties = new ArrayList<>();
        if (!year.variety().isEmpty()) {
            varieties.add(year.variety());
        }
        for (String text : Stream.concat(primary.stream(), Stream.of(behind)).toList()) {
            for (Lexicon.Hit hit : words.find(text, "kind", "design", "variety", "metal", "named", "unit", "country")) {
                if (negated(text, hit)) {
                    continue;
                }
                switch (hit.term().role()) {
                    case "kind" -> kind = kind.isEmpty() && american ? hit.means() : kind;
                    case "design" -> kind = kind.isEmpty() ? hit.means() : kind;
                    case "variety" -> add(varieties, hit.means());
                    case "metal" -> {
                        if (VARIANT_METALS.contains(hit.means())) {
                            add(varieties, hit.means());
                        }
                    }
                    default -> {}
                }
            }
        }
        Matcher star = Pattern.compile("[*]\\s?([0-9]{2})").matcher(behind);
        if (star.find()) {
            add(varieties, "star " + star.group(1));
        }
        boolean noteDoubts = note.contains("?")
                || Words.plain(note).contains("probl")
                || Words.plain(note).contains("maybe");
        for (Lexicon.Hit hit : words.find(note, "kind", "design", "variety", "metal")) {
            String word = note.substring(hit.from(), hit.to());
            if (negated(note, hit)) {
                continue;
            }
            boolean metal = hit.term().role().equals("metal");
            boolean telling = !metal || hit.means().equals("tombac") || tellsApart(draft, hit.means());
            boolean plainKind = !hit.term().role().equals("kind") || (american && word.length() >= 5);
            if (!telling || !plainKind || varieties.contains(hit.means()) || kind.equals(hit.means())) {
                if (noteDoubts && metal && note.substring(hit.to()).strip().startsWith("?")) {
                    draft.ask("variety", t("take.ask-unsure-word", name, word, note));
                }
                continue;
            }
            if (noteDoubts && near(note, hit)) {
                draft.ask("variety", t("take.ask-unsure-word", name, word, note));
                continue;
            }
            if (hit.term().role().equals("kind") || hit.term().role().equals("design")) {
                if (kind.isEmpty()) {
                    kind = hit.means();
                    draft.inferred.add("kind");
                }
            } else if (!hit.means().equals("overdate")
                    || varieties.stream().noneMatch(one -> one.startsWith("overdate"))) {
                if (note.length() < 60) {
                    add(varieties, hit.means());
                    draft.inferred.add("variety");
                }
            }
        }
        if (kind.isEmpty() && !context.kind.isEmpty() && american) {
            kind = context.kind;
            draft.inferred.add("kind");
        }
        draft.put("kind", kind.equals("Ike dollar") ? "Eisenhower" : kind);
        draft.put("variety", String.join(", ", varieties));
    }

    private static void add(List<String> list, String word) {
        if (!list.contains(word)
                && !(word.equals("overdate") && list.stream().anyMatch(one -> one.startsWith("overdate")))) {
            list.add(word);
        }
    }

    /// Whether a question mark belongs to a word: no other sentence lies between.
    private static boolean near(String note, Lexicon.Hit hit) {
        String behind = note.substring(hit.to());
        int mark = behind.indexOf('?');
        String before = Words.plain(note.substring(0, hit.from()));
        return (mark >= 0 && mark <= 15 && !behind.substring(0, mark).matches(".*[!.;].*"))
                || before.matches(".*(\\?|maybe|probl?y|possibl[ey]|perhaps)\\s*$")
                || Words.plain(behind).matches("^\\s*(maybe|probl?y|perhaps).*");
    }

    private static boolean negated(String text, Lexicon.Hit hit) {
        String before = Words.plain(text.substring(0, hit.from())).strip();
        return before.matches(
                "(?s).*\\b(not|no|niet|geen|pas|nicht|kein|keine|isnt|aint|sin|sans|ohne|zonder|never|than)( a| an| the| de| een| une?)?");
    }

    /// Whether a metal tells two coins of this date apart.
    private boolean tellsApart(Draft draft, String metal) {
        return issues(draft).stream().map(issue -> issue.identity().kind()).anyMatch(kind -> kind.contains(metal))
                || (metal.equals("copper")
                        && draft.get("denomination").equals("1 cent")
                        && draft.get("year").equals("1982"))
                || (metal.equals("steel") && draft.get("year").equals("1943"));
    }

    private void grade(Draft draft, Grid.Line line, Grades grades, String name) {
        String cell = text(line, "grade");
        draft.put("grade", grades.grade());
        String more = text(line, "details");
        Grades inDetails = Grades.read(more, words);
        String details = grades.details();
        if (!more.isEmpty()) {
            String read = inDetails.details().isEmpty() ? more : inDetails.details();
            details = details.isEmpty() ? read : details + ", " + read;
        }
        if (details.isEmpty()) {
            String remark = draft.get("note");
            Optional<String> state = words.exact("details", remark);
            if (state.isPresent()) {
                draft.inferred.add("details");
                details = state.get();
            }
        }
        draft.put("details", details);
        if (!grades.doubtful().isEmpty()) {
            draft.ask("grade", t("take.ask-grade-word", name, grades.doubtful(), grades.grade()));
        }
        String colourCell = text(line, "colour");
        String colour = words.exact("colour", colourCell).orElse("");
        if (colour.isEmpty() && !colourCell.isEmpty() && !colourCell.matches("[?-]+")) {
            List<Lexicon.Hit> hits = words.find(colourCell, "colour");
            if (hits.size() == 1) {
                colour = hits.getFirst().means();
            } else {
                draft.leftOut.add(t(
                        "take.left-cell",
                        table.column("colour").map(Column::heading).orElse(""),
                        colourCell));
            }
        }
        draft.put("colour", colour.isEmpty() ? grades.colour() : colour);
        if (!grades.rest().isEmpty()
                && words.find(grades.rest(), "kind", "design", "variety", "metal")
                        .isEmpty()) {
            if (grades.grade().isEmpty() && grades.details().isEmpty()) {
                draft.ask("grade", t("take.ask-grade", name, cell));
            } else {
                draft.leftOut.add(t("take.left-words", grades.rest()));
            }
        }
    }

    private void quantity(Draft draft, Grid.Line line, String coin, String name) {
        Grid.Cell cell = cell(line, "quantity");
        String text = Words.plain(cell.text()).strip();
        if (text.isEmpty()) {
            Matcher inCoin = Pattern.compile(
                            "(?:^|\\s)(?:x\\s?([0-9]{1,4})|([0-9]{1,4})\\s?x|lot of ([0-9]{1,4})|\\(([0-9]{1,3})(?: coins?| pcs| st)?\\))(?=\\s|$|,)")
                    .matcher(Words.plain(coin));
            if (table.column("quantity").isEmpty() && inCoin.find()) {
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

    private void paid(Draft draft, Grid.Line line, String note, String name) {
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
        if (cell.isOpen()) {
            draft.ask("paid", t("take.ask-formula", name, field, cell.formula()));
            return;
        }
        if (cell.text().isEmpty() || cell.text().matches("[?.-]+")) {
            return;
        }
        boolean dutch = draft.get("country").equals("Netherlands")
                || (currency.equals("EUR") && note.toLowerCase(Locale.ROOT).contains("gulden"));
        Optional<Money> read = Money.read(
                cell,
                manner,
                words,
                dutch || (currency.equals("EUR") && Words.plain(cell.text()).startsWith("f ")));
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
            per = priceNote;
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
            draft.put("currency", currency);
            if (!currencySaid) {
                draft.inferred.add("currency");
            }
            if (currency.isEmpty()) {
                draft.ask("currency", t("take.ask-currency", name, cell.text()));
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
        return (manner.decimalComma() && text.matches("[^0-9]*[0-9]{1,3},[0-9]{3}[^0-9]*"))
                || (!manner.decimalComma() && text.matches("[^0-9]*[0-9]{1,3}\\.[0-9]{3}[^0-9]*"));
    }

    private Money.Per per(String heading) {
        if (words.has(heading, "each")) {
            return Money.Per.EACH;
        }
        return words.find(heading, "all").stream().anyMatch(hit -> !hit.means().isEmpty())
                ? Money.Per.ALL
                : Money.Per.UNSAID;
    }

    private void acquired(Draft draft, Grid.Line line, String name) {
        Grid.Cell cell = cell(line, "acquired");
        if (cell.text().isEmpty() || cell.text().matches("[?-]+")) {
            return;
        }
        switch (Days.read(cell, order)) {
            case Days.Read.Known known -> {
                draft.put("acquired", known.iso());
                if (known.inferred()) {
                    draft.inferred.add("acquired");
                }
                if (cell.text().contains("?")) {
                    draft.ask("acquired", t("take.ask-day", name, cell.text()));
                }
            }
            case Days.Read.TwoWays ways -> {
                draft.put("acquired", Integer.toString(ways.monthFirst().getYear()));
                draft.ask("acquired", t("take.ask-two-ways", name, cell.text(), ways.monthFirst(), ways.dayFirst()));
            }
            case Days.Read.NoYear part -> draft.ask("acquired", t("take.ask-year", name, cell.text()));
            case Days.Read.Impossible none -> draft.ask("acquired", t("take.ask-no-day", name, cell.text()));
            case Days.Read.Words spoken -> {
                Matcher year = Pattern.compile(".*?\\b((?:19|20)[0-9]{2})\\b.*").matcher(cell.text());
                if (year.matches() && !cell.text().matches(".*[/-].*[0-9].*")) {
                    draft.infer("acquired", year.group(1));
                    draft.leftOut.add(t("take.left-words", cell.text()));
                } else if (words.has(cell.text(), "gift") || cell.text().matches("[^0-9]+")) {
                    draft.more.merge("from", cell.text(), (a, b) -> a + "; " + b);
                    draft.leftOut.add(t(
                            "take.left-cell",
                            table.column("acquired").map(Column::heading).orElse(""),
                            cell.text()));
                } else {
                    draft.ask("acquired", t("take.ask-day", name, cell.text()));
                }
            }
        }
    }

    private List<Issue> issues(Draft draft) {
        String year = draft.get("year");
        return year.isEmpty()
                ? List.of()
                : facts(draft).map(facts -> all(facts, Integer.parseInt(year))).orElse(List.of());
    }

    /// Issues of a year, dollars of both sizes.
    private List<Issue> all(DenominationFacts facts, int year) {
        List<Issue> issues = new ArrayList<>(catalog.ofYear(facts.denomination(), year));
        if (facts.denomination().key().equals("dollar")) {
            issues.addAll(catalog.ofYear(new Denomination(facts.denomination().country(), "large-dollar"), year));
        }
        return issues;
    }

    private Optional<DenominationFacts> facts(Draft draft) {
        String code =
                switch (draft.get("country")) {
                    case "United States" -> "US";
                    case "Canada" -> "CA";
                    default -> "";
                };
        return code.isEmpty() ? Optional.empty() : rolls.facts(code + " " + draft.get("denomination"));
    }

    /// The first year a denomination is listed with.
    private int first(Denomination denomination) {
        return catalog.issues().stream()
                .filter(issue -> issue.identity().denomination().country().equals(denomination.country()))
                .filter(issue -> issue.identity().denomination().equals(denomination)
                        || issue.identity().denomination().key().equals("large-" + denomination.key()))
                .mapToInt(Issue::year)
                .min()
                .orElse(0);
    }

    /// Whether there is such a coin, and only one.
    private void check(Draft draft, String name) {
        String year = draft.get("year");
        if (!year.isEmpty() && (Integer.parseInt(year) < 1500 || Integer.parseInt(year) > 2030)) {
            draft.ask("year", t("take.ask-year-word", name, year));
            return;
        }
        String key = draft.get("country") + "|" + draft.get("denomination") + "|" + year;
        if (RARE.contains(key) || RARE.contains(key + "|" + draft.get("kind"))) {
            draft.ask("year", t("take.ask-rare", name, year, draft.get("denomination")));
            return;
        }
        Optional<DenominationFacts> facts = facts(draft);
        if (facts.isEmpty() || !catalog.covers(facts.get().denomination())) {
            if (draft.get("denomination").isEmpty() && draft.has("country") && draft.asks.isEmpty()) {
                draft.ask("denomination", t("take.ask-coin-denomination", name));
            }
            return;
        }
        if (year.isEmpty()) {
            return;
        }
        List<Issue> issues = issues(draft);
        String mint = draft.get("mint");
        int first = firsts.computeIfAbsent(facts.get().denomination(), this::first);
        if (draft.get("country").equals("United States")
                && draft.get("denomination").equals("1 cent")
                && year.equals("1857")
                && draft.get("kind").isEmpty()) {
            draft.ask("kind", t("take.ask-large-or-small", name, year));
            return;
        }
        if (issues.isEmpty()) {
            boolean listed = Integer.parseInt(year) >= first;
            boolean american = draft.get("country").equals("United States");
            if (listed && american) {
                draft.ask("year", t("take.ask-no-such-year", name, draft.get("denomination"), year));
            }
            return;
        }
        boolean marked = !mint.isEmpty() && !mint.equals("none");
        if (marked
                && draft.get("country").equals("United States")
                && issues.stream().noneMatch(issue -> issue.mint().code().equals(mint))) {
            draft.ask("mint", t("take.ask-no-such-mint", name, draft.get("denomination"), year, mint));
            return;
        }
        if (!draft.get("kind").isEmpty() || !draft.get("country").equals("United States")) {
            return;
        }
        List<String> series = issues.stream()
                .filter(issue -> marked
                        ? issue.mint().code().equals(mint)
                        : issue.mint().code().equals("P") || issue.mint().code().equals("-"))
                .filter(issue -> !draft.get("variety").contains("VDB")
                        || issue.identity().kind().contains("vdb"))
                .filter(issue -> !issue.collectorOnly())
                .map(issue -> issue.series().name())
                .distinct()
                .toList();
        if (series.size() > 1) {
            draft.ask(
                    "kind",
                    t("take.ask-which-series", name, year, draft.get("denomination"), String.join(", ", series)));
        }
    }

    private void doubts(Draft draft, String note, String name) {
        String plain = Words.plain(note);
        if (plain.contains("?") && draft.asks.isEmpty()) {
            // a year in the remark that is the year read leaves no doubt
            String bare = plain.replaceAll(
                    "\\b" + (draft.get("year").isEmpty() ? "9999" : draft.get("year")) + "\\s*\\?", "");
            if (bare.contains("?")) {
                draft.ask("note", t("take.ask-note", name, note));
            }
        } else if (words.find(note, "doubt").stream()
                        .anyMatch(hit -> !hit.term().tokens().equals(List.of("real")) || plain.contains("not"))
                && !plain.contains("?")
                && draft.asks.isEmpty()) {
            draft.ask("note", t("take.ask-real", name, note));
        } else if (words.has(note, "sold")
                && words.find(note, "sold").getFirst().first() == 0
                && draft.asks.isEmpty()) {
            draft.ask("note", t("take.ask-sold", name, note));
        }
    }
}
