package org.rollwright.catalog;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Alloy;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Mint;
import org.rollwright.text.Figures;

/// Which kind of its date a coin is, settled by the quickest look.
///
/// What every coin of a date is one or the other of is asked in the order of what it costs: the design, seen at a
/// glance; magnet and scale, which need no glass; what is looked at under the glass; last the mint mark, which is in
/// view by then. What cannot divide the coins that are left is not asked, unless the catalogue says that a coin which
/// differs would be a rarity. The mint mark is asked even where one coin is left, unless it was told: a mark that coin
/// does not bear would make it another.
///
/// Immutable.
public final class Kinds {
    /// The question for the design.
    public static final String DESIGN = "design";
    /// The question a magnet answers.
    public static final String MAGNET = "magnet";
    /// The question a scale answers, in grams.
    public static final String WEIGHT = "weight";
    /// The question for the mint mark.
    public static final String MINT = "mint";
    /// What one answers who cannot tell.
    public static final String CANNOT_TELL = "?";

    /// Weights nearer than this, in grams, are no answer a worn coin could give (common practice).
    private static final double NEAR = 0.1;

    /// One answer.
    ///
    /// @param key by which it is given: a design, `yes` or `no`, a weight in grams, words of a kind, a mint
    /// @param words what is seen
    /// @param example a coin that shows it
    public record Choice(String key, String words, Issue example) {}

    /// One question.
    ///
    /// @param id by which it is answered
    /// @param looks where to look
    public record Question(String id, String text, List<Spot> looks, List<Choice> choices) {
        public Question {
            looks = List.copyOf(looks);
            choices = List.copyOf(choices);
        }
    }

    private final Catalog catalog;
    private final List<Issue> all;
    private final List<Issue> left;
    private final @Nullable Mint mint;
    private final Map<String, String> said;

    private Kinds(Catalog catalog, List<Issue> all, List<Issue> left, @Nullable Mint mint, Map<String, String> said) {
        this.catalog = catalog;
        this.all = all;
        this.left = left;
        this.mint = mint;
        this.said = said;
    }

    /// Begins with nothing seen.
    ///
    /// @param mint null when the mint mark was not looked at
    public static Kinds of(Catalog catalog, Denomination denomination, int year, @Nullable Mint mint) {
        List<Issue> left = struck(catalog, denomination, year, mint);
        List<Issue> all = struck(catalog, denomination, year, null);
        return new Kinds(catalog, all, left, left.isEmpty() ? null : mint, Map.of());
    }

    private static List<Issue> struck(Catalog catalog, Denomination denomination, int year, @Nullable Mint mint) {
        List<Issue> coins = catalog.ofYear(denomination, year, mint);
        List<Issue> circulated =
                coins.stream().filter(issue -> !issue.collectorOnly()).toList();
        // a date struck for sets alone has its kinds, too
        return circulated.isEmpty() ? coins : circulated;
    }

    /// Whether coins of a date, whatever their mint, are of several kinds or designs.
    public static boolean several(Catalog catalog, Denomination denomination, int year) {
        Collection<Issue> coins = of(catalog, denomination, year, null).all;
        return coins.stream()
                        .map(issue -> issue.identity().design() + "/"
                                + issue.identity().kind())
                        .distinct()
                        .count()
                > 1;
    }

    /// The coins it may still be; empty when the answers fit none of the catalogue.
    public List<Issue> left() {
        return left;
    }

    /// The alloys it may still be of: what a weight is compared with.
    public List<Alloy> alloys() {
        return left.stream()
                .flatMap(issue -> issue.alloys().stream())
                .distinct()
                .toList();
    }

    /// What was answered, in order: the answer by its question.
    public Map<String, String> said() {
        return said;
    }

    /// What to ask next; empty when the coin is settled, or nothing that could be asked tells more.
    public Optional<Question> next() {
        if (left.isEmpty()) {
            return Optional.empty();
        }
        return questions().stream()
                .filter(question -> !said.containsKey(question.id()))
                .findFirst();
    }

