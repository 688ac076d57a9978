package org.rollwright.action;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.Acquisition;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CoinSheet;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CountryFacts;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.MintFacts;
import org.rollwright.catalog.WatchName;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Refusal;
import org.rollwright.coin.Strike;
import org.rollwright.desk.State;
import org.rollwright.entry.sheet.take.As;
import org.rollwright.entry.sheet.take.Rolls;
import org.rollwright.entry.sheet.take.Taken;
import org.rollwright.entry.sheet.take.TakenRow;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Bounds;
import org.rollwright.journal.Event;

/// What is recorded of a sheet that was read: every row without a question, the others by name.
///
/// What the record has no place for is kept in the note of the thing: a weight of copper, a price in another
/// currency, a month without a day, finds that no watch is for.
///
/// Long because boxes and coins, questions and answers go through one plan: nothing is asked and taken at once.
public final class TakenSheet {
    /// A row that is not recorded, and why.
    ///
    /// @param known whether it stands in the record already
    public record Left(String sheet, long row, String why, boolean known) {}

    /// What would be recorded.
    ///
    /// @param rows how many rows become something
    /// @param things how many coins or boxes they become
    /// @param known how many rows are left because they stand in the record already
    /// @param left things on the sheet that are not recorded
    public record Plan(int rows, int things, int known, List<Left> left, List<CoinSheet.Read> coins, List<Box> boxes) {
        /// All of it as one step, numbered for a state.
        public Event event(State known) {
            if (!coins.isEmpty()) {
                return CoinSheet.events(known.cabinet(), coins);
            }
            List<Event> events = new ArrayList<>();
            long next = known.hunt().nextBox().number();
            for (Box box : boxes) {
                BoxId id = new BoxId(next++);
                events.add(new HuntEvent.BoxAdded(id, box.denomination, box.details));
                events.add(new HuntEvent.BoxTallied(id, box.coins, box.counts));
            }
            return new Event.Batch(events);
        }
    }

    /// A box to be recorded.
    public record Box(Denomination denomination, BoxDetails details, long coins, List<HuntEvent.WatchCount> counts) {}

    /// A year or a month, where a sheet knows no day.
    private static final String PART_OF_DAY = "([0-9]{4}(-[0-9]{2})?)?";

    /// Coins one row may become; more is no row of single coins.
    private static final int MOST_OF_A_ROW = 1_000;

    private static final Map<String, String> WATCHES = Map.ofEntries(
            Map.entry("Indian head", "indian"),
            Map.entry("Canadian", "canadian"),
            Map.entry("war nickel", "war"),
            Map.entry("Liberty head (V)", "liberty"),
            Map.entry("Mercury", "mercury"),
            Map.entry("walking Liberty", "walker"),
            Map.entry("W mint", "west-point"),
            Map.entry("S mint", "s-mint"),
            Map.entry("before 1960", "old-nickels"),
            Map.entry("key date", "key"),
            Map.entry("2009", "bicentennial"),
            Map.entry("error", "errors"),
            Map.entry("variety", "varieties"));

    private final Catalog catalog;
    private final LocalDate today;
    /// What of a box tells that it is the same one.
    private record Known(Denomination denomination, BoxDetails details) {}

    private final State state;
    private final Predicate<TakenRow> again;
    private final Set<Known> boxesKnown = new HashSet<>();
    /// Coins that came another way than by a hunt, by what they are: so many of a sheet stand in the record already.
    private final Map<CoinDescription, Integer> coinsKnown = new HashMap<>();
    private int known;

    private final List<Left> left = new ArrayList<>();
    private final List<CoinSheet.Read> coins = new ArrayList<>();
    private final List<Box> boxes = new ArrayList<>();

