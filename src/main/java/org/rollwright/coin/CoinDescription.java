package org.rollwright.coin;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/// Everything said of one coin: which it is and in what state.
///
/// @param details why the coin is a details coin (`cleaned`, `bent`), null for a sound one
/// @param varieties words such as `rpm` or `ddo`, in the order given
/// @param errors words such as `clip`, in the order given
/// @param note free text, blank when there is none
/// @param photos references of stored photographs
public record CoinDescription(
        Identity identity,
        @Nullable Grade grade,
        @Nullable String details,
        @Nullable Colour colour,
        Strike strike,
        List<String> varieties,
        List<String> errors,
        String note,
        List<String> photos) {

    public CoinDescription {
        varieties = List.copyOf(varieties);
        errors = List.copyOf(errors);
        photos = List.copyOf(photos);
    }

    public static CoinDescription plain(Identity identity) {
        return new CoinDescription(identity, null, null, null, Strike.BUSINESS, List.of(), List.of(), "", List.of());
    }

    public CoinDescription withGrade(@Nullable Grade newGrade) {
        return new CoinDescription(identity, newGrade, details, colour, strike, varieties, errors, note, photos);
    }

    public CoinDescription withVarieties(List<String> now) {
        return new CoinDescription(identity, grade, details, colour, strike, now, errors, note, photos);
    }

    /// Whether the coin has damage or cleaning that ranks it below every sound coin.
    public boolean isDetails() {
        return details != null;
    }

    /// State in trade shorthand: `VF30 BN, rpm`; blank when nothing beyond the identity was said.
    public String state() {
        List<String> parts = new ArrayList<>();
        if (strike == Strike.PROOF) {
            parts.add("proof");
        } else if (strike == Strike.SPECIMEN) {
            parts.add("specimen");
        }
        if (grade != null) {
            parts.add(grade.toString());
        }
        if (colour != null) {
            parts.add(colour.name());
        }
        if (details != null) {
            parts.add("details (" + details + ")");
        }
        parts.addAll(varieties);
        parts.addAll(errors);
        return String.join(" ", parts);
    }
}
