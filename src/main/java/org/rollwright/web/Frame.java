package org.rollwright.web;

/// What every page needs around its content.
///
/// @param title of the page
/// @param place which place in the tool is current: mat, boxes, albums or guide
/// @param demo whether the invented demo series is open
public record Frame(String title, String place, boolean demo) {}
