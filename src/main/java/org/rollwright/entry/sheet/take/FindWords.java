package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/// Counts of what was found in a box: from columns of their own and from words such as `1 merc, 2 W`.
final class FindWords {
    private static final Pattern NUMBER = Pattern.compile("[0-9]{1,7}(?:[.,]0+)?");
    private static final Pattern ABOUT = Pattern.compile(
            "(?:~|±|ca?\\.?|about|abt\\.?|approx\\.?|around|est\\.?|env\\.?|circa|roughly|almost|maybe)\\s*([0-9][0-9,.]*)");
    private static final Pattern MORE = Pattern.compile("([0-9][0-9,.]*)\\s*(?:\\+|ish|or so|-ish|plus|\\?)");
    private static final Pattern PART = Pattern.compile("([0-9][0-9,.]*)\\s*(.*)");
    private static final Pattern COUNTED = Pattern.compile(
            "(~?[0-9]{1,6}\\+?|an?|one|two|three|four|five|six)\\s*(?:x|×|of|pcs?|pieces?)?\\b\\.?\\s*(.*)");
    private static final Map<String, String> NAMED =
            Map.of("a", "1", "an", "1", "one", "1", "two", "2", "three", "3", "four", "4", "five", "5", "six", "6");

    private final Lexicon words;
    private final Draft draft;
    private final String name;
    private final Map<String, String> counts = new LinkedHashMap<>();
    private final List<String> fromWords = new ArrayList<>();

    FindWords(Lexicon words, Draft draft, String name) {
        this.words = words;
        this.draft = draft;
        this.name = name;
    }

    Map<String, String> counts() {
        return counts;
    }

    /// Kinds that were told in words, not in a column of their own.
    List<String> fromWords() {
        return fromWords;
    }

    String text() {
        return String.join(
                ";",
                counts.entrySet().stream()
                        .map(count -> count.getKey() + ":" + count.getValue())
                        .toList());
    }

    private void put(String kind, String count) {
        counts.merge(
                kind,
                count,
                (old, more) -> old.matches("[0-9]+") && more.matches("[0-9]+")
                        ? Long.toString(Long.parseLong(old) + Long.parseLong(more))
                        : more);
    }

    /// A cell of a column that counts one kind.
    void column(String kind, Grid.Cell cell) {
        String text = Words.plain(cell.text()).strip();
        if (text.isEmpty()) {
            if (cell.isOpen()) {
                draft.ask("finds", t("take.ask-formula", name, kind, cell.formula()));
            }
            return;
        }
        if (text.matches("[0-9]{1,4}[.,](?!0+$)[0-9]{1,2}|[0-9]{1,4}[.,][0-9]{4,}")) {
            draft.ask("finds", t("take.ask-count-unclear", name, kind, cell.text()));
            put(kind, "?");
            return;
        }
        String whole = text.replaceAll("[.,]0+$", "").replace(",", "");
        if (kind.equals("W mint")
                && draft.get("denomination").equals("1 cent")
                && text.matches("~?[0-9]+.*")
                && !whole.matches("0+")) {
            // among cents a W is a wheat; who counts letters of mints there has to say so
            draft.ask("finds", t("take.ask-w-or-wheat", name, cell.text()));
        }
        if (NUMBER.matcher(whole).matches()) {
            put(kind, Long.toString(Long.parseLong(whole)));
            if (kind.contains(" or ") && !whole.matches("0+")) {
                draft.ask("finds", t("take.ask-either", name, whole, kind));
            }
            return;
        }
        Matcher about = ABOUT.matcher(text);
        Matcher more = MORE.matcher(text);
        if (about.matches() || more.matches()) {
            String digits = (about.matches() ? about.group(1) : more.group(1)).replaceAll("[.,]", "");
            put(kind, "~" + digits);
            return;
        }
        if (text.matches("[?]+")
                || words.exact("many", text.replaceAll("[!.?]+$", "")).isPresent()) {
            put(kind, "?");
            draft.ask("finds", t("take.ask-how-many-finds", name, kind, cell.text()));
            return;
        }
        if (text.equals("o")) {
            put(kind, "0");
            draft.ask("finds", t("take.ask-letter-o", name, kind));
            return;
        }
        boolean dash = text.matches("[-.]+|/|n/?a");
        if (dash || words.exact("nothing", text.replaceAll("[!.]+$", "")).isPresent()) {
            if (dash && !applies(kind, draft.get("denomination"))) {
                return;
            }
            put(kind, "0");
            draft.inferred.add("finds");
            return;
        }
        Matcher part = PART.matcher(text);
        if (part.matches() && part.group(1).replaceAll("[.,]", "").length() <= 7) {
            behind(
                    kind,
                    Long.parseLong(part.group(1).replaceAll("[.,]", "")),
                    part.group(2).strip(),
                    cell.text());
            return;
        }
        Matcher afterwards = Pattern.compile("(.{2,30}?)[ :=x-]+([0-9]{1,6})").matcher(text);
        if (afterwards.matches()
                && words.exact("kind", afterwards.group(1))
                        .or(() -> words.exact("find", afterwards.group(1)))
                        .isPresent()) {
            put(kind, afterwards.group(2));
            return;
        }
        put(kind, "?");
        draft.ask("finds", t("take.ask-count-unclear", name, kind, cell.text()));
    }

