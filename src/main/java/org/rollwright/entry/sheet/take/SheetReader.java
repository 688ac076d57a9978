package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.rollwright.catalog.Catalog;

/// All rows of one sheet. Used by one thread.
final class SheetReader {
    private static final Pattern YEAR_SECTION =
            Pattern.compile("[^\\p{L}0-9]*(?:year|yr|jahr|jaar|annee|ano|season|saison)?[ :]*((?:19|20)[0-9]{2})\\b.*");

    private final As as;
    private final Lexicon words;
    private final Catalog catalog;
    private final Grid grid;
    private final BankNames banks;
    private final List<TableFinder.Found> tables;
    private final Context context = new Context();
    private final List<Draft> drafts = new ArrayList<>();
    private final Map<TableFinder.Found, BoxReader> boxes = new HashMap<>();
    private final Map<TableFinder.Found, CoinReader> coins = new HashMap<>();
    private final boolean sold;
    private boolean soldSection;
    private Money.Per priceNote = Money.Per.UNSAID;

    SheetReader(As as, Lexicon words, Catalog catalog, Grid grid, BankNames banks, Map<String, String> said) {
        this.as = as;
        this.words = words;
        this.catalog = catalog;
        this.grid = grid;
        this.banks = banks;
        this.tables = new TableFinder(as, words, said).tables(grid);
        this.sold = words.has(grid.name(), "sold") || words.has(grid.name(), "wanted");
        title(grid.name(), true);
    }

    List<TableFinder.Found> tables() {
        return tables;
    }

    /// Names of banks in the order of the sheet, before any row is read.
    void noteBanks() {
        for (TableFinder.Found table : tables) {
            table.column("bank").ifPresent(column -> {
                for (Grid.Line line : lines(table)) {
                    String text = line.text(column.index());
                    boolean name = !text.isEmpty()
                            && !text.matches("[?\"'〃-]+")
                            && words.exact("same", text).isEmpty();
                    if (name && !isTotal(line, table)) {
                        banks.add(text.replaceAll("\\s*\\?$", ""));
                    }
                }
            });
        }
    }

    private List<Grid.Line> lines(TableFinder.Found table) {
        return grid.lines().subList(table.heading() + 1, table.behind());
    }

    List<Draft> read() {
        int begin = tables.isEmpty()
                ? grid.lines().size()
                : Math.max(0, tables.getFirst().heading());
        int place = 0;
        boolean titled = false;
        for (; place < begin; place++) {
            titled = before(place, begin, titled);
        }
        while (place < grid.lines().size()) {
            Grid.Line line = grid.lines().get(place);
            int at = place;
            List<TableFinder.Found> here =
                    tables.stream().filter(table -> table.heading() == at).toList();
            boolean heads = !here.isEmpty() && here.getFirst().heading() >= 0;
            if (heads) {
                add(line, "heading");
            } else {
                List<TableFinder.Found> open = tables.stream()
                        .filter(table -> table.heading() < at && at < table.behind())
                        .toList();
                inside(line, open);
            }
            place++;
        }
        boxes.values().forEach(BoxReader::finish);
        Duplicates.mark(drafts, as);
        gaps();
        return drafts;
    }

    private Draft add(Grid.Line line, String what) {
        Draft draft = new Draft(grid.name(), line, what);
        drafts.add(draft);
        return draft;
    }

    private static List<Grid.Cell> filled(Grid.Line line) {
        return line.cells().stream().filter(cell -> !cell.isBlank()).toList();
    }

