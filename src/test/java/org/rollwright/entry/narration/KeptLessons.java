package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.List;

/// Lessons of a voice in memory.
public final class KeptLessons implements VoiceShelf {
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
