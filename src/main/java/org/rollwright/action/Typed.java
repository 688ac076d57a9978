package org.rollwright.action;

import static org.rollwright.text.Texts.labelled;
import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.joda.money.CurrencyUnit;
import org.joda.money.IllegalCurrencyException;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.coin.Distance;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Mass;
import org.rollwright.coin.MassText;
import org.rollwright.coin.Refusal;
import org.rollwright.journal.Declined;

/// Reads fields, and takes note of every one that cannot be read; then [#done] declines. What is answered in place of
/// such a field only keeps the reading going.
public final class Typed {
    private final Fields fields;
    private final Setting setting;
    private final List<Refusal> wrong = new ArrayList<>();

    Typed(Fields fields, Setting setting) {
        this.fields = fields;
        this.setting = setting;
    }

    void wrong(String wrongSentence, String right) {
        wrong.add(new Refusal(wrongSentence, right));
    }

    /// Whether every field so far could be read.
    boolean isFine() {
        return wrong.isEmpty();
    }

    /// Declines when a field could not be read.
    void done() {
        if (!wrong.isEmpty()) {
            throw new Declined(wrong);
        }
    }

    boolean has(String name) {
        return !text(name).isEmpty();
    }

    /// What stands in a field, blank when nothing does.
    String text(String name) {
        List<String> all = fields.all(name);
        return all.isEmpty() ? "" : all.getLast().strip();
    }

    /// Whether a field is there at all, be it blank.
    boolean said(String name) {
        return !fields.all(name).isEmpty();
    }

    /// What stands in a field; what stood there before when the field is not there.
    String text(String name, String before) {
        return said(name) ? text(name) : before;
    }

    /// Everything that stands in a field, also behind commas.
    List<String> list(String name) {
        return fields.all(name).stream()
                .flatMap(one -> Arrays.stream(one.split(",")))
                .map(String::strip)
                .filter(one -> !one.isEmpty())
                .distinct()
                .toList();
    }

    /// Everything that stands in a field, a line each.
    List<String> lines(String name) {
        return fields.all(name).stream()
                .flatMap(String::lines)
                .map(String::strip)
                .filter(one -> !one.isEmpty())
                .toList();
    }

    /// Whether a box was ticked or `yes` stands there; blank means no.
    boolean flag(String name, String what) {
        String text = text(name).toLowerCase(Locale.ROOT);
        boolean yes = text.equals("yes");
        if (!yes && !text.isEmpty() && !text.equals("no")) {
            wrong(t("typed.no-yes-or-no", what, Refusal.quote(text(name))), t("typed.write-yes-or-no"));
        }
        return yes;
    }

    /// A day, today when blank.
    LocalDate day(String name, String what) {
        LocalDate day = maybeDay(name, what);
        return day == null ? setting.today() : day;
    }

    /// A day, null when blank.
    @Nullable
    LocalDate maybeDay(String name, String what) {
        String text = text(name);
        Optional<LocalDate> day = Limits.day(text);
        if (!text.isEmpty() && day.isEmpty()) {
            wrong(
                    t("typed.no-day", what, Refusal.quote(text), Limits.FIRST_DAY, Limits.LAST_DAY),
                    t("typed.write-a-day"));
        }
        return day.orElse(null);
    }

    /// An amount of money, above 0.
    BigDecimal amount(String name, String what) {
        BigDecimal amount = money(name, what);
        if (amount.signum() <= 0) {
            wrong(t("typed.no-amount", what, Refusal.quote(text(name))), t("typed.write-an-amount"));
        }
        return amount;
    }

    /// An amount of money, 0 when blank.
    BigDecimal money(String name, String what) {
        BigDecimal amount = maybeMoney(name, what);
        return amount == null ? BigDecimal.ZERO.setScale(2) : amount;
    }

    /// An amount of money, null when blank.
    @Nullable
    BigDecimal maybeMoney(String name, String what) {
        String text =
                Limits.typed(text(name).replace("$", "").replace('\u00A0', ' ').strip());
        if (text.isEmpty()) {
            return null;
        }
        Optional<BigDecimal> amount = Limits.money(text);
        if (amount.isEmpty()) {
            wrong(t("typed.no-amount", what, Refusal.quote(text(name))), t("typed.write-an-amount"));
            return BigDecimal.ONE;
        }
        return amount.get();
    }

