package org.rollwright.entry.narration;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mass;

/// What a recording was understood to tell, for the hunter to confirm.
///
/// @param finds in order of time
/// @param left dates that were taken for no find, but may be one, in order of time
/// @param rolls turned to, each once, in order of time
/// @param totals what the finds come to, box by box and kind by kind, and what was said of it
/// @param spokenTotal the last running count said, null when none was
/// @param decodedTotal the count that the finds come to where it was said
/// @param conflicts where what was said and what was decoded differ
/// @param remarks what a person should know about the file, or why nothing is proposed
public record Narration(
        List<Proposed> finds,
        List<Proposed> left,
        List<Visit> rolls,
        List<Weighing> weights,
        List<Total> totals,
        @Nullable Integer spokenTotal,
        int decodedTotal,
        List<Conflict> conflicts,
        List<String> remarks) {
    /// A proposed find.
    ///
    /// @param at milliseconds from the start of the recording
    /// @param box which box of the hunt, from 1
    /// @param roll within its box; 0 before the first roll was named
    /// @param count coins alike
    /// @param line the find as an entry line, to record or correct
    /// @param probability that this is a find and that its date and mint are right: 0 to 1
    /// @param words what was said
    /// @param cue which caption, from 0
    /// @param otherwise what else the words may mean, the likeliest first; with `probability` at most 1
    public record Proposed(
            long at,
            int box,
            int roll,
            Identity identity,
            int count,
            List<String> extras,
            String line,
            double probability,
            String words,
            int cue,
            List<Share> otherwise) {
        public Proposed {
            extras = List.copyOf(extras);
            otherwise = List.copyOf(otherwise);
        }
    }

    /// What words may mean besides a find.
    public enum Meaning {
        /// The coin found last, named again.
        AGAIN,
        /// A find, but of another mint.
        OTHER_MINT,
        /// A running count.
        COUNT,
        /// The number of a roll or of something else.
        NUMBER,
        /// A date that is only spoken of.
        SPOKEN_OF
    }

    /// How likely a meaning is.
    ///
    /// @param weight 0 to 1
    public record Share(Meaning meaning, double weight) {}

    /// Kinds of coin that hunters count by themselves.
    public enum Kind {
        WHEAT,
        SILVER,
        CANADIAN,
        AMERICAN,
        /// Canadian, with a king's head.
        KING
    }

    /// What the finds come to, and what was said.
    ///
    /// @param box which box, from 1; 0 for a kind in all boxes
    /// @param through whether it is the count from the first box on that is said, and not that of this box alone
    /// @param kind what kind of coin; null for all of a box
    /// @param finds coins proposed up to where it was said, or in all when nothing was
    /// @param spoken the last number said of it, null when none was
    /// @param at milliseconds of that, -1 when nothing was said
    public record Total(
            int box,
            boolean through,
            @Nullable Kind kind,
            int finds,
            @Nullable Integer spoken,
            long at) {
        /// Whether what was said is what the finds come to; true when nothing was said.
        public boolean agrees() {
            return spoken == null || spoken == finds;
        }
    }

    /// A roll turned to.
    public record Visit(int box, int roll) {}

    /// A weight read aloud.
    public record Weighing(long at, Mass mass, String words) {}

    /// A running count that the finds do not bear out.
    public record Conflict(long at, int spoken, int decoded, String words) {
        @Override
        public String toString() {
            return t("narration.count-compared", Captions.clock(at), spoken, decoded);
        }
    }

    /// Finds and dates left, in order of time.
    public List<Proposed> dates() {
        List<Proposed> dates = new ArrayList<>(finds);
        dates.addAll(left);
        dates.sort(Comparator.comparingLong(Proposed::at));
        return List.copyOf(dates);
    }

    public Narration {
        finds = List.copyOf(finds);
        left = List.copyOf(left);
        rolls = List.copyOf(rolls);
        weights = List.copyOf(weights);
        totals = List.copyOf(totals);
        conflicts = List.copyOf(conflicts);
        remarks = List.copyOf(remarks);
    }
}
