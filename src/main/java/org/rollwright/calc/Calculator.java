package org.rollwright.calc;

import java.util.List;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.rollwright.coin.Refusal;

/// One model by itself.
///
/// @param name by which commands and addresses call it
/// @param title of its form
/// @param question it answers
/// @param fields what it takes
/// @param work computes; may refuse what does not go together
public record Calculator(
        String name,
        Supplier<String> title,
        Supplier<String> question,
        List<Field> fields,
        Function<Input, Answer> work) {
    /// What came of it.
    public sealed interface Outcome {
        /// It was computed.
        record Computed(Answer answer) implements Outcome {}

        /// It cannot be.
        record Refused(Refusal why) implements Outcome {}
    }

    public Calculator {
        fields = List.copyOf(fields);
    }

    /// Computes.
    public Outcome compute(Said said) {
        try {
            return new Outcome.Computed(work.apply(new Input(fields, said)));
        } catch (Input.Refused refused) {
            return new Outcome.Refused(refused.why());
        }
    }

    /// What may be said, as JSON.
    ///
    /// @param otherwise the other way to ask, blank when there is none
    public String example(boolean otherwise) {
        String all = fields.stream()
                .filter(field -> otherwise == (field.use() == Field.Use.OTHERWISE))
                .map(field -> "\"" + field.key() + "\":" + json(field))
                .collect(Collectors.joining(","));
        return all.isEmpty() ? "" : "{" + all + "}";
    }

    private static String json(Field field) {
        return switch (field.kind()) {
            case Field.Figure kind -> field.example();
            case Field.Numbers kind -> list(field.example());
            case Field.Rows kind ->
                field.example().lines().map(Calculator::list).collect(Collectors.joining(",", "[", "]"));
            case Field.Words kind -> "[\"" + field.example().replace(", ", "\",\"") + "\"]";
        };
    }

    private static String list(String numbers) {
        return "[" + numbers.replace(' ', ',') + "]";
    }
}
