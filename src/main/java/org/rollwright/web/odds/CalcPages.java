package org.rollwright.web.odds;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.rollwright.calc.Calculator;
import org.rollwright.calc.Calculators;
import org.rollwright.calc.Field;
import org.rollwright.calc.Said;
import org.rollwright.coin.Refusal;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Shown;

/// The calculators: the models by themselves, for anyone with numbers in hand. Every answer has an address of
/// its own.
public final class CalcPages {
    /// One form of the page.
    ///
    /// @param otherwise fields of another way to ask, mostly none
    /// @param answer sentences, empty before it was sent
    /// @param refusal why there is no answer, null when nothing is wrong
    public record Form(
            String model,
            String title,
            String meaning,
            List<Shown> fields,
            List<Shown> otherwise,
            List<String> answer,
            @Nullable Refusal refusal) {
        /// Whether the other way to ask was taken.
        public boolean asksOtherwise() {
            return otherwise.stream().anyMatch(shown -> !shown.value.isBlank());
        }
    }

    /// One field of a form.
    public record Shown(Field field, String value) {
        /// Lines of the field, one more than it holds.
        public int lines() {
            return Math.min(12, (int) value.lines().count() + 1);
        }

        /// Whether it takes the width of the form.
        public boolean wide() {
            return field.rows() || value.length() > SHORT;
        }
    }

    /// Characters that a field beside others shows.
    private static final int SHORT = 20;

    private final Bench bench;

    public CalcPages(Bench bench) {
        this.bench = bench;
    }

    public void register(RoutesConfig routes) {
        routes.get("/odds/calc", this::calc);
    }

    private void calc(Context context) {
        String asked = Optional.ofNullable(context.queryParam("model")).orElse("");
        List<Form> forms = new ArrayList<>();
        for (Calculator calculator : Calculators.ALL) {
            forms.add(calculator.name().equals(asked) ? answered(calculator, context) : fresh(calculator));
        }
        List<Refusal> unknown = new ArrayList<>();
        if (!asked.isEmpty() && Calculators.named(asked).isEmpty()) {
            unknown.add(Calculators.unknown(asked));
            context.status(HttpStatus.NOT_FOUND);
        } else if (forms.stream().anyMatch(form -> form.refusal != null)) {
            context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        }
        context.html(PAGES.oddsCalc(bench.frame(t("page.calculator"), "odds"), forms, unknown)
                .render());
    }

    private static Form fresh(Calculator calculator) {
        return form(
                calculator,
                calculator.fields().stream()
                        .map(field -> new Shown(field, field.shown()))
                        .toList(),
                List.of(),
                null);
    }

    private static Form form(Calculator calculator, List<Shown> shown, List<String> answer, @Nullable Refusal refusal) {
        Map<Boolean, List<Shown>> otherwise =
                shown.stream().collect(Collectors.partitioningBy(one -> one.field.use() == Field.Use.OTHERWISE));
        return new Form(
                calculator.name(),
                calculator.title().get(),
                calculator.question().get(),
                otherwise.getOrDefault(false, List.of()),
                otherwise.getOrDefault(true, List.of()),
                answer,
                refusal);
    }

    private static Form answered(Calculator calculator, Context context) {
        Map<String, String> typed = new LinkedHashMap<>();
        List<Shown> shown = new ArrayList<>();
        for (Field field : calculator.fields()) {
            String value = Optional.ofNullable(context.queryParam(field.key())).orElse("");
            typed.put(field.key(), value);
            shown.add(new Shown(field, value));
        }
        return switch (calculator.compute(Said.form(typed))) {
            case Calculator.Outcome.Computed computed ->
                form(calculator, shown, computed.answer().sentences(), null);
            case Calculator.Outcome.Refused refused -> form(calculator, shown, List.of(), refused.why());
        };
    }
}
