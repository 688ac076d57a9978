package org.rollwright.web.scope;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.labelled;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Identity;
import org.rollwright.desk.State;
import org.rollwright.hunt.Find;
import org.rollwright.scope.Answers;
import org.rollwright.scope.AttributionNote;
import org.rollwright.scope.Investigation;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.scope.VarietyShelf;
import org.rollwright.scope.VerdictWord;
import org.rollwright.text.Figures;
import org.rollwright.web.shell.Choice;
import org.rollwright.web.shell.CoinPictures;
import org.rollwright.web.shell.Manner;

/// What the page of an attribution shows. All that was answered stands in the page's address, so the browser's
/// back key takes an answer back.
///
/// @param look where to look for the next question
/// @param kinds address that settles the coin's kind; blank where it is told or the date has one kind
/// @param kept what was kept with the find before, null when nothing
public record AttributionView(
        long hunt,
        int find,
        String coin,
        String state,
        @Nullable Ask next,
        List<Ask> others,
        List<Ask> answered,
        List<Candidate> candidates,
        String sentence,
        List<Rule> rules,
        String answers,
        String stage,
        List<Choice> stages,
        CoinPictures.Look look,
        String kinds,
        List<VarietyViews.Thumb> photos,
        @Nullable Kept kept,
        String problem) {

    /// A question with where each answer leads.
    public record Ask(
            String text, String where, String gain, int seconds, String answer, String yes, String no, String cannot) {}

    /// One thing it may be.
    public record Candidate(String key, String name, double probability, String percent) {}

    /// A verdict's rule.
    public record Rule(String word, String rule, boolean now) {}

    /// A verdict kept before.
    public record Kept(String verdict, String variety, String day, List<String> path, String note) {}

    static AttributionView of(
            State book,
            Catalog catalog,
            VarietyShelf shelf,
            Find find,
            Investigation now,
            Answers said,
            String problem) {
        String base = "/scope/find/" + find.hunt().number() + "/" + find.ordinal() + "?stage="
                + said.stage().name() + "&a=";
        List<Ask> open = new ArrayList<>();
        List<Ask> answered = new ArrayList<>();
        for (Investigation.Question question : now.questions()) {
            Investigation.Answer answer = question.answer();
            Ask ask = new Ask(
                    question.text(),
                    question.where(),
                    f("attribution.bits", question.gainBits()),
                    question.seconds(),
                    answer == null ? "" : answer.said(),
                    base + said.with(question.number(), Investigation.Answer.YES),
                    base + said.with(question.number(), Investigation.Answer.NO),
                    base + said.with(question.number(), Investigation.Answer.CANNOT_TELL));
            (answer == null ? open : answered).add(ask);
        }
        Investigation.Verdict verdict = now.verdict(false);
        List<Rule> rules = new ArrayList<>();
        for (VerdictWord word : VerdictWord.values()) {
            rules.add(new Rule(word.said(), word.rule(), word == verdict.word()));
        }
        List<Choice> stages = new ArrayList<>();
        for (Investigation.Stage one : Investigation.Stage.values()) {
            stages.add(new Choice(one.name(), one.said()));
        }
        return new AttributionView(
                find.hunt().number(),
                find.ordinal(),
                catalog.name(find.facts().identity(), find.facts().identity().denomination()),
                find.facts().state(),
                open.isEmpty() ? null : open.getFirst(),
                open.isEmpty() ? List.of() : open.subList(1, open.size()),
                answered,
                now.candidates().stream()
                        .map(one -> new Candidate(one.key(), one.name(), one.probability(), percent(one.probability())))
                        .toList(),
                sentence(verdict),
                rules,
                said.text(),
                said.stage().name(),
                stages,
                look(catalog, find, now),
                kinds(catalog, find.facts().identity()),
                VarietyViews.thumbs(book, catalog, PhotoSubject.find(find.id())),
                kept(book, shelf, find),
                problem);
    }

    private static String kinds(Catalog catalog, Identity coin) {
        Integer year = coin.year();
        return year != null && coin.kind().isEmpty() && catalog.lookup(coin).size() > 1
                ? KindsView.address(coin.denomination(), year, coin.mint())
                : "";
    }

    private static CoinPictures.Look look(Catalog catalog, Find find, Investigation now) {
        return now.questions().stream()
                .filter(question -> question.answer() == null)
                .findFirst()
                .flatMap(question -> catalog.lookup(find.facts().identity()).stream()
                        .findFirst()
                        .map(coin -> CoinPictures.look(catalog, coin, question.looks())))
                .orElse(CoinPictures.Look.NONE);
    }

    private static String sentence(Investigation.Verdict verdict) {
        return switch (verdict.word()) {
            case OPEN -> t("attribution.open-nothing-leads-clearly");
            case ORDINARY -> t("attribution.ordinary");
            case LOOKS_LIKE_SOMETHING_ELSE -> t("attribution.looks-like", verdict.candidate());
            case SUSPECTED, PROBABLE, MATCHED, CONFIRMED ->
                labelled(capital(verdict.word().said()), verdict.candidate() + ", " + percent(verdict.probability()))
                        + ".";
        };
    }

    private static String capital(String word) {
        return Character.toUpperCase(word.charAt(0)) + word.substring(1);
    }

    static String percent(double p) {
        if (p >= 0.995) {
            return "> " + Figures.percent(0.99, 0);
        }
        return p >= 0.01
                ? Figures.percent(p, 0)
                : p >= 0.0005 ? Figures.percent(p, 1) : "< " + Figures.percent(0.001, 1);
    }

    private static @Nullable Kept kept(State book, VarietyShelf shelf, Find find) {
        AttributionNote note = book.scope().attributions().get(find.id());
        return note == null
                ? null
                : new Kept(
                        Investigation.said(note.verdict()),
                        name(book, shelf, note.variety()),
                        Manner.day(note.at()),
                        note.path().stream().map(Investigation::said).toList(),
                        note.note());
    }

    /// A variety's name, or its key when it was taken out since.
    public static String name(State book, VarietyShelf shelf, String key) {
        return key.isEmpty()
                ? ""
                : shelf.book(book.scope()).variety(key).map(one -> one.name()).orElse(key);
    }
}