    private TakenSheet(Catalog catalog, LocalDate today, State known, Predicate<TakenRow> again) {
        this.catalog = catalog;
        this.today = today;
        this.state = known;
        this.again = again;
        known.hunt().boxes().forEach(box -> boxesKnown.add(new Known(box.denomination(), box.details())));
        // also those that have left: a sheet taken again does not bring back what was sold
        known.cabinet().added().forEach(coin -> coinsKnown.merge(coin.description(), 1, Integer::sum));
    }

    /// Plans what is recorded of a sheet.
    ///
    /// @param today the day a coin counts as owned when the sheet says no other
    /// @param known the record; a row that stands in it already is left
    /// @param again which rows are taken once more all the same
    public static Plan plan(Taken taken, Catalog catalog, LocalDate today, State known, Predicate<TakenRow> again) {
        TakenSheet planning = new TakenSheet(catalog, today, known, again);
        int rows = 0;
        for (TakenRow row : taken.rows()) {
            if (!row.isThing()) {
                continue;
            }
            if (!row.isReady()) {
                planning.leave(
                        row,
                        row.asks().isEmpty()
                                ? t("action.sheet-duplicate")
                                : row.asks().getFirst().sentence());
                continue;
            }
            int before = planning.left.size();
            if (taken.as() == As.COINS) {
                planning.coin(row);
            } else {
                planning.box(row);
            }
            rows += planning.left.size() == before ? 1 : 0;
        }
        return new Plan(
                rows,
                planning.coins.size() + planning.boxes.size(),
                planning.known,
                List.copyOf(planning.left),
                List.copyOf(planning.coins),
                List.copyOf(planning.boxes));
    }

    private void leaveKnown(TakenRow row) {
        known++;
        left.add(new Left(row.sheet(), row.row(), t("action.sheet-known"), true));
    }

    private void leave(TakenRow row, String why) {
        left.add(new Left(row.sheet(), row.row(), why, false));
    }

    private static void say(List<String> notes, String text) {
        if (!text.isBlank()) {
            notes.add(text);
        }
    }

    private void box(TakenRow row) {
        Country country = row.more().getOrDefault("country", "").equals("Canada") ? new Country("CA") : Country.US;
        Optional<DenominationFacts> facts = Rolls.key(row.field("denomination"))
                .flatMap(key -> catalog.facts(new Denomination(country, key)))
                .or(() -> catalog.denominationByWord(
                        country, row.field("denomination").toLowerCase(Locale.ROOT)));
        if (facts.isEmpty()) {
            leave(row, t("action.sheet-denomination-unknown", row.field("denomination")));
            return;
        }
        String coinsSaid = row.field("coins");
        String rollsSaid = row.field("rolls");
        if (coinsSaid.isEmpty() && rollsSaid.matches("[1-9][0-9]{0,4}")) {
            // the denomination was answered after the row was read
            coinsSaid = Long.toString(Long.parseLong(rollsSaid) * facts.get().coinsPerRoll());
        }
        if (!coinsSaid.matches("[0-9]{1,9}") || !rollsSaid.matches("[0-9]{0,5}")) {
            leave(row, t("action.sheet-no-coins", coinsSaid.isEmpty() ? rollsSaid : coinsSaid));
            return;
        }
        List<String> notes = new ArrayList<>();
        say(notes, row.field("note"));
        String date = row.field("date");
        LocalDate day = Limits.day(date).orElse(null);
        if (day == null && !date.matches(PART_OF_DAY)) {
            leave(row, t("action.sheet-day", date));
            return;
        }
        if (day == null) {
            say(notes, date.isEmpty() ? "" : t("action.sheet-in-month", date));
        }
        if (!row.field("grams").isEmpty()) {
            say(notes, t("action.sheet-copper", row.field("grams")));
        }
        long coins = Long.parseLong(coinsSaid);
        List<HuntEvent.WatchCount> counts = new ArrayList<>();
        for (String find : row.field("finds").split(";", -1)) {
            int colon = find.lastIndexOf(':');
            if (colon < 0) {
                continue;
            }
            String kind = find.substring(0, colon).strip();
            String count = find.substring(colon + 1).strip();
            String digits = count.startsWith("~") ? count.substring(1) : count;
            Optional<WatchName> watch = catalog.watchByWord(WATCHES.getOrDefault(kind, kind.toLowerCase(Locale.ROOT)));
            if (!digits.matches("[0-9]{1,7}")) {
                leave(row, t("action.sheet-count-unknown", kind, count));
                return;
            }
            if (Long.parseLong(digits) > coins) {
                leave(row, t("action.sheet-count-too-many", kind, count, coins));
                return;
            }
            if (watch.isPresent()) {
                counts.add(new HuntEvent.WatchCount(
                        new Watch(watch.get().name(), watch.get().rule()), Integer.parseInt(digits)));
                say(notes, count.startsWith("~") ? t("action.sheet-about", kind, digits) : "");
            } else {
                say(notes, kind + " " + count);
            }
        }
        String number = row.more().getOrDefault("number", "");
        int rolls = rollsSaid.isEmpty() ? 0 : Integer.parseInt(rollsSaid);
        BoxDetails details = new BoxDetails(
                number.isEmpty() ? t("action.sheet-row", row.row()) : number,
                rolls == 0 ? BoxDetails.Form.BAG : BoxDetails.Form.BOX,
                rolls,
                facts.get().coinsPerRoll(),
                rolls == 0 ? (int) coins : 0,
                row.field("bank"),
                "",
                "",
                "",
                "",
                null,
                day,
                null,
                "",
                String.join("; ", notes));
        if (refused(
                row, new HuntEvent.BoxAdded(state.hunt().nextBox(), facts.get().denomination(), details))) {
            return;
        }
        if (!again.test(row) && boxesKnown.contains(new Known(facts.get().denomination(), details))) {
            leaveKnown(row);
            return;
        }
        boxes.add(new Box(facts.get().denomination(), details, coins, counts));
    }

