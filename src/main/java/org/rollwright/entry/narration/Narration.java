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
/// @param spokenTotal the last running count said, null when none was
/// @param decodedTotal the count that the finds come to where it was said
/// @param conflicts where what was said and what was decoded differ
/// @param remarks what a person should know about the file, or why nothing is proposed
public record Narration(
        List<Proposed> finds,
        List<Proposed> left,
        List<Visit> rolls,
        List<Weighing> weights,
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
            int cue) {}

    /// A roll turned to.
    public record Visit(int box, int roll) {}

    /// A weight read aloud.
    public record Weighing(long at, Mass mass, String words) {}

    /// A running count that the finds do not bear out.
    public record Conflict(long at, int spoken, int decoded, String words) {
        @Override
        public String toString() {
            return t("narration.at-you-say-the-finds", Captions.clock(at), spoken, decoded);
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
        conflicts = List.copyOf(conflicts);
        remarks = List.copyOf(remarks);
    }
}
