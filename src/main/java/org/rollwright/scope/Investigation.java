package org.rollwright.scope;

import static org.rollwright.text.Texts.labelled;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Spot;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.journal.Word;

/// The attribution of one coin under way: which candidates there are, what was asked and answered, what to look
/// at next, and how sure that makes it.
///
/// Candidates are the varieties of the date and mint, what is taken for them, and the ordinary coin, which is
/// always one. Answers are taken as independent given the candidate; two markers of one letter are not quite,
/// so a posterior near 1 is a little too sure, which the verdicts allow for by asking for two markers.
/// Long, because what is asked next and what it comes to are read off the same table of chances.
public final class Investigation {
    /// What was seen.
    public enum Answer {
        YES("yes"),
        NO("no"),
        CANNOT_TELL("cannot tell");

        private final String word;

        Answer(String word) {
            this.word = word;
        }

        public String word() {
            return word;
        }

        /// In the language of the pages; the word itself is what the record keeps.
        public String said() {
            return switch (this) {
                case YES -> t("scope.yes");
                case NO -> t("scope.no");
                case CANNOT_TELL -> t("scope.cannot-tell");
            };
        }

        public static Optional<Answer> parse(String text) {
            for (Answer answer : values()) {
                if (answer.word.equals(text)) {
                    return Optional.of(answer);
                }
            }
            return Optional.empty();
        }
    }

    /// How much of its life a die has behind it, as far as the coin shows it.
    public enum Stage {
        UNKNOWN("not told"),
        EARLY("early: sharp"),
        MIDDLE("middle"),
        LATE("late: soft, cracks");

        private final String word;

        Stage(String word) {
            this.word = word;
        }

        /// What the record keeps.
        public String word() {
            return word;
        }

        /// In the language of the pages.
        public String said() {
            return switch (this) {
                case UNKNOWN -> t("scope.not-told");
                case EARLY -> t("scope.early-sharp");
                case MIDDLE -> t("scope.middle");
                case LATE -> t("scope.late-soft-cracks");
            };
        }
    }

    /// What the record calls a look at the stage of the die.
    public static final String STAGE_LOOK = "stage of the die";

    /// What the record calls a comparison with a coin or photograph known to be of the variety.
    public static final String COMPARED_LOOK = "compared with a coin or photograph known to be it";

    /// A look of the record in the language of the pages; markers are the catalogue's and stay as they are.
    public static String said(ScopeEvent.Look look) {
        String looked =
                switch (look.looked()) {
                    case STAGE_LOOK -> t("scope.stage-of-the-die");
                    case COMPARED_LOOK -> t("scope.compared");
                    default -> look.looked();
                };
        String answer = Answer.parse(look.answer())
                .map(Answer::said)
                .or(() -> Arrays.stream(Stage.values())
                        .filter(stage -> stage.word.equals(look.answer()))
                        .findFirst()
                        .map(Stage::said))
                .orElse(look.answer());
        return labelled(looked, answer);
    }

    /// What a candidate is.
    public enum Sort {
        VARIETY,
        LOOK_ALIKE,
        ORDINARY
    }

    /// One thing it may be.
    ///
    /// @param number stays the same while answers are given
    /// @param key of the variety; blank for the ordinary coin and for look-alikes
    /// @param prior before anything was seen, from rarity and from the hunter's own checks
    public record Candidate(int number, Sort sort, String key, String name, double prior, double probability) {
        public boolean isVariety() {
            return sort == Sort.VARIETY;
        }
    }

    /// Something to look at.
    ///
    /// @param number stays the same while answers are given
    /// @param looks the zones to look at; empty where that depends on the coin
    /// @param gainBits expected drop of uncertainty
    /// @param answer null while not answered
    public record Question(
            int number,
            String text,
            String where,
            List<Spot> looks,
            int seconds,
            double gainBits,
            @Nullable Answer answer) {}

    /// One step of the path, for keeping with the find.
    public record Step(String looked, String answer) {}

