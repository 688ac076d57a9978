package org.rollwright.cli;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.rollwright.album.AlbumEvent;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Selection;
import org.rollwright.catalog.WatchName;
import org.rollwright.coin.Limits;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.entry.Reading;
import org.rollwright.entry.Recorder;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Event;

/// Runs a file of entry lines, and the few directives that set the scene. Used by one thread.
///
/// ```
/// # a comment
/// @hunt Box 12; denomination cent; rolls 50; watch wheat, copper; bank Example Bank; wrap machine
/// @at 2026-03-01T19:00:00Z 20     the clock; each following line is 20 seconds later
/// @album Wheat cents: series wheat; years 1909-1958
/// @accept                               all that comparing with the albums proposes
/// @opening cent wheat 40 100000 451     boxes, coins searched, coins found before this journal
/// @branch …, @cash …, @back …, @order …, @spent …      see TillScript
/// 39s
/// ```
final class Script {
    /// What came of one line.
    ///
    /// @param number from 1
    /// @param seq position in the journal, 0 when nothing was recorded
    /// @param wrong blank when it was recorded
    record Line(int number, String text, long seq, String wrong, String right) {
        boolean recorded() {
            return wrong.isEmpty();
        }
    }

    private static final Map<String, String> EXAMPLES = examples();

    /// A day between two lines.
    private static final long MOST_SECONDS = 86_400;

    private static final long MOST_SEARCHED = 1_000_000_000_000L;
    private static final int LONGEST_SHOWN = 200;

    private final Desk desk;
    private final Catalog catalog;
    private final Recorder recorder;
    private final List<HuntId> started = new ArrayList<>();
    private @Nullable HuntId hunt;
    private @Nullable Instant clock;
    private Duration step = Duration.ZERO;

    Script(Desk desk, Catalog catalog, Recorder recorder, @Nullable HuntId hunt) {
        this.desk = desk;
        this.catalog = catalog;
        this.recorder = recorder;
        this.hunt = hunt;
    }

    private static Map<String, String> examples() {
        Map<String, String> examples = new LinkedHashMap<>(TillScript.EXAMPLES);
        examples.put("@at", "@at 2026-03-01T19:00:00Z 20");
        examples.put("@opening", "@opening cent wheat 40 100000 451: boxes, coins searched, coins found");
        return Map.copyOf(examples);
    }

    /// Hunts begun by `@hunt`, in order.
    List<HuntId> started() {
        return started;
    }

    /// Runs lines until one is refused.
    ///
    /// @param keepGoing go on behind a refused line
    /// @param told is told of every line with content, as soon as it is durable or refused
    /// @return how many lines were refused
    int run(Iterable<String> lines, boolean keepGoing, Consumer<Line> told) {
        int number = 0;
        int refused = 0;
        for (String raw : lines) {
            number++;
            String text = raw.strip();
            if (text.isEmpty() || text.startsWith("#")) {
                continue;
            }
            Line line = line(number, text);
            told.accept(line);
            if (!line.recorded()) {
                refused++;
                if (!keepGoing) {
                    return refused;
                }
            }
        }
        return refused;
    }

    private Line line(int number, String text) {
        if (text.length() > Limits.WORDS) {
            String most = Limits.thousands(Limits.WORDS);
            return new Line(
                    number,
                    text.substring(0, LONGEST_SHOWN) + "…",
                    0,
                    "The line has " + Limits.thousands(text.length()) + " characters.",
                    "Write at most " + most + ".");
        }
        try {
            return text.startsWith("@") ? directive(number, text) : entry(number, text);
        } catch (Typed.Unread e) {
            String name = text.substring(0, (text + " ").indexOf(' '));
            return new Line(
                    number, text, 0, e.sentence(), "Write " + EXAMPLES.getOrDefault(name, "it as in the guide") + ".");
        }
    }

    private Line entry(int number, String text) {
        HuntId now = hunt;
        if (now == null) {
            return new Line(
                    number,
                    text,
                    0,
                    "No hunt is named yet.",
                    "Start one with --box, name one with --hunt, or begin with a line @hunt.");
        }
        Recorder.Outcome outcome = clock == null ? recorder.record(now, text) : recorder.recordAt(tick(), now, text);
        return switch (outcome) {
            case Recorder.Outcome.Recorded recorded -> new Line(number, text, recorded.seq(), "", "");
            case Recorder.Outcome.Refused refused ->
                new Line(
                        number,
                        text,
                        0,
                        refused.refusal().wrong(),
                        refused.refusal().right());
            case Recorder.Outcome.NotClear notClear -> notClear(number, text, notClear.reading());
        };
    }

