package org.rollwright.catalog;

/// Texts on their way into a spreadsheet and back: the one place that keeps a cell from being run as a formula.
///
/// Whatever a spreadsheet program might take for the beginning of a formula gets an apostrophe in front on the way
/// out and loses it on the way in. So does a text that begins with an apostrophe, and one with spaces around it,
/// which reading would trim: every text comes back as it went.
public final class SheetCell {
    /// Signs that begin a formula, in all widths: programs set up for Chinese, Japanese or Korean take the wide ones
    /// for the narrow ones.
    private static final String BEGINS = "=+-@＝＋－＠﹦﹢﹣﹫−";

    private static final char GUARD = '\'';

    private SheetCell() {}

    /// The text as it is written into a cell.
    public static String out(String text) {
        return isGuarded(text) ? GUARD + text : text;
    }

    /// The text of a cell.
    public static String in(String cell) {
        boolean guarded = !cell.isEmpty() && cell.charAt(0) == GUARD && isGuarded(cell.substring(1));
        return guarded ? cell.substring(1) : cell.strip();
    }

    private static boolean isGuarded(String text) {
        // the dash alone is a mint, and no formula
        boolean plain = text.isEmpty() || text.equals("-");
        return !plain && (text.charAt(0) == GUARD || !text.equals(text.strip()) || begins(text));
    }

    /// Whether it begins with a sign of a formula, behind what a program may pass over.
    private static boolean begins(String text) {
        int i = 0;
        while (i < text.length() && isPassedOver(text.charAt(i))) {
            i++;
        }
        return i == text.length() || BEGINS.indexOf(text.charAt(i)) >= 0;
    }

    private static boolean isPassedOver(char c) {
        return c <= ' '
                || Character.isSpaceChar(c)
                || Character.isWhitespace(c)
                || Character.isISOControl(c)
                || Character.getType(c) == Character.FORMAT
                || c == GUARD;
    }
}
