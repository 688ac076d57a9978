package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.rollwright.catalog.Catalog;

/// All rows of one sheet. Used by one thread.
final class SheetReader {
    private final As as;
    private final Lexicon words;
    private final Grid grid;
    private final BankNames banks;
    private final List<TableFinder.Found> tables;
    private final Context context = new Context();
    private final List<Draft> drafts = new ArrayList<>();
    private final Map<TableFinder.Found, BoxReader> boxes = new HashMap<>();
    private final Map<TableFinder.Found, CoinReader> coins = new HashMap<>();
    private final boolean sold;
    private final Sections sections;
    private final Customs customs;
    private final Totals totals;
    private final Dittos dittos;

    SheetReader(As as, Lexicon words, Catalog catalog, Grid grid, BankNames banks, Map<String, String> said) {
        this.as = as;
        this.words = words;
        this.grid = grid;
        this.banks = banks;
        this.tables = new TableFinder(as, words, said).tables(grid);
        this.sold = words.has(grid.name(), "sold") || words.has(grid.name(), "wanted");
        this.sections = new Sections(as, words, context);
        this.customs = new Customs(words, catalog, grid, context);
        this.totals = new Totals(as, words);
        this.dittos = new Dittos(words);
        sections.title(grid.name(), true);
    }

    /// What the name of the file and the hunter say, where the sheet says nothing.
    void beside(String file, Map<String, String> usual) {
        context.file = file;
        context.usualDenomination = usual.getOrDefault("denomination", "");
        context.saidCurrency = usual.getOrDefault("currency", "");
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
                    if (name && !totals.named(line, table)) {
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
        // a line above the table says more than the name of the file
        sections.title(context.file, true);
        if (context.sheetDenomination.isEmpty()) {
            context.sheetDenomination = context.usualDenomination;
        }
        while (place < grid.lines().size()) {
            Grid.Line line = grid.lines().get(place);
            int at = place;
            List<TableFinder.Found> here =
                    tables.stream().filter(table -> table.heading() == at).toList();
            boolean heads = !here.isEmpty() && here.getFirst().heading() >= 0;
            if (heads) {
                totals.again(true);
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
        cells.forEach(cell -> sections.title(cell.text(), false));
        if (cells.size() == 1 && sections.isTime(cells.getFirst().text())) {
            add(line, "heading");
            return titled;
        }
        boolean figures = cells.stream()
                .anyMatch(cell -> cell.number() != null
                        || !cell.formula().isEmpty()
                        || cell.text().matches("[0-9.,$€£ ]+"));
        if (tables.isEmpty()) {
            boolean heading = !titled && !figures;
            boolean total = (figures && !sold) || totals.named(line, null);
            Draft draft = add(line, heading ? "heading" : total ? "total" : "note");
            if (!heading) {
                draft.leftOut.add(t("take.left-no-table"));
            }
            return true;
        }
        if (cells.size() == 1
                && words.find(cells.getFirst().text(), "sold").stream().anyMatch(hit -> hit.first() == 0)) {
            context.sold = Words.of(cells.getFirst().text()).size() <= 3;
        }
        boolean grouped = place == begin - 1 && cells.size() >= 2 && !figures;
        boolean heading = grouped || (!titled && cells.size() == 1);
        add(line, heading ? "heading" : totals.named(line, null) && figures ? "total" : "note");
        return titled || cells.size() == 1;
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
        boolean above = tables.stream()
                .anyMatch(table -> table.heading() > 0
                        && grid.lines().get(table.heading() - 1).number() == line.number());
        if (above && filled(line).size() == 1 && !totals.named(line, null)) {
            // the title of the next table
            add(line, "heading");
            sections.open(filled(line).getFirst().text());
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
        boolean total = totals.named(line, table)
                || Totals.computed(line, read)
                || (!isTelling(line, said) && totals.sums(line, read));
        if (total) {
            add(line, "total");
            totals.again(false);
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
        Sections.Line one = sections.line(line, said, isCoin(telling));
        if (one != Sections.Line.ROW) {
            Draft draft = add(line, one.name().toLowerCase(Locale.ROOT));
            Column text = said.stream()
                    .filter(column -> !numberLike(line.cell(column.index())))
                    .findFirst()
                    .orElse(said.getFirst());
            if (one == Sections.Line.NOTE && line.text(text.index()).contains("?")) {
                unread(line.text(text.index()))
                        .ifPresent(column -> draft.ask("", t("take.ask-column", column.heading())));
            }
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
        if (sold || context.sold) {
            add(line, "note").leftOut.add(t("take.left-sold"));
            return true;
        }
        totals.add(line, read);
        Draft draft = add(as == As.COINS ? dittos.filled(line, table) : line, as == As.COINS ? "coin" : "box");
        if (as == As.COINS) {
            coins.computeIfAbsent(table, customs::coinReader).read(draft, context);
        } else {
            boxes.computeIfAbsent(table, of -> customs.boxReader(of, banks)).read(draft, context);
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

    /// Whether a line says more than figures: what coin it is, which day or bank.
    private boolean isTelling(Grid.Line line, List<Column> said) {
        Set<String> telling = as == As.COINS
                ? Set.of("coin", "denomination", "year", "country", "kind", "grade", "mint")
                : Set.of("date", "bank", "denomination");
        return said.stream()
                .filter(column -> !column.is("date")
                        || !(Days.read(line.cell(column.index()), Days.Order.UNKNOWN) instanceof Days.Read.Words))
                .anyMatch(column -> telling.contains(column.field()));
    }

    static boolean numberLike(Grid.Cell cell) {
        return cell.text().matches("[#]?[0-9]{1,4}[a-z]?\\.?") && !cell.text().matches("(19|20)[0-9]{2}");
    }

    static boolean isCoin(List<Column> core) {
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
