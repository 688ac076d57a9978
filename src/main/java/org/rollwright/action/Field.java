package org.rollwright.action;

/// A field of an action.
///
/// @param name by which it is typed: in a form, a script or a command
/// @param example what may stand in it
/// @param needed whether it must not be blank
public record Field(String name, String example, boolean needed) {
    static Field needed(String name, String example) {
        return new Field(name, example, true);
    }

    static Field maybe(String name, String example) {
        return new Field(name, example, false);
    }
}
