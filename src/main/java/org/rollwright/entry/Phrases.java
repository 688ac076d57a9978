package org.rollwright.entry;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.rollwright.catalog.Catalog;

/// Words that belong together: `wide am`, `no d`, `2.5 g`.
final class Phrases {
    private static final Set<String> MARKS = Set.of("d", "s", "p", "o", "w", "cc");

    private Phrases() {}

    /// The words with those joined to one that are one word of the trade, or that deny a mint mark or are a weight.
    static List<Token> joined(List<Token> tokens, Catalog catalog) {
        List<Token> joined = new ArrayList<>();
        for (int i = 0; i < tokens.size(); i++) {
            Token token = tokens.get(i);
            if (i + 1 < tokens.size() && !token.quoted() && !tokens.get(i + 1).quoted()) {
                Token next = tokens.get(i + 1);
                boolean denied = token.lower().equals("no") && MARKS.contains(next.lower());
                boolean phrase =
                        catalog.tradeWord(token.lower() + " " + next.lower()).isPresent();
                boolean weight = i > 0
                        && token.lower().matches("[0-9]{1,2}[.,][0-9]{1,3}")
                        && next.lower().equals("g");
                if (denied || phrase || weight) {
                    String text = token.text() + (denied ? "-" : weight ? "" : " ") + next.text();
                    joined.add(new Token(text, token.start(), next.end(), false, ""));
                    i++;
                    continue;
                }
            }
            joined.add(token);
        }
        return joined;
    }
}
