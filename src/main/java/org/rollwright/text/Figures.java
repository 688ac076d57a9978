package org.rollwright.text;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.text.DecimalFormatSymbols;

/// Figures as sentences and tables show them, in the language in use: `3,600` and `12.50` in English, `3 600` and
/// `12,50` in Canadian French, after Unicode's CLDR as the JDK carries it.
///
/// For what a person reads. What a program reads again (a file, a field of a form, a picture, a line as it is
/// typed) is written with [Locale#ROOT], whatever the language.
public final class Figures {
    private Figures() {}

    /// Figures by the marks of [java.util.Formatter], such as `%,.1f`.
    // the annotation that would check them comes with a library of its own
    @SuppressWarnings("AnnotateFormatMethod")
    public static String of(String marks, Object... values) {
        return String.format(Texts.locale(), marks, values);
    }

    /// A number with its thousands told apart.
    public static String whole(long number) {
        return of("%,d", number);
    }

    /// A share of 1 in percent.
    ///
    /// @param decimals how many there are
    public static String percent(double share, int decimals) {
        return t("figure.percent", of("%." + decimals + "f", 100 * share));
    }

    /// A number with the decimals it has, and its thousands together.
    public static String plain(BigDecimal number) {
        return pointed(number.toPlainString());
    }

    /// A number with the decimals it needs, and its thousands together.
    public static String plain(double number) {
        return plain(BigDecimal.valueOf(number).stripTrailingZeros());
    }

    /// Whether the language in use writes a decimal comma.
    public static boolean comma() {
        return sign() == ',';
    }

    /// A value in its place in a sentence.
    static String said(Object value) {
        return value instanceof BigDecimal || value instanceof Double || value instanceof Float
                ? pointed(value.toString())
                : value.toString();
    }

    private static String pointed(String plain) {
        return plain.replace('.', sign());
    }

    private static char sign() {
        return DecimalFormatSymbols.getInstance(Texts.locale()).getDecimalSeparator();
    }
}
