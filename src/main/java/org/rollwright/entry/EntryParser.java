package org.rollwright.entry;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Selection;
import org.rollwright.catalog.TradeWord;
import org.rollwright.catalog.WatchName;
import org.rollwright.coin.MassText;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Watch;

/// Reads an entry line. The grammar is written down for hunters in docs/guide/entry-line.md.
///
/// Thread-safe; never throws, whatever is typed.
public final class EntryParser {
    /// One find, or several behind each other: `f12`, `f2-f5`, `f2-5`.
    private static final Pattern FINDS = Pattern.compile("f([1-9][0-9]{0,6})(?:-f?([1-9][0-9]{0,6}))?");

    /// Finds that one line may name.
    private static final int MOST_AT_ONCE = 500;

    /// Lines longer than this are refused unread.
    public static final int MOST_CHARACTERS = org.rollwright.coin.Limits.WORDS;

    static final List<String> COMMAND_WORDS = List.of(
            "undo", "redo", "watch", "unwatch", "fix", "move", "split", "drop", "put", "skip", "note", "finish",
            "resume");

    /// Commands of free words.
    private static final Set<String> FREE = Set.of("note", "watch", "unwatch");

    private EntryParser() {}

    /// Reads a line against its context.
    public static Reading parse(String line, EntryContext context) {
        if (line.length() > MOST_CHARACTERS) {
            return new Reading.Problem(
                    MOST_CHARACTERS,
                    line.length() - MOST_CHARACTERS,
                    t("entry.line-too-long", MOST_CHARACTERS),
                    t("entry.enter-it-in-several-lines"));
        }
        String trimmed = line.strip();
        if (trimmed.startsWith("!")) {
            return new Reading.Clear(
                    List.of(new Command.Mark(trimmed.substring(1).strip())));
        }
        List<Command> commands = new ArrayList<>();
        List<List<Token>> segments = Token.segments(line);
        for (int i = 0; i < segments.size(); i++) {
            List<Token> segment = segments.get(i);
            if (segment.isEmpty()) {
                boolean trailing = i == segments.size() - 1;
                if (segments.size() > 1 && !trailing) {
                    int before = i == 0
                            ? 0
                            : line.indexOf(',', segments.get(i - 1).getLast().end()) + 1;
                    return new Reading.Problem(
                            line.indexOf(',', before), 1, t("entry.comma-alone"), t("entry.take-the-comma-away"));
                }
                continue;
            }
            boolean turns = turns(segment);
            @Nullable
            Reading stop = new Segment(context, line, turns ? withoutTurn(segment) : segment, commands).read();
            if (stop != null) {
                return stop;
            }
            if (turns) {
                commands.add(new Command.NextRoll());
            }
        }
        return commands.isEmpty() ? new Reading.Empty() : new Reading.Clear(commands);
    }

    /// Whether a part of a line ends with `+`: the next roll is opened after it. In free words it is a letter.
    private static boolean turns(List<Token> segment) {
        Token last = segment.getLast();
        return !last.quoted()
                && last.text().endsWith("+")
                && (segment.size() > 1 || last.text().length() > 1)
                && !FREE.contains(segment.getFirst().lower());
    }

    private static List<Token> withoutTurn(List<Token> segment) {
        Token last = segment.getLast();
        List<Token> before = new ArrayList<>(segment.subList(0, segment.size() - 1));
        if (last.text().length() > 1) {
            String text = last.text().substring(0, last.text().length() - 1);
            before.add(new Token(text, last.start(), last.end() - 1, false, ""));
        }
        return before;
    }

    /// One part of a line between commas.
    private record Segment(EntryContext context, String line, List<Token> tokens, List<Command> into) {

