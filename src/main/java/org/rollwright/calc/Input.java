package org.rollwright.calc;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Refusal;
import org.rollwright.text.Figures;

/// What was said, read: the one place that tells numbers from what is none, and what is in reach from what is not.
public final class Input {
    /// Ends a computation; carries why.
    static final class Refused extends RuntimeException {
        private static final long serialVersionUID = 1L;
        private final transient Refusal why;

        Refused(Refusal why) {
            super(why.toString(), null, false, false);
            this.why = why;
        }

        Refusal why() {
            return why;
        }
    }

    private static final Pattern NUMBER =
            Pattern.compile("[-+]?+([0-9]++(\\.[0-9]*+)?+|\\.[0-9]++)([eE][-+]?+[0-9]{1,9}+)?+");
    private static final String BLANKS_OR_COMMAS = "[\\s,;]+";
    private static final String COMMAS_OR_LINES = "[,;\\r\\n]+";

    private final Map<String, Field> fields = new HashMap<>();
    private final Map<String, List<List<Double>>> numbers = new HashMap<>();
    private final Map<String, List<String>> words = new HashMap<>();

    /// Reads all fields, in their order.
    ///
    /// @throws Refused at the first that cannot be used
    Input(List<Field> fields, Said said) {
        for (Field field : fields) {
            this.fields.put(field.key(), field);
            read(field, said);
        }
    }

    private void read(Field field, Said said) {
        String where = where(field.key());
        List<List<Double>> found = new ArrayList<>();
        switch (field.kind()) {
            case Field.Figure kind -> {
                String one = said.one(field.key());
                if (!one.isEmpty()) {
                    found.add(List.of(number(where, Limits.typed(one), one, kind, field)));
                }
            }
            case Field.Numbers kind -> {
                List<String> all = said.many(field.key(), BLANKS_OR_COMMAS);
                if (!all.isEmpty()) {
                    count(all.size(), kind.fewest(), kind.most(), t("calc.holds-numbers", all.size(), where), field);
                    List<Double> list = new ArrayList<>();
                    for (String one : all) {
                        list.add(number(t("calc.at-number", where, list.size() + 1), one, one, kind.each(), field));
                    }
                    found.add(list);
                }
            }
            case Field.Rows kind -> {
                List<List<String>> all = said.rows(field.key(), BLANKS_OR_COMMAS, kind.columns());
                if (!all.isEmpty()) {
                    count(all.size(), kind.fewest(), kind.most(), t("calc.holds-rows", all.size(), where), field);
                }
                for (List<String> row : all) {
                    found.add(row(t("calc.at-row", where, found.size() + 1), row, kind, field));
                }
            }
            case Field.Words kind -> {
                List<String> all = said.many(field.key(), COMMAS_OR_LINES);
                if (!all.isEmpty()) {
                    count(all.size(), kind.fewest(), kind.most(), t("calc.holds-names", all.size(), where), field);
                    all.forEach(one -> Limits.text(where, one, Limits.NAME).ifPresent(why -> {
                        throw new Refused(why);
                    }));
                    words.put(field.key(), all);
                }
            }
        }
        if (!found.isEmpty()) {
            numbers.put(field.key(), found);
        } else if (field.use() == Field.Use.NEEDED && !words.containsKey(field.key())) {
            throw missing(field.key());
        }
    }

    private static List<Double> row(String where, List<String> row, Field.Rows kind, Field field) {
        if (!kind.columns().isEmpty() && row.size() > kind.columns().size()) {
            throw refused(t("calc.holds-numbers", row.size(), where), right(field));
        }
        List<Double> read = new ArrayList<>();
        for (int i = 0; i < Math.max(row.size(), kind.columns().size()); i++) {
            String at = kind.columns().isEmpty()
                    ? t("calc.at-number", where, i + 1)
                    : t("calc.at-column", where, kind.columns().get(i));
            String one = i < row.size() ? row.get(i) : "";
            if (one.isEmpty()) {
                throw refused(t("calc.missing", at), right(field));
            }
            read.add(number(at, one, one, kind.each(), field));
        }
        return read;
    }

