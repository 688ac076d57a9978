package org.rollwright.entry.sheet.take;

/// What sections and titles of a sheet say of the rows below them. Used by one thread.
final class Context {
    /// The heading of the section, blank before the first.
    String section = "";

    /// Year of the section, 0 when none is said.
    int year;

    /// Month of the section, 0 when none is said.
    int month;

    String country = "";
    String denomination = "";
    String kind = "";

    /// Whether the section is of coins that are sold or wanted.
    boolean sold;

    /// What title and name of the sheet say, for rows outside of any section.
    String sheetCountry = "";

    /// The country most coins are of where no column says it, blank when that is not plain.
    String usualCountry = "";

    String sheetDenomination = "";

    /// Name of the file, blank when there is none.
    String file = "";

    /// What the hunter says of rows that say nothing themselves.
    String usualDenomination = "";

    String saidCurrency = "";

    /// What columns for finds of one denomination only tell of boxes of which nothing else tells it.
    String tableDenomination = "";

    /// The year a title names, 0 when none does or several are named.
    int sheetYear;

    boolean boxes;
    boolean blankRollsAreBoxes;

    /// What prices are for, when a title says it.
    Money.Per priceNote = Money.Per.UNSAID;

    void clearSection() {
        section = "";
        country = "";
        denomination = "";
        kind = "";
        sold = false;
    }
}