    private void coin(TakenRow row) {
        String land = row.field("country").toLowerCase(Locale.ROOT);
        Optional<Country> country = catalog.countries().stream()
                .filter(facts -> facts.name().equalsIgnoreCase(land))
                .findFirst()
                .or(() -> catalog.countryByWord(land))
                .or(() -> catalog.countryByWord(land.replaceAll("[^\\p{L}]", "")))
                .map(CountryFacts::country);
        if (country.isEmpty()) {
            leave(row, t("action.sheet-country-unknown", row.field("country")));
            return;
        }
        if (row.field("denomination").isEmpty()) {
            leave(row, t("action.sheet-denomination-unknown", ""));
            return;
        }
        if (!row.field("quantity").matches("[1-9][0-9]{0,5}")
                || Integer.parseInt(row.field("quantity")) > MOST_OF_A_ROW) {
            leave(row, t("action.sheet-quantity", row.field("quantity"), MOST_OF_A_ROW));
            return;
        }
        String yearSaid = row.field("year");
        boolean year4 = yearSaid.matches("[0-9]{4}")
                && Integer.parseInt(yearSaid) >= Identity.FIRST_YEAR
                && Integer.parseInt(yearSaid) <= Identity.LAST_YEAR;
        if (!yearSaid.isEmpty() && !year4) {
            leave(row, t("action.sheet-year", yearSaid));
            return;
        }
        Optional<Mint> letter = mint(country.get(), row.field("mint"));
        if (!row.field("mint").isEmpty() && !row.field("mint").equals("none") && letter.isEmpty()) {
            leave(row, t("action.sheet-mint", row.field("mint")));
            return;
        }
        if (!row.field("colour").isEmpty() && colour(row.field("colour")) == null) {
            leave(row, t("action.sheet-colour", row.field("colour")));
            return;
        }
        List<String> notes = new ArrayList<>();
        say(notes, row.field("note"));
        Integer year = yearSaid.isEmpty() ? null : Integer.valueOf(yearSaid);
        Denomination denomination = denomination(country.get(), row);
        Identity identity = identity(denomination, year, letter, row);
        String gradeSaid = row.field("grade");
        boolean proof = gradeSaid.startsWith("Proof");
        @Nullable Grade low = null;
        @Nullable Grade high = null;
        String[] steps = gradeSaid.replace("Proof", "PF").replace("Poor", "PO").split(" to ", 2);
        Optional<Grade> first = Grade.parse(steps[0].replaceAll("[ ~+-]", ""));
        if (first.isPresent()) {
            low = first.get();
            if (steps.length == 2) {
                String letters = steps[0].replaceAll("[^A-Z]", "");
                high = Grade.parse((steps[1].matches("[0-9].*") ? letters : "") + steps[1].replaceAll("[ ~+-]", ""))
                        .filter(upper -> upper.compareTo(first.get()) > 0)
                        .orElse(null);
            }
        }
        boolean whole = low != null && gradeSaid.matches("[A-Z]+( [0-9]+)?( to .*)?");
        say(notes, gradeSaid.isEmpty() || whole ? "" : t("action.sheet-grade", gradeSaid));
        List<String> varieties =
                row.field("variety").isEmpty() || row.field("variety").equalsIgnoreCase(identity.kind())
                        ? List.of()
                        : List.of(row.field("variety").split(", "));
        say(notes, row.field("kind").isEmpty() || !identity.design().isEmpty() ? "" : row.field("kind"));
        int quantity = Integer.parseInt(row.field("quantity"));
        BigDecimal price = null;
        BigDecimal rest = BigDecimal.ZERO;
        if (!row.field("paid").isEmpty()) {
            String paid = row.field("paid").replaceFirst("^\\$ ?", "");
            if (!paid.matches("[0-9]{1,9}(\\.[0-9]{1,6})?")) {
                leave(row, t("action.sheet-paid", row.field("paid")));
                return;
            }
            BigDecimal all = new BigDecimal(paid);
            if (row.field("currency").equals("USD")) {
                price = all.divide(BigDecimal.valueOf(quantity), 2, RoundingMode.DOWN);
                rest = all.subtract(price.multiply(BigDecimal.valueOf(quantity)));
            } else {
                say(notes, t("action.sheet-paid-in", all, row.field("currency")));
            }
        }
        String acquired = row.field("acquired");
        LocalDate day = Limits.day(acquired).orElse(null);
        if (day == null && !acquired.matches(PART_OF_DAY)) {
            leave(row, t("action.sheet-day", acquired));
            return;
        }
        if (day == null) {
            say(notes, acquired.isEmpty() ? "" : t("action.sheet-got-in", acquired));
        }
        CoinDescription description = new CoinDescription(
                identity,
                low,
                row.field("details").isEmpty() ? null : row.field("details"),
                colour(row.field("colour")),
                proof ? Strike.PROOF : Strike.BUSINESS,
                varieties,
                List.of(),
                String.join("; ", notes),
                List.of());
        String how = day != null && !row.field("paid").isEmpty() ? "bought" : "owned";
        String from = row.more().getOrDefault("from", "");
        LocalDate came = day == null ? today : day;
        Acquisition acquisition = new Acquisition(how, from, came, price);
        List<String> place = row.field("place").isEmpty() ? List.of() : List.of(row.field("place"));
        if (refused(row, new CabinetEvent.CoinAcquired(state.cabinet().nextAdded(), description, acquisition))) {
            return;
        }
        int there = again.test(row) ? 0 : Math.min(quantity, coinsKnown.getOrDefault(description, 0));
        coinsKnown.merge(description, -there, Integer::sum);
        if (there == quantity) {
            leaveKnown(row);
            return;
        }
        for (int i = there; i < quantity; i++) {
            // what does not go into the others was paid for the first
            BigDecimal own = price == null || i > 0 ? price : price.add(rest);
            coins.add(new CoinSheet.Read(description, high, place, new Acquisition(how, from, came, own)));
        }
    }

