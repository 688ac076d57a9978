package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/// Kind and variety of a coin. Used by one thread.
final class CoinKinds {
    private static final Set<String> VARIANT_METALS =
            Set.of("steel", "copper", "zinc", "tombac", "aluminium", "iron", "clad");

    private static final Pattern RULER = Pattern.compile(
            "(\\p{Lu}\\p{L}+(?:[- ]\\p{Lu}\\p{L}+)?) (I{1,3}|IV|VI{0,3}|IX|XI{0,3}|XIV|XVI{0,3}|XIX)(?![\\p{L}0-9])");
    private static final Set<String> NO_RULERS =
            Set.of("type", "world war", "war", "album", "vol", "volume", "part", "book", "obverse", "reverse", "class");

    /// Varieties of which a coin has one only.
    private static final List<Set<String>> EITHER = List.of(
            Set.of("small date", "large date"),
            Set.of("type 1", "type 2"),
            Set.of("large beads", "small beads"),
            Set.of("pointed 5", "blunt 5"),
            Set.of("pointed 7", "blunt 7"),
            Set.of("no cents", "with cents"),
            Set.of("wide AM", "close AM"),
            Set.of("small motto", "large motto"),
            Set.of("plain edge", "reeded edge"),
            Set.of("large bust", "small bust"),
            Set.of("near 6", "far 6"));

    private final Lexicon words;
    private final CoinCheck check;

    /// A row while kind and variety are read.
    private static final class Of {
        final List<String> kinds = new ArrayList<>();
        final List<String> varieties = new ArrayList<>();
        int kindEnds = -1;

        String kind() {
            return String.join(" ", kinds);
        }
    }

    CoinKinds(Lexicon words, CoinCheck check) {
        this.words = words;
        this.check = check;
    }

    /// @param primary texts that describe the coin, not remarks
    /// @param state what of the cell for the grade was not understood as a grade
    void read(
            Draft draft, List<String> primary, String state, YearCell year, String note, Context context, String name) {
        boolean american =
                draft.get("country").isEmpty() || draft.get("country").equals("United States");
        Of of = new Of();
        if (!year.variety().isEmpty() && !year.variety().equals("bicentennial")) {
            of.varieties.add(year.variety());
        }
        List<String> texts =
                Stream.concat(primary.stream(), Stream.of(year.rest())).toList();
        Stream.concat(texts.stream(), Stream.of(state)).forEach(text -> described(draft, of, text, american));
        Matcher star = Pattern.compile("[*]\\s?([0-9]{2})").matcher(year.rest());
        if (star.find()) {
            add(of.varieties, "star " + star.group(1));
        }
        Remains remains = new Remains(words);
        primary.stream()
                .flatMap(text -> remains.of(text).stream())
                .distinct()
                .forEach(left -> left(draft, of, left, true));
        remains.of(year.rest()).stream()
                .filter(left -> primary.stream().noneMatch(text -> text.contains(left)))
                .forEach(left -> left(draft, of, left, primary.size() <= 1));
        noted(draft, of, note, american, name);
        if (of.kinds.isEmpty() && !context.kind.isEmpty() && american) {
            of.kinds.add(context.kind);
            draft.inferred.add("kind");
        }
        if (year.variety().equals("bicentennial") && !of.varieties.contains("bicentennial")) {
            of.kinds.add("bicentennial");
        }
        for (Set<String> either : EITHER) {
            List<String> both = of.varieties.stream().filter(either::contains).toList();
            if (both.size() > 1) {
                of.varieties.removeAll(both);
                draft.ask("variety", t("take.ask-either-variety", name, String.join(", ", both)));
            }
        }
        of.kinds.replaceAll(kind -> kind.equals("Ike dollar") ? "Eisenhower" : kind);
        draft.put("kind", of.kind());
        draft.put("variety", String.join(", ", of.varieties));
    }

    private void described(Draft draft, Of of, String text, boolean american) {
        of.kindEnds = -1;
        for (Lexicon.Hit hit : words.find(text, "kind", "design", "variety", "metal", "named", "unit", "country")) {
            if (negated(text, hit)) {
                continue;
            }
            switch (hit.term().role()) {
                case "kind" -> {
                    if (american) {
                        kind(of, hit);
                    }
                }
                case "design" -> kind(of, hit);
                case "variety" -> variety(draft, of, hit.means());
                case "metal" -> {
                    if (VARIANT_METALS.contains(hit.means())) {
                        add(of.varieties, hit.means());
                    }
                }
                default -> {}
            }
        }
        if (of.kinds.isEmpty()) {
            ruler(text).ifPresent(of.kinds::add);
        }
    }

    /// The first kind, and what stands right behind it: `Jefferson war nickel`, `Napoléon III tête laurée`.
    private static void kind(Of of, Lexicon.Hit hit) {
        if (of.kinds.isEmpty() || (of.kindEnds == hit.first() && !of.kinds.contains(hit.means()))) {
            of.kinds.add(hit.means());
            of.kindEnds = hit.behind();
        }
    }

    private static java.util.Optional<String> ruler(String text) {
        Matcher ruler = RULER.matcher(text);
        return ruler.find() && !NO_RULERS.contains(Words.plain(ruler.group(1)))
                ? java.util.Optional.of(
                        Normalizer.normalize(ruler.group(), Normalizer.Form.NFD).replaceAll("\\p{M}", ""))
                : java.util.Optional.empty();
    }

    /// A variety, but for a letter that is missing where none could be: that is a coin without a mint mark.
    private static void variety(Draft draft, Of of, String means) {
        boolean plainMint = means.equals("no D") && !draft.get("year").equals("1922");
        if (plainMint) {
            if (!draft.has("mint")) {
                draft.put("mint", "none");
            }
            return;
        }
        add(of.varieties, means);
    }

