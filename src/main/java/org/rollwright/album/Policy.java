package org.rollwright.album;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Refusal;

/// In what order two coins for one hole are compared. A value the user can change.
///
/// Usually: `sound, grade, colour, eye`. Sound coins rank above details coins; then the higher grade; then the
/// colour (RD over RB over BN unless written otherwise, as `colour bn rb rd`); then eye appeal, a number from 1
/// to 5 written in the note as `eye 4` (a coin without one counts as 3). A coin without a grade is neither
/// better nor worse than one with: somebody has to look.
///
/// @param colours best first
public record Policy(List<Criterion> criteria, List<Colour> colours) {
    /// One thing to compare.
    public enum Criterion {
        SOUND,
        GRADE,
        COLOUR,
        EYE;

        private String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /// How a coin stands against the one in the hole.
    public sealed interface Verdict {
        /// @param reason in words: `VF30 over F12`
        record Better(String reason) implements Verdict {}

        record Same() implements Verdict {}

        record Worse(String reason) implements Verdict {}

        /// Nobody can say without looking.
        record Look(String reason) implements Verdict {}
    }

    /// The outcome of reading a policy.
    public sealed interface Parsed {
        record Good(Policy policy) implements Parsed {}

        record Bad(Refusal flaw) implements Parsed {}
    }

    public Policy {
        criteria = List.copyOf(criteria);
        colours = List.copyOf(colours);
    }

    /// The policy as the tool comes: sound, grade, colour, eye.
    public static Policy usual() {
        return new Policy(
                List.of(Criterion.SOUND, Criterion.GRADE, Criterion.COLOUR, Criterion.EYE),
                List.of(Colour.RD, Colour.RB, Colour.BN));
    }

    /// Reads a policy; a blank text is the usual one.
    public static Parsed parse(String text) {
        if (text.isBlank()) {
            return new Parsed.Good(usual());
        }
        List<Criterion> criteria = new ArrayList<>();
        List<Colour> colours = usual().colours;
        for (String piece : text.toLowerCase(Locale.ROOT).split(",")) {
            String[] words = piece.strip().split(" +");
            Criterion criterion = null;
            for (Criterion known : Criterion.values()) {
                if (known.word().equals(words[0]) || (known == Criterion.COLOUR && words[0].equals("color"))) {
                    criterion = known;
                }
            }
            if (criterion == null || criteria.contains(criterion)) {
                return bad(piece);
            }
            criteria.add(criterion);
            if (words.length > 1) {
                List<Colour> said = colours(words);
                if (criterion != Criterion.COLOUR || said.size() != 3) {
                    return bad(piece);
                }
                colours = said;
            }
        }
        return new Parsed.Good(new Policy(criteria, colours));
    }

    private static Parsed bad(String piece) {
        return new Parsed.Bad(new Refusal(t("album.order-wrong", piece.strip()), t("album.order-form")));
    }

    private static List<Colour> colours(String[] words) {
        List<Colour> said = new ArrayList<>();
        for (int i = 1; i < words.length; i++) {
            for (Colour known : Colour.values()) {
                if (known.name().toLowerCase(Locale.ROOT).equals(words[i]) && !said.contains(known)) {
                    said.add(known);
                }
            }
        }
        return words.length == 4 ? said : List.of();
    }

    /// The policy in words that [#parse] reads.
    public String text() {
        List<String> parts = new ArrayList<>();
        for (Criterion criterion : criteria) {
            String order = criterion == Criterion.COLOUR
                    ? " "
                            + String.join(
                                    " ",
                                    colours.stream()
                                            .map(colour -> colour.name().toLowerCase(Locale.ROOT))
                                            .toList())
                    : "";
            parts.add(criterion.word() + order);
        }
        return String.join(", ", parts);
    }

    /// How a coin stands against another.
    public Verdict compare(CoinDescription coin, CoinDescription other) {
        for (Criterion criterion : criteria) {
            Verdict verdict =
                    switch (criterion) {
                        case SOUND -> sound(coin, other);
                        case GRADE -> grade(coin, other);
                        case COLOUR -> colour(coin, other);
                        case EYE -> eye(coin, other);
                    };
            if (!(verdict instanceof Verdict.Same)) {
                return verdict;
            }
        }
        return new Verdict.Same();
    }

    private static Verdict decided(int sign, String reason) {
        return sign == 0 ? new Verdict.Same() : sign > 0 ? new Verdict.Better(reason) : new Verdict.Worse(reason);
    }

    private static Verdict sound(CoinDescription coin, CoinDescription other) {
        int sign = Boolean.compare(other.isDetails(), coin.isDetails());
        return decided(
                sign, sign > 0 ? t("album.sound-against", other.details()) : t("album.against-sound", coin.details()));
    }

    private static Verdict grade(CoinDescription coin, CoinDescription other) {
        Grade mine = coin.grade();
        Grade its = other.grade();
        if (mine == null && its == null) {
            return new Verdict.Same();
        }
        if (mine == null || its == null) {
            return new Verdict.Look(
                    mine == null ? t("album.grade-missing", its) : t("album.against-one-without-a-grade", mine));
        }
        return decided(mine.compareTo(its), reason(mine.compareTo(its), mine, its));
    }

    private static String reason(int sign, Object mine, Object its) {
        return sign > 0 ? t("album.over", mine, its) : t("album.under", mine, its);
    }

    private Verdict colour(CoinDescription coin, CoinDescription other) {
        Colour mine = coin.colour();
        Colour its = other.colour();
        if (mine == null || its == null) {
            return new Verdict.Same();
        }
        int sign = Integer.compare(colours.indexOf(its), colours.indexOf(mine));
        return decided(sign, reason(sign, mine, its));
    }

    private static Verdict eye(CoinDescription coin, CoinDescription other) {
        int mine = eyeAppeal(coin);
        int its = eyeAppeal(other);
        return decided(
                Integer.compare(mine, its),
                mine > its ? t("album.eye-appeal-over", mine, its) : t("album.eye-appeal-under", mine, its));
    }

    /// The number behind the word eye in the note, 3 when there is none.
    static int eyeAppeal(CoinDescription facts) {
        String note = facts.note().toLowerCase(Locale.ROOT);
        int at = note.indexOf("eye ");
        boolean written = at >= 0
                && (at == 0 || note.charAt(at - 1) == ' ')
                && at + 4 < note.length()
                && note.charAt(at + 4) >= '1'
                && note.charAt(at + 4) <= '5';
        return written ? note.charAt(at + 4) - '0' : 3;
    }

    /// A place in a complete order that agrees with [#compare] wherever that decides; a coin without a grade
    /// stands below every graded one of the same soundness.
    int[] quality(CoinDescription facts) {
        int[] vector = new int[criteria.size()];
        for (int i = 0; i < vector.length; i++) {
            vector[i] = switch (criteria.get(i)) {
                case SOUND -> facts.isDetails() ? 0 : 1;
                case GRADE -> points(facts.grade());
                case COLOUR -> colourPlace(facts.colour());
                case EYE -> eyeAppeal(facts);
            };
        }
        return vector;
    }

    private static int points(@Nullable Grade grade) {
        return grade == null ? 0 : grade.points();
    }

    /// A colour not told stands in the middle, so that it neither wins nor loses against what it may be.
    private int colourPlace(@Nullable Colour colour) {
        return colour == null ? 1 : 2 - colours.indexOf(colour);
    }
}