    /// A line above the first table.
    private boolean before(int place, int begin, boolean titled) {
        Grid.Line line = grid.lines().get(place);
        Set<Integer> side = tables.isEmpty() ? Set.of() : tables.getFirst().side();
        List<Grid.Cell> inner = new ArrayList<>();
        for (int c = 0; c < line.cells().size(); c++) {
            if (!line.cell(c).isBlank() && !side.contains(c)) {
                inner.add(line.cell(c));
            }
        }
        List<Grid.Cell> cells = inner.isEmpty() ? filled(line) : inner;
        if (cells.isEmpty()) {
            add(line, "blank");
            return titled;
        }
        cells.forEach(cell -> title(cell.text(), false));
        boolean figures = cells.stream()
                .anyMatch(cell -> cell.number() != null
                        || !cell.formula().isEmpty()
                        || cell.text().matches("[0-9.,$€£ ]+"));
        if (tables.isEmpty()) {
            boolean heading = !titled && !figures;
            boolean total = (figures && !sold) || isTotal(line, null);
            Draft draft = add(line, heading ? "heading" : total ? "total" : "note");
            if (!heading) {
                draft.leftOut.add(t("take.left-no-table"));
            }
            return true;
        }
        boolean grouped = place == begin - 1 && cells.size() >= 2 && !figures;
        boolean heading = grouped || (!titled && cells.size() == 1);
        add(line, heading ? "heading" : isTotal(line, null) && figures ? "total" : "note");
        return titled || cells.size() == 1;
    }

    /// What a title or the name of a sheet says of all rows.
    private void title(String text, boolean name) {
        String plain = Words.plain(text);
        for (Lexicon.Hit hit : words.find(text, "country")) {
            if (hit.to() - hit.from() >= 4
                    || text.substring(hit.from(), hit.to()).matches("USA|US|UK|cdn|CDN")) {
                context.sheetCountry = context.sheetCountry.isEmpty() ? hit.means() : context.sheetCountry;
            }
        }
        if (plain.contains("cdn") || plain.contains("canadian")) {
            context.sheetCountry = "Canada";
        }
        List<String> named = words.find(text, "named").stream()
                .map(hit -> hit.means().replaceAll("\\|.*", ""))
                .distinct()
                .toList();
        if (named.size() == 1 && context.sheetDenomination.isEmpty()) {
            context.sheetDenomination = named.getFirst();
        }
        context.boxes |= plain.matches("(?s).*\\bbox(es)?\\b.*");
        boolean blank = plain.matches("(?s).*\\b(blank|empty|nothing|leer|vide|leeg)\\b.*") && plain.contains("box");
        context.blankRollsAreBoxes |= blank || plain.matches("(?s).*\\ball (are )?(full )?box(es)?\\b.*");
        if (!name && plain.matches("(?s).*\\b(prices?|paid|prijzen|preise|prix|precios)\\b.*")) {
            if (plain.matches(
                    "(?s).*\\b(each|per coin|apiece|per stuk|pro stuck|par piece|unitaires?|por unidad)\\b.*")) {
                priceNote = Money.Per.EACH;
            } else if (plain.matches(
                    "(?s).*\\b(for the lot|for all|whole row|total|for the row|alle zusammen|pour le lot|pour tout|samen)\\b.*")) {
                priceNote = Money.Per.ALL;
            }
        }
    }

    private boolean isTotal(Grid.Line line, TableFinder.@org.jspecify.annotations.Nullable Found table) {
        Set<Integer> notes = new HashSet<>();
        if (table != null) {
            table.columns("note").forEach(column -> notes.add(column.index()));
            boolean dated = Stream.of("year", "grade", "country")
                    .flatMap(field -> table.column(field).stream())
                    .anyMatch(column -> !line.cell(column.index()).isBlank()
                            && words.find(line.text(column.index()), "total").isEmpty());
            if (dated && as == As.COINS) {
                return false;
            }
        }
        for (int c = 0; c < line.cells().size(); c++) {
            String text = line.text(c);
            if (text.isEmpty()
                    || notes.contains(c)
                    || (table != null && table.side().contains(c))
                    || Words.of(text).size() > 6) {
                continue;
            }
            for (Lexicon.Hit hit : words.find(text, "total")) {
                boolean phrase =
                        hit.first() == 0 || hit.behind() == Words.of(text).size();
                boolean brief = hit.term().tokens().equals(List.of("all"))
                        || hit.term().tokens().equals(List.of("tot"))
                        || hit.term().tokens().equals(List.of("media"));
                if (phrase && (!brief || Words.of(text).size() == 1)) {
                    return true;
                }
            }
        }
        return false;
    }