    /// Answers a question. An answer to what is not asked, or one that is no choice, is passed over.
    ///
    /// @param key of a choice, or [#CANNOT_TELL]
    public Kinds answered(String question, String key) {
        Optional<Question> asked = questions().stream()
                .filter(one -> one.id().equals(question) && !said.containsKey(question))
                .findFirst();
        if (asked.isEmpty()) {
            return this;
        }
        if (key.equals(CANNOT_TELL)) {
            return with(question, key, issue -> true);
        }
        boolean known =
                asked.get().choices().stream().anyMatch(choice -> choice.key().equals(key));
        return known ? with(question, key, issue -> fits(issue, question, key)) : this;
    }

    /// Answers the question for the weight.
    ///
    /// @param grams as it was told
    /// @param fits alloys a coin of that weight may be of
    public Kinds weighed(String grams, List<Alloy> fits) {
        return with(WEIGHT, grams, issue -> issue.alloys().stream().anyMatch(fits::contains));
    }

    /// Answers by their questions, in the order they are asked. Stops at the first question that is not answered, or
    /// whose answer is none; [#next()] asks it then.
    ///
    /// @param answers keys of choices, the beginning of one, or [#CANNOT_TELL], by question
    /// @param weigher says what a weight means
    public Kinds following(Map<String, String> answers, Weigher weigher) {
        Kinds now = this;
        for (Optional<Question> next = next(); next.isPresent(); next = now.next()) {
            String id = next.get().id();
            String answer = answers.getOrDefault(id, "").strip();
            Kinds before = now;
            if (id.equals(WEIGHT) && !answer.equals(CANNOT_TELL)) {
                double grams = number(answer);
                List<Alloy> fits = grams > 0 ? weigher.fits(grams, now.alloys()) : List.of();
                now = fits.isEmpty() ? now : now.weighed(answer, fits);
            } else if (!answer.isEmpty()) {
                now = now.answered(id, key(next.get(), answer));
            }
            if (now == before) {
                return now;
            }
        }
        return now;
    }

    /// The choice that an answer is, or begins; the answer itself when it is none or begins several.
    private static String key(Question question, String answer) {
        List<String> begun = question.choices().stream()
                .map(Choice::key)
                .filter(key -> key.regionMatches(true, 0, answer, 0, answer.length()))
                .toList();
        return begun.size() == 1
                        && question.choices().stream()
                                .noneMatch(one -> one.key().equals(answer))
                ? begun.getFirst()
                : answer;
    }

    /// Says what a weight means.
    @FunctionalInterface
    public interface Weigher {
        /// Alloys a coin of that weight may be of.
        ///
        /// @param grams above 0
        List<Alloy> fits(double grams, List<Alloy> alloys);
    }

    private Kinds with(String question, String key, Predicate<Issue> fits) {
        Map<String, String> now = new LinkedHashMap<>(said);
        now.put(question, key);
        return new Kinds(catalog, all, left.stream().filter(fits).toList(), mint, now);
    }

    private boolean fits(Issue issue, String question, String key) {
        return switch (question) {
            case DESIGN -> issue.identity().design().equals(key);
            case MAGNET -> issue.alloy().magnetic() == key.equals("yes");
            case WEIGHT -> issue.alloys().stream().anyMatch(alloy -> Math.abs(weight(alloy) - number(key)) < NEAR);
            case MINT -> issue.mint().code().equals(key);
            default ->
                looks().stream()
                        .filter(look -> look.id().equals(question))
                        .allMatch(look -> look.answers().stream()
                                .filter(answer -> answer.kind().equals(key))
                                .anyMatch(answer -> look.shows(issue, answer)));
        };
    }

    private static double number(String text) {
        try {
            return Double.parseDouble(Limits.pointed(text));
        } catch (NumberFormatException e) {
            return Double.NaN;
        }
    }

    private static double weight(Alloy alloy) {
        return alloy.weight().grams();
    }

    private List<KindLook> looks() {
        Issue one = all.getFirst();
        return catalog.kindLooks(one.identity().denomination(), one.year());
    }

