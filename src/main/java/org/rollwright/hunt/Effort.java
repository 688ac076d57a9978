package org.rollwright.hunt;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

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
        BANK("at banks and on the road"),
        SEARCH("searching"),
        /// Rolling, bagging and counting what goes back.
        ROLL("rolling and counting"),
        /// Attribution, photographs, albums.
        AFTER("looking closer, photographs, albums");

        private final String words;

        Phase(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }
}