        /// Adds its commands; answers a reading only when the line cannot be taken as it is.
        @Nullable
        Reading read() {
            Token first = tokens.getFirst();
            List<Token> rest = tokens.subList(1, tokens.size());
            if (first.quoted()) {
                if (rest.isEmpty() && first.tag().isEmpty()) {
                    return note(first, first.text());
                }
                return find(tokens);
            }
            String word = first.lower();
            if (word.length() > 1 && (word.charAt(0) == '+' || word.charAt(0) == '=')) {
                into.add(new Command.NextRoll());
                List<Token> glued = new ArrayList<>(rest);
                glued.addFirst(new Token(first.text().substring(1), first.start() + 1, first.end(), false, ""));
                return new Segment(context, line, glued, into).read();
            }
            if (isNumbered(word, 'r')) {
                return roll(first, rest);
            }
            if (isNumbered(word, 'b')) {
                Optional<Integer> box = number(word.substring(1));
                return box.isEmpty() || box.get() < 1
                        ? first.problem(t("entry.box-wrong", first.text()), t("entry.boxes-from-one"))
                        : thenMaybeFind(new Command.GoToBox(box.get()), rest);
            }
            return switch (word) {
                case "+", "=" -> thenMaybeFind(new Command.NextRoll(), rest);
                case "<", "undo" -> alone(new Command.Undo(), rest);
                case ">", "redo" -> alone(new Command.Redo(), rest);
                case "finish" -> alone(new Command.Finish(), rest);
                case "resume" -> alone(new Command.Resume(), rest);
                case "-" -> checked(null, rest);
                case "e" -> enders(first, rest);
                case "w" -> weight(first, rest);
                case "note" -> note(first, text(rest));
                case "skip" -> skip(rest);
                case "watch" -> watch(first, rest);
                case "unwatch" ->
                    rest.size() == 1
                            ? add(new Command.StopWatching(watchName(rest.getFirst())))
                            : first.problem(t("entry.one-watch"), t("entry.write-for-example-unwatch-copper"));
                case "fix", "move", "split", "drop", "put" -> edit(word, first, rest);
                default ->
                    isFindNumber(word)
                                    && rest.size() >= 1
                                    && rest.getFirst().text().equals("-")
                            ? checkedFind(first, rest.subList(1, rest.size()))
                            : find(tokens);
            };
        }

        private @Nullable Reading add(Command command) {
            into.add(command);
            return null;
        }

        private @Nullable Reading alone(Command command, List<Token> rest) {
            return rest.isEmpty()
                    ? add(command)
                    : tooMuch(
                            rest.getFirst(),
                            t("entry.word-alone", tokens.getFirst().text()));
        }

        private static Reading tooMuch(Token token, String right) {
            return token.problem(t("entry.too-much", token.text()), right);
        }

        private @Nullable Reading thenMaybeFind(Command command, List<Token> rest) {
            into.add(command);
            return rest.isEmpty() ? null : new Segment(context, line, rest, into).read();
        }

        private @Nullable Reading find(List<Token> of) {
            return switch (new FindReader(context, line, of).read()) {
                case FindReader.Result.Draft draft -> add(new Command.Found(draft.draft()));
                case FindReader.Result.Other other -> other.reading();
            };
        }

        private static boolean isNumbered(String word, char letter) {
            return word.length() > 1
                    && word.charAt(0) == letter
                    && word.substring(1).chars().allMatch(c -> c >= '0' && c <= '9');
        }

        private static boolean isFindNumber(String word) {
            return isNumbered(word, 'f');
        }

        private static Optional<Integer> number(String digits) {
            boolean good =
                    !digits.isEmpty() && digits.length() < 8 && digits.chars().allMatch(c -> c >= '0' && c <= '9');
            return good ? Optional.of(Integer.parseInt(digits)) : Optional.empty();
        }

        private @Nullable Reading roll(Token first, List<Token> rest) {
            Optional<Integer> roll = number(first.text().substring(1));
            if (roll.isEmpty()) {
                return first.problem(t("entry.roll-wrong", first.text()), t("entry.roll-number-form"));
            }
            if (rest.size() == 1 && !rest.getFirst().quoted()) {
                // `r17 49` is a count, because a bare two-digit number behind a roll is far more often that than a
                // date.
                Optional<Integer> coins = number(rest.getFirst().text());
                if (coins.isPresent()) {
                    return add(new Command.GoToRoll(roll.get(), coins.get()));
                }
            }
            return thenMaybeFind(new Command.GoToRoll(roll.get(), null), rest);
        }

        private @Nullable Reading skip(List<Token> rest) {
            if (rest.isEmpty()) {
                return add(new Command.LeaveRoll(null));
            }
            Token roll = rest.getFirst();
            String word = roll.lower();
            Optional<Integer> number = isNumbered(word, 'r') ? number(word.substring(1)) : number(word);
            if (number.isEmpty()) {
                return roll.problem(t("entry.roll-wrong", roll.text()), t("entry.write-skip-or-skip-r17"));
            }
            return rest.size() == 1
                    ? add(new Command.LeaveRoll(number.get()))
                    : tooMuch(rest.get(1), t("entry.one-roll"));
        }

