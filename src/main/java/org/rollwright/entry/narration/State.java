package org.rollwright.entry.narration;

/// What a path through a recording remembers of what was said before.
///
/// @param counted finds since the beginning; beyond 4,095 all are alike
/// @param last mention of the last find, from 1; 0 before the first
/// @param base where the speaker's own count began
/// @param announced coins told of and not yet named, 15 at most
record State(int counted, int last, int base, int announced) {
    private static final int MOST_COUNTED = 4_095;
    private static final int MOST_ANNOUNCED = 15;

    State {
        counted = Math.min(counted, MOST_COUNTED);
        announced = Math.min(announced, MOST_ANNOUNCED);
    }
}
