package org.rollwright.entry.sheet.take;

/// What sections and titles of a sheet say of the rows below them. Used by one thread.
final class Context {
    /// The heading of the section, blank before the first.
    String section = "";

    /// Year of the section, 0 when none is said.
    int year;

    String country = "";
    String denomination = "";
    String kind = "";

    /// What title and name of the sheet say, for rows outside of any section.
    String sheetCountry = "";

    /// The country most coins are of where no column says it, blank when that is not plain.
    String usualCountry = "";

    String sheetDenomination = "";
    boolean boxes;
    boolean blankRollsAreBoxes;

    void clearSection() {
        section = "";
        country = "";
        denomination = "";
        kind = "";
    }
}