    /// The denomination a kind is of and no other, blank when it is of several.
    static String home(String kind) {
        return switch (kind) {
            case "wheat", "Indian head", "copper", "zinc", "memorial", "flying eagle" -> "1 cent";
            case "war nickel", "buffalo", "Liberty head (V)", "buffalo or V", "before 1960", "Jefferson" -> "5 cents";
            case "Mercury", "Roosevelt" -> "10 cents";
            case "W mint", "standing Liberty", "Washington", "state" -> "25 cents";
            case "walking Liberty", "Franklin", "Kennedy" -> "50 cents";
            case "Ike dollar", "Susan B. Anthony", "Sacagawea", "presidential", "Morgan", "Peace" -> "1 dollar";
            default -> "";
        };
    }

    /// Whether a kind can be among coins of a denomination, as far as that is plain.
    private static boolean applies(String kind, String denomination) {
        return switch (kind) {
            case "wheat", "Indian head", "copper", "steel", "zinc" -> denomination.equals("1 cent");
            case "war nickel", "buffalo", "Liberty head (V)", "buffalo or V", "before 1960" ->
                denomination.equals("5 cents");
            case "40% silver" -> denomination.equals("50 cents") || denomination.equals("1 dollar");
            case "silver", "90% silver" -> !denomination.equals("1 cent") && !denomination.equals("5 cents");
            case "Mercury", "Roosevelt" -> denomination.equals("10 cents");
            case "W mint" -> denomination.equals("25 cents");
            case "Ike dollar", "Susan B. Anthony", "Sacagawea" -> denomination.equals("1 dollar");
            default -> true;
        };
    }

    /// What stands behind a count in a column: `(incl merc)`, `+ 1 Bermuda`, `(1964)`, `buf`.
    private void behind(String kind, long count, String rest, String whole) {
        String inner = rest.replaceAll("[()\\[\\]]", " ").strip();
        if (inner.matches("[/+&] *[0-9]{1,5}")) {
            // two counts in one cell of which nothing here tells them apart
            put(kind, "?");
            draft.ask("finds", t("take.ask-count-unclear", name, kind, whole));
            return;
        }
        if (inner.matches("(40|90|80|35) ?%?s?") && kind.equals("silver")) {
            put(inner.substring(0, 2) + "% silver", Long.toString(count));
            return;
        }
        Matcher plus =
                Pattern.compile("(?:\\+|&|and|plus)\\s*([0-9]{1,4})\\s*(.*)").matcher(inner);
        if (inner.matches("(incl|including|inkl|incl\\.|of which|1 of them|with).*")) {
            for (Lexicon.Hit hit : words.find(inner, "kind", "find")) {
                put(hit.means(), "1");
                put(
                        kind.equals("silver") ? "silver (other)" : kind + " (other)",
                        Long.toString(Math.max(0, count - 1)));
                fromWords.add("incl " + hit.means());
                return;
            }
        }
        if (plus.matches()) {
            put(kind, Long.toString(count));
            Optional<String> other = kindIn(plus.group(2));
            put(other.orElse(plus.group(2).strip()), plus.group(1));
            return;
        }
        if (inner.matches("(1[89]|20)[0-9]{2}") && count >= 1 && kind.contains("silver")) {
            put(kind + " " + inner, Long.toString(count));
            return;
        }
        if (inner.matches("(coins?|pcs?|pieces?|st|stuks?|stuck|!+|x)?\\.?") || inner.matches("['0-9, dspow&/-]+")) {
            put(kind, Long.toString(count));
            return;
        }
        Optional<String> other = kindIn(inner);
        if (other.isPresent()) {
            boolean same = other.get().equals(kind) || (kind.contains(other.get()) && !kind.contains(" or "));
            put(same ? kind : other.get(), Long.toString(count));
            return;
        }
        put(kind, Long.toString(count));
        draft.leftOut.add(t("take.left-words", whole));
    }