    private List<Question> questions() {
        List<Question> questions = new ArrayList<>();
        if (left.isEmpty()) {
            return questions;
        }
        add(questions, design());
        add(questions, magnet());
        add(questions, weight());
        // a look that says nothing of some coins left waits until they are told apart: only 1970-S has two sizes of
        // date
        looks().stream()
                .filter(look -> left.stream()
                        .allMatch(issue -> look.answers().stream().anyMatch(answer -> look.shows(issue, answer))))
                .forEach(look -> add(questions, question(look)));
        if (mint == null) {
            add(questions, mint());
        }
        return questions;
    }

    private static void add(List<Question> questions, Question question) {
        if (question.choices().size() > 1) {
            questions.add(question);
        }
    }

    private Question design() {
        Map<String, Issue> designs = new LinkedHashMap<>();
        left.forEach(issue -> designs.putIfAbsent(issue.identity().design(), issue));
        return new Question(
                DESIGN,
                t("kinds.ask-design"),
                List.of(),
                designs.entrySet().stream()
                        .map(one -> new Choice(one.getKey(), one.getKey(), one.getValue()))
                        .toList());
    }

    private Question magnet() {
        List<Choice> choices = new ArrayList<>();
        for (boolean lifts : List.of(true, false)) {
            left.stream()
                    .filter(issue -> issue.alloy().magnetic() == lifts)
                    .findFirst()
                    .ifPresent(issue -> choices.add(new Choice(
                            lifts ? "yes" : "no", lifts ? t("kinds.magnet-lifts") : t("kinds.magnet-no"), issue)));
        }
        return new Question(MAGNET, t("kinds.ask-magnet"), List.of(new Spot.Whole()), choices);
    }

    private Question weight() {
        List<Choice> choices = new ArrayList<>();
        double last = Double.NEGATIVE_INFINITY;
        for (Issue issue : left.stream()
                .sorted(Comparator.comparingDouble(one -> -weight(one.alloy())))
                .toList()) {
            double grams = weight(issue.alloy());
            if (Math.abs(last - grams) >= NEAR) {
                choices.add(new Choice(
                        Double.toString(grams),
                        f(
                                "kinds.weighs",
                                Figures.plain(grams),
                                issue.alloy().metal().said()),
                        issue));
                last = grams;
            }
        }
        return new Question(WEIGHT, t("kinds.ask-weight"), List.of(new Spot.Whole()), choices);
    }

    private Question question(KindLook look) {
        List<Choice> choices = new ArrayList<>();
        List<Issue> among = look.always() ? all : left;
        for (KindLook.Seen answer : look.answers()) {
            among.stream()
                    .filter(issue -> look.shows(issue, answer))
                    .findFirst()
                    .ifPresent(issue -> choices.add(new Choice(answer.kind(), answer.words(), issue)));
        }
        return new Question(look.id(), look.ask(), look.looks(), choices);
    }

    private Question mint() {
        Set<String> designs = new LinkedHashSet<>();
        left.forEach(issue -> designs.add(issue.identity().design()));
        Map<String, Issue> mints = new LinkedHashMap<>();
        all.stream()
                .filter(issue -> designs.contains(issue.identity().design()))
                .forEach(issue -> mints.putIfAbsent(issue.mint().code(), issue));
        List<Spot> looks = new ArrayList<>();
        List<Choice> choices = new ArrayList<>();
        mints.forEach((code, issue) -> {
            Optional<Side> side = side(issue);
            side.map(one -> new Spot.On(one, "mint-mark"))
                    .filter(spot -> !looks.contains(spot))
                    .ifPresent(looks::add);
            choices.add(new Choice(code, side.isPresent() ? code : t("kinds.no-mint-mark"), issue));
        });
        return new Question(MINT, t("kinds.ask-mint"), looks, choices);
    }

    /// The side that bears the coin's mint mark; empty when none does.
    private Optional<Side> side(Issue issue) {
        for (Side side : Side.values()) {
            if (catalog.zones()
                    .shown(issue, side)
                    .filter(shown -> !shown.mint().isEmpty())
                    .isPresent()) {
                return Optional.of(side);
            }
        }
        return Optional.empty();
    }
}