    /// How sure it is.
    public record Verdict(VerdictWord word, String candidate, String key, double probability, String rule) {}

    /// A verdict of the record in the language of the pages; a word that is none of ours as it is.
    public static String said(Word<VerdictWord> verdict) {
        return verdict.in(VerdictWord.class).map(VerdictWord::said).orElse(verdict.word());
    }

    /// The largest weight an answer may have: no one sees without error.
    private static final double LEAST = 0.001;

    /// How much more often than an ordinary coin a look-alike shows a marker of what it is taken for.
    private static final double ALIKE = 8;

    private record Ask(String text, String where, List<Spot> looks, int seconds) {}

    private record Kind(Sort sort, String key, String name, double prior) {}

    private final List<Kind> kinds;
    private final List<Ask> asks;
    /// Probability of yes for each question and candidate.
    private final List<List<Double>> yes;
    /// Of each question and candidate: whether it is a marker of that candidate.
    private final List<List<Boolean>> own;

    private final Map<Integer, Answer> answers;
    private final Attribution state;

    private Investigation(
            List<Kind> kinds,
            List<Ask> asks,
            List<List<Double>> yes,
            List<List<Boolean>> own,
            Map<Integer, Answer> answers) {
        this.kinds = kinds;
        this.asks = asks;
        this.yes = yes;
        this.own = own;
        this.answers = answers;
        List<List<Double>> rows = new ArrayList<>();
        answers.forEach((number, answer) -> {
            if (answer != Answer.CANNOT_TELL) {
                rows.add(yes.get(number).stream()
                        .map(p -> answer == Answer.YES ? p : 1 - p)
                        .toList());
            }
        });
        state = Attribution.of(kinds.stream().map(Kind::prior).toList(), rows);
    }

    /// With answers given by the numbers of the questions; those to questions that are not there are passed over.
    public Investigation answered(Answers answers) {
        Investigation now = this;
        int known = questions().size();
        for (Map.Entry<Integer, Answer> entry : answers.answers().entrySet()) {
            if (entry.getKey() < known) {
                now = now.answered(entry.getKey(), entry.getValue());
            }
        }
        return now;
    }

    /// Begins with nothing seen.
    ///
    /// @param checked how many coins of this date and mint the hunter has checked without finding a variety
    /// @param grade of the coin, null when not graded
    public static Investigation begin(
            VarietyBook book,
            Catalog catalog,
            Identity coin,
            Map<String, Integer> checked,
            @Nullable Grade grade,
            Stage stage) {
        List<Variety> varieties = book.of(coin);
        String metal = catalog.lookup(coin).stream()
                .map(Issue::alloy)
                .map(alloy -> alloy.metal().word())
                .distinct()
                .reduce((a, b) -> "")
                .orElse("");
        int year = coin.year() == null ? 0 : coin.year();
        List<LookAlike> alike = book.lookAlikes().stream()
                .filter(one -> one.mayBe(year, metal)
                        && varieties.stream().anyMatch(variety -> one.types().contains(variety.type())))
                .toList();
        List<Kind> kinds = new ArrayList<>();
        double special = 0;
        for (Variety variety : varieties) {
            double chance = chance(variety, checked.getOrDefault(variety.key(), 0));
            special += chance;
            kinds.add(new Kind(Sort.VARIETY, variety.key(), variety.name(), chance));
        }
        for (LookAlike one : alike) {
            special += one.share();
            kinds.add(new Kind(Sort.LOOK_ALIKE, "", one.name(), one.share()));
        }
        kinds.add(new Kind(Sort.ORDINARY, "", t("scope.ordinary-coin"), Math.max(0.05, 1 - special)));
        List<Ask> asks = new ArrayList<>();
        List<List<Double>> yes = new ArrayList<>();
        List<List<Boolean>> own = new ArrayList<>();
        Map<String, Integer> known = new TreeMap<>();
        for (Variety variety : varieties) {
            for (Marker marker : variety.markers()) {
                if (known.putIfAbsent(marker.text(), asks.size()) == null) {
                    asks.add(new Ask(
                            marker.text(), variety.where() + ", " + variety.side(), variety.looks(), marker.seconds()));
                    row(marker.text(), varieties, alike, grade, stage, yes, own);
                }
            }
        }
        for (LookAlike one : alike) {
            for (Marker marker : one.markers()) {
                if (known.putIfAbsent(marker.text(), asks.size()) == null) {
                    asks.add(new Ask(marker.text(), t("scope.where-it-looks-doubled"), List.of(), marker.seconds()));
                    row(marker.text(), varieties, alike, grade, stage, yes, own);
                }
            }
        }
        return new Investigation(List.copyOf(kinds), List.copyOf(asks), yes, own, Map.of());
    }

