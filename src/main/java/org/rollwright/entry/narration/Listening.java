package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.List;
import org.rollwright.coin.Denomination;

/// A recording cut into words and mentions: what the decoder decides about.
///
/// @param cues as read
/// @param words as understood
/// @param homes what the boxes hold that the recording is about, in order
/// @param qualities varieties and errors that are said of coins
/// @param around what is observed around each mention of a coin
record Listening(
        List<Cue> cues,
        List<Word> words,
        List<Denomination> homes,
        List<Mention> mentions,
        Rolls rolls,
        Chains chains,
        Qualities qualities,
        List<List<String>> around) {

    /// What was said between two words, as it stands in the captions.
    String said(int from, int to) {
        Word first = words.get(Math.max(0, from));
        Word last = words.get(Math.min(words.size(), Math.max(from + 1, to)) - 1);
        if (first.cue() == last.cue()) {
            return cues.get(first.cue())
                    .text()
                    .substring(first.from(), Math.max(first.from(), last.to()))
                    .replace('\n', ' ');
        }
        List<String> parts = new ArrayList<>();
        parts.add(cues.get(first.cue()).text().substring(first.from()));
        for (int cue = first.cue() + 1; cue < last.cue(); cue++) {
            parts.add(cues.get(cue).text());
        }
        parts.add(cues.get(last.cue()).text().substring(0, last.to()));
        return String.join(" ", parts).replace('\n', ' ');
    }
}
