package org.rollwright.entry.sheet;

import static org.rollwright.text.Texts.t;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Selection;
import org.rollwright.catalog.WatchName;
import org.rollwright.coin.Country;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Event;

/// Plans the import of earlier boxes: what every row would become, before anything is recorded. Used by one
/// thread.
public final class SheetImport {
    /// What would happen.
    ///
    /// @param rows one report for each row with content, in order
    /// @param problems why the sheet as a whole cannot be used; then there are no rows
    /// @param boxes what would be recorded, without numbers yet
    public record Plan(List<RowReport> rows, List<String> problems, List<PlannedBox> boxes) {
        public Plan {
            rows = List.copyOf(rows);
            problems = List.copyOf(problems);
            boxes = List.copyOf(boxes);
        }

        /// Rows that cannot be used.
        public long refused() {
            return rows.stream().filter(row -> !row.wrong().isEmpty()).count();
        }

        /// The whole import as one event, so that it stands or falls, and is undone, as one.
        public Event event(HuntBook book) {
            List<Event> events = new ArrayList<>();
            long next = book.nextBox().number();
            for (PlannedBox box : boxes) {
                BoxId id = new BoxId(next++);
                events.add(new HuntEvent.BoxAdded(id, box.facts.denomination(), box.details));
                events.add(new HuntEvent.BoxTallied(id, box.coins, box.counts));
            }
            return new Event.Batch(events);
        }
    }

    /// One row: what it would become, or why it cannot be used.
    ///
    /// @param text what it would become, in words
    /// @param column heading of the column at fault, blank when the row is good
    /// @param warning what deserves a look although the row is good
    public record RowReport(long line, String text, String column, String wrong, String right, String warning) {}

    /// A box as read from a row.
    public record PlannedBox(
            DenominationFacts facts, BoxDetails details, long coins, List<HuntEvent.WatchCount> counts) {}

    private final Mapping mapping;
    private final Catalog catalog;
    private final Map<String, Integer> headings = new HashMap<>();
    private final List<RowReport> reports = new ArrayList<>();
    private final List<PlannedBox> boxes = new ArrayList<>();
    private final Map<String, Watch> watches = new HashMap<>();

    private SheetImport(Mapping mapping, Catalog catalog) {
        this.mapping = mapping;
        this.catalog = catalog;
    }

    /// Plans an import.
    ///
    /// @param sheet all rows; the first with content is the headings
    /// @param known the present state, to notice labels that are already there
    public static Plan plan(List<SheetRow> sheet, Mapping mapping, Catalog catalog, HuntBook known) {
        List<SheetRow> rows = sheet.stream().filter(row -> !row.isBlank()).toList();
        if (rows.size() < 2) {
            return new Plan(List.of(), List.of(t("sheet.no-rows")), List.of());
        }
        SheetImport planning = new SheetImport(mapping, catalog);
        List<String> problems = planning.headings(rows.getFirst());
        if (!problems.isEmpty()) {
            return new Plan(List.of(), problems, List.of());
        }
        Set<String> labels = new HashSet<>();
        known.boxes().forEach(box -> labels.add(box.details().label()));
        rows.subList(1, rows.size()).forEach(row -> planning.row(row, labels));
        return new Plan(planning.reports, List.of(), planning.boxes);
    }

    private List<String> headings(SheetRow first) {
        for (int i = 0; i < first.cells().size(); i++) {
            headings.putIfAbsent(first.cell(i).toLowerCase(Locale.ROOT), i);
        }
        List<String> problems = new ArrayList<>();
        List<String> wanted = new ArrayList<>(mapping.columns().values());
        wanted.addAll(mapping.found().values());
        for (String heading : wanted) {
            if (!headings.containsKey(heading.toLowerCase(Locale.ROOT))) {
                problems.add(t("sheet.column-unknown", heading, String.join(", ", first.cells())));
            }
        }
        if (mapping.found().isEmpty()) {
            problems.add(t("sheet.found-missing"));
        }
        for (String what : mapping.found().keySet()) {
            Optional<Watch> watch = watch(what);
            if (watch.isPresent()) {
                watches.put(what, watch.get());
            } else {
                problems.add(t("sheet.watch-unknown", what));
            }
        }
        return problems;
    }

    /// A watch by name, or one for a single date and mint: `1909-S`.
    private Optional<Watch> watch(String what) {
        Optional<WatchName> named = catalog.watchByWord(what);
        if (named.isPresent()) {
            return Optional.of(new Watch(named.get().name(), named.get().rule()));
        }
        String[] parts = what.toUpperCase(Locale.ROOT).split("-");
        boolean year = parts[0].length() == 4 && parts[0].chars().allMatch(c -> c >= '0' && c <= '9');
        if (!year || parts.length > 2) {
            return Optional.empty();
        }
        String rule = "years " + parts[0] + (parts.length == 2 ? "; mints " + parts[1] : "; mints P, -");
        return Selection.parse(rule) instanceof Selection.Parsed.Good
                ? Optional.of(new Watch(String.join("-", parts), rule))
                : Optional.empty();
    }

