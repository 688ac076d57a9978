package org.rollwright.entry.sheet.take;

import java.util.List;
import java.util.stream.Stream;

/// Rows of coins that are not there: sold, wanted, or an empty place. Immutable.
record Gone(Lexicon words, TableFinder.Found table) {
    /// An empty place of an album, or a coin that is looked for.
    static boolean isWanted(String coin) {
        return Words.plain(coin)
                .strip()
                .matches(
                        "(empty|vacant|missing|hole|none|leer|vide|leeg|vacio|need(s|ed)?|still need|wanted?|gesucht|fehlt|manque|falta|gezocht)( .*)?");
    }

    /// Whether a remark or the column for it says that the coin is no longer there: `sold to Bea 2019`, but not
    /// `sold one of them`, which is asked about.
    boolean isSold(Grid.Line line) {
        return Stream.of("note", "from", "left:sold")
                .flatMap(field -> table.columns(field).stream())
                .anyMatch(column -> isSold(line.text(column.index()), column.is("left:sold")));
    }

    private boolean isSold(String text, boolean column) {
        if (text.isEmpty() || text.contains("?")) {
            return false;
        }
        if (column) {
            return !Words.plain(text).matches("(no|n|not? .*|nein|nee|non|-|0|false)");
        }
        List<Lexicon.Hit> hits = words.find(text, "sold");
        String behind = hits.isEmpty()
                ? ""
                : Words.plain(text.substring(hits.getFirst().to())).strip();
        return !hits.isEmpty()
                && hits.getFirst().first() == 0
                && Words.plain(text)
                        .matches(
                                "(?s)(sold|verkocht|vendue?s?|verkaufte?|vendid[oa]s?|given away|gave away|cedee?)\\b.*")
                && !behind.matches(
                        "(one|two|three|[0-9]{1,3}|some|half|as|the other|een|eins?|une?|uno|una)\\b(?! ?[$€£/.-]).*");
    }
}
