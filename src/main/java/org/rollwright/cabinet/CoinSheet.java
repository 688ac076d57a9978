package org.rollwright.cabinet;

import static org.rollwright.text.Texts.t;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CountryFacts;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.RowProblem;
import org.rollwright.catalog.SheetCell;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Country;
import org.rollwright.coin.DayStyle;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Refusal;
import org.rollwright.coin.Strike;
import org.rollwright.hunt.Find;
import org.rollwright.journal.Event;

/// Coins as rows of a table, for other programs and back.
///
/// Texts go out and come back by [SheetCell], so that no cell is run as a formula.
///
/// Long because what goes out must come back: both directions of a column stand side by side.
public final class CoinSheet {
    /// Columns of a table of coins. Only denomination and year are needed on the way in.
    public static final List<String> COLUMNS = List.of(
            "country",
            "denomination",
            "year",
            "mint",
            "kind",
            "design",
            "grade",
            "grade_up_to",
            "colour",
            "strike",
            "details",
            "varieties",
            "errors",
            "note",
            "place",
            "how",
            "from",
            "day",
            "price");

    private static final String IN = " > ";

    /// A coin read from a row.
    public record Read(
            CoinDescription description, @Nullable Grade gradeUpTo, List<String> place, Acquisition how) {}

    /// What came of reading a table.
    public record Outcome(List<Read> coins, List<RowProblem> problems) {}

    private CoinSheet() {}

    /// Rows of some coins, in the order of [#COLUMNS].
    public static List<List<String>> rows(Holdings held, List<CabinetIndex.Entry> coins) {
        return coins.stream().map(entry -> row(held, entry)).toList();
    }

    private static List<String> row(Holdings held, CabinetIndex.Entry entry) {
        CoinDescription coin = entry.description();
        Identity identity = coin.identity();
        Grade upTo = entry.gradeUpTo();
        Acquisition how = held.cabinet().acquisition(entry.ref()).orElseGet(() -> found(held, entry));
        Mint mint = identity.mint();
        return List.of(
                        identity.denomination().country().code(),
                        identity.denomination().key(),
                        identity.year() == null ? "" : identity.year().toString(),
                        mint == null ? "" : mint.code(),
                        identity.kind(),
                        identity.design(),
                        coin.grade() == null ? "" : coin.grade().toString(),
                        upTo == null ? "" : upTo.toString(),
                        coin.colour() == null ? "" : coin.colour().name(),
                        coin.strike() == Strike.BUSINESS
                                ? ""
                                : coin.strike().name().toLowerCase(Locale.ROOT),
                        coin.details() == null ? "" : coin.details(),
                        String.join(";", coin.varieties()),
                        String.join(";", coin.errors()),
                        coin.note(),
                        place(held.cabinet(), entry.placeId()),
                        how.how(),
                        how.from(),
                        how.day().toString(),
                        how.price() == null ? "" : how.price().toPlainString())
                .stream()
                .map(SheetCell::out)
                .toList();
    }

    private static Acquisition found(Holdings held, CabinetIndex.Entry entry) {
        LocalDate day = entry.ref()
                .findId()
                .flatMap(held.hunts()::find)
                .map(Find::at)
                .map(at -> at.atOffset(ZoneOffset.UTC).toLocalDate())
                .orElse(LocalDate.EPOCH);
        return new Acquisition(
                entry.ref().find() > 0 ? "found" : "owned", entry.coin().provenance(), day, null);
    }

    private static String place(CabinetBook book, @Nullable PlaceId id) {
        return String.join(IN, CabinetIndex.names(book, id));
    }

    /// The table as CSV with a header row.
    public static String csv(List<List<String>> rows) {
        StringWriter text = new StringWriter();
        try (CsvWriter writer = CsvWriter.builder().build(text)) {
            writer.writeRecord(COLUMNS);
            rows.forEach(writer::writeRecord);
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory", e);
        }
        return text.toString();
    }

