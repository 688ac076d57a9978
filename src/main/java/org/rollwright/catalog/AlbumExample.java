package org.rollwright.catalog;

/// An album to begin with.
///
/// @param rule in the language of the album room, which checks it
public record AlbumExample(String name, String rule, String meaning) {}
