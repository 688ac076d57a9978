package org.rollwright.web;

import static org.rollwright.text.Texts.t;

import io.javalin.http.Context;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.Map;
import org.rollwright.coin.Limits;

/// Reads the fields of the Till's forms; what cannot be read becomes one sentence.
final class TillForm {
    /// A field that says nothing usable, or a booking that cannot be.
    static final class Unread extends RuntimeException {
        private static final long serialVersionUID = 1L;

        Unread(String sentence) {
            super(sentence, null, false, false);
        }

        String sentence() {
            return String.valueOf(getMessage());
        }
    }

    private final Context context;
    private final LocalDate today;

    TillForm(Context context, Bench bench) {
        this.context = context;
        this.today = today(bench);
    }

    static LocalDate today(Bench bench) {
        return LocalDate.ofInstant(bench.clock().instant(), ZoneId.systemDefault());
    }

    /// Everything typed, so that a refused form comes back as it was.
    static Map<String, String> typed(Context context) {
        Map<String, String> typed = new LinkedHashMap<>();
        context.queryParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        context.formParamMap().forEach((name, values) -> typed.put(name, String.join(",", values)));
        return typed;
    }

    String text(String name) {
        return HuntForm.text(context, name);
    }

    /// A day, today when blank.
    LocalDate day(String name, String what) {
        String text = text(name);
        return text.isEmpty()
                ? today
                : Limits.day(text).orElseThrow(() -> new Unread(t("till.date-wrong", what, text)));
    }

    /// An amount of money, above zero.
    BigDecimal amount(String name) {
        BigDecimal amount = moneyOrZero(name, t("field.amount"));
        if (amount.signum() <= 0) {
            throw new Unread(t("till.amount-form"));
        }
        return amount;
    }

    BigDecimal moneyOrZero(String name, String what) {
        String text = text(name).replace(",", "").replace("$", "");
        if (text.isEmpty()) {
            return BigDecimal.ZERO.setScale(2);
        }
        return Limits.money(text).orElseThrow(() -> new Unread(t("till.amount-wrong", what, text(name))));
    }

    /// A percentage, 0 when blank.
    BigDecimal percent(String name, String what) {
        String text = text(name).replace("%", "").strip();
        if (!text.matches("([0-9]{1,2}(\\.[0-9]{1,3})?)?")) {
            throw new Unread(t("till.percentage-wrong", what, text(name)));
        }
        return text.isEmpty() ? BigDecimal.ZERO : new BigDecimal(text);
    }

    int whole(String name, String what, int least, int most, int blank) {
        String text = text(name);
        if (text.isEmpty()) {
            return blank;
        }
        int value = text.matches("[0-9]{1,6}") ? Integer.parseInt(text) : -1;
        if (value < least || value > most) {
            throw new Unread(t("till.number-wrong", what, least, most, text));
        }
        return value;
    }

    /// A distance in kilometres; 0 when blank.
    double kilometres(String name, String what) {
        return kilometres(text(name), what, 0);
    }

    /// Kilometres from `12`, `12 km` or `7.5 mi`.
    ///
    /// @param blank what a blank text means
    static double kilometres(String text, String what, double blank) {
        return text.isBlank()
                ? blank
                : Manner.kilometres(text).orElseThrow(() -> new Unread(t("till.distance-wrong", what, text)));
    }
}
