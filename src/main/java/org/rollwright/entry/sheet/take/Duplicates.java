package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/// Rows that say a second time what an earlier row says.
final class Duplicates {
    private static final List<String> COIN = List.of(
            "country", "denomination", "year", "mint", "kind", "variety", "grade", "quantity", "paid", "acquired");
    private static final List<String> BOX = List.of("date", "denomination", "rolls", "coins", "finds", "grams");

    private Duplicates() {}

    static void mark(List<Draft> drafts, As as) {
        Map<String, Draft> byNumber = new HashMap<>();
        Map<String, Draft> byCells = new HashMap<>();
        for (Draft draft : drafts) {
            if (!draft.what.equals("coin") && !draft.what.equals("box")) {
                continue;
            }
            String number = draft.numbered ? draft.more.getOrDefault("number", "") : "";
            Draft first;
            if (number.isEmpty()) {
                // without a number only a row that says the same throughout, and says much, is the same thing
                first = says(draft) ? byCells.putIfAbsent(draft.fields.toString(), draft) : null;
            } else {
                first = byNumber.putIfAbsent(number, draft);
                first = first != null && same(first, draft, as == As.COINS ? COIN : BOX) ? first : null;
            }
            if (first != null) {
                draft.what = "duplicate";
                draft.ask(
                        "",
                        t(
                                "take.ask-duplicate",
                                as == As.COINS ? CoinReader.name(draft) : BoxReader.name(draft),
                                first.line.number()));
            }
        }
    }

    private static boolean says(Draft draft) {
        boolean dated = (draft.has("acquired") && draft.has("paid")) || draft.has("date");
        return dated
                && draft.fields.size() >= 5
                && (draft.what.equals("coin") || draft.get("finds").matches(".*:~?[1-9].*"));
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