    /// A line below the heading of a table, or of several side by side.
    private void inside(Grid.Line line, List<TableFinder.Found> open) {
        if (line.isBlank()) {
            add(line, "blank");
            return;
        }
        if (open.isEmpty()) {
            add(line, "note");
            return;
        }
        boolean done = false;
        for (TableFinder.Found table : open) {
            done |= row(line, table, !done && table.equals(open.getLast()));
        }
    }

    /// @param last whether the line must become something now
    private boolean row(Grid.Line line, TableFinder.Found table, boolean last) {
        List<Column> read = table.columns().stream()
                .filter(column -> !line.cell(column.index()).isBlank())
                .filter(column -> !column.field().startsWith("left:running")
                        && !column.field().startsWith("left:yield"))
                .toList();
        List<Column> said = read.stream()
                .filter(column -> line.cell(column.index()).formula().isEmpty()
                        || (!column.is("unread") && !column.is("number") && !column.is("find")))
                .toList();
        if (read.isEmpty()) {
            if (last) {
                beside(line);
            }
            return last;
        }
        if (isTotal(line, table)) {
            add(line, "total");
            return true;
        }
        List<Column> telling = said.stream()
                .filter(column -> (!column.is("number") && !column.is("unread"))
                        || (words.find(line.text(column.index()), "total").isEmpty()
                                && !numberLike(line.cell(column.index()))))
                .toList();
        if (telling.isEmpty()
                && read.stream()
                        .allMatch(column -> !line.cell(column.index()).formula().isEmpty())) {
            add(line, "total");
            return true;
        }
        if (section(line, said, telling)) {
            return true;
        }
        List<Column> core = telling.stream()
                .filter(column -> !line.text(column.index()).matches("[?.-]+"))
                .toList();
        boolean unknown = said.stream()
                        .anyMatch(column -> (column.is("coin") || column.is("country") || column.is("denomination"))
                                && line.text(column.index()).matches("[?]+"))
                && core.stream().anyMatch(column -> column.is("quantity") || column.is("place") || column.is("paid"));
        boolean thing = as == As.COINS ? isCoin(core) || unknown : isBox(core);
        if (!thing) {
            boolean number = said.stream().anyMatch(column -> column.is("number")) || numberLike(line.cell(0));
            if ((core.stream().anyMatch(column -> column.is("note")) && !number)
                    || (!core.isEmpty()
                            && core.stream()
                                    .allMatch(column -> column.is("note")
                                            && line.text(column.index()).length() > 25))) {
                add(line, "note");
                return true;
            }
            Draft draft = add(line, "unusable");
            table.column("number").ifPresent(column -> draft.more.put("number", line.text(column.index())));
            draft.ask("", t("take.ask-only-number", as == As.COINS ? CoinReader.name(draft) : BoxReader.name(draft)));
            return true;
        }
        if (sold || soldSection) {
            add(line, "note").leftOut.add(t("take.left-sold"));
            return true;
        }
        Draft draft = add(line, as == As.COINS ? "coin" : "box");
        if (as == As.COINS) {
            coins.computeIfAbsent(table, this::coinReader).read(draft, context);
        } else {
            boxes.computeIfAbsent(table, this::boxReader).read(draft, context);
        }
        for (Column column : table.columns()) {
            String text = line.text(column.index());
            if (!text.isEmpty() && (column.is("unread") || column.field().startsWith("left:"))) {
                String heading = column.heading().isEmpty() ? column.letters() : column.heading();
                draft.leftOut.add(
                        column.is("unread")
                                ? t("take.left-unread", heading, text)
                                : t("take.left-cell", heading, text));
            }
        }
        for (int side : table.side()) {
            if (!line.text(side).isEmpty()) {
                draft.leftOut.add(t("take.left-side", Grid.letters(side), line.text(side)));
            }
        }
        return true;
    }