    private Optional<String> kindIn(String text) {
        List<String> hits = new ArrayList<>(words.find(text, "kind", "find").stream()
                .map(Lexicon.Hit::means)
                .toList());
        if (hits.isEmpty()) {
            return Optional.empty();
        }
        String last = hits.getLast();
        if (hits.size() > 1 && (last.equals("dime") || last.equals("cent"))) {
            // a silver dime among dimes is silver, and among cents a silver dime
            String own = last.equals("dime") ? "10 cents" : "1 cent";
            String before = hits.get(hits.size() - 2);
            return Optional.of(draft.get("denomination").equals(own) ? before : before + " " + last);
        }
        return Optional.of(last);
    }

    /// A cell that tells finds in words.
    void told(String text) {
        String plain = Words.plain(text).strip();
        if (plain.isEmpty()
                || plain.matches("0|[-]+")
                || words.exact("nothing", plain.replaceAll("[!.]+$", "")).isPresent()) {
            return;
        }
        if (plain.matches("[?]+|[?]+ .*") && !plain.matches(".*[0-9].*")) {
            draft.ask("finds", t("take.ask-what-found", name, text));
            return;
        }
        String outside = text.replaceAll("\\([^)]*\\)", " ");
        boolean doubt = text.contains("?");
        List<String> parts = new ArrayList<>();
        for (String part : outside.split("[,;\\n/]| \\+ | & | and | und | et | en | y | plus ", -1)) {
            if (!part.isBlank()) {
                parts.add(part.strip());
            }
        }
        for (String part : parts) {
            part(part, text, doubt);
        }
    }

