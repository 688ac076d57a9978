package org.rollwright.entry.sheet.take;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/// What the heading of a column says. Immutable.
final class Headings {
    /// Fields that are understood but not carried over.
    private static final Set<String> LEFT =
            Set.of("running", "hours", "returned", "yield", "wrap", "reference", "photo", "sold");

    private final As as;
    private final Lexicon words;
    private final Map<String, String> said;

    /// @param said what headings mean by the hunter's word, by [Words#key] of the heading
    Headings(As as, Lexicon words, Map<String, String> said) {
        this.as = as;
        this.words = words;
        this.said = said;
    }

    Column column(int index, String heading, String group, boolean hidden) {
        if (heading.isBlank()) {
            return new Column(index, "", "unread", "", Column.How.UNREAD, hidden);
        }
        String own = said.get(Words.key(heading));
        if (own != null) {
            return own.startsWith("find:")
                    ? new Column(index, heading, "find", own.substring(5), Column.How.SAID, hidden)
                    : new Column(index, heading, own, "", Column.How.SAID, hidden);
        }
        if (as == As.BOXES && heading.matches("(90|80|40|35)s?")) {
            return new Column(index, heading, "find", heading.substring(0, 2) + "% silver", Column.How.HEADING, hidden);
        }
        String bare = heading.replaceAll("\\([^)]*\\)|\\[[^]]*\\]", " ")
                .replaceAll("[:*]+", " ")
                .strip();
        boolean weight = as == As.BOXES
                && !Weights.unit(heading).isEmpty()
                && (words.has(heading, "find") || words.has(heading, "heading"));
        if (weight) {
            return new Column(index, heading, "grams", "", Column.How.HEADING, hidden);
        }
        for (String text : List.of(heading, bare)) {
            Optional<String> field = field(text);
            if (field.isPresent() && !isKindHere(text, field.get())) {
                return new Column(index, heading, left(field.get()), "", Column.How.HEADING, hidden);
            }
            if (as == As.BOXES) {
                Optional<String> kind =
                        kind(text).or(() -> group.isEmpty() ? Optional.empty() : kind(group + " " + text));
                if (kind.isPresent()) {
                    return new Column(index, heading, "find", kind.get(), Column.How.HEADING, hidden);
                }
            }
        }
        return inPart(index, heading, bare.isEmpty() ? heading : bare, hidden);
    }

    /// A word that names a column and a kind, such as `error`, is a kind where finds are counted.
    private boolean isKindHere(String text, String field) {
        return as == As.BOXES && field.equals("finds-text") && kind(text).isPresent();
    }

    private static String left(String field) {
        return LEFT.contains(field) ? "left:" + field : field;
    }

    private Optional<String> field(String text) {
        List<String> fields = words.all("heading", text);
        String own = as.name().toLowerCase(Locale.ROOT) + ".";
        return fields.stream()
                .filter(field -> field.startsWith(own) || field.startsWith("both."))
                .map(field -> field.substring(field.indexOf('.') + 1))
                .findFirst();
    }

    private static final Set<String> FILLERS = Set.of(
            "#", "count", "found", "qty", "of", "number", "no", "the", "nr", "ct", "cts", "cnt", "coins", "finds",
            "total", "how", "many", "kept", "aantal", "anzahl", "nb", "nombre");

    private Optional<String> kind(String text) {
        Optional<String> exact = words.exact("kind", text).or(() -> words.exact("find", text));
        if (exact.isPresent()) {
            return exact;
        }
        String rest = String.join(
                " ",
                Words.of(text).stream()
                        .map(Words.Token::text)
                        .filter(word -> !FILLERS.contains(word))
                        .toList());
        return words.exact("kind", rest).or(() -> words.exact("find", rest));
    }

    private Column inPart(int index, String heading, String bare, boolean hidden) {
        List<String> tokens = Words.of(heading).stream().map(Words.Token::text).toList();
        Predicate<List<String>> any = list -> list.stream().anyMatch(tokens::contains);
        if (as == As.BOXES) {
            boolean sums = any.test(List.of("running", "cum", "cumulative", "ytd"))
                    || heading.toLowerCase(Locale.ROOT).matches(".*(to date|so far).*");
            if (sums) {
                return new Column(index, heading, "left:running", "", Column.How.PART_OF_HEADING, hidden);
            }
            if (any.test(List.of("wt", "weight", "weighed", "gewicht", "poids", "peso"))
                    || (words.has(heading, "find") && !Weights.unit(heading).isEmpty())) {
                return new Column(index, heading, "grams", "", Column.How.PART_OF_HEADING, hidden);
            }
            if (tokens.contains("%")
                    && words.find(heading, "find").stream()
                            .noneMatch(hit -> hit.means().contains("%"))) {
                return new Column(index, heading, "left:yield", "", Column.How.PART_OF_HEADING, hidden);
            }
        }
        Column best = null;
        int longest = 0;
        for (Lexicon.Hit hit : words.find(bare, "heading")) {
            String text = bare.substring(hit.from(), hit.to());
            Optional<String> field = field(text);
            if (field.isPresent() && text.length() > longest && text.length() >= 4) {
                best = new Column(index, heading, left(field.get()), "", Column.How.PART_OF_HEADING, hidden);
                longest = text.length();
            }
        }
        if (as == As.BOXES && tokens.size() <= 4) {
            for (Lexicon.Hit hit : words.find(bare, "kind", "find")) {
                if (hit.to() - hit.from() >= Math.max(3, longest)) {
                    best = new Column(index, heading, "find", hit.means(), Column.How.PART_OF_HEADING, hidden);
                    longest = hit.to() - hit.from();
                }
            }
        }
        return best == null ? new Column(index, heading, "unread", "", Column.How.UNREAD, hidden) : best;
    }
}
