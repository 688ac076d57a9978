package org.rollwright.web.shell;

/// What every page needs around its content.
///
/// @param title of the page
/// @param place which place in the tool is current: mat, boxes, albums or guide
/// @param demo whether the invented demo series is open
/// @param trouble what the hunter must know whichever page is open; blank when all is well
public record Frame(String title, String place, boolean demo, String trouble) {}