    private void part(String part, String whole, boolean doubt) {
        String plain = Words.plain(part).strip();
        List<Lexicon.Hit> vague = words.find(plain, "many");
        if (!vague.isEmpty() && vague.getFirst().first() == 0) {
            Optional<String> of = kindIn(plain.substring(vague.getFirst().to()));
            if (of.isPresent()) {
                put(of.get(), "?");
                draft.ask("finds", t("take.ask-how-many-finds", name, of.get(), part));
                return;
            }
        }
        List<Lexicon.Hit> first = words.find(plain, "kind", "find");
        if (!first.isEmpty() && first.getFirst().first() == 0) {
            Matcher count = Pattern.compile("\\s*[:=x-]?\\s*(~?[0-9]{1,6})\\s*(?:pcs?|x|st|coins?)?")
                    .matcher(plain.substring(first.getFirst().to()));
            if (count.matches()) {
                put(first.getFirst().means(), count.group(1));
                fromWords.add(first.getFirst().means());
                return;
            }
        }
        Matcher dated = Pattern.compile("((?:1[789]|20)[0-9]{2})[- ]?([dspo]|cc|w)?(?![a-z0-9])\\s*(.*)")
                .matcher(plain);
        if (dated.matches()) {
            String mint = dated.group(2) == null ? "" : "-" + dated.group(2).toUpperCase(Locale.ROOT);
            boolean doubled =
                    Words.plain(whole).contains("doubl") || Words.plain(whole).contains("ddo");
            Optional<String> of = variety(dated.group(3)).or(() -> kindIn(dated.group(3)));
            Optional<String> series = words.find(dated.group(3), "kind").stream()
                    .map(Lexicon.Hit::means)
                    .findFirst();
            if (series.isPresent() && !doubled && variety(dated.group(3)).isEmpty()) {
                put(series.get(), "1");
                fromWords.add(series.get());
                return;
            }
            if (of.isPresent() && of.get().equals("steel")) {
                put("steel", "1");
                return;
            }
            String kind = dated.group(1)
                    + mint
                    + (doubled ? " (doubled?)" : of.map(word -> " " + word).orElse(""));
            put(kind, "1");
            if (doubled) {
                draft.ask("finds", t("take.ask-doubled", dated.group(1) + mint, name));
            }
            return;
        }
        Matcher counted = COUNTED.matcher(plain);
        if (counted.matches() && !counted.group(2).isBlank()) {
            String count = NAMED.getOrDefault(counted.group(1), counted.group(1).replace("+", ""));
            String rest = counted.group(2).strip();
            boolean more = counted.group(1).endsWith("+");
            if (rest.matches("[dspo]|cc")) {
                // 43 S: the date of the coin before, not a number of them
                return;
            }
            Matcher ofYear = Pattern.compile("((?:1[789]|20)[0-9]{2})[- ]?([dspo])?\\b\\s*(.*)")
                    .matcher(rest);
            if (ofYear.matches()) {
                String mint =
                        ofYear.group(2) == null ? "" : "-" + ofYear.group(2).toUpperCase(Locale.ROOT);
                String of = variety(ofYear.group(3))
                        .or(() -> kindIn(ofYear.group(3)))
                        .map(word -> " " + word)
                        .orElse("");
                put(ofYear.group(1) + mint + of, count);
                return;
            }
            Optional<String> kind = kindIn(rest);
            if (count.equals("43") && kind.isPresent() && kind.get().equals("steel")) {
                // a 43 steelie is one of 1943
                count = "1";
            }
            String word = rest.replaceAll("[?!.]+$", "").strip();
            boolean sentence = Words.of(word).size() > 3
                    || word.matches("(is|are|was|were|of|in|from|the|on|with|for|at|to|more|other)\\b.*|.*[0-9].*");
            if (kind.isEmpty() && sentence) {
                draft.leftOut.add(t("take.left-words", part));
                return;
            }
            String named = kind.orElse(word);
            put(named, more ? "~" + count : count);
            if (more) {
                draft.ask("finds", t("take.ask-how-many-finds", name, named, part));
            }
            fromWords.add(named);
            if (doubt && kind.isPresent()) {
                draft.ask("finds", t("take.ask-unsure-find", name, whole));
            }
            return;
        }
        Matcher after = Pattern.compile("(.+?)\\s*[:x×=]?\\s*(~?[0-9]{1,5})\\s*(?:pcs?|x|st|pieces?)?\\.?")
                .matcher(plain);
        if (after.matches()) {
            Optional<String> kind = kindIn(after.group(1));
            if (kind.isPresent()) {
                put(kind.get(), after.group(2));
                fromWords.add(kind.get());
                return;
            }
        }
        Optional<String> kind = kindIn(plain);
        boolean others = plain.matches("(rest|others?|all|no|not|only|mostly)\\b.*");
        if (kind.isPresent() && !others && Words.of(plain).size() <= 4) {
            boolean many = Words.of(plain).stream()
                    .anyMatch(token -> token.text().length() > 4 && token.text().endsWith("s"));
            put(kind.get(), many ? "?" : "1");
            fromWords.add(kind.get());
            if (many) {
                draft.ask("finds", t("take.ask-how-many-finds", name, kind.get(), part));
            } else {
                draft.inferred.add("finds");
            }
            return;
        }
        draft.leftOut.add(t("take.left-words", part));
    }

    private Optional<String> variety(String text) {
        return words.find(text, "variety").stream().map(Lexicon.Hit::means).findFirst();
    }

    /// A remark that parts a count: `10 of them 40%, 4 are 90%` where 14 silver coins are counted.
    void parted(String note) {
        String silver = counts.get("silver");
        if (silver == null || !silver.matches("[1-9][0-9]*")) {
            return;
        }
        Matcher parts = Pattern.compile("([0-9]{1,4})\\s*(?:of them|of these|are|were|x)?\\s*(90|40|80|35)\\s*%")
                .matcher(Words.plain(note));
        Map<String, Long> found = new LinkedHashMap<>();
        while (parts.find()) {
            found.put(parts.group(2) + "% silver", Long.parseLong(parts.group(1)));
        }
        long sum = found.values().stream().mapToLong(Long::longValue).sum();
        if (found.size() >= 2 && sum == Long.parseLong(silver)) {
            counts.remove("silver");
            found.forEach((kind, count) -> put(kind, Long.toString(count)));
            draft.inferred.add("finds");
        }
    }
}
