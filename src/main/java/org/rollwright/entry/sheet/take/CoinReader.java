package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.rollwright.catalog.Catalog;

/// Rows of coins of one table. Used by one thread.
///
/// Long because a cell of a stranger's sheet means what the cells beside it leave open: each rule looks at the
/// whole row.
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

    /// Mints of the United States that are no other word beside a coin.
    private static final Pattern MINT_NAMED = Pattern.compile(
            "(?<![a-z])(denver|san francisco|carson city|new orleans|philadelphia|philly|west point)(?![a-z])(?! independence)");

    /// Bought with another row: `lot with no. 11`, `zusammen mit Nr. 4`.
    private static final Pattern TOGETHER = Pattern.compile(
            "\\b(lot|bought|got|together|same lot|achete|ensemble|zusammen|samen|junto|en lote|price)\\b.{0,20}"
                    + "\\b(with|avec|mit|met|con|and)\\b.{0,8}(#|no\\b|nr\\b|n°|n\\b|num|number|row|le n)[ .°]*[0-9]+");

    private static final Pattern INSCRIBED = Pattern.compile(
            "\\b(says|reads|marked|inscribed|written|legend|denominated|inscrit|indique|steht|staat|opschrift|dice|pone|marcada)\\b");

    private final Lexicon words;
    private final TableFinder.Found table;
    private final Days.Order order;
    private final CoinCheck check;
    private final CoinKinds kinds;
    private final CoinPrice price;

    /// What the table says of all its rows.
    ///
    /// @param currency of amounts without a sign, blank when not known
    record Custom(
            Numbers.Manner manner, Days.Order order, String currency, boolean currencySaid, Money.Per priceNote) {}

    CoinReader(Lexicon words, Catalog catalog, TableFinder.Found table, Custom custom) {
        this.words = words;
        this.table = table;
        this.order = custom.order();
        this.check = new CoinCheck(catalog);
        this.kinds = new CoinKinds(words, check);
        this.price = new CoinPrice(words, table, custom);
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
        if (new Gone(words, table).isSold(line)) {
            draft.what = "note";
            draft.leftOut.add(t("take.left-sold"));
            return;
        }
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
        if (words.exact("anycoin", coin).isPresent() && denomination.isEmpty()) {
            // a column that says of each coin that it is one: what it is stands in the remark
            coin = note;
        }
        if (Gone.isWanted(coin)) {
            draft.what = "note";
            draft.leftOut.add(t("take.left-empty"));
            return;
        }
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
        mint(draft, year, coin, text(line, "mint"), name);
        Grades grades = text(line, "grade").isEmpty()
                ? Grades.among(coin + ", " + kindCell, words)
                : Grades.read(text(line, "grade"), words);
        kinds.read(
                draft,
                Stream.of(coin, kindCell, denomination)
                        .filter(text -> !text.isEmpty())
                        .toList(),
                grades.rest(),
                year,
                note,
                context,
                name);
        grade(draft, line, grades, name);
        price.quantity(draft, line, coin, name);
        String place = text(line, "place");
        if (!place.matches("[?-]*")) {
            draft.put("place", place);
        }
        price.paid(draft, line, note, name);
        acquired(draft, line, name);
        for (String beside : List.of("from", "worth")) {
            if (!text(line, beside).isEmpty()) {
                draft.more.put(beside, text(line, beside));
            }
        }
        check.check(draft, name);
        if (words.has(coin + " " + kindCell, "nocoin")) {
            draft.ask("", t("take.ask-no-coin", name, (coin + " " + kindCell).strip()));
        }
        doubts(draft, note, name);
        if (draft.asks.isEmpty()
                && (coin.contains("?") || text(line, "year").contains("?") || words.has(coin, "doubt"))) {
            draft.ask("note", t("take.ask-note", name, (coin + " " + text(line, "year")).strip()));
        }
        if (coin.length() + kindCell.length() > 0) {
            draft.more.put("written", (coin + " " + kindCell).strip());
        }
    }

    private String country(Draft draft, Grid.Line line, Context context, String name) {
        String cell = text(line, "country");
        if (cell.matches("[?]+") || words.exact("unknown", cell).isPresent()) {
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
            draft.ask("country", t("take.ask-country-word", name, cell), cell);
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
        Matcher inscribed = INSCRIBED.matcher(Words.plain(draft.get("note")));
        if (value.from() < 0 && inscribed.find()) {
            value = Denominations.ofCoin(draft.get("note").substring(inscribed.end()), country, words);
            if (value.from() >= 0) {
                draft.inferred.add("denomination");
            }
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
            draft.ask(
                    "year",
                    t("take.ask-lot", name, text(line, "year").isEmpty() ? text(line, "coin") : text(line, "year")));
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

    private void mint(Draft draft, YearCell year, String coin, String cell, String name) {
        if (cell.isEmpty()) {
            Matcher named = MINT_NAMED.matcher(Words.plain(coin + " " + year.rest()));
            draft.put("mint", year.mint());
            if (year.mint().isEmpty() && named.find()) {
                draft.infer("mint", MINTS.getOrDefault(named.group(1), ""));
            }
            return;
        }
        String plain = cell.replaceAll("[().']", "").strip();
        if (plain.matches("[-–—]+") || noMint(plain)) {
            draft.put("mint", "none");
        } else if (plain.matches("[A-Za-z]{1,2}")) {
            draft.put("mint", plain.toUpperCase(Locale.ROOT));
        } else if (MINTS.containsKey(Words.key(plain))) {
            draft.put("mint", MINTS.getOrDefault(Words.key(plain), ""));
            draft.inferred.add("mint");
        } else {
            draft.ask("mint", t("take.ask-mint", name, cell), cell);
        }
    }

    /// `none`, `sans lettre`, `ohne Mzz.`: a word for none, and what is not there.
    private boolean noMint(String text) {
        return words.exact("nomint", text).isPresent()
                || Words.plain(text)
                        .matches("(no|none|sans|ohne|zonder|sin|without|geen|keine?|aucune?|ninguna?)\\b.{0,25}");
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
            details = Grades.detailsOf(text(line, "note"), words);
            if (!details.isEmpty()) {
                draft.inferred.add("details");
            }
        }
        draft.put("details", details);
        if (!grades.doubtful().isEmpty()) {
            draft.ask("grade", t("take.ask-grade-word", name, grades.doubtful(), grades.grade()), cell);
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
                draft.ask("grade", t("take.ask-grade", name, cell), cell);
            } else {
                draft.leftOut.add(t("take.left-words", grades.rest()));
            }
        }
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

    private void doubts(Draft draft, String note, String name) {
        String plain = Words.plain(note);
        if (words.has(note, "sold") && words.find(note, "sold").getFirst().first() == 0) {
            draft.ask("note", t("take.ask-sold", name, note));
        }
        if (TOGETHER.matcher(plain).find()) {
            draft.fields.remove("paid");
            draft.fields.remove("currency");
            draft.ask("paid", t("take.ask-together", name, note));
        }
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
        }
    }
}
