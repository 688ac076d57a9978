package org.rollwright.web.shell;

/// One entry of a list to choose from.
///
/// @param value what the form sends
/// @param name what the person reads
/// @param chosen whether it is chosen at present, where the page does not know that otherwise
public record Choice(String value, String name, boolean chosen) {
    public Choice(String value, String name) {
        this(value, name, false);
    }
}