    private static Line notClear(int number, String text, Reading reading) {
        return switch (reading) {
            case Reading.Problem problem -> new Line(number, text, 0, problem.wrong(), problem.right());
            case Reading.Choose choose ->
                new Line(
                        number,
                        text,
                        0,
                        choose.question(),
                        "Write one of: "
                                + String.join(
                                        "  |  ",
                                        choose.options().stream()
                                                .map(Reading.Option::line)
                                                .toList()));
            case Reading.Empty empty -> new Line(number, text, 0, "The line says nothing.", "Leave it out.");
            case Reading.Clear clear -> throw new IllegalStateException("a clear line was not recorded: " + text);
        };
    }

    private Instant tick() {
        Instant now = clock;
        if (now == null) {
            throw new IllegalStateException("no clock was set");
        }
        clock = now.plus(step);
        return now;
    }

    private Line directive(int number, String text) {
        int space = text.indexOf(' ');
        String name = space < 0 ? text : text.substring(0, space);
        String rest = space < 0 ? "" : text.substring(space + 1).strip();
        return switch (name) {
            case "@hunt" -> hunt(number, text, rest);
            case "@at" -> at(number, text, rest);
            case "@album" -> album(number, text, rest);
            case "@opening" -> opening(number, text, rest);
            case "@accept" -> {
                AlbumCommand.accept(
                        desk, new org.rollwright.album.AlbumShelves(catalog, org.rollwright.coin.Country.US));
                yield new Line(number, text, desk.read(State::last), "", "");
            }
            default ->
                TillScript.EXAMPLES.containsKey(name)
                        ? till(number, text, name, rest)
                        : new Line(
                                number,
                                text,
                                0,
                                Typed.quote(name) + " is no directive.",
                                "There are @hunt, @at, @album, @opening, @accept, @branch, @cash, @back, @order and @spent.");
        };
    }

    private Line till(int number, String text, String name, String rest) {
        TillScript reader = new TillScript(catalog);
        return line(number, text, desk.record(0, text, book -> reader.event(book, name, rest)));
    }

    private Line at(int number, String text, String rest) {
        String[] parts = rest.split(" +");
        Instant from = Typed.moment(parts[0]);
        step = Duration.ofSeconds(parts.length > 1 ? Typed.whole("seconds", parts[1], 0, MOST_SECONDS) : 0);
        clock = from;
        return new Line(number, text, 0, "", "");
    }

    private Line album(int number, String text, String rest) {
        int colon = rest.indexOf(':');
        if (colon < 1) {
            return new Line(number, text, 0, "The album has no rule.", "Write @album Name: series wheat.");
        }
        String rule = rest.substring(colon + 1).strip();
        return switch (org.rollwright.album.AlbumRule.parse(rule)) {
            case org.rollwright.album.AlbumRule.Parsed.Bad bad -> new Line(number, text, 0, bad.wrong(), bad.right());
            case org.rollwright.album.AlbumRule.Parsed.Good good ->
                line(
                        number,
                        text,
                        desk.record(
                                0,
                                text,
                                book -> new AlbumEvent.AlbumDefined(
                                        book.album().nextAlbum(),
                                        rest.substring(0, colon).strip(),
                                        rule)));
        };
    }

    private Line opening(int number, String text, String rest) {
        String[] parts = rest.split(" +");
        String right = "Write @opening cent wheat 40 100000 451: boxes, coins searched, coins found.";
        if (parts.length != 5) {
            return new Line(number, text, 0, "An opening balance has five parts.", right);
        }
        Optional<DenominationFacts> facts = denomination(catalog, parts[0]);
        Optional<WatchName> watch = catalog.watchByWord(parts[1]);
        if (facts.isEmpty() || watch.isEmpty()) {
            return new Line(number, text, 0, "The denomination or the watch is not known.", right);
        }
        int boxes = Typed.small("boxes", parts[2], 0, 1_000_000);
        long coins = Typed.whole("coins searched", parts[3], 0, MOST_SEARCHED);
        long found = Typed.whole("coins found", parts[4], 0, coins);
        return line(
                number,
                text,
                desk.record(
                        0,
                        text,
                        book -> new HuntEvent.OpeningBalance(
                                facts.get().denomination(), watch.get().name(), boxes, coins, found)));
    }

    static Optional<DenominationFacts> denomination(Catalog catalog, String word) {
        String lower = word.toLowerCase(java.util.Locale.ROOT);
        int space = lower.indexOf(' ');
        org.rollwright.coin.Country country = org.rollwright.coin.Country.US;
        String coin = lower;
        if (space > 0) {
            Optional<org.rollwright.catalog.CountryFacts> named = catalog.countryByWord(lower.substring(0, space));
            if (named.isEmpty()) {
                return Optional.empty();
            }
            country = named.get().country();
            coin = lower.substring(space + 1);
        }
        return catalog.denominationByWord(country, coin);
    }

