package org.rollwright.till;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.rollwright.hunt.HuntId;

/// Time, road and fuel that a hunt or a trip took.
///
/// @param hunt the hunt it belongs to, null when it belongs to several
/// @param phase what the time went into
/// @param minutes 0 to 1440
/// @param kilometres driven, 0 or more
/// @param fuel paid for it, 0 or more
/// @param branch where it led, blank when nowhere
public record Effort(
        LocalDate day,
        @Nullable HuntId hunt,
        Phase phase,
        int minutes,
        double kilometres,
        BigDecimal fuel,
        String branch,
        String note) {
    /// What time goes into.
    public enum Phase {
        /// Roads, counters and queues.
        BANK,
        SEARCH,
        /// Rolling, bagging and counting what goes back.
        ROLL,
        /// Attribution, photographs, albums.
        AFTER;

        public String words() {
            return switch (this) {
                case BANK -> t("hunt.at-banks-and-on-the-road");
                case SEARCH -> t("hunt.searching");
                case ROLL -> t("hunt.rolling-and-counting");
                case AFTER -> t("hunt.looking-closer-photographs-albums");
            };
        }
    }
}
