package org.rollwright.coin;

import static org.rollwright.text.Texts.t;

import org.jspecify.annotations.Nullable;

/// Which coin it is, as far as it has been read: the common language of finds, catalogue issues and album
/// holes.
///
/// @param year four digits, or null when the date cannot be read
/// @param mint null when the mint mark cannot be read
/// @param kind blank for the ordinary coin of a date or where the kind has not been told; otherwise what
///     separates two coins of one date, mint and design, such as `small date`
/// @param design blank where the date and mint leave no choice or where it has not been told; lower case
public record Identity(
        Denomination denomination,
        @Nullable Integer year,
        @Nullable Mint mint,
        String kind,
        String design) {

    /// Earliest and latest year a coin may bear here; outside it a number is a slip of the finger.
    public static final int FIRST_YEAR = 1500;

    public static final int LAST_YEAR = 2100;

    public Identity {
        if (year != null && (year < FIRST_YEAR || year > LAST_YEAR)) {
            throw new IllegalArgumentException("year must lie in " + FIRST_YEAR + "…" + LAST_YEAR + ", was " + year);
        }
    }

    public static Identity of(Denomination denomination, int year, Mint mint) {
        return new Identity(denomination, year, mint, "", "");
    }

    /// Date and mint as the trade writes them: `1936-D`, `1936`, `no date`, `1936-?`.
    public String dateAndMint() {
        String date = year == null ? t("coin.no-date") : Integer.toString(year);
        if (mint == null) {
            return year == null ? date : date + "-?";
        }
        // Philadelphia's coins bore no mark for most of its time; a P elsewhere is one, such as Canada's on plated
        // coins
        boolean philadelphia = mint.equals(Mint.P) && denomination.country().equals(Country.US);
        boolean unmarked = philadelphia || mint.equals(Mint.NONE);
        return unmarked ? date : date + "-" + mint;
    }

    /// Date, mint, kind and design in one line, without country and denomination: `1960-D small date`.
    public String shortName() {
        StringBuilder name = new StringBuilder(dateAndMint());
        if (!design.isEmpty()) {
            name.append(' ').append(design);
        }
        if (!kind.isEmpty()) {
            name.append(' ').append(kind);
        }
        return name.toString();
    }

    /// Country and denomination in front of [#shortName()]: `US cent 1936-D`.
    @Override
    public String toString() {
        return denomination + " " + shortName();
    }
}
