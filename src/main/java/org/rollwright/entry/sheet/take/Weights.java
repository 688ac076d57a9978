package org.rollwright.entry.sheet.take;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import org.rollwright.coin.Mass;

/// Weights as people write them beside a box.
///
/// @param grams rounded to a whole gram
/// @param unitSaid whether a unit stood beside the number
record Weights(long grams, boolean unitSaid) {
    /// @param heading unit said above the column, blank when none
    static Optional<Weights> read(Grid.Cell cell, String heading, Numbers.Manner manner) {
        List<Words.Token> tokens = Words.of(cell.text());
        double grams = 0;
        boolean said = false;
        boolean any = false;
        for (int i = 0; i < tokens.size(); i++) {
            if (tokens.get(i).kind() != Words.Kind.NUMBER) {
                continue;
            }
            Optional<BigDecimal> number =
                    cell.number() == null ? Numbers.read(tokens.get(i).text(), manner) : Optional.of(cell.number());
            if (number.isEmpty()) {
                return Optional.empty();
            }
            // 1,33 kg is a decimal comma in whichever sheet; 2,359 of a column of grams is not
            boolean grouped = tokens.get(i).text().matches("[0-9]{1,2},[0-9]{3}")
                    && factor(i + 1 < tokens.size() ? tokens.get(i + 1).text() : "") != 1000
                    && factor(heading) == 1;
            BigDecimal value = !grouped && tokens.get(i).text().matches("[0-9]{1,2},[0-9]{1,3}")
                    ? new BigDecimal(tokens.get(i).text().replace(',', '.'))
                    : number.get();
            String unit = i + 1 < tokens.size() ? tokens.get(i + 1).text() : "";
            double factor = factor(unit);
            if (factor == 0) {
                factor = factor(heading);
            }
            said |= factor != 0;
            if (factor == 0) {
                // kilograms are written with a fraction, grams without
                factor = value.compareTo(BigDecimal.valueOf(20)) < 0 ? 1000 : 1;
            }
            grams += value.doubleValue() * factor;
            any = true;
            if (cell.number() != null) {
                break;
            }
        }
        return any ? Optional.of(new Weights(Math.round(grams), said)) : Optional.empty();
    }

    static double factor(String unit) {
        return switch (unit) {
            case "g", "gr", "gm", "gms", "gram", "grams", "gramm", "grammes" -> 1;
            case "kg", "kgs", "kilo", "kilos", "k" -> 1000;
            case "lb", "lbs", "pound", "pounds", "#" -> Mass.GRAMS_PER_POUND;
            case "oz", "ozs", "ounce", "ounces" -> Mass.GRAMS_PER_OUNCE;
            default -> 0;
        };
    }

    /// The unit a heading names.
    static String unit(String heading) {
        return Words.of(heading).stream()
                .map(Words.Token::text)
                .filter(word -> factor(word) != 0 && !word.equals("#") && !word.equals("k"))
                .findFirst()
                .orElse("");
    }
}