    /// A percentage, 0 when blank.
    BigDecimal percent(String name, String what) {
        String text = Limits.pointed(
                text(name).replace("%", "").replace('\u00A0', ' ').strip());
        if (text.isEmpty()) {
            return BigDecimal.ZERO;
        }
        if (!text.matches("[0-9]{1,2}(\\.[0-9]{1,3})?")) {
            wrong(t("typed.no-percentage", what, Refusal.quote(text(name))), t("typed.write-a-percentage"));
            return BigDecimal.ZERO;
        }
        return new BigDecimal(text);
    }

    /// A whole number.
    ///
    /// @param blank what a blank field means; null when it must not be blank
    long whole(String name, String what, long least, long most, @Nullable Long blank) {
        String text = text(name);
        if (text.isEmpty() && blank != null) {
            return blank;
        }
        if (text.matches("[0-9]{1,15}")) {
            long value = Long.parseLong(text);
            if (value >= least && value <= most) {
                return value;
            }
        }
        wrong(
                t("typed.no-whole-number", what, Refusal.quote(text)),
                t("typed.write-a-whole-number", least, Limits.thousands(most)));
        return least;
    }

    int small(String name, String what, int least, int most, @Nullable Integer blank) {
        return Math.toIntExact(whole(name, what, least, most, blank == null ? null : Long.valueOf(blank)));
    }

    /// A distance in kilometres, 0 when blank.
    double kilometres(String name, String what) {
        String text = text(name);
        if (text.isEmpty()) {
            return 0;
        }
        Optional<Double> distance = Distance.kilometres(text, setting.milesMeant());
        if (distance.isEmpty()) {
            wrong(t("typed.no-distance", what, Refusal.quote(text)), t("typed.write-a-distance"));
        }
        return distance.orElse(0.0);
    }

    /// A weight.
    ///
    /// @param blank what a blank field means; null when it must not be blank
    Mass mass(String name, String what, @Nullable Mass blank) {
        if (text(name).isEmpty() && blank != null) {
            return blank;
        }
        return switch (MassText.read(text(name))) {
            case MassText.Result.Good good -> good.mass();
            case MassText.Result.Bad bad -> {
                wrong(labelled(what, bad.flaw().wrong()), bad.flaw().right());
                yield Mass.ofGrams(0);
            }
        };
    }

    /// One word of a list, in capitals or not; null when it is none.
    <E extends Enum<E>> @Nullable E word(String name, String what, Class<E> list) {
        String text = text(name);
        for (E one : list.getEnumConstants()) {
            if (one.name().equalsIgnoreCase(text)) {
                return one;
            }
        }
        wrong(
                t("typed.no-word", what, Refusal.quote(text)),
                t(
                        "typed.write-one-of",
                        String.join(
                                ", ",
                                Arrays.stream(list.getEnumConstants())
                                        .map(one -> one.name().toLowerCase(Locale.ROOT))
                                        .toList())));
        return null;
    }

    /// Days of the week, by their names or the first three letters.
    Set<DayOfWeek> weekdays(String name, String what) {
        Set<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
        for (String one : list(name)) {
            for (String word : one.split(" +")) {
                Optional<DayOfWeek> day = Arrays.stream(DayOfWeek.values())
                        .filter(known -> word.length() >= 3 && known.name().startsWith(word.toUpperCase(Locale.ROOT)))
                        .findFirst();
                day.ifPresentOrElse(
                        days::add,
                        () -> wrong(t("typed.no-weekday", what, Refusal.quote(word)), t("typed.write-weekdays")));
            }
        }
        return days;
    }

    /// A denomination: `US cent`, `cent` or `ca nickel`.
    Optional<DenominationFacts> denomination(String name) {
        return denomination(name, "");
    }

    Optional<DenominationFacts> denomination(String name, String blank) {
        String text = has(name) ? text(name) : blank;
        Optional<DenominationFacts> facts = setting.catalog().denominationByName(text);
        if (facts.isEmpty()) {
            wrong(t("typed.no-denomination", Refusal.quote(text)), t("typed.write-a-denomination"));
        }
        return facts;
    }

    /// A currency by its code.
    CurrencyUnit currency(String name) {
        String text = text(name);
        try {
            return text.isEmpty() ? CurrencyUnit.USD : CurrencyUnit.of(text.toUpperCase(Locale.ROOT));
        } catch (IllegalCurrencyException e) {
            wrong(t("typed.no-currency", Refusal.quote(text)), t("typed.write-a-currency"));
            return CurrencyUnit.USD;
        }
    }
}