    private static void row(
            String text,
            List<Variety> varieties,
            List<LookAlike> alike,
            @Nullable Grade grade,
            Stage stage,
            List<List<Double>> yes,
            List<List<Boolean>> own) {
        double ordinary = LEAST;
        double told = 0;
        for (Variety variety : varieties) {
            for (Marker marker : variety.markers()) {
                if (marker.text().equals(text)) {
                    told = Math.max(told, marker.onOthers() / 100);
                    ordinary = Math.max(ordinary, told);
                }
            }
        }
        for (LookAlike one : alike) {
            for (Marker marker : one.markers()) {
                if (marker.text().equals(text)) {
                    told = Math.max(told, marker.onOthers() / 100);
                    ordinary = Math.max(ordinary, told);
                }
            }
        }
        List<Double> chances = new ArrayList<>();
        List<Boolean> belongs = new ArrayList<>();
        java.util.Set<String> types = new java.util.HashSet<>();
        for (Variety variety : varieties) {
            double chance = ordinary;
            boolean mine = false;
            for (Marker marker : variety.markers()) {
                if (marker.text().equals(text)) {
                    mine = true;
                    types.add(variety.type());
                    double seen = marker.onVariety()
                            / 100
                            * visible(grade, marker.fine())
                            * (marker.stage() ? ofStage(stage) : 1);
                    chance = Math.max(ordinary, seen);
                }
            }
            chances.add(bounded(chance));
            belongs.add(mine);
        }
        for (LookAlike one : alike) {
            // what few ordinary coins show, few of its kind show either
            double chance = one.types().stream().anyMatch(types::contains)
                    ? Math.max(ordinary, Math.min(one.shows(), ALIKE * told))
                    : ordinary;
            boolean mine = false;
            for (Marker marker : one.markers()) {
                if (marker.text().equals(text)) {
                    mine = true;
                    chance = Math.max(ordinary, marker.onVariety() / 100 * visible(grade, marker.fine()));
                }
            }
            chances.add(bounded(chance));
            belongs.add(mine);
        }
        chances.add(bounded(ordinary));
        belongs.add(false);
        yes.add(List.copyOf(chances));
        own.add(List.copyOf(belongs));
    }

    private static double bounded(double chance) {
        return Math.max(LEAST, Math.min(0.99, chance));
    }

    /// How much of a marker wear has left; common practice, the figures are ours.
    private static double visible(@Nullable Grade grade, boolean fine) {
        if (grade == null) {
            return fine ? 0.85 : 0.95;
        }
        int points = grade.points();
        if (fine) {
            return points >= 50 ? 1 : points >= 20 ? 0.85 : points >= 12 ? 0.65 : points >= 8 ? 0.5 : 0.3;
        }
        return points >= 20 ? 1 : points >= 12 ? 0.95 : points >= 8 ? 0.85 : points >= 4 ? 0.7 : 0.5;
    }

    /// A marker of one stage of a die's life is missing before and after it.
    private static double ofStage(Stage stage) {
        return switch (stage) {
            case UNKNOWN -> 0.6;
            case EARLY -> 0.4;
            case MIDDLE -> 0.7;
            case LATE -> 0.8;
        };
    }

