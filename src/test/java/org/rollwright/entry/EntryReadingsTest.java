package org.rollwright.entry;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Strike;
import org.rollwright.hunt.Disposition;

/// Lines, and what they mean, what is said of them or what is wrong with them, in a table that a hunter can
/// read: `entry/readings.txt`. Every answer in it was read and judged by hand, against docs/guide/entry-line.md
/// and the mintage tables; what the code says now is written to `target/readings.txt` when it differs.
class EntryReadingsTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();

    @Test
    void lines_mean_what_the_table_says() throws IOException {
        String expected = resource();
        String actual = answered(expected);
        if (!actual.equals(expected)) {
            Files.writeString(Path.of("target", "readings.txt"), actual);
        }
        List<String> said = actual.lines().toList();
        List<String> meant = expected.lines().toList();
        for (int i = 0; i < Math.max(said.size(), meant.size()); i++) {
            String line = i < said.size() ? said.get(i) : "";
            assertThat(line).as("line %d of the table", i + 1).isEqualTo(i < meant.size() ? meant.get(i) : "");
        }
    }

    private static String resource() {
        try (var in = EntryReadingsTest.class.getResourceAsStream("/entry/readings.txt")) {
            return new String(java.util.Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /// The table with its answers made anew: `@ box: watches` sets the context, `# …` is a remark, a line that
    /// is not indented is typed, indented ones are the answers.
    private static String answered(String table) {
        EntryContext context = EntryLineTest.watching("cent", "wheat");
        StringBuilder out = new StringBuilder();
        for (String line : table.lines().toList()) {
            if (line.startsWith("  ")) {
                continue;
            }
            out.append(line).append('\n');
            if (line.startsWith("@ ")) {
                String[] parts = line.substring(2).split(":", -1);
                context = EntryLineTest.watching(
                        parts[0].strip(),
                        parts[1].isBlank() ? new String[0] : parts[1].strip().split(" "));
            } else if (!line.isBlank() && !line.startsWith("#")) {
                for (String answer : answers(line, context)) {
                    out.append("  ").append(answer).append('\n');
                }
            }
        }
        return out.toString();
    }

    private static List<String> answers(String line, EntryContext context) {
        return switch (EntryParser.parse(line, context)) {
            case Reading.Empty empty -> List.of("nothing");
            case Reading.Problem problem -> {
                int end = problem.position() + problem.length();
                yield List.of(
                        "no: " + problem.wrong() + " | " + problem.right(),
                        "at " + problem.position() + ": «" + line.substring(problem.position(), end) + "»");
            }
            case Reading.Choose choose -> {
                List<String> lines = new ArrayList<>();
                lines.add("which? " + choose.question() + " at " + choose.position());
                choose.options().forEach(option -> lines.add(option.label() + " -> " + option.line()));
                yield lines;
            }
            case Reading.Clear clear -> {
                List<String> lines = new ArrayList<>();
                for (Command command : clear.commands()) {
                    lines.add(told(command));
                    lines.add("= " + Sentence.of(command, CATALOG, context.denomination()));
                    if (command instanceof Command.Found found) {
                        lines.add("> " + FindText.print(found.draft(), CATALOG, context.denomination()));
                    }
                }
                yield lines;
            }
        };
    }

    private static String told(Command command) {
        return switch (command) {
            case Command.Found found -> told(found.draft());
            case Command.Fix fix -> "Fix f" + fix.find() + " " + told(fix.draft());
            default -> command.toString();
        };
    }

    /// All that differs from a plain coin with nothing said of it.
    private static String told(Command.FindDraft draft) {
        CoinDescription facts = draft.facts();
        Identity identity = facts.identity();
        Mint mint = identity.mint();
        List<String> words = new ArrayList<>();
        words.add(draft.count() + " ×");
        words.add(identity.denomination().country().code() + "/"
                + identity.denomination().key());
        words.add(identity.year() == null ? "no-year" : identity.year().toString());
        words.add(mint == null ? "mint?" : mint.equals(Mint.NONE) ? "no-mint" : mint.code());
        optional(words, "kind", identity.kind());
        optional(words, "design", identity.design());
        if (facts.strike() != Strike.BUSINESS) {
            words.add(facts.strike().name().toLowerCase(Locale.ROOT));
        }
        if (facts.grade() != null) {
            words.add(facts.grade().toString());
        }
        if (facts.colour() != null) {
            words.add(facts.colour().name());
        }
        optional(words, "details", facts.details() == null ? "" : facts.details());
        optional(words, "varieties", quoted(facts.varieties()));
        optional(words, "errors", quoted(facts.errors()));
        optional(words, "photos", quoted(facts.photos()));
        optional(words, "note", facts.note());
        if (draft.ender()) {
            words.add("ender");
        }
        if (draft.disposition() != Disposition.OPEN) {
            words.add(draft.disposition().name().toLowerCase(Locale.ROOT));
        }
        return String.join(" ", words);
    }

    private static void optional(List<String> words, String name, String value) {
        if (!value.isEmpty()) {
            words.add(name + "[" + value + "]");
        }
    }

    private static String quoted(List<String> texts) {
        return texts.stream().collect(Collectors.joining("; "));
    }
}
