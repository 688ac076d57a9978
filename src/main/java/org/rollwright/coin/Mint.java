package org.rollwright.coin;

import java.util.Locale;

/// The mint that struck a coin, by the letter the trade uses for it.
///
/// A US coin without a mint mark is `P` (Philadelphia, or a mint that used none that year). [#NONE] stands for
/// coinages on which there is no mint to tell, such as most of Canada's.
///
/// @param code one or two upper-case letters, or `-`
public record Mint(String code) {
    public static final Mint P = new Mint("P");
    public static final Mint D = new Mint("D");
    public static final Mint S = new Mint("S");
    public static final Mint NONE = new Mint("-");

    public Mint {
        if (code.isEmpty() || code.length() > 2 || !code.equals(code.toUpperCase(Locale.ROOT))) {
            throw new IllegalArgumentException("mint must be one or two upper-case letters or '-', was '" + code + "'");
        }
    }

    @Override
    public String toString() {
        return code;
    }
}
