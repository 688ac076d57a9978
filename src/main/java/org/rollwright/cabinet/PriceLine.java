package org.rollwright.cabinet;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Refusal;
import org.rollwright.journal.Event;

/// What a coin costs in a grade, as one line says it: `vf30 12.50` or `65 RD 30`. Without an amount it says that no
/// price is known.
///
/// @param colour null where the colour does not matter
/// @param amount as typed, blank for none
public record PriceLine(Grade grade, @Nullable Colour colour, String amount) {
    /// Reads a line; empty when it is none.
    public static Optional<PriceLine> read(String line) {
        String[] parts = line.strip().split("[\\s;,\\t]+");
        Optional<Grade> grade = grade(parts[0]);
        boolean coloured = parts.length > 1 && parts[1].toUpperCase(Locale.ROOT).matches("BN|RB|RD");
        int amountAt = coloured ? 2 : 1;
        if (grade.isEmpty() || parts.length > amountAt + 1) {
            return Optional.empty();
        }
        return Optional.of(new PriceLine(
                grade.get(),
                coloured ? Colour.valueOf(parts[1].toUpperCase(Locale.ROOT)) : null,
                parts.length > amountAt ? parts[amountAt] : ""));
    }

    private static Optional<Grade> grade(String text) {
        Optional<Grade> grade = Grade.parse(text);
        return grade.isEmpty() && text.matches("[0-9]{1,2}") && Grade.steps().contains(Integer.valueOf(text))
                ? Optional.of(new Grade(Integer.parseInt(text)))
                : grade;
    }

    /// Why the amount is none.
    public Optional<Refusal> flaw() {
        String label = t("cabinet.label-price-at", grade, colour == null ? "" : " " + colour);
        if (amount.isEmpty()) {
            return Optional.empty();
        }
        Optional<BigDecimal> money = Limits.money(Limits.typed(amount));
        if (money.isEmpty()) {
            return Refusal.of(t("cabinet.no-amount-at", label, amount), t("cabinet.write-amount"));
        }
        return money.get().signum() == 0
                ? Refusal.of(t("cabinet.zero-at", label), t("cabinet.leave-blank"))
                : Optional.empty();
    }

    /// What lines change in the prices of an issue; a price that is known already changes nothing.
    public static List<Event> events(
            CabinetBook book, Identity issue, List<PriceLine> lines, LocalDate day, String note) {
        List<PricePoint> known = book.prices().getOrDefault(issue, List.of());
        List<Event> events = new ArrayList<>();
        for (PriceLine line : lines) {
            Optional<PricePoint> before = known.stream()
                    .filter(price -> price.grade().equals(line.grade) && Objects.equals(price.colour(), line.colour))
                    .findFirst();
            if (line.amount.isEmpty()) {
                before.ifPresent(price -> events.add(new CabinetEvent.PriceForgotten(price)));
                continue;
            }
            BigDecimal amount = Limits.money(Limits.typed(line.amount)).orElseThrow();
            if (before.isEmpty() || before.get().amount().compareTo(amount) != 0) {
                events.add(
                        new CabinetEvent.PriceNoted(new PricePoint(issue, line.grade, line.colour, amount, day, note)));
            }
        }
        return events;
    }
}