    private static double number(String where, String plain, String said, Field.Figure kind, Field field) {
        OptionalDouble number =
                NUMBER.matcher(plain).matches() ? OptionalDouble.of(Double.parseDouble(plain)) : OptionalDouble.empty();
        if (number.isPresent()) {
            double value = number.getAsDouble();
            if (value >= kind.least() && value <= kind.most() && (!kind.whole() || value == Math.rint(value))) {
                return value;
            }
        }
        throw refused(
                kind.whole()
                        ? t("calc.no-whole-number", where, Refusal.quote(said))
                        : t("calc.no-number", where, Refusal.quote(said)),
                right(field));
    }

    private static void count(int there, int fewest, int most, String wrong, Field field) {
        if (there < fewest || there > most) {
            throw refused(wrong, right(field));
        }
    }

    /// What would be right in a field.
    private static String right(Field field) {
        return switch (field.kind()) {
            case Field.Figure kind ->
                kind.whole()
                        ? t("calc.write-whole", plain(kind.least()), plain(kind.most()))
                        : t("calc.write-number", plain(kind.least()), plain(kind.most()));
            case Field.Numbers kind ->
                kind.each().whole()
                        ? t(
                                "calc.write-wholes",
                                kind.fewest(),
                                Limits.thousands(kind.most()),
                                plain(kind.each().least()),
                                plain(kind.each().most()))
                        : t(
                                "calc.write-numbers",
                                kind.fewest(),
                                Limits.thousands(kind.most()),
                                plain(kind.each().least()),
                                plain(kind.each().most()));
            case Field.Rows kind ->
                t(
                                "calc.write-rows",
                                kind.fewest(),
                                Limits.thousands(kind.most()),
                                plain(kind.each().least()),
                                plain(kind.each().most()))
                        + (kind.columns().isEmpty()
                                ? ""
                                : " " + t("calc.row-holds", String.join(", ", kind.columns())));
            case Field.Words kind -> t("calc.write-names", kind.fewest(), Limits.thousands(kind.most()));
        };
    }

    /// A bound as it is written: 1,000,000,000 or 0.000001.
    private static String plain(double bound) {
        return bound == Math.rint(bound) ? Figures.of("%,.0f", bound) : Figures.plain(bound);
    }

    /// A field in a sentence, by its label and its key.
    String where(String key) {
        return t("calc.field", field(key).label().get(), key);
    }

    private Field field(String key) {
        return Optional.ofNullable(fields.get(key)).orElseThrow(() -> new IllegalArgumentException("no field " + key));
    }

    /// Why a field cannot be used, to be thrown.
    static Refused refused(String wrong, String right) {
        return new Refused(new Refusal(wrong, right));
    }

    /// That a field was left blank, to be thrown.
    Refused missing(String key) {
        return refused(t("calc.missing", where(key)), right(field(key)));
    }

    /// Whether anything was said in a field.
    boolean has(String key) {
        return numbers.containsKey(key) || words.containsKey(field(key).key());
    }

    double number(String key) {
        return rows(key).getFirst().getFirst();
    }

    double number(String key, double usual) {
        return has(key) ? number(key) : usual;
    }

    int whole(String key) {
        return (int) number(key);
    }

    /// Numbers of a field, none when it was left blank.
    List<Double> numbers(String key) {
        return has(key) ? rows(key).getFirst() : List.of();
    }

    /// Rows of a field, none when it was left blank.
    List<List<Double>> rows(String key) {
        return numbers.getOrDefault(field(key).key(), List.of());
    }

    /// Names of a field, none when it was left blank.
    List<String> words(String key) {
        return words.getOrDefault(field(key).key(), List.of());
    }
}
