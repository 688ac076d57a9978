package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/// Rows that say a second time what an earlier row says.
final class Duplicates {
    private static final List<String> COIN =
            List.of("country", "denomination", "year", "mint", "kind", "variety", "grade", "quantity", "paid", "acquired");
    private static final List<String> BOX = List.of("date", "denomination", "rolls", "coins", "finds", "grams");

    private Duplicates() {}

    static void mark(List<Draft> drafts, As as) {
        Map<String, Draft> byNumber = new HashMap<>();
        Map<String, Draft> byCells = new HashMap<>();
        for (Draft draft : drafts) {
            if (!draft.what.equals("coin") && !draft.what.equals("box")) {
                continue;
            }
            String number = draft.more.getOrDefault("number", "");
            Draft first;
            if (number.isEmpty()) {
                // without a number only a row that is the same in every cell, and says much, is the same thing
                String cells = String.join("\u0000", draft.line.cells().stream().map(cell -> Words.key(cell.text())).toList());
                first = byCells.putIfAbsent(cells, draft);
                long said = draft.line.cells().stream().filter(cell -> !cell.isBlank()).count();
                boolean dated = draft.has("date") || draft.has("acquired") || draft.has("paid");
                first = said >= 5 && dated ? first : null;
            } else {
                first = byNumber.putIfAbsent(number, draft);
                first = first != null && same(first, draft, as == As.COINS ? COIN : BOX) ? first : null;
            }
            if (first != null) {
                draft.what = "duplicate";
                draft.ask("", t("take.ask-duplicate", as == As.COINS ? CoinReader.name(draft) : BoxReader.name(draft), first.line.number()));
            }
        }
    }

    private static boolean same(Draft a, Draft b, List<String> fields) {
        int both = 0;
        for (String field : fields) {
            String one = a.get(field);
            String other = b.get(field);
            if (one.isEmpty() || other.isEmpty() || one.equals("none") || other.equals("none")) {
                continue;
            }
            if (!one.equals(other)) {
                return false;
            }
            both++;
        }
        return both >= 3;
    }
}
