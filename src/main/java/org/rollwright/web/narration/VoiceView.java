package org.rollwright.web.narration;

import java.util.ArrayList;
import java.util.List;
import org.rollwright.entry.narration.Lesson;
import org.rollwright.entry.narration.OwnVoice;
import org.rollwright.entry.narration.VoiceShelf;
import org.rollwright.web.shell.Manner;

/// What was learned of the hunter's voice, as shown.
///
/// @param on whether it is used
/// @param lessons the latest first
/// @param words those that speak for a find first
public record VoiceView(boolean on, List<Row> lessons, List<OwnVoice.Trait> words) {
    /// A reviewed recording.
    ///
    /// @param name it is forgotten by
    public record Row(String name, String file, String day, int coins, Lesson.Corrections corrections) {}

    static VoiceView of(OwnVoice voice) {
        List<Row> rows = new ArrayList<>();
        for (VoiceShelf.Kept kept : voice.shelf().lessons().reversed()) {
            Lesson lesson = kept.lesson();
            rows.add(new Row(
                    kept.name(), lesson.file(), Manner.day(lesson.learned()), lesson.coins(), lesson.corrections()));
        }
        return new VoiceView(voice.shelf().isOn(), rows, voice.traits());
    }
}
