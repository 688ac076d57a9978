package org.rollwright.cli.mat;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.Action;
import org.rollwright.action.HuntActions;
import org.rollwright.cli.shell.Open;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Refusal;
import org.rollwright.entry.Reading;
import org.rollwright.entry.Recorder;
import org.rollwright.hunt.HuntId;

/// Runs a file of entry lines, and the few directives that set the scene. Used by one thread.
///
/// ```
/// # a comment
/// @hunt Box 12; denomination cent; rolls 50; watch wheat, copper; bank Example Bank; wrap machine
/// @at 2026-03-01T19:00:00Z 20     the clock; each following line is 20 seconds later
/// @album Wheat cents: series wheat; years 1909-1958
/// @accept                               all that comparing with the albums proposes
/// @opening cent wheat 40 100000 451     boxes, coins searched, coins found before this journal
/// @branch …, @cash …, @back …, @order …, @spent … and whatever else ./run do lists
/// 39s
/// ```
public final class Script {
    /// What came of one line.
    ///
    /// @param number from 1
    /// @param seq position in the journal, 0 when nothing was recorded
    /// @param wrong blank when it was recorded
    public record Line(int number, String text, long seq, String wrong, String right) {
        public boolean recorded() {
            return wrong.isEmpty();
        }
    }

    private static final String AT_RIGHT = "Write @at 2026-03-01T18:00:00Z 30.";

    /// A day between two lines.
    private static final long MOST_SECONDS = 86_400;

    private static final int LONGEST_SHOWN = 200;

    private final Open.Bench bench;
    private final List<HuntId> started = new ArrayList<>();
    private @Nullable HuntId hunt;
    private @Nullable Instant clock;
    private Duration step = Duration.ZERO;

    public Script(Open.Bench bench, @Nullable HuntId hunt) {
        this.bench = bench;
        this.hunt = hunt;
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
    public int run(Iterable<String> lines, boolean keepGoing, Consumer<Line> told) {
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
        return text.startsWith("@") ? directive(number, text) : entry(number, text);
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
        Recorder.Outcome outcome = clock == null
                ? bench.recorder().record(now, text)
                : bench.recorder().recordAt(tick(), now, text);
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
            case "@at" -> at(number, text, rest);
            default ->
                Directive.read(name, rest)
                        .map(directive -> perform(number, text, directive))
                        .orElseGet(() -> new Line(
                                number,
                                text,
                                0,
                                "'" + Refusal.quote(name) + "' is no directive.",
                                "There are @at, "
                                        + String.join(", ", Directive.examples().keySet()) + "."));
        };
    }

    private Line perform(int number, String text, Directive directive) {
        if (!directive.wrong().isEmpty()) {
            return new Line(number, text, 0, directive.wrong(), directive.right());
        }
        boolean begins = directive.action().equals(HuntActions.HUNT);
        Instant told = clock;
        Instant at = told == null ? Instant.now() : begins ? tick() : told;
        return switch (directive.action().perform(bench.desk(), bench.setting().at(at), directive.fields(), text)) {
            case Action.Answer.Done done -> {
                if (begins) {
                    hunt = new HuntId(done.entry().scope());
                    started.add(hunt);
                }
                yield new Line(number, text, done.entry().seq(), "", "");
            }
            case Action.Answer.Refused refused -> {
                String others =
                        refused.why().stream().skip(1).map(why -> " " + why).collect(Collectors.joining());
                Refusal first = refused.why().getFirst();
                yield new Line(number, text, 0, first.wrong(), first.right() + others);
            }
        };
    }

    private Line at(int number, String text, String rest) {
        String[] parts = rest.split(" +");
        String pause = parts.length > 1 ? parts[1] : "0";
        Optional<Instant> from = moment(parts[0]);
        if (from.isEmpty()) {
            return new Line(
                    number,
                    text,
                    0,
                    "'" + Refusal.quote(parts[0]) + "' is no time from " + Limits.FIRST_DAY + " to " + Limits.LAST_DAY
                            + ".",
                    AT_RIGHT);
        }
        if (!pause.matches("[0-9]{1,9}") || Long.parseLong(pause) > MOST_SECONDS) {
            return new Line(
                    number,
                    text,
                    0,
                    "seconds: '" + Refusal.quote(pause) + "' is no whole number from 0 to "
                            + Limits.thousands(MOST_SECONDS) + ".",
                    AT_RIGHT);
        }
        step = Duration.ofSeconds(Long.parseLong(pause));
        clock = from.get();
        return new Line(number, text, 0, "", "");
    }

    private static Optional<Instant> moment(String text) {
        try {
            return Optional.of(Instant.parse(text)).filter(Limits::isMoment);
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }

    /// Begins a hunt.
    ///
    /// @param values fields of [HuntActions#HUNT], and the shorter words of a script
    Line start(int number, String text, String name, Map<String, String> values) {
        StringBuilder line = new StringBuilder(name.replace(';', ' '));
        values.forEach((key, value) -> {
            if (!value.isBlank()) {
                line.append("; ").append(key).append(' ').append(value.replace(';', ' '));
            }
        });
        return perform(number, text, Directive.read("@hunt", line.toString()).orElseThrow());
    }
}