    /// Reads a table.
    ///
    /// @param table header row first
    /// @param mapping our column to the header of theirs; a column of ours without an entry is looked for by
    ///     its own name
    /// @param days how days are written, null when the table shall be refused where that is not plain
    public static Outcome read(
            List<List<String>> table,
            Map<String, String> mapping,
            @Nullable DayStyle days,
            LocalDate today,
            Catalog catalog) {
        List<RowProblem> problems = new ArrayList<>();
        if (table.isEmpty()) {
            return new Outcome(
                    List.of(),
                    List.of(problem(1, "", t("cabinet.the-table-is-empty"), t("cabinet.give-it-a-header-row"))));
        }
        Map<String, Integer> at = new LinkedHashMap<>();
        List<String> header = table.getFirst().stream()
                .map(cell -> cell.strip().toLowerCase(Locale.ROOT))
                .toList();
        for (String column : COLUMNS) {
            String wanted = mapping.getOrDefault(column, column).toLowerCase(Locale.ROOT);
            int index = header.indexOf(wanted);
            if (index >= 0) {
                at.put(column, index);
            } else if (mapping.containsKey(column)) {
                problems.add(problem(
                        1,
                        column,
                        t("cabinet.column-unknown", mapping.get(column)),
                        t("cabinet.the-columns-are", String.join(", ", table.getFirst()))));
            }
        }
        mapping.keySet().stream()
                .filter(column -> !COLUMNS.contains(column))
                .forEach(column -> problems.add(problem(
                        1,
                        column,
                        t("cabinet.we-have-no-such-column"),
                        t("cabinet.ours-are", String.join(", ", COLUMNS)))));
        if (!at.containsKey("year")) {
            problems.add(problem(1, "year", t("cabinet.no-column-is-called-year"), t("cabinet.column-hint")));
        }
        if (!problems.isEmpty()) {
            return new Outcome(List.of(), problems);
        }
        List<Read> coins = new ArrayList<>();
        for (int r = 1; r < table.size(); r++) {
            List<String> cells = table.get(r);
            if (cells.stream().allMatch(String::isBlank)) {
                continue;
            }
            new RowReader(r + 1, cells, at, days, today, catalog, problems)
                    .coin()
                    .ifPresent(coins::add);
        }
        return new Outcome(coins, problems);
    }

    private static RowProblem problem(int row, String column, String wrong, String right) {
        return new RowProblem("", row, column, new Refusal(wrong, right));
    }

    /// One row while it is read.
    private record RowReader(
            int row,
            List<String> cells,
            Map<String, Integer> at,
            @Nullable DayStyle days,
            LocalDate today,
            Catalog catalog,
            List<RowProblem> problems) {
        private String text(String column) {
            Integer index = at.get(column);
            return index == null || index >= cells.size() ? "" : SheetCell.in(cells.get(index));
        }

        private void refuse(String column, String wrong, String right) {
            problems.add(problem(row, column, wrong, right));
        }

        private List<String> words(String column) {
            return Arrays.stream(text(column).split(";"))
                    .map(String::strip)
                    .filter(word -> !word.isEmpty())
                    .toList();
        }

        Optional<Read> coin() {
            int before = problems.size();
            Denomination denomination = denomination();
            @Nullable Integer year = year();
            @Nullable Mint mint = mint();
            @Nullable Grade grade = grade("grade");
            @Nullable Grade upTo = grade("grade_up_to");
            @Nullable Colour colour = colour();
            Strike strike = strike();
            LocalDate day = day();
            @Nullable BigDecimal price = price();
            if (problems.size() > before) {
                return Optional.empty();
            }
            String design = text("design");
            CoinDescription coin = new CoinDescription(
                    new Identity(denomination, year, mint, text("kind"), design),
                    grade,
                    text("details").isEmpty() ? null : text("details"),
                    colour,
                    strike,
                    words("varieties"),
                    words("errors"),
                    text("note"),
                    List.of());
            String how = text("how").isEmpty() ? "owned" : text("how");
            List<String> place = text("place").isEmpty()
                    ? List.of()
                    : Arrays.stream(text("place").split(IN)).map(String::strip).toList();
            return Optional.of(new Read(coin, upTo, place, new Acquisition(how, text("from"), day, price)));
        }

        private Denomination denomination() {
            String country = text("country").isEmpty() ? "US" : text("country");
            String key = text("denomination").toLowerCase(Locale.ROOT);
            if (key.isEmpty()) {
                // sixteen mixed coins are not sixteen cents
                refuse("denomination", t("cabinet.denomination-missing"), t("cabinet.denomination-form"));
                return Denomination.US_CENT;
            }
            Optional<Country> known = catalog.countries().stream()
                    .map(CountryFacts::country)
                    .filter(one -> one.code().equalsIgnoreCase(country))
                    .findFirst()
                    .or(() -> catalog.countryByWord(country.toLowerCase(Locale.ROOT))
                            .map(CountryFacts::country));
            if (known.isEmpty()) {
                refuse("country", t("cabinet.country-unknown", country), t("cabinet.country-form"));
                return Denomination.US_CENT;
            }
            Optional<Denomination> found =
                    catalog.denominationByWord(known.get(), key).map(DenominationFacts::denomination);
            if (found.isEmpty() && !key.equals("coin")) {
                refuse(
                        "denomination",
                        t("cabinet.denomination-unknown", key, known.get()),
                        t("cabinet.denomination-form"));
            }
            return found.orElse(new Denomination(known.get(), key));
        }

        private @Nullable Integer year() {
            String text = text("year");
            if (text.isEmpty()) {
                return null;
            }
            if (text.matches("[0-9]{4}(\\.0)?")) {
                int year = Integer.parseInt(text.substring(0, 4));
                if (year >= Identity.FIRST_YEAR && year <= Identity.LAST_YEAR) {
                    return year;
                }
            }
            refuse("year", t("cabinet.year-wrong", text), t("cabinet.year-form"));
            return null;
        }

        private @Nullable Mint mint() {
            String text = text("mint").toUpperCase(Locale.ROOT);
            if (text.isEmpty()) {
                return null;
            }
            try {
                return new Mint(text);
            } catch (IllegalArgumentException e) {
                refuse("mint", t("cabinet.mint-wrong", text), t("cabinet.mint-form"));
                return null;
            }
        }

        private @Nullable Grade grade(String column) {
            String text = text(column);
            if (text.isEmpty()) {
                return null;
            }
            Optional<Grade> grade = Grade.parse(text);
            if (grade.isEmpty() && text.matches("[0-9]{1,2}") && Grade.steps().contains(Integer.valueOf(text))) {
                grade = Optional.of(new Grade(Integer.parseInt(text)));
            }
            if (grade.isEmpty()) {
                refuse(column, t("cabinet.grade-wrong", text), t("cabinet.grade-form"));
            }
            return grade.orElse(null);
        }

        private @Nullable Colour colour() {
            String text = text("colour").toUpperCase(Locale.ROOT);
            for (Colour colour : Colour.values()) {
                if (colour.name().equals(text)) {
                    return colour;
                }
            }
            if (!text.isEmpty()) {
                refuse("colour", t("cabinet.colour-unknown", text), t("cabinet.write-bn-rb-or-rd"));
            }
            return null;
        }

        private Strike strike() {
            String text = text("strike").toUpperCase(Locale.ROOT);
            if (text.isEmpty()) {
                return Strike.BUSINESS;
            }
            for (Strike strike : Strike.values()) {
                if (strike.name().equals(text)) {
                    return strike;
                }
            }
            refuse("strike", t("cabinet.strike-unknown", text), t("cabinet.write-proof-specimen-or-nothing"));
            return Strike.BUSINESS;
        }

        private LocalDate day() {
            String text = text("day");
            if (text.isEmpty()) {
                return today;
            }
            // strokes and hyphens part a day and a month in either order; points do not
            boolean twoWays = days == null && text.matches("[0-9]{1,2}\\s*[/-].*");
            DayStyle style = days == null ? DayStyle.DAY_FIRST : days;
            Optional<LocalDate> read = twoWays ? Optional.empty() : style.read(text);
            if (read.isEmpty()) {
                refuse(
                        "day",
                        twoWays ? t("cabinet.may-be-read-two-ways", text) : t("cabinet.sheet-day-wrong", text),
                        twoWays ? t("cabinet.days-form") : t("cabinet.date-form"));
            }
            return read.orElse(today);
        }

        private @Nullable BigDecimal price() {
            String text = Limits.ungrouped(text("price").replace("$", "").strip());
            if (text.isEmpty()) {
                return null;
            }
            if (!text.matches("[0-9]{1,9}(\\.[0-9]{1,4})?")) {
                refuse("price", t("cabinet.sheet-amount-wrong", text("price")), t("cabinet.amount-form"));
                return null;
            }
            return new BigDecimal(text);
        }
    }