    private Denomination denomination(Country country, TakenRow row) {
        String said = row.field("denomination");
        String key = Rolls.key(said)
                .or(() -> catalog.denominationByWord(country, said.toLowerCase(Locale.ROOT))
                        .map(facts -> facts.denomination().key()))
                .orElse(said);
        boolean large = country.equals(Country.US)
                && key.equals("dollar")
                && !row.field("year").isEmpty()
                && catalog.ofYear(new Denomination(country, key), Integer.parseInt(row.field("year")))
                        .isEmpty();
        Denomination denomination = new Denomination(country, large ? "large-dollar" : key);
        return catalog.facts(denomination).isPresent() ? denomination : new Denomination(country, said);
    }

    /// Mint, kind and design as the catalogue calls them, where what is said leaves one choice.
    private Identity identity(Denomination denomination, @Nullable Integer year, Optional<Mint> letter, TakenRow row) {
        String mintSaid = row.field("mint");
        boolean american = denomination.country().equals(Country.US);
        List<Issue> issues = year == null ? List.of() : catalog.ofYear(denomination, year);
        Mint none = american ? Mint.P : Mint.NONE;
        boolean unmarked = issues.stream().anyMatch(issue -> issue.mint().equals(none));
        // a keeper who writes no letter saw none, where such coins were struck or nothing is known of the country
        boolean unlisted = !american && !catalog.covers(denomination);
        @Nullable
        Mint mint =
                mintSaid.equals("none") || (mintSaid.isEmpty() && (unmarked || unlisted)) ? none : letter.orElse(null);
        List<Issue> same = issues.stream()
                .filter(issue -> mint == null || issue.mint().equals(mint))
                .toList();
        String wanted = row.field("kind").toLowerCase(Locale.ROOT).split(" ", 2)[0];
        List<String> designs = same.stream()
                .filter(issue -> wanted.isEmpty()
                        || issue.series().words().contains(wanted)
                        || issue.series().name().toLowerCase(Locale.ROOT).contains(wanted)
                        || issue.identity().design().contains(wanted))
                .map(issue -> issue.identity().design())
                .distinct()
                .toList();
        String design = designs.size() == 1 ? designs.getFirst() : "";
        String variety = row.field("variety").toLowerCase(Locale.ROOT);
        String kind = same.stream()
                .map(issue -> issue.identity().kind())
                .filter(one -> !one.isEmpty() && one.equalsIgnoreCase(variety))
                .findFirst()
                .orElse("");
        return new Identity(denomination, year, mint, kind, design);
    }

    /// A mint by its letters or a word for it.
    private Optional<Mint> mint(Country country, String said) {
        String word = said.toLowerCase(Locale.ROOT);
        return catalog.mintByWord(country, word.replaceAll("[^a-z]", ""))
                .map(MintFacts::mint)
                .or(() -> said.matches("[A-Za-z]{1,2}")
                        ? Optional.of(new Mint(said.toUpperCase(Locale.ROOT)))
                        : Optional.empty());
    }

    /// Leaves a row of which the record would take nothing, with the record's own words.
    private boolean refused(TakenRow row, Event event) {
        Optional<Refusal> why = Bounds.refuse(Instant.EPOCH, "", event);
        if (why.isEmpty() && event instanceof HuntEvent box) {
            why = state.hunt().refuse(box);
        }
        why.ifPresent(refusal -> leave(row, refusal.wrong()));
        return why.isPresent();
    }

    private static @Nullable Colour colour(String text) {
        return switch (text.toLowerCase(Locale.ROOT)) {
            case "brown", "bn" -> Colour.BN;
            case "red-brown", "rb" -> Colour.RB;
            case "red", "rd" -> Colour.RD;
            default -> null;
        };
    }
}
