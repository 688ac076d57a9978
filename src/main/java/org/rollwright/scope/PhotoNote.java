package org.rollwright.scope;

import java.time.Instant;

/// A photograph in the record: the pixels lie on a shelf under its name.
public record PhotoNote(String photo, int width, int height, PhotoSubject about, String caption, Instant at) {}