    /// Ends the reading of a row.
    private static final class Refused extends Exception {
        private static final long serialVersionUID = 1L;
        private final String column;
        private final transient Refusal flaw;

        Refused(String column, String wrong, String right) {
            super(wrong, null, false, false);
            this.column = column;
            this.flaw = new Refusal(wrong, right);
        }
    }

    private void row(SheetRow row, Set<String> labels) {
        try {
            PlannedBox box = box(row);
            String label = box.details.label();
            String warning = labels.add(label) ? "" : t("sheet.name-taken", label);
            boxes.add(box);
            List<String> words = new ArrayList<>();
            box.counts.forEach(
                    count -> words.add(count.found() + " " + count.watch().name()));
            reports.add(new RowReport(
                    row.line(),
                    words.isEmpty()
                            ? t("sheet.becomes-without-finds", label, box.coins, box.facts.name())
                            : t("sheet.becomes", label, box.coins, box.facts.name(), String.join(", ", words)),
                    "",
                    "",
                    "",
                    warning));
        } catch (Refused e) {
            reports.add(new RowReport(row.line(), "", e.column, e.flaw.wrong(), e.flaw.right(), ""));
        }
    }

    private String text(SheetRow row, String field) {
        String heading = mapping.columns().get(field);
        Integer column = heading == null ? null : headings.get(heading.toLowerCase(Locale.ROOT));
        String value = column == null ? "" : row.cell(column);
        return value.isEmpty() ? mapping.fixed().getOrDefault(field, "") : value;
    }

    private PlannedBox box(SheetRow row) throws Refused {
        DenominationFacts facts = denomination(text(row, "denomination"));
        Integer full = facts.rollsPerBox();
        int rolls = (int) number(row, "rolls", full == null ? 0 : full, 10_000);
        long coins = number(row, "coins", (long) rolls * facts.coinsPerRoll(), 100_000_000);
        List<HuntEvent.WatchCount> counts = new ArrayList<>();
        for (Map.Entry<String, String> found : mapping.found().entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .toList()) {
            Integer column = headings.get(found.getValue().toLowerCase(Locale.ROOT));
            String value = column == null ? "" : row.cell(column);
            // An empty cell says that nobody counted, which is not the same as none.
            Watch watch = watches.get(found.getKey());
            if (!value.isEmpty() && watch != null) {
                long count = whole(value, found.getValue(), coins);
                counts.add(new HuntEvent.WatchCount(watch, (int) count));
            }
        }
        String label = text(row, "label");
        BoxDetails details = new BoxDetails(
                label.isEmpty() ? "Row " + row.line() : label,
                BoxDetails.Form.BOX,
                rolls,
                facts.coinsPerRoll(),
                0,
                text(row, "bank"),
                text(row, "branch"),
                text(row, "wrap"),
                text(row, "stamp"),
                text(row, "sisters"),
                null,
                date(text(row, "date")),
                null,
                "",
                text(row, "note"));
        return new PlannedBox(facts, details, coins, counts);
    }

    private DenominationFacts denomination(String word) throws Refused {
        String lower = word.toLowerCase(Locale.ROOT);
        Optional<DenominationFacts> facts = catalog.denominationByWord(Country.US, lower);
        if (facts.isEmpty() && lower.indexOf(' ') > 0) {
            int space = lower.indexOf(' ');
            facts = catalog.countryByWord(lower.substring(0, space))
                    .flatMap(country -> catalog.denominationByWord(country.country(), lower.substring(space + 1)));
        }
        if (facts.isEmpty()) {
            throw new Refused(
                    mapping.columns().getOrDefault("denomination", "denomination"),
                    t("sheet.denomination-unknown", word),
                    t("sheet.denomination-form"));
        }
        return facts.get();
    }

    private long number(SheetRow row, String field, long usual, long most) throws Refused {
        String value = text(row, field);
        return value.isEmpty() ? usual : whole(value, mapping.columns().getOrDefault(field, field), most);
    }

    /// A whole number; spreadsheets write 2500 also as `2,500` and `2500.0`.
    private static long whole(String value, String column, long most) throws Refused {
        String plain = Limits.ungrouped(value.replace(" ", ""));
        if (plain.endsWith(".0")) {
            plain = plain.substring(0, plain.length() - 2);
        }
        try {
            long number = Long.parseLong(plain);
            if (number >= 0 && number <= most) {
                return number;
            }
        } catch (NumberFormatException e) {
            // falls through to the refusal, which quotes the cell
        }
        throw new Refused(column, t("sheet.not-allowed", value), t("sheet.whole-form", most));
    }

    private @Nullable LocalDate date(String value) throws Refused {
        if (value.isEmpty()) {
            return null;
        }
        Optional<LocalDate> day = mapping.dates().read(value);
        if (day.isPresent()) {
            return day.get();
        }
        throw new Refused(
                mapping.columns().getOrDefault("date", "date"),
                t("sheet.date-wrong", value),
                t("sheet.dates-read-as", mapping.order()));
    }
}
