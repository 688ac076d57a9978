package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.rollwright.catalog.Catalog;

/// Reads the sheets of strangers. Immutable and thread-safe.
///
/// @param words the words of sheets: catalog/sheets/lexicon.csv
public record Taking(Catalog catalog, Lexicon words) {
    /// The outcome of reading a file.
    public sealed interface Read {
        record Good(Taken taken) implements Read {}

        /// @param sentence why the file cannot be used
        record Unusable(String sentence) implements Read {}
    }

    /// What a heading may be said to mean: fields, and what is known beside them.
    public static List<String> meanings(As as) {
        return as == As.COINS
                ? List.of(
                        "number",
                        "coin",
                        "country",
                        "denomination",
                        "year",
                        "mint",
                        "kind",
                        "grade",
                        "details",
                        "colour",
                        "quantity",
                        "place",
                        "paid",
                        "paid-each",
                        "paid-all",
                        "currency",
                        "worth",
                        "acquired",
                        "from",
                        "note",
                        "unread")
                : List.of(
                        "number",
                        "date",
                        "bank",
                        "denomination",
                        "amount",
                        "rolls",
                        "box-count",
                        "coins",
                        "grams",
                        "finds-text",
                        "note",
                        "find:wheat",
                        "unread");
    }

    /// Whether a topic of a question is that nothing is said.
    public static boolean isUnsaid(String topic) {
        return List.of(t("take.nothing-said"), t("take.no-currency")).contains(topic);
    }

    /// Whether a heading may be said to mean this.
    public static boolean isMeaning(String meaning, As as) {
        boolean find = as == As.BOXES && meaning.startsWith("find:") && meaning.length() > 5 && meaning.length() < 60;
        return find || meanings(as).contains(meaning);
    }

    /// What the hunter says of a file beside what stands in it.
    ///
    /// @param headings what headings mean: the heading to one of [#meanings]
    /// @param usual what is true of every row that says nothing else, by field: `denomination`, `currency`
    /// @param file its name, blank when there is none; it may say what the sheet does not
    public record Said(Map<String, String> headings, Map<String, String> usual, String file) {
        public Said {
            headings = Map.copyOf(headings);
            usual = Map.copyOf(usual);
        }
    }

    /// Answers that hold for every row which says nothing: with them the sheet is read, not only filled in.
    public static Map<String, String> usual(List<Taken.Answer> given) {
        Map<String, String> usual = new LinkedHashMap<>();
        given.stream()
                .filter(answer -> answer.row() == Taken.Answer.ALL)
                .filter(answer -> answer.topic().isEmpty() || isUnsaid(answer.topic()))
                .filter(answer ->
                        answer.field().equals("denomination") || answer.field().equals("currency"))
                .forEach(answer -> usual.put(answer.field(), answer.value()));
        return usual;
    }

    /// Reads a file.
    ///
    /// @param said what headings mean by the hunter's word: the heading to one of [#meanings]
    public Read read(byte[] bytes, As as, Map<String, String> said) {
        return read(bytes, as, new Said(said, Map.of(), ""));
    }

    /// Reads a file.
    public Read read(byte[] bytes, As as, Said said) {
        return switch (GridReader.read(bytes)) {
            case GridReader.Read.Unusable unusable -> new Read.Unusable(unusable.sentence());
            case GridReader.Read.Good good -> read(good, as, said);
        };
    }

    private Read read(GridReader.Read.Good good, As as, Said said) {
        Map<String, String> meanings = new java.util.HashMap<>();
        said.headings().forEach((heading, field) -> meanings.put(Words.key(heading), field));
        BankNames banks = new BankNames();
        List<SheetReader> readers = good.grids().stream()
                .map(grid -> new SheetReader(as, words, catalog, grid, banks, meanings))
                .toList();
        if (readers.stream().allMatch(reader -> reader.tables().isEmpty())) {
            return new Read.Unusable(as == As.COINS ? t("take.no-coins") : t("take.no-boxes"));
        }
        readers.forEach(SheetReader::noteBanks);
        String file = said.file().replaceAll("\\.[A-Za-z]{2,5}$", "").replaceAll("[_.-]+", " ");
        readers.forEach(reader -> reader.beside(file, said.usual()));
        List<TakenRow> rows = new ArrayList<>();
        List<Taken.Table> tables = new ArrayList<>();
        for (SheetReader reader : readers) {
            reader.read().forEach(draft -> rows.add(draft.done(as)));
            tables.addAll(reader.report());
        }
        return new Read.Good(new Taken(as, tables, rows, good.remarks()));
    }
}
