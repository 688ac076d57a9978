package org.rollwright.catalog;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.rollwright.coin.Denomination;

/// One look that tells kinds of a date apart.
///
/// @param years in which it does
/// @param id a word for it, unique within a date
/// @param ask the question, for a person
/// @param looks where to look
/// @param answers what may be seen
/// @param always whether it is asked even where it divides nothing, because a coin that differs would be a rarity
public record KindLook(
        Denomination denomination,
        Set<Integer> years,
        String id,
        String ask,
        List<Spot> looks,
        List<Seen> answers,
        boolean always) {
    /// What may be seen, and which kinds show it.
    ///
    /// @param kind words of the kind that show it; `-` for the kinds that no other answer names
    /// @param words for a person
    public record Seen(String kind, String words) {
        boolean names(String coinKind) {
            return (" " + coinKind + " ").contains(" " + kind + " ");
        }
    }

    /// The answer for the coins no other answer names.
    static final String OTHER = "-";

    public KindLook {
        years = Set.copyOf(years);
        looks = List.copyOf(looks);
        answers = List.copyOf(answers);
    }

    /// Whether a coin shows what an answer says.
    boolean shows(Issue coin, Seen answer) {
        String kind = coin.identity().kind();
        return answer.kind().equals(OTHER)
                ? answers.stream().noneMatch(other -> other.names(kind))
                : answer.names(kind);
    }

    /// Reads answers such as `small date=the tops stand level;-=anything else`.
    ///
    /// @return empty when one has another form or there are fewer than two
    static Optional<List<Seen>> answers(String cell) {
        List<Seen> answers = new ArrayList<>();
        for (String part : cell.split(";")) {
            int at = part.indexOf('=');
            if (at < 1 || part.substring(at + 1).isBlank()) {
                return Optional.empty();
            }
            answers.add(new Seen(
                    part.substring(0, at).strip(), part.substring(at + 1).strip()));
        }
        return answers.size() < 2 ? Optional.empty() : Optional.of(List.copyOf(answers));
    }
}