    private static boolean numberLike(Grid.Cell cell) {
        return cell.text().matches("[#]?[0-9]{1,4}[a-z]?\\.?") && !cell.text().matches("(19|20)[0-9]{2}");
    }

    private boolean isCoin(List<Column> core) {
        Set<String> fields = new HashSet<>();
        core.forEach(column -> fields.add(column.field()));
        fields.retainAll(Set.of("coin", "denomination", "year", "country", "kind", "grade", "mint"));
        return !fields.isEmpty();
    }

    private boolean isBox(List<Column> core) {
        Set<String> fields = new HashSet<>();
        core.forEach(column -> fields.add(column.field()));
        fields.retainAll(Set.of("date", "bank", "denomination", "amount", "rolls", "coins", "find", "finds-text"));
        return fields.size() >= 2 || fields.contains("find") || fields.contains("finds-text");
    }

    /// A line beside all tables.
    private void beside(Grid.Line line) {
        boolean figures = filled(line).stream()
                .anyMatch(cell -> cell.number() != null
                        || !cell.formula().isEmpty()
                        || cell.text().matches("[0-9.,]+"));
        add(line, figures ? "total" : filled(line).size() > 1 ? "heading" : "note")
                .leftOut
                .add(t("take.left-beside"));
    }

    /// A line that heads a section, or a remark between the rows.
    private boolean section(Grid.Line line, List<Column> said, List<Column> telling) {
        if (said.size() > 2) {
            return false;
        }
        List<Column> texts = said.stream()
                .filter(column -> !numberLike(line.cell(column.index())))
                .toList();
        if (texts.size() != 1 || (said.size() == 2 && as == As.COINS)) {
            return false;
        }
        Column only = texts.getFirst();
        String text = line.text(only.index());
        if (text.matches("[?.-]+") || line.cell(only.index()).day() != null) {
            return false;
        }
        String plain = Words.plain(text).strip();
        int count = Words.of(text).size();
        Matcher year = YEAR_SECTION.matcher(plain);
        String bare = text.replaceAll("^[-=_*~#:<>. ]+|[-=_*~#:<>. ]+$", " ")
                .replaceAll(":$", "")
                .strip();
        boolean capitals =
                bare.equals(bare.toUpperCase(java.util.Locale.ROOT)) && bare.matches(".*\\p{L}{3,}.*") && count <= 6;
        if (year.matches() && count <= 4 && said.size() == 1) {
            add(line, "heading");
            context.year = Integer.parseInt(year.group(1));
            return true;
        }
        List<Lexicon.Hit> known = words.find(bare, "country", "named", "kind", "misc", "sold", "wanted", "metal");
        int covered = known.stream().mapToInt(hit -> hit.behind() - hit.first()).sum();
        boolean named = !known.isEmpty() && covered * 2 >= count && count <= 6 && !text.contains("?");
        boolean coinText = as == As.COINS
                && (only.is("coin") || only.is("denomination") || only.is("country"))
                && only.index() > firstColumn(line);
        boolean decorated = text.matches("^[-=_*~#<>]+ ?.*[-=_*~#<>]+$");
        boolean sentence = count > 6 || text.matches(".*[!?]$|^[*].*") || text.matches("(?s).*[a-z]: .*");
        boolean first = only.index() == 0 || line.wide() || decorated;
        if (!sentence
                && !coinText
                && ((named && (first || capitals || (said.size() == 1 && !isCoin(telling))))
                        || line.wide()
                        || (capitals && first)
                        || (decorated && count <= 3))) {
            add(line, "heading");
            open(bare);
            return true;
        }
        if ((as == As.BOXES && said.size() == 1)
                || only.is("note")
                || only.is("number")
                || (only.index() == 0 && !isCoin(List.of(only)))
                || (sentence && said.size() == 1)) {
            Draft draft = add(line, "note");
            if (text.contains("?")) {
                unread(text).ifPresent(column -> draft.ask("", t("take.ask-column", column.heading())));
            }
            return true;
        }
        return false;
    }

    private static int firstColumn(Grid.Line line) {
        return line.wide() ? 200 : 0;
    }