        private @Nullable Reading enders(Token first, List<Token> rest) {
            String joined = String.join("", rest.stream().map(Token::text).toList());
            String[] parts = joined.split("/", -1);
            Optional<Integer> matching = parts.length == 2 ? number(parts[0]) : Optional.empty();
            Optional<Integer> visible = parts.length == 2 ? number(parts[1]) : Optional.empty();
            return matching.isPresent() && visible.isPresent()
                    ? add(new Command.SawEnders(matching.get(), visible.get()))
                    : first.problem(t("entry.the-enders-are-not-clear"), t("entry.enders-form"));
        }

        private @Nullable Reading weight(Token first, List<Token> rest) {
            List<String> words = new ArrayList<>();
            List<String> what = new ArrayList<>();
            for (Token token : rest) {
                (token.quoted() ? what : words).add(token.text());
            }
            String mass = String.join("", words);
            // scales of a bench show grams; other units are said
            return switch (MassText.read(mass.matches("[0-9]+([.][0-9]+)?") ? mass + "g" : mass)) {
                case MassText.Result.Good good -> add(new Command.Weigh(good.mass(), String.join(" ", what)));
                case MassText.Result.Bad bad ->
                    (rest.isEmpty() ? first : rest.getFirst())
                            .problem(bad.flaw().wrong(), bad.flaw().right());
            };
        }

        private @Nullable Reading checkedFind(Token first, List<Token> rest) {
            Optional<Integer> find = number(first.text().substring(1));
            return find.isPresent()
                    ? checked(find.get(), rest)
                    : first.problem(t("entry.find-wrong", first.text()), t("entry.find-number-form"));
        }

        private @Nullable Reading checked(@Nullable Integer find, List<Token> rest) {
            List<String> varieties = new ArrayList<>();
            for (Token token : rest) {
                Optional<TradeWord> word = context.catalog().tradeWord(token.lower());
                if (token.quoted()) {
                    varieties.add(token.text());
                } else if (word.isPresent() && word.get().role() == TradeWord.Role.VARIETY) {
                    varieties.add(word.get().canonical());
                } else {
                    return token.problem(t("entry.variety-wrong", token.text()), t("entry.none-form"));
                }
            }
            return add(new Command.Checked(find, varieties));
        }

        private @Nullable Reading watch(Token first, List<Token> rest) {
            if (rest.isEmpty()) {
                return first.problem(t("entry.watch-missing"), t("entry.watch-form"));
            }
            for (Token token : rest) {
                Optional<WatchName> named = context.catalog().watchByWord(token.lower());
                if (!token.quoted() && named.isPresent()) {
                    into.add(new Command.WatchFor(
                            new Watch(named.get().name(), named.get().rule())));
                    continue;
                }
                if (!token.quoted()) {
                    return unknownWatch(token);
                }
                switch (Selection.parse(token.text())) {
                    case Selection.Parsed.Good good ->
                        into.add(new Command.WatchFor(new Watch(token.text(), token.text())));
                    case Selection.Parsed.Bad bad -> {
                        return token.problem(bad.wrong(), bad.right());
                    }
                }
            }
            return null;
        }

        private Reading unknownWatch(Token token) {
            List<String> known = context.catalog().watches().stream()
                    .flatMap(watch -> java.util.stream.Stream.concat(
                            java.util.stream.Stream.of(watch.name()), watch.words().stream()))
                    .toList();
            String right = Nearest.to(token.lower(), known)
                    .map(near -> t("entry.did-you-mean", near))
                    .orElse(t("entry.watch-name-form"));
            return token.problem(t("entry.watch-unknown", token.text()), right);
        }

        private String watchName(Token token) {
            return context.catalog()
                    .watchByWord(token.lower())
                    .map(WatchName::name)
                    .orElse(token.text());
        }

        private static String text(List<Token> rest) {
            return String.join(" ", rest.stream().map(Token::text).toList());
        }

        private @Nullable Reading note(Token at, String text) {
            return text.isBlank()
                    ? at.problem(t("entry.the-note-is-empty"), t("entry.note-form"))
                    : add(new Command.Note(text));
        }

