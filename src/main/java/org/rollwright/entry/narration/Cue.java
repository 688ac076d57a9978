package org.rollwright.entry.narration;

/// A caption: words and the time they were said.
///
/// @param start milliseconds from the start of the recording, 0 or more
/// @param end milliseconds, `start` or more
public record Cue(long start, long end, String text) {}
