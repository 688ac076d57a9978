package org.rollwright.entry.sheet.take;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/// Numbers as people write them: with decimal points or decimal commas, with thousands told apart or not.
final class Numbers {
    /// @param decimalComma whether 1,50 is one and a half here
    record Manner(boolean decimalComma) {}

    private static final Pattern COMMA =
            Pattern.compile("(^|[^0-9.,])[0-9]+(\\.[0-9]{3})*,[0-9]{1,2}($|[^0-9,.])|[0-9],-");
    private static final Pattern POINT = Pattern.compile("(^|[^0-9.,])[0-9]+(,[0-9]{3})*\\.[0-9]{1,2}($|[^0-9,.])");

    private Numbers() {}

    /// How numbers are written in some texts.
    static Manner manner(List<String> texts) {
        long comma = texts.stream().filter(text -> COMMA.matcher(text).find()).count();
        long point = texts.stream().filter(text -> POINT.matcher(text).find()).count();
        return new Manner(comma > point);
    }

    /// Reads the digits of a number token.
    static Optional<BigDecimal> read(String digits, Manner manner) {
        if (digits.matches("[.,][0-9]{1,2}")) {
            return Optional.of(new BigDecimal("0." + digits.substring(1)));
        }
        int comma = digits.lastIndexOf(',');
        int point = digits.lastIndexOf('.');
        String plain;
        if (comma >= 0 && point >= 0) {
            plain = comma > point ? digits.replace(".", "").replace(',', '.') : digits.replace(",", "");
        } else if (comma >= 0) {
            boolean thousands = digits.matches("[0-9]{1,3}(,[0-9]{3})+") && !manner.decimalComma();
            plain = thousands ? digits.replace(",", "") : digits.replace(',', '.');
        } else if (point >= 0) {
            boolean thousands = digits.matches("[1-9][0-9]{0,2}(\\.[0-9]{3})+") && manner.decimalComma();
            plain = thousands ? digits.replace(".", "") : digits;
        } else {
            plain = digits;
        }
        return plain.matches("[0-9]{1,12}(\\.[0-9]{1,9})?") ? Optional.of(new BigDecimal(plain)) : Optional.empty();
    }

    /// A number without needless zeros: 2.50 as 2.5.
    static String plain(BigDecimal number) {
        return number.signum() == 0 ? "0" : number.stripTrailingZeros().toPlainString();
    }
}