    /// The unread column a remark speaks of.
    private Optional<Column> unread(String text) {
        Set<String> tokens = new HashSet<>();
        Words.of(text).forEach(token -> tokens.add(token.text()));
        return tables.stream()
                .flatMap(table -> table.columns().stream())
                .filter(column -> column.is("unread") && !column.heading().isEmpty())
                .filter(column -> tokens.contains(Words.key(column.heading())))
                .findFirst();
    }

    private void open(String text) {
        context.clearSection();
        context.section = text;
        List<String> countries = words.find(text, "country").stream()
                .filter(hit -> hit.to() - hit.from() >= 2)
                .map(Lexicon.Hit::means)
                .distinct()
                .toList();
        if (countries.size() == 1) {
            context.country = countries.getFirst();
        }
        List<String> named = words.find(text, "named").stream()
                .map(Lexicon.Hit::means)
                .distinct()
                .toList();
        if (named.size() == 1) {
            context.denomination = named.getFirst().replaceAll("\\|.*", "");
        }
        List<String> kinds = words.find(text, "kind").stream()
                .filter(hit -> hit.to() - hit.from() >= 4)
                .map(Lexicon.Hit::means)
                .distinct()
                .toList();
        if (kinds.size() == 1 && named.isEmpty()) {
            context.kind = kinds.getFirst();
        }
        Matcher year = YEAR_SECTION.matcher(Words.plain(text));
        if (year.matches()) {
            context.year = Integer.parseInt(year.group(1));
        }
        soldSection = words.has(text, "sold") || words.has(text, "wanted");
    }

    private CoinReader coinReader(TableFinder.Found table) {
        List<String> texts = new ArrayList<>();
        List<String> currencies = new ArrayList<>();
        List<Grid.Cell> days = new ArrayList<>();
        for (String field : List.of("paid", "paid-each", "paid-all", "worth")) {
            for (Column column : table.columns(field)) {
                if (!Money.currency(column.heading()).isEmpty()) {
                    for (int i = 0; i < 50; i++) {
                        currencies.add(Money.currency(column.heading()));
                    }
                }
                for (Grid.Line line : lines(table)) {
                    Grid.Cell cell = line.cell(column.index());
                    if (cell.isBlank()) {
                        continue;
                    }
                    if (cell.number() == null) {
                        texts.add(cell.text());
                    }
                    String of = Money.currency(
                            cell.number() == null ? cell.text() : cell.format().replaceAll("[\\[\\]\"_-]|409", " "));
                    if (!of.isEmpty()) {
                        currencies.add(of);
                    }
                }
            }
        }
        table.column("acquired").ifPresent(column -> lines(table).forEach(line -> days.add(line.cell(column.index()))));
        if (table.column("country").isEmpty()) {
            context.usualCountry = usualCountry(table);
        }
        String currency = currencies.stream()
                .distinct()
                .max((a, b) -> Long.compare(
                        currencies.stream().filter(a::equals).count(),
                        currencies.stream().filter(b::equals).count()))
                .orElse("");
        boolean said = !currency.isEmpty();
        if (!said) {
            currency = usualCurrency(table);
        }
        boolean american = said || context.usualCountry.equals("United States") || isMostlyAmerican(table);
        Days.Order weak =
                switch (currency) {
                    case "USD" -> american ? Days.Order.MONTH_FIRST : Days.Order.UNKNOWN;
                    case "EUR", "GBP", "CHF", "NLG", "DEM", "FRF" -> Days.Order.DAY_FIRST;
                    default -> Days.Order.UNKNOWN;
                };
        return new CoinReader(
                words,
                catalog,
                table,
                new CoinReader.Custom(Numbers.manner(texts), Days.order(days, weak), currency, said, priceNote));
    }

    private boolean isMostlyAmerican(TableFinder.Found table) {
        List<String> countries = table.column("country").stream()
                .flatMap(column -> lines(table).stream().map(line -> line.text(column.index())))
                .filter(text -> !text.isEmpty())
                .toList();
        long american = countries.stream()
                .filter(text -> words.exact("country", text).orElse("").equals("United States"))
                .count();
        return american * 2 > countries.size();
    }

