package org.rollwright.cabinet;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/// How a coin came that was not found in a hunt.
///
/// @param how `bought`, `given`, `traded` or `owned`, or a word of the hunter's own
/// @param price null when nothing was paid or it is not known
public record Acquisition(
        String how, String from, LocalDate day, @Nullable BigDecimal price) {
    /// What the record says of it, in the record's own words: `bought from the club on 2026-03-01`.
    String inTheRecord() {
        return how + (from.isBlank() ? "" : " from " + from) + " on " + day;
    }

    /// The same for a person, in the language of the pages.
    public String sentence() {
        String word =
                switch (how) {
                    case "bought" -> t("cabinet.was-bought");
                    case "given" -> t("cabinet.was-given");
                    case "traded" -> t("cabinet.was-traded");
                    case "owned" -> t("cabinet.was-owned");
                    default -> how;
                };
        return from.isBlank() ? t("cabinet.came-on", word, day) : t("cabinet.came-from", word, from, day);
    }
}