    private static Line line(int number, String text, Desk.Outcome outcome) {
        return switch (outcome) {
            case Desk.Outcome.Kept kept -> new Line(number, text, kept.entry().seq(), "", "");
            case Desk.Outcome.Refused refused ->
                new Line(
                        number,
                        text,
                        0,
                        refused.refusal().wrong(),
                        refused.refusal().right());
        };
    }

    /// `Name; key value; key value`: begins a hunt on new boxes.
    private Line hunt(int number, String text, String rest) {
        String[] parts = rest.split(";");
        Map<String, String> values = new LinkedHashMap<>();
        for (int i = 1; i < parts.length; i++) {
            String part = parts[i].strip();
            int space = part.indexOf(' ');
            if (space > 0) {
                values.put(part.substring(0, space), part.substring(space + 1).strip());
            }
        }
        return start(number, text, parts[0].strip(), values);
    }

    /// Begins a hunt.
    ///
    /// @param values denomination, boxes (names, by commas), rolls, coins, form, watch, bank, branch, wrap,
    ///     stamp, sisters, picked, ordered, returned, to, note
    Line start(int number, String text, String name, Map<String, String> values) {
        String coin = values.getOrDefault("denomination", "cent");
        Optional<DenominationFacts> facts = denomination(catalog, coin);
        if (facts.isEmpty()) {
            return new Line(
                    number,
                    text,
                    0,
                    Typed.quote(coin) + " is no denomination.",
                    "Write cent, nickel, dime, quarter, half, or ca cent.");
        }
        List<Watch> watches = new ArrayList<>();
        for (String word : values.getOrDefault("watch", "").split(",")) {
            String wanted = word.strip();
            if (wanted.isEmpty()) {
                continue;
            }
            Optional<WatchName> known = catalog.watchByWord(wanted.toLowerCase(java.util.Locale.ROOT));
            if (known.isPresent()) {
                watches.add(new Watch(known.get().name(), known.get().rule()));
            } else if (Selection.parse(wanted) instanceof Selection.Parsed.Good) {
                watches.add(new Watch(wanted, wanted));
            } else {
                return new Line(
                        number,
                        text,
                        0,
                        Typed.quote(wanted) + " is nothing the catalogue can watch for.",
                        "Write a name such as wheat, or a rule such as metal silver.");
            }
        }
        BoxDetails details;
        try {
            details = details(facts.get(), values);
        } catch (Typed.Unread e) {
            return new Line(
                    number,
                    text,
                    0,
                    e.sentence(),
                    "Write rolls 50; coins 0; form box, rolls, bag or jar; picked 2026-03-01.");
        }
        List<String> labels = new ArrayList<>();
        for (String label : values.getOrDefault("boxes", name).split(",")) {
            labels.add(label.strip());
        }
        Instant at = clock == null ? Instant.now() : tick();
        Desk.Outcome outcome = desk.recordAt(at, text, book -> {
            HuntId id = book.hunt().nextHunt();
            List<Event> events = new ArrayList<>();
            List<BoxId> boxes = new ArrayList<>();
            long next = book.hunt().nextBox().number();
            for (String label : labels) {
                BoxId box = new BoxId(next++);
                events.add(new HuntEvent.BoxAdded(box, facts.get().denomination(), details.withLabel(label)));
                boxes.add(box);
            }
            events.add(new HuntEvent.HuntStarted(id, name, boxes, watches));
            return new Desk.Step(id.number(), new Event.Batch(events));
        });
        if (outcome instanceof Desk.Outcome.Kept kept) {
            hunt = new HuntId(kept.entry().scope());
            started.add(hunt);
        }
        return line(number, text, outcome);
    }

    private static BoxDetails details(DenominationFacts facts, Map<String, String> values) {
        Integer full = facts.rollsPerBox();
        BoxDetails.Form form = Typed.word("form", values.getOrDefault("form", "box"), BoxDetails.Form.class);
        boolean loose = form == BoxDetails.Form.BAG || form == BoxDetails.Form.JAR;
        String usual = loose || full == null ? "0" : full.toString();
        return new BoxDetails(
                "",
                form,
                Typed.small("rolls", values.getOrDefault("rolls", usual), 0, 10_000),
                facts.coinsPerRoll(),
                Typed.small("coins", values.getOrDefault("coins", "0"), 0, 1_000_000),
                values.getOrDefault("bank", ""),
                values.getOrDefault("branch", ""),
                values.getOrDefault("wrap", ""),
                values.getOrDefault("stamp", ""),
                values.getOrDefault("sisters", ""),
                day(values, "ordered"),
                day(values, "picked"),
                day(values, "returned"),
                values.getOrDefault("to", ""),
                values.getOrDefault("note", ""));
    }

    private static @Nullable LocalDate day(Map<String, String> values, String key) {
        String text = values.get(key);
        return text == null ? null : Typed.day(key, text);
    }
}
