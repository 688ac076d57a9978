package org.rollwright.journal;

import static org.rollwright.text.Texts.t;

import java.lang.reflect.RecordComponent;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Mass;
import org.rollwright.coin.Refusal;

/// Refuses what is out of all proportion, before it is looked at any closer: every event, whichever page, command
/// or file it comes from, is walked through to its last part. A part that is added to the record tomorrow is
/// bounded as a name is until it is said here that it holds sentences.
///
/// Binds what is recorded. What an older record holds is read as it is, and undone and redone as it is.
public final class Bounds {
    /// Events of one step: a table of that many coins is a life's work.
    static final int MOST_PARTS = 100_000;

    /// Characters of one step in all its parts; a table of the size above with a hundred characters a row.
    static final int MOST_CHARACTERS = 10_000_000;

    /// Numbers that count something; sums of a million of them stay exact.
    static final long MOST_COUNTED = 1_000_000_000_000L;

    /// Whole numbers of one box, pile, order or picture; Checks knows more of some.
    static final int MOST_WHOLE = 100_000_000;

    /// Parts that hold sentences or rules; all others are names. A watch that is typed as a rule is called by it, and
    /// so is a hole by what fits into it.
    private static final Set<String> SENTENCES = Set.of(
            "answer",
            "caption",
            "cells",
            "details",
            "hole",
            "looked",
            "note",
            "policy",
            "provenance",
            "rule",
            "text",
            "watch");

    private static final ClassValue<RecordComponent[]> PARTS = new ClassValue<>() {
        @Override
        protected RecordComponent[] computeValue(Class<?> type) {
            return type.getRecordComponents();
        }
    };

    private long characters;

    private Bounds() {}

    /// Why an entry is out of proportion.
    public static Optional<Refusal> refuse(Instant at, String raw, Event event) {
        Bounds bounds = new Bounds();
        return Limits.text(where("raw"), raw, Limits.WORDS)
                .map(Bounds::refusal)
                .or(() -> Limits.moment(at).map(Bounds::refusal))
                .or(() -> bounds.value("", event, false))
                .or(bounds::sum);
    }

    private static Refusal refusal(Refusal flaw) {
        return new Refusal(flaw.wrong(), flaw.right());
    }

    private Optional<Refusal> sum() {
        return characters <= MOST_CHARACTERS
                ? Optional.empty()
                : Optional.of(new Refusal(
                        t("hunt.text-too-long"), t("hunt.record-less-at-once", Limits.thousands(MOST_CHARACTERS))));
    }

    private Optional<Refusal> value(String name, @Nullable Object value, boolean prose) {
        return switch (value) {
            case null -> Optional.empty();
            case String text -> text(name, text, prose || SENTENCES.contains(name));
            case LocalDate day -> Limits.day(day).map(Bounds::refusal);
            case Instant at -> Limits.moment(at).map(Bounds::refusal);
            case BigDecimal amount -> Limits.amount(amount).map(Bounds::refusal);
            case Double measured -> Limits.measured(measured).map(Bounds::refusal);
            case Mass mass -> Limits.measured(mass.grams()).map(Bounds::refusal);
            case Long number -> counted(number, MOST_COUNTED);
            case Collection<?> many -> many(name, many);
            case Map<?, ?> cells -> many("name", cells.keySet()).or(() -> many(name, cells.values()));
            case Identity identity ->
                // its year is bounded by itself
                text("kind", identity.kind(), false)
                        .or(() -> text("design", identity.design(), false))
                        .or(() -> text("denomination", identity.denomination().key(), false));
            case Word<?> word -> value(name, word.word(), prose);
            case Record record -> parts(record);
            case Integer number -> counted(number, MOST_WHOLE);
            // words of a fixed list, yes and no
            case Enum<?> word -> Optional.empty();
            case Boolean yes -> Optional.empty();
            default -> throw new IllegalStateException("no bound is known for a " + value.getClass());
        };
    }

    private Optional<Refusal> parts(Record record) {
        for (RecordComponent part : PARTS.get(record.getClass())) {
            Object value;
            try {
                value = part.getAccessor().invoke(record);
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException("a part of the record cannot be looked at: " + part, e);
            }
            Optional<Refusal> refusal = value(part.getName(), value, part.isAnnotationPresent(Prose.class));
            if (refusal.isPresent()) {
                return refusal;
            }
        }
        return Optional.empty();
    }

    private Optional<Refusal> many(String name, Collection<?> all) {
        if (all.size() > MOST_PARTS) {
            return Optional.of(new Refusal(
                    t("hunt.too-much-at-once", Limits.thousands(all.size())),
                    t("hunt.record-at-most", Limits.thousands(MOST_PARTS))));
        }
        int number = 0;
        for (Object one : all) {
            number++;
            Optional<Refusal> refusal = value(name, one, false);
            if (refusal.isPresent()) {
                int at = number;
                return one instanceof Event && all.size() > 1
                        ? refusal.map(why -> new Refusal(t("hunt.part-of", at, all.size(), why.wrong()), why.right()))
                        : refusal;
            }
        }
        return Optional.empty();
    }

    private Optional<Refusal> text(String name, String text, boolean sentences) {
        characters += text.length();
        return Limits.text(where(name), text, sentences ? Limits.WORDS : Limits.NAME)
                .map(Bounds::refusal);
    }

    private static Optional<Refusal> counted(long number, long most) {
        return number >= -most && number <= most
                ? Optional.empty()
                : Optional.of(new Refusal(
                        t("hunt.nobody-counts-to", number), t("hunt.number-up-to", Limits.thousands(most))));
    }

    /// What a part is called, as a sentence begins.
    private static String where(String part) {
        return switch (part) {
            case "raw" -> t("hunt.where-line");
            case "name" -> t("hunt.where-name");
            case "label" -> t("hunt.where-label");
            case "note" -> t("hunt.where-note");
            case "caption" -> t("hunt.where-caption");
            case "rule", "policy" -> t("hunt.where-rule");
            case "bank" -> t("hunt.where-bank");
            case "branch" -> t("hunt.where-branch");
            case "wrap" -> t("hunt.where-wrapping");
            case "stamp" -> t("hunt.where-stamp");
            case "sisters" -> t("hunt.where-sisters");
            case "from", "provenance" -> t("hunt.where-source");
            case "to", "where", "returnedTo" -> t("hunt.where-place");
            case "looked", "answer" -> t("hunt.where-answer");
            case "watch" -> t("hunt.where-watch");
            case "variety", "varieties" -> t("hunt.where-variety");
            default -> t("hunt.where-text");
        };
    }
}
