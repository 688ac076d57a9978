package org.rollwright.coin;

import static org.rollwright.text.Texts.t;

import java.util.Locale;

/// Reads a weight as people write it: `1899.4g`, `1.9 kg`, `3lb 4oz`, `52 oz`. A unit is required, because
/// scales differ.
public final class MassText {
    /// What came of it.
    public sealed interface Result {
        record Good(Mass mass) implements Result {}

        record Bad(Refusal flaw) implements Result {}
    }

    private MassText() {}

    /// @param words the weight; spaces do not matter
    public static Result read(String words) {
        String text = Limits.pointed(words.replaceAll("\\s+", "").toLowerCase(Locale.ROOT));
        if (text.isEmpty()) {
            return bad(t("coin.the-weight-is-missing"));
        }
        if (text.startsWith("-")) {
            return bad(t("coin.a-weight-cannot-be-negative"));
        }
        double grams = 0;
        boolean metric = false;
        boolean pounds = false;
        int at = 0;
        while (at < text.length()) {
            int from = at;
            while (at < text.length() && (isDigit(text.charAt(at)) || text.charAt(at) == '.')) {
                at++;
            }
            String number = text.substring(from, at);
            int unitFrom = at;
            while (at < text.length() && !isDigit(text.charAt(at)) && text.charAt(at) != '.') {
                at++;
            }
            String unit = text.substring(unitFrom, at);
            double factor = factor(unit);
            if (number.isEmpty()
                    || number.length() > 12
                    || number.equals(".")
                    || number.indexOf('.') != number.lastIndexOf('.')) {
                return bad(t("coin.weight-wrong", text));
            }
            if (factor == 0) {
                return bad(unit.isEmpty() ? t("coin.the-unit-is-missing") : t("coin.unit-unknown", unit));
            }
            metric |= factor == 1 || factor == 1000;
            pounds |= factor != 1 && factor != 1000;
            grams += Double.parseDouble(number) * factor;
        }
        if (metric && pounds) {
            return bad(t("coin.units-mixed"));
        }
        return grams > 1e6 ? bad(t("coin.above-a-tonne")) : new Result.Good(Mass.ofGrams(grams));
    }

    private static Result bad(String wrong) {
        return new Result.Bad(new Refusal(wrong, t("coin.weight-form")));
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }

    private static double factor(String unit) {
        return switch (unit) {
            case "g", "gram", "grams" -> 1;
            case "kg", "kilo", "kilos" -> 1000;
            case "lb", "lbs", "pound", "pounds" -> Mass.GRAMS_PER_POUND;
            case "oz", "ounce", "ounces" -> Mass.GRAMS_PER_OUNCE;
            default -> 0;
        };
    }
}
