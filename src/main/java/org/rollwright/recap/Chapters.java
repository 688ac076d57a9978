package org.rollwright.recap;

import static org.rollwright.text.Texts.t;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Rarity;
import org.rollwright.coin.Metal;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.Roll;

/// Chapters of a recording from the log's times.
///
/// Sites that host recordings ask for a first chapter at 0:00, at least three of them, each ten seconds long or
/// more (common practice); these rules are kept.
///
/// @param chapters in order of time
/// @param dropped entries that lie before the recording began or too close to another
public record Chapters(List<Chapter> chapters, int dropped) {
    /// One chapter.
    ///
    /// @param at from the start of the recording, 0 or more
    public record Chapter(Duration at, String title) {}

    /// What came of it.
    public sealed interface Result {
        record Made(Chapters chapters) implements Result {}

        record Refused(Refusal flaw) implements Result {}
    }

    /// Shortest chapter.
    public static final Duration LEAST = Duration.ofSeconds(10);

    /// No recording is longer; a hunt that went on another day is another recording.
    private static final Duration LONGEST = Duration.ofHours(12);

    private static final int LEAST_COUNT = 3;
    private static final int LONGEST_TITLE = 80;

    private record Moment(Instant at, String title, int weight) {}

    public Chapters {
        chapters = List.copyOf(chapters);
    }

    /// @param firstAt where the first moment of the log (the first roll opened, or the first find) is heard in
    ///     the recording; may not be negative
    /// @param end length of the recording, null when not known
    public static Result of(
            HuntBook book,
            Hunt hunt,
            Catalog catalog,
            Duration firstAt,
            @org.jspecify.annotations.Nullable Duration end) {
        if (firstAt.isNegative()) {
            return new Result.Refused(new Refusal(t("recap.before-recording"), t("recap.first-roll-form")));
        }
        List<Moment> moments = moments(book, hunt, catalog);
        if (moments.isEmpty()) {
            return new Result.Refused(new Refusal(t("recap.no-times"), t("recap.log-first")));
        }
        Instant zero = moments.getFirst().at.minus(firstAt);
        List<Moment> byWeight = new ArrayList<>(moments);
        byWeight.sort(Comparator.comparingInt(Moment::weight).reversed().thenComparing(Moment::at));
        List<Chapter> kept = new ArrayList<>();
        kept.add(new Chapter(Duration.ZERO, t("recap.start")));
        int dropped = 0;
        for (Moment moment : byWeight) {
            Duration at = Duration.ofSeconds(Duration.between(zero, moment.at).toSeconds());
            boolean tooLate = at.plus(LEAST).compareTo(end == null ? LONGEST : end) > 0;
            boolean tooClose =
                    kept.stream().anyMatch(other -> other.at.minus(at).abs().compareTo(LEAST) < 0);
            if (tooLate || tooClose) {
                dropped++;
            } else {
                kept.add(new Chapter(at, shortened(moment.title)));
            }
        }
        kept.sort(Comparator.comparing(Chapter::at));
        if (kept.size() < LEAST_COUNT) {
            return new Result.Refused(new Refusal(t("recap.too-few-chapters", kept.size()), t("recap.mark-moments")));
        }
        return new Result.Made(new Chapters(kept, dropped));
    }

    private static List<Moment> moments(HuntBook book, Hunt hunt, Catalog catalog) {
        List<Moment> moments = new ArrayList<>();
        boolean many = hunt.boxes().size() > 1;
        for (BoxId id : hunt.boxes()) {
            Box box = book.box(id).orElseThrow();
            for (Roll roll : box.rolls()) {
                Instant opened = roll.opened();
                if (opened != null) {
                    moments.add(new Moment(
                            opened,
                            many
                                    ? t("recap.box-and-roll", box.details().label(), roll.number())
                                    : t("recap.roll", roll.number()),
                            1));
                }
            }
        }
        hunt.finds().stream()
                .map(book::find)
                .flatMap(Optional::stream)
                .forEach(find -> moments.add(new Moment(
                        find.at(),
                        (find.count() > 1 ? find.count() + " × " : "")
                                + catalog.name(
                                        find.facts().identity(),
                                        find.facts().identity().denomination()),
                        weight(find, catalog))));
        hunt.marks().forEach(mark -> moments.add(new Moment(mark.at(), mark.text(), 9)));
        moments.sort(Comparator.comparing(Moment::at));
        return moments;
    }

    /// What is worth a chapter most: marks, then key dates, old coins, silver and varieties, then rolls, then other
    /// finds.
    static int weight(Find find, Catalog catalog) {
        int weight = 0;
        List<Issue> issues = catalog.lookup(find.facts().identity());
        for (Issue issue : issues) {
            weight = Math.max(
                    weight,
                    issue.rarity() == Rarity.KEY
                            ? 8
                            : issue.rarity() == Rarity.SEMI_KEY ? 7 : issue.rarity() == Rarity.SCARCE ? 5 : 0);
        }
        Integer year = find.facts().identity().year();
        if (!issues.isEmpty() && issues.stream().allMatch(issue -> issue.alloy().metal() == Metal.SILVER)) {
            weight = Math.max(weight, 4);
        }
        if (year != null && year < 1934) {
            weight = Math.max(weight, 4);
        }
        if (!find.facts().varieties().isEmpty() || !find.facts().errors().isEmpty()) {
            weight = Math.max(weight, 4);
        }
        return weight;
    }