    private String usualCountry(TableFinder.Found table) {
        List<String> homes = new ArrayList<>();
        for (Grid.Line line : lines(table)) {
            for (String field : List.of("denomination", "coin", "kind")) {
                table.column(field)
                        .map(column -> Denominations.ofCoin(line.text(column.index()), "", words)
                                .country())
                        .filter(home -> !home.isEmpty())
                        .ifPresent(homes::add);
            }
        }
        return homes.stream()
                .distinct()
                .filter(home -> homes.stream().filter(home::equals).count() * 10 >= homes.size() * 7L)
                .findFirst()
                .orElse("");
    }

    /// The money of a keeper who writes no sign: by the language of the headings and the coins.
    private String usualCurrency(TableFinder.Found table) {
        Set<String> english = Set.of(
                "paid",
                "price",
                "cost",
                "grade",
                "condition",
                "worth",
                "value",
                "year",
                "qty",
                "date",
                "coin",
                "country",
                "notes",
                "where");
        long found = table.columns().stream()
                .map(column -> Words.key(column.heading()))
                .filter(english::contains)
                .count();
        if (context.sheetCountry.equals("Canada")) {
            return "CAD";
        }
        if (context.sheetCountry.equals("United Kingdom")) {
            return "GBP";
        }
        return found >= 2 ? "USD" : found == 0 ? "EUR" : "";
    }

    private BoxReader boxReader(TableFinder.Found table) {
        List<String> texts = new ArrayList<>();
        for (String field : List.of("amount", "grams")) {
            table.column(field)
                    .ifPresent(column -> lines(table).stream()
                            .map(line -> line.cell(column.index()))
                            .filter(cell -> cell.number() == null)
                            .forEach(cell -> texts.add(cell.text())));
        }
        List<Grid.Cell> days = new ArrayList<>();
        table.column("date").ifPresent(column -> lines(table).forEach(line -> days.add(line.cell(column.index()))));
        context.boxes |= table.columns().stream()
                .anyMatch(column -> Words.plain(column.heading()).matches(".*\\bbox(es)?\\b.*"));
        boolean canadian = context.sheetCountry.equals("Canada");
        return new BoxReader(
                words,
                table,
                Numbers.manner(texts.stream()
                        .filter(text -> !text.matches(".*[0-9],[0-9]{3}.*"))
                        .toList()),
                banks,
                Days.order(days, canadian ? Days.Order.UNKNOWN : Days.Order.MONTH_FIRST),
                new Rolls(catalog));
    }

    /// A remark that speaks of numbers which are missing before the row: `36-39 are in the other notebook`.
    private void gaps() {
        if (as != As.BOXES) {
            return;
        }
        int last = -1;
        for (Draft draft : drafts) {
            String number = draft.more.getOrDefault("number", "").replaceAll("[^0-9]", "");
            if (!number.matches("[0-9]{1,6}")) {
                continue;
            }
            int now = Integer.parseInt(number);
            Matcher range = Pattern.compile("([0-9]{1,5})\\s*(?:-|to|thru|bis|tot)\\s*([0-9]{1,5})")
                    .matcher(draft.get("note"));
            if (last >= 0
                    && now > last + 1
                    && range.find()
                    && Integer.parseInt(range.group(1)) == last + 1
                    && Integer.parseInt(range.group(2)) == now - 1) {
                draft.ask("", t("take.ask-gap", range.group(1), range.group(2), draft.get("note")));
            }
            last = now;
        }
    }

    /// Columns as they were read, for the report.
    List<Taken.Table> report() {
        return tables.stream()
                .map(table -> new Taken.Table(
                        grid.name(),
                        table.heading() < 0
                                ? 0
                                : grid.lines().get(table.heading()).number(),
                        grid.hidden(),
                        table.columns().stream().filter(Objects::nonNull).toList()))
                .toList();
    }
}
