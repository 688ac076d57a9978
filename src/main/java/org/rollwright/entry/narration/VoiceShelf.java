package org.rollwright.entry.narration;

import java.io.IOException;
import java.util.List;

/// Where the lessons of a hunter's voice are kept. They are no part of the record: what they tell can be learned again.
public interface VoiceShelf {
    /// A lesson and the name it is kept under.
    record Kept(String name, Lesson lesson) {}

    /// All lessons that can be read, the oldest first.
    List<Kept> lessons();

    /// Keeps a lesson; the oldest goes when there are more than the decoder learns from.
    ///
    /// @throws IOException when it cannot be written
    void keep(Lesson lesson) throws IOException;

    /// Forgets a lesson for good; nothing happens when there is none of that name.
    ///
    /// @throws IOException when it cannot be deleted
    void forget(String name) throws IOException;

    /// Forgets all lessons for good.
    ///
    /// @throws IOException when one cannot be deleted; those before it are gone
    default void forgetAll() throws IOException {
        for (Kept one : lessons()) {
            forget(one.name());
        }
    }

    /// Whether the decoder is to use them and to learn more; it is unless it was switched off.
    boolean isOn();

    /// @throws IOException when it cannot be remembered
    void turn(boolean on) throws IOException;
}