    private static String shortened(String title) {
        String plain = title.strip().replaceAll("\\s+", " ");
        return plain.length() <= LONGEST_TITLE
                ? plain
                : plain.substring(0, LONGEST_TITLE - 1).strip() + "…";
    }

    /// `1:02:03` or `4:05`.
    public static String time(Duration at) {
        return at.toHours() > 0
                ? String.format(Locale.ROOT, "%d:%02d:%02d", at.toHours(), at.toMinutesPart(), at.toSecondsPart())
                : String.format(Locale.ROOT, "%d:%02d", at.toMinutes(), at.toSecondsPart());
    }

    /// Reads `1:35`, `1:02:03` or seconds.
    public static Optional<Duration> parse(String text) {
        String time = text.strip();
        boolean before = time.startsWith("-");
        String[] parts = (before ? time.substring(1) : time).split(":");
        if (parts.length > 3 || time.isEmpty()) {
            return Optional.empty();
        }
        long seconds = 0;
        for (String part : parts) {
            if (!part.matches("[0-9]{1,6}")) {
                return Optional.empty();
            }
            seconds = seconds * 60 + Long.parseLong(part);
        }
        return Optional.of(Duration.ofSeconds(before ? -seconds : seconds));
    }

    /// Where a recording's beginning lies in time.
    public sealed interface Began {
        record At(Instant at) implements Began {}

        record Refused(Refusal flaw) implements Began {}
    }

    /// Reads when a recording began, by the clock on the wall.
    ///
    /// A wall clock skips an hour in spring and shows one twice in autumn: a time that never was is refused; of
    /// two the later is taken unless the log began before it.
    ///
    /// @param local as 2026-03-01 19:02 or with seconds
    /// @param zone name of a time zone such as America/Chicago
    /// @param first moment of the log
    public static Began began(String local, String zone, Instant first) {
        ZoneId place;
        try {
            place = ZoneId.of(zone.strip());
        } catch (DateTimeException e) {
            return new Began.Refused(new Refusal(t("recap.zone-unknown", zone.strip()), t("recap.zone-form")));
        }
        LocalDateTime time;
        try {
            time = LocalDateTime.parse(local.strip().replace(' ', 'T'));
        } catch (DateTimeException e) {
            return new Began.Refused(new Refusal(t("recap.moment-wrong", local.strip()), t("recap.moment-form")));
        }
        List<ZoneOffset> offsets = place.getRules().getValidOffsets(time);
        if (offsets.isEmpty()) {
            ZoneOffsetTransition gap = place.getRules().getTransition(time);
            return new Began.Refused(new Refusal(
                    t(
                            "recap.hour-skipped",
                            time.toLocalTime(),
                            time.toLocalDate(),
                            place,
                            gap.getDateTimeBefore().toLocalTime(),
                            gap.getDateTimeAfter().toLocalTime()),
                    t("recap.real-time")));
        }
        List<Instant> instants = offsets.stream().map(time::toInstant).sorted().toList();
        return new Began.At(instants.reversed().stream()
                .filter(instant -> !instant.isAfter(first))
                .findFirst()
                .orElse(instants.getFirst()));
    }

    /// The first moment of a hunt's log; empty when nothing in it has a time.
    public static Optional<Instant> firstMoment(HuntBook book, Hunt hunt, Catalog catalog) {
        return moments(book, hunt, catalog).stream().map(Moment::at).findFirst();
    }

    /// One line a chapter, to paste under a recording.
    public String text() {
        StringBuilder text = new StringBuilder();
        chapters.forEach(chapter ->
                text.append(time(chapter.at)).append(' ').append(chapter.title).append('\n'));
        return text.toString();
    }

    /// A WebVTT file of kind chapters (W3C WebVTT: each cue lasts until the next begins).
    ///
    /// @param end length of the recording; the last chapter lasts a minute when it is null
    public String webVtt(@org.jspecify.annotations.Nullable Duration end) {
        StringBuilder text = new StringBuilder("WEBVTT\n");
        for (int i = 0; i < chapters.size(); i++) {
            Chapter chapter = chapters.get(i);
            Duration until = i + 1 < chapters.size()
                    ? chapters.get(i + 1).at
                    : end != null && end.compareTo(chapter.at) > 0 ? end : chapter.at.plusSeconds(60);
            // a cue's text may hold no arrow, and & and < open something in it
            String title =
                    chapter.title.replace("-->", "→").replace("&", "&amp;").replace("<", "&lt;");
            text.append('\n')
                    .append(i + 1)
                    .append('\n')
                    .append(stamp(chapter.at))
                    .append(" --> ")
                    .append(stamp(until))
                    .append('\n')
                    .append(title)
                    .append('\n');
        }
        return text.toString();
    }

    private static String stamp(Duration at) {
        return String.format(Locale.ROOT, "%02d:%02d:%02d.000", at.toHours(), at.toMinutesPart(), at.toSecondsPart());
    }
}