    /// Chance that a coin of the date is the variety: one in its class, lowered by every coin checked in vain.
    public static double chance(Variety variety, int checkedInVain) {
        // one imagined find among `oneIn` coins, then the hunter's own trials
        return 1.0 / (variety.rarity().oneIn() + checkedInVain);
    }

    /// With one more answer, or another one.
    public Investigation answered(int question, Answer answer) {
        if (question < 0 || question >= asks.size()) {
            throw new IllegalArgumentException("there is no question " + question);
        }
        Map<Integer, Answer> now = new LinkedHashMap<>(answers);
        now.remove(question);
        now.put(question, answer);
        return new Investigation(kinds, asks, yes, own, now);
    }

    /// Candidates, the likeliest first.
    public List<Candidate> candidates() {
        double all = kinds.stream().mapToDouble(Kind::prior).sum();
        List<Candidate> candidates = new ArrayList<>();
        for (int i = 0; i < kinds.size(); i++) {
            Kind kind = kinds.get(i);
            candidates.add(new Candidate(
                    i,
                    kind.sort,
                    kind.key,
                    kind.name,
                    kind.prior / all,
                    state.posterior().get(i)));
        }
        candidates.sort(Comparator.comparingDouble(Candidate::probability).reversed());
        return candidates;
    }

    /// Every question, those not answered first and among them the one with most information per second first.
    public List<Question> questions() {
        List<Question> questions = new ArrayList<>();
        for (int i = 0; i < asks.size(); i++) {
            Ask ask = asks.get(i);
            questions.add(new Question(
                    i, ask.text, ask.where, ask.looks, ask.seconds, state.gainBits(yes.get(i)), answers.get(i)));
        }
        questions.sort(Comparator.<Question>comparingInt(one -> one.answer() == null ? 0 : 1)
                .thenComparing(Comparator.comparingDouble((Question one) -> one.gainBits() / one.seconds())
                        .reversed()));
        return questions;
    }

    /// How probable a yes is on a coin of a candidate.
    public double chanceOfYes(int question, Candidate candidate) {
        return yes.get(question).get(candidate.number());
    }

    /// The answers in the order given.
    public List<Step> path() {
        List<Step> path = new ArrayList<>();
        answers.forEach((number, answer) -> path.add(new Step(asks.get(number).text, answer.word)));
        return path;
    }

    /// How sure it is.
    ///
    /// @param compared whether the hunter has compared it side by side with a coin or photograph known to be it
    public Verdict verdict(boolean compared) {
        Candidate first = candidates().getFirst();
        double p = first.probability();
        if (first.sort() == Sort.ORDINARY) {
            return verdict(p >= 0.95 ? VerdictWord.ORDINARY : VerdictWord.OPEN, first);
        }
        if (first.sort() == Sort.LOOK_ALIKE) {
            return verdict(p > 0.5 ? VerdictWord.LOOKS_LIKE_SOMETHING_ELSE : VerdictWord.OPEN, first);
        }
        int seen = 0;
        boolean contradicted = false;
        for (Map.Entry<Integer, Answer> entry : answers.entrySet()) {
            boolean mine = own.get(entry.getKey()).get(first.number());
            seen += mine && entry.getValue() == Answer.YES ? 1 : 0;
            contradicted |= mine
                    && entry.getValue() == Answer.NO
                    && yes.get(entry.getKey()).get(first.number()) >= 0.8;
        }
        if (p >= 0.98 && seen >= 2 && !contradicted) {
            return verdict(compared ? VerdictWord.CONFIRMED : VerdictWord.MATCHED, first);
        }
        return verdict(p >= 0.8 ? VerdictWord.PROBABLE : p >= 0.25 ? VerdictWord.SUSPECTED : VerdictWord.OPEN, first);
    }

    private static Verdict verdict(VerdictWord word, Candidate candidate) {
        return new Verdict(word, candidate.name(), candidate.key(), candidate.probability(), word.rule());
    }
}