        private @Nullable Reading edit(String word, Token first, List<Token> rest) {
            if (word.equals("put") && !rest.isEmpty() && rest.getFirst().lower().equals("all")) {
                return fate(first, rest.subList(1, rest.size()), Command.PutRest::new);
            }
            List<Integer> finds = new ArrayList<>();
            int named = 0;
            while (named < rest.size()) {
                List<Integer> span = finds(rest.get(named).lower());
                if (span.isEmpty()) {
                    break;
                }
                finds.addAll(span);
                named++;
            }
            if (finds.isEmpty()
                    && !rest.isEmpty()
                    && FINDS.matcher(rest.getFirst().lower()).matches()) {
                return rest.getFirst()
                        .problem(t("entry.no-span", rest.getFirst().text()), t("entry.span-form", MOST_AT_ONCE));
            }
            if (finds.size() > MOST_AT_ONCE) {
                return first.problem(t("entry.too-many-finds", finds.size()), t("entry.span-form", MOST_AT_ONCE));
            }
            if (finds.isEmpty()) {
                return (rest.isEmpty() ? first : rest.getFirst())
                        .problem(t("entry.find-number-missing"), t("entry.name-by-number", word));
            }
            List<Token> args = rest.subList(named, rest.size());
            boolean several = finds.size() > 1 && !word.equals("fix") && !word.equals("split");
            for (int find : several ? finds : finds.subList(0, 1)) {
                @Nullable
                Reading problem = finds.size() > 1 && !several
                        ? rest.get(1).problem(t("entry.one-find-alone", word), t("entry.name-by-number", word))
                        : edit(word, first, find, args);
                if (problem != null) {
                    return problem;
                }
            }
            return null;
        }

        /// The finds that `f12` or `f2-f5` means; none when it means no find, or more than a hunt's page shows.
        private static List<Integer> finds(String word) {
            Matcher span = FINDS.matcher(word);
            if (!span.matches()) {
                return List.of();
            }
            int from = Integer.parseInt(span.group(1));
            int to = span.group(2) == null ? from : Integer.parseInt(span.group(2));
            return from > to || to - from >= MOST_AT_ONCE
                    ? List.of()
                    : IntStream.rangeClosed(from, to).boxed().toList();
        }

        private @Nullable Reading edit(String word, Token first, int find, List<Token> args) {
            return switch (word) {
                case "fix" -> fix(first, find, args);
                case "move" -> move(first, find, args);
                case "split" -> {
                    Optional<Integer> coins =
                            args.size() == 1 ? number(args.getFirst().text()) : Optional.empty();
                    yield coins.isPresent()
                            ? add(new Command.Split(find, coins.get()))
                            : first.problem(t("entry.count-missing"), t("entry.split-form"));
                }
                case "drop" ->
                    args.isEmpty() ? add(new Command.Drop(find)) : tooMuch(args.getFirst(), t("entry.write-drop-f12"));
                default -> fate(first, args, fate -> new Command.Put(find, fate));
            };
        }

        private @Nullable Reading fix(Token first, int find, List<Token> args) {
            if (args.isEmpty()) {
                return first.problem(t("entry.find-missing"), t("entry.write-fix-f12-39s-vf20"));
            }
            return switch (new FindReader(context, line, args).read()) {
                case FindReader.Result.Draft draft -> add(new Command.Fix(find, draft.draft()));
                case FindReader.Result.Other other -> other.reading();
            };
        }

        private @Nullable Reading move(Token first, int find, List<Token> args) {
            @Nullable Integer box = null;
            @Nullable Integer roll = null;
            for (Token token : args) {
                String word = token.lower();
                Optional<Integer> place = word.isEmpty() ? Optional.empty() : number(word.substring(1));
                if (isNumbered(word, 'r') && place.isPresent()) {
                    roll = place.get();
                } else if (isNumbered(word, 'b') && place.isPresent() && place.get() > 0) {
                    box = place.get();
                } else {
                    return token.problem(t("entry.place-wrong", token.text()), t("entry.move-form"));
                }
            }
            return roll == null && box == null
                    ? first.problem(t("entry.target-missing"), t("entry.move-form"))
                    : add(new Command.Move(find, box, roll == null ? 0 : roll));
        }

        private @Nullable Reading fate(Token first, List<Token> args, Function<Disposition, Command> command) {
            Optional<TradeWord> word = args.size() == 1
                    ? context.catalog().tradeWord(args.getFirst().lower())
                    : Optional.empty();
            if (word.isEmpty() || word.get().role() != TradeWord.Role.DISPOSITION) {
                return first.problem(t("entry.fate-missing"), t("entry.put-form"));
            }
            return add(command.apply(Disposition.valueOf(word.get().canonical().toUpperCase(java.util.Locale.ROOT))));
        }
    }
}
