package org.rollwright.entry.sheet;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.DayStyle;
import org.rollwright.coin.Refusal;

/// Which column of a spreadsheet is what.
///
/// As text: `label=Box; date=Date; coins=Searched; found:wheat=Wheats; dates=dmy; denomination is cent`. Behind
/// `=` stands the column's heading; `is` gives one value for every row.
///
/// @param columns headings by field
/// @param fixed values for every row by field
/// @param found headings by what was found: a watch name, or a coin as on the entry line
/// @param dates how dates are written: iso (2026-05-03), dmy (3.5.2026, 3/5/2026) or mdy (5/3/2026)
public record Mapping(
        Map<String, String> columns, Map<String, String> fixed, Map<String, String> found, DayStyle dates) {

    /// The outcome of reading a mapping.
    public sealed interface Parsed {
        record Good(Mapping mapping) implements Parsed {}

        record Bad(Refusal flaw) implements Parsed {}
    }

    /// The fields a box has in a spreadsheet.
    static final List<String> FIELDS = List.of(
            "label", "date", "denomination", "bank", "branch", "rolls", "coins", "wrap", "stamp", "sisters", "note");

    private static final Map<String, List<String>> HEADINGS = Map.of(
            "label", List.of("label", "box", "name", "number", "no", "box no", "box number"),
            "date", List.of("date", "day", "picked up", "searched on"),
            "denomination",
                    List.of(
                            "denomination",
                            "denom",
                            "denom.",
                            "coin",
                            "coin type",
                            "type",
                            "kind",
                            "what",
                            "what coin"),
            "bank", List.of("bank", "source", "from", "got from", "where"),
            "branch", List.of("branch", "town", "place"),
            "rolls", List.of("rolls"),
            "coins", List.of("coins", "searched", "coins searched", "count"),
            "wrap", List.of("wrap", "wrapped by", "wrapping"),
            "stamp", List.of("stamp", "seal"),
            "note", List.of("note", "notes", "remark", "remarks", "comment"));

    private static final Map<String, DayStyle> STYLES =
            Map.of("iso", DayStyle.ISO, "dmy", DayStyle.DAY_FIRST, "mdy", DayStyle.MONTH_FIRST);

    public Mapping {
        columns = Map.copyOf(columns);
        fixed = Map.copyOf(fixed);
        found = Map.copyOf(found);
    }

    /// A first guess from the headings, for the user to confirm or change. Headings that name a watch (wheat,
    /// copper) or end in its plural become found columns; the others are left out.
    public static Mapping guess(List<String> headings, Catalog catalog) {
        Map<String, String> columns = new LinkedHashMap<>();
        Map<String, String> found = new LinkedHashMap<>();
        for (String heading : headings) {
            String word = heading.strip().toLowerCase(Locale.ROOT);
            Optional<String> field = FIELDS.stream()
                    .filter(known -> HEADINGS.getOrDefault(known, List.of()).contains(word))
                    .findFirst();
            if (field.isPresent() && !columns.containsKey(field.get())) {
                columns.put(field.get(), heading.strip());
            } else {
                catalog.watchByWord(word).ifPresent(watch -> found.putIfAbsent(watch.name(), heading.strip()));
            }
        }
        Map<String, String> fixed = columns.containsKey("denomination") ? Map.of() : Map.of("denomination", "cent");
        return new Mapping(columns, fixed, found, DayStyle.ISO);
    }

    /// Reads a mapping.
    public static Parsed parse(String text) {
        Map<String, String> columns = new LinkedHashMap<>();
        Map<String, String> fixed = new LinkedHashMap<>();
        Map<String, String> found = new LinkedHashMap<>();
        DayStyle dates = DayStyle.ISO;
        for (String piece : text.split(";")) {
            String part = piece.strip();
            if (part.isEmpty()) {
                continue;
            }
            int equals = part.indexOf('=');
            int is = part.indexOf(" is ");
            if (equals < 0 && is < 0) {
                return bad(part);
            }
            boolean isFixed = equals < 0 || (is >= 0 && is < equals);
            String field = part.substring(0, isFixed ? is : equals).strip().toLowerCase(Locale.ROOT);
            String value = part.substring(isFixed ? is + 4 : equals + 1).strip();
            if (value.isEmpty()) {
                return bad(part);
            }
            if (field.equals("dates")) {
                DayStyle style = STYLES.get(value);
                if (style == null) {
                    return new Parsed.Bad(new Refusal(t("sheet.dates-wrong", value), t("sheet.dates-form")));
                }
                dates = style;
            } else if (field.startsWith("found:") && !isFixed && field.length() > 6) {
                found.put(field.substring(6), value);
            } else if (FIELDS.contains(field)) {
                (isFixed ? fixed : columns).put(field, value);
            } else {
                return bad(part);
            }
        }
        return new Parsed.Good(new Mapping(columns, fixed, found, dates));
    }

    private static Parsed bad(String part) {
        return new Parsed.Bad(
                new Refusal(t("sheet.field-missing", part), t("sheet.fields-form", String.join(", ", FIELDS))));
    }

    /// The order of dates in the word that stands for it.
    String order() {
        return STYLES.entrySet().stream()
                .filter(style -> style.getValue() == dates)
                .map(Map.Entry::getKey)
                .findFirst()
                .orElseThrow();
    }

    /// The mapping in words that [#parse] reads.
    public String text() {
        List<String> parts = new ArrayList<>();
        for (String field : FIELDS) {
            if (columns.containsKey(field)) {
                parts.add(field + "=" + columns.get(field));
            }
            if (fixed.containsKey(field)) {
                parts.add(field + " is " + fixed.get(field));
            }
        }
        found.entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .forEach(entry -> parts.add("found:" + entry.getKey() + "=" + entry.getValue()));
        parts.add("dates=" + order());
        return String.join("; ", parts);
    }
}