    /// The events that bring coins read from a table into the cabinet, places made as needed, as one step.
    public static Event events(CabinetBook book, List<Read> coins) {
        List<Event> events = new ArrayList<>();
        Map<List<String>, PlaceId> places = new LinkedHashMap<>();
        book.places().forEach(place -> places.put(path(book, place), place.id()));
        long nextPlace = book.nextPlace().number();
        int next = book.nextAdded().piece();
        Map<PlaceId, List<CoinRef>> put = new LinkedHashMap<>();
        for (Read read : coins) {
            CoinRef ref = new CoinRef(0, next++);
            events.add(new CabinetEvent.CoinAcquired(ref, read.description(), read.how()));
            if (read.gradeUpTo() != null) {
                events.add(new CabinetEvent.CoinDescribed(ref, read.description(), read.gradeUpTo()));
            }
            @Nullable PlaceId parent = null;
            for (int depth = 1; depth <= read.place().size(); depth++) {
                List<String> path = List.copyOf(read.place().subList(0, depth));
                PlaceId known = places.get(path);
                if (known == null) {
                    known = new PlaceId(nextPlace++);
                    events.add(new CabinetEvent.PlaceMade(new Place(known, parent, path.getLast(), 0)));
                    places.put(path, known);
                }
                parent = known;
            }
            if (parent != null) {
                put.computeIfAbsent(parent, key -> new ArrayList<>()).add(ref);
            }
        }
        put.forEach((place, refs) -> events.add(new CabinetEvent.CoinsPut(refs, place)));
        return new Event.Batch(events);
    }

    private static List<String> path(CabinetBook book, Place place) {
        return CabinetIndex.names(book, place.id());
    }
}
