package org.rollwright.scale;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.rollwright.journal.Word;

/// A metal that coins hold and that has a price.
public enum Element implements Word.Listed {
    COPPER("Cu"),
    ZINC("Zn"),
    NICKEL("Ni"),
    SILVER("Ag"),
    MANGANESE("Mn"),
    TIN("Sn"),
    IRON("Fe");

    private final String symbol;

    Element(String symbol) {
        this.symbol = symbol;
    }

    @Override
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /// The metal of a chemical symbol.
    static Optional<Element> ofSymbol(String symbol) {
        return Arrays.stream(values()).filter(one -> one.symbol.equals(symbol)).findFirst();
    }
}
