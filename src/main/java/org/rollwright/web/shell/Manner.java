package org.rollwright.web.shell;

import static org.rollwright.text.Texts.t;

import java.math.BigDecimal;
import java.text.NumberFormat;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.joda.money.CurrencyUnit;
import org.rollwright.coin.Distance;
import org.rollwright.coin.Mass;
import org.rollwright.text.Figures;
import org.rollwright.text.Texts;

/// How pages write days, money, weights and roads.
///
/// Figures are written as the language writes them ([Figures]); days and money follow it and the region, after
/// Unicode's CLDR as the JDK carries it. Files, the command line and sentences of the record keep ISO days and plain
/// amounts, so that they mean the same everywhere. One manner for the whole process: the tool has one user.
public record Manner(Region region, Weights weights, Roads roads) {
    /// Names of the settings.
    public static final String REGION = "region";

    public static final String WEIGHTS = "weights";
    public static final String ROADS = "roads";
    public static final String LANGUAGE = "language";

    private static final DateTimeFormatter PLAIN_DAY = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ROOT);

    /// Where the hunter lives, as far as writing goes.
    public enum Region {
        NONE(""),
        US("US"),
        CA("CA"),
        GB("GB"),
        IE("IE"),
        AU("AU"),
        NZ("NZ");

        private final String code;

        Region(String code) {
            this.code = code;
        }

        public String code() {
            return code;
        }

        public String words() {
            return switch (this) {
                case NONE -> t("manner.no-region");
                case US -> t("manner.united-states");
                case CA -> t("manner.canada");
                case GB -> t("manner.united-kingdom");
                case IE -> t("manner.ireland");
                case AU -> t("manner.australia");
                case NZ -> t("manner.new-zealand");
            };
        }

        /// The language in use as it is written there; without a region the language's own country, if it names one.
        private Locale locale() {
            Locale spoken = Texts.locale();
            return this == NONE ? spoken : Locale.of(spoken.getLanguage(), code);
        }

        private boolean known() {
            return !locale().getCountry().isEmpty();
        }
    }

    /// Units of weight.
    public enum Weights {
        BOTH,
        GRAMS,
        OUNCES;

        public String words() {
            return switch (this) {
                case BOTH -> t("manner.grams-pounds-and-ounces");
                case GRAMS -> t("manner.grams");
                case OUNCES -> t("manner.pounds-and-ounces");
            };
        }
    }

    /// Units of roads.
    public enum Roads {
        BOTH,
        KILOMETRES,
        MILES;

        public String words() {
            return switch (this) {
                case BOTH -> t("manner.kilometres-and-miles");
                case KILOMETRES -> t("manner.kilometres");
                case MILES -> t("manner.miles");
            };
        }
    }

    /// Nothing chosen: what can be misread nowhere.
    public static final Manner PLAIN = new Manner(Region.NONE, Weights.BOTH, Roads.BOTH);

    private static volatile Manner now = PLAIN;

    /// The manner and the language of all settings, from now on.
    public static void useAll(Map<String, String> settings) {
        use(of(settings));
        Texts.use(Locale.forLanguageTag(settings.getOrDefault(LANGUAGE, "en")));
    }

    public static Manner now() {
        return now;
    }

    public static void use(Manner manner) {
        now = manner;
    }

    /// From settings; what is missing or unknown counts as not chosen.
    public static Manner of(Map<String, String> settings) {
        return new Manner(
                region(settings.getOrDefault(REGION, "")).orElse(Region.NONE),
                one(Weights.values(), settings.getOrDefault(WEIGHTS, "")).orElse(Weights.BOTH),
                one(Roads.values(), settings.getOrDefault(ROADS, "")).orElse(Roads.BOTH));
    }

    public static Optional<Region> region(String code) {
        return Arrays.stream(Region.values())
                .filter(one -> one.code.equalsIgnoreCase(code))
                .findFirst();
    }

    public static <E extends Enum<E>> Optional<E> one(E[] all, String name) {
        return Arrays.stream(all)
                .filter(one -> one.name().equalsIgnoreCase(name))
                .findFirst();
    }

    public static String day(LocalDate day) {
        Region region = now.region;
        return region.known()
                ? DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM)
                        .withLocale(region.locale())
                        .format(day)
                : PLAIN_DAY.withLocale(Texts.locale()).format(day);
    }

    /// A day in the computer's time zone.
    public static String day(Instant instant) {
        return day(LocalDate.ofInstant(instant, ZoneId.systemDefault()));
    }

    /// An amount; without a region and a country of the language the bare number, as its currency is said beside it.
    public static String amount(BigDecimal amount, CurrencyUnit currency) {
        Region region = now.region;
        if (!region.known()) {
            return Figures.plain(amount);
        }
        NumberFormat format = NumberFormat.getCurrencyInstance(region.locale());
        format.setCurrency(currency.toCurrency());
        format.setMinimumFractionDigits(Math.max(amount.scale(), 0));
        format.setMaximumFractionDigits(Math.max(amount.scale(), 0));
        return format.format(amount);
    }

    /// A weight of coins; what coins should weigh stays in grams, as mints say it.
    public static String mass(double grams) {
        String metric = grams < 100 ? Figures.of("%.2f g", grams) : Figures.of("%,.1f g", grams);
        return switch (now.weights) {
            case BOTH ->
                grams < 100 ? metric : metric + " (" + Mass.ofGrams(grams).poundsAndOunces() + ")";
            case GRAMS -> metric;
            case OUNCES ->
                grams < 100
                        ? Figures.of("%.3f oz", grams / Mass.GRAMS_PER_OUNCE)
                        : Mass.ofGrams(grams).poundsAndOunces();
        };
    }

    public static String road(double kilometres) {
        return switch (now.roads) {
            case BOTH -> Figures.of("%.1f km (%.1f mi)", kilometres, kilometres / Distance.KM_PER_MILE);
            case KILOMETRES, MILES -> roadField(kilometres);
        };
    }

    /// A road as a field holds it, with one unit.
    public static String roadField(double kilometres) {
        return now.roads == Roads.MILES
                ? String.format(Locale.ROOT, "%.1f mi", kilometres / Distance.KM_PER_MILE)
                : String.format(Locale.ROOT, "%.1f km", kilometres);
    }

    /// Whether a road typed without its unit is in miles.
    boolean milesMeant() {
        return roads == Roads.MILES;
    }

    /// Kilometres of a road typed with or without its unit; a bare number is in the unit chosen, otherwise in
    /// kilometres.
    ///
    /// @return empty when it is no distance of up to five digits
    public static Optional<Double> kilometres(String text) {
        return Distance.kilometres(text, now.milesMeant());
    }
}