    private static final Pattern VARIETY = Pattern.compile(
            "(?:.* )?(?:large|small|wide|narrow|tall|short|pointed|blunt|open|closed?|near|far|high|low|straight|curved|medium"
                    + "|thin|thick|round|flat|plain|reeded|repunched|doubled?|triple|missing|inverted|rotated|dropped|no|with"
                    + "|without|extra|hanging|[0-9]{1,4} over [0-9]{1,2}|type [0-9a-z]|obv[a-z]*|rev[a-z]*|mule|brockage"
                    + "|grosse?s?|petite?s?|grande?s?|ohne|sans|sin|zonder|kleine?|grosse[rs]?|grote?|pequena?) .*"
                    + "|.* (?:date|beads|bust|mintmark|mint mark|edge|die|letters|motto|rays|arrows|lines|legend|error|clip)");

    /// Words of a description that were not understood: kept as they stand.
    private static void left(Draft draft, Of of, String left, boolean described) {
        String plain = Words.plain(left);
        if (VARIETY.matcher(plain + " ").matches() || VARIETY.matcher(plain).matches()) {
            add(of.varieties, left);
        } else if (left.matches(
                        "\\p{Lu}[\\p{L}'.-]+(?: (?:\\p{Lu}[\\p{L}'.-]*|of|de|the|and|du|la|der|van))*(?: [0-9]{1,3})?")
                && !Remains.isVague(plain)
                && !left.contains("?")) {
            // the name of a design; beside a series, one of its designs
            if (of.kinds.isEmpty() && described && left.matches("\\p{Lu}\\p{Ll}{2,}.*")) {
                of.kinds.add(left);
            } else if (!of.kinds.contains(left)) {
                add(of.varieties, left);
            }
        } else {
            String note = draft.get("note");
            draft.put("note", note.isEmpty() ? left : left + "; " + note);
        }
    }

    private void noted(Draft draft, Of of, String note, boolean american, String name) {
        String plainNote = Words.plain(note);
        boolean noteDoubts = note.contains("?") || plainNote.contains("probl") || plainNote.contains("maybe");
        boolean kindBefore = !of.kinds.isEmpty();
        of.kindEnds = -1;
        List<Lexicon.Hit> hits = words.find(note, "kind", "design", "variety", "metal");
        if (parted(draft, plainNote, hits)) {
            draft.ask("variety", t("take.ask-parted", name, draft.get("quantity"), note));
            return;
        }
        for (Lexicon.Hit hit : hits) {
            String word = note.substring(hit.from(), hit.to());
            if (negated(note, hit)) {
                continue;
            }
            boolean metal = hit.term().role().equals("metal");
            boolean telling = !metal || hit.means().equals("tombac") || check.tellsApart(draft, hit.means());
            boolean plainKind = !hit.term().role().equals("kind") || (american && word.length() >= 5);
            boolean known = of.varieties.contains(hit.means()) || of.kinds.contains(hit.means());
            if (!telling || !plainKind || known) {
                if (noteDoubts && metal && note.substring(hit.to()).strip().startsWith("?")) {
                    draft.ask("variety", t("take.ask-unsure-word", name, word, note));
                }
                continue;
            }
            if (noteDoubts && near(note, hit)) {
                draft.ask("variety", t("take.ask-unsure-word", name, word, note));
                continue;
            }
            if (hit.term().role().equals("kind") || hit.term().role().equals("design")) {
                if (!kindBefore) {
                    kind(of, hit);
                    draft.inferred.add("kind");
                }
            } else if (!hit.means().equals("overdate")
                    || of.varieties.stream().noneMatch(one -> one.startsWith("overdate"))) {
                if (note.length() < 60) {
                    variety(draft, of, hit.means());
                    draft.inferred.add("variety");
                }
            }
        }
        if (of.kinds.isEmpty()) {
            for (String part : note.split("[,;.(]", -1)) {
                if (of.kinds.isEmpty() && RULER.matcher(part.strip()).lookingAt()) {
                    ruler(part).ifPresent(kind -> {
                        of.kinds.add(kind);
                        draft.inferred.add("kind");
                    });
                }
            }
        }
    }

    /// Whether a remark parts the coins of a row into different ones: `one small date, one large date`.
    private static boolean parted(Draft draft, String note, List<Lexicon.Hit> hits) {
        boolean several = draft.get("quantity").matches("[2-9]|[1-9][0-9]+");
        Set<String> means = new java.util.HashSet<>();
        hits.forEach(hit -> means.add(hit.means()));
        return several && EITHER.stream().anyMatch(means::containsAll) && !note.contains(" or ");
    }

    private static void add(List<String> list, String word) {
        if (!list.contains(word)
                && !(word.equals("overdate") && list.stream().anyMatch(one -> one.startsWith("overdate")))) {
            list.add(word);
        }
    }

    /// Whether a question mark belongs to a word: no other sentence lies between.
    private static boolean near(String note, Lexicon.Hit hit) {
        String behind = note.substring(hit.to());
        int mark = behind.indexOf('?');
        String before = Words.plain(note.substring(0, hit.from()));
        return (mark >= 0 && mark <= 15 && !behind.substring(0, mark).matches(".*[!.;].*"))
                || before.matches(".*(\\?|maybe|probl?y|possibl[ey]|perhaps)\\s*$")
                || Words.plain(behind).matches("^\\s*(maybe|probl?y|perhaps).*");
    }

    static boolean negated(String text, Lexicon.Hit hit) {
        String before = Words.plain(text.substring(0, hit.from())).strip();
        return before.matches(
                "(?s).*\\b(not|no|niet|geen|pas|nicht|kein|keine|isnt|aint|sin|sans|ohne|zonder|never|than)( a| an| the| de| een| une?)?");
    }
}
