package org.rollwright.calc;

import static org.rollwright.text.Texts.t;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.rollwright.coin.Refusal;

/// Every calculator, in the order of the page and of the command's help.
public final class Calculators {
    /// The table of contents.
    public static final List<Calculator> ALL = Stream.of(
                    OddsCalculators.ALL, ScaleCalculators.ALL, ScopeCalculators.ALL, CabinetCalculators.ALL)
            .flatMap(List::stream)
            .toList();

    private Calculators() {}

    /// A calculator by its name.
    public static Optional<Calculator> named(String name) {
        return ALL.stream().filter(one -> one.name().equals(name)).findFirst();
    }

    /// The names, for a sentence.
    public static String names() {
        return ALL.stream().map(Calculator::name).collect(Collectors.joining(", "));
    }

    /// Why a name is refused.
    public static Refusal unknown(String name) {
        return new Refusal(t("calc.no-calculator", Refusal.quote(name)), t("calc.there-are", names()));
    }
}
