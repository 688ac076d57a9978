package org.rollwright.catalog;

/// A file's name, as a person should see it in a report, and its whole text.
public record NamedText(String name, String text) {}
