package org.rollwright.web;

import java.util.ArrayList;
import java.util.List;
import org.rollwright.entry.narration.Lesson;
import org.rollwright.entry.narration.VoiceShelf;

/// Lessons of a voice in memory.
final class MemoryVoice implements VoiceShelf {
    private final List<Kept> lessons = new ArrayList<>();
    private boolean on = true;
    private int next = 1;

    @Override
    public synchronized List<Kept> lessons() {
        return List.copyOf(lessons);
    }

    @Override
    public synchronized void keep(Lesson lesson) {
        lessons.add(new Kept("lesson-" + next++, lesson));
    }

    @Override
    public synchronized void forget(String name) {
        lessons.removeIf(one -> one.name().equals(name));
    }

    @Override
    public synchronized boolean isOn() {
        return on;
    }

    @Override
    public synchronized void turn(boolean wanted) {
        on = wanted;
    }
}
