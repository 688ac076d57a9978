package org.rollwright.entry.sheet.take;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/// Denominations as people write them, brought to one form: `5 cents`, `1 dollar`, `10 pfennigs`.
final class Denominations {
    /// @param text in the one form, blank when none is said
    /// @param country the country the word is at home in, blank when several
    /// @param from where it stands in the text, -1 when it is not said
    record Said(String text, String country, int from, int to) {
        static final Said NONE = new Said("", "", -1, -1);
    }

    private static final Map<String, String> CODES =
            Map.of("US", "United States", "CA", "Canada", "NL", "Netherlands", "GB", "United Kingdom");

    private static final Map<String, String> MANY = Map.ofEntries(
            Map.entry("penny", "pence"),
            Map.entry("lira", "lire"),
            Map.entry("sen", "sen"),
            Map.entry("yen", "yen"),
            Map.entry("krone", "kroner"),
            Map.entry("krona", "kronor"),
            Map.entry("øre", "øre"),
            Map.entry("rappen", "rappen"),
            Map.entry("groschen", "groschen"),
            Map.entry("kreuzer", "kreuzer"),
            Map.entry("leu", "lei"),
            Map.entry("real", "reales"),
            Map.entry("markka", "markkaa"),
            Map.entry("penni", "penniä"),
            Map.entry("zloty", "zlotych"),
            Map.entry("grosz", "groszy"),
            Map.entry("forint", "forint"),
            Map.entry("fillér", "fillér"));

    /// Units that only one or few countries have, by the country when none is said.
    private static final Map<String, String> HOMES = Map.ofEntries(
            Map.entry("guilder", "Netherlands"),
            Map.entry("pfennig", "Germany"),
            Map.entry("rappen", "Switzerland"),
            Map.entry("peseta", "Spain"),
            Map.entry("sen", "Japan"),
            Map.entry("yen", "Japan"),
            Map.entry("lira", "Italy"),
            Map.entry("schilling", "Austria"),
            Map.entry("groschen", "Austria"),
            Map.entry("escudo", "Portugal"),
            Map.entry("drachma", "Greece"),
            Map.entry("ruble", "Russia"),
            Map.entry("kopeck", "Russia"),
            Map.entry("zloty", "Poland"),
            Map.entry("forint", "Hungary"),
            Map.entry("mark", "Germany"),
            Map.entry("stuiver", "Netherlands"));

    private static final Set<String> PENCE =
            Set.of("United Kingdom", "Ireland", "Australia", "New Zealand", "South Africa", "Jamaica", "Malta");
    private static final Set<String> CENTIMES = Set.of(
            "France",
            "Belgium",
            "Switzerland",
            "Luxembourg",
            "Monaco",
            "Morocco",
            "Algeria",
            "Tunisia",
            "Belgian Congo",
            "Haiti");
    private static final Set<String> CENTIMOS = Set.of("Spain", "Venezuela", "Costa Rica", "Paraguay");
    private static final Set<String> CENTAVOS = Set.of(
            "Mexico",
            "Portugal",
            "Brazil",
            "Argentina",
            "Cuba",
            "Philippines",
            "Colombia",
            "Chile",
            "Peru",
            "Bolivia",
            "Guatemala",
            "Honduras",
            "El Salvador",
            "Nicaragua",
            "Ecuador",
            "Dominican Republic");

    private Denominations() {}

    /// The denomination of a box.
    static Optional<String> ofBox(String text, Lexicon words) {
        String bare = text.replaceAll("[$]\\s*[0-9][0-9.,]*(?!\\s*coin)", " ").strip();
        if (Words.plain(text).matches("\\s*[$]\\s?1s?\\s*(coins?)?\\s*")) {
            return Optional.of("1 dollar|US");
        }
        String without = BoxSize.without(bare);
        bare = without.isEmpty() ? bare : without;
        Matcher many = Pattern.compile(
                        "(?:.*[^0-9.,])?(1|5|10|25|50)[ -]?(?:¢|(?:c|ct|cts|cents?|centavos?|centimos?)(?![a-z])).*")
                .matcher(Words.plain(bare));
        if (many.matches()) {
            return Optional.of(many.group(1) + (many.group(1).equals("1") ? " cent" : " cents") + "|US");
        }
        List<Lexicon.Hit> hits = words.find(bare.isEmpty() ? text : bare, "named", "boxed");
        List<String> means = hits.stream().map(Lexicon.Hit::means).distinct().toList();
        if (means.size() == 1 && (!bare.isEmpty() || !text.contains("$"))) {
            return Optional.of(means.getFirst());
        }
        if (hits.size() > 1 && means.contains("1 dollar|US")) {
            return means.stream().filter(one -> !one.equals("1 dollar|US")).findFirst();
        }
        Matcher cents = Pattern.compile("(?<![0-9])(1|5|10|25|50)\\s*(?:¢|c|ct|cts|cents?)(?![a-z]).*")
                .matcher(Words.plain(bare));
        if (cents.matches()) {
            return Optional.of(cents.group(1) + (cents.group(1).equals("1") ? " cent" : " cents") + "|US");
        }
        Matcher sign = Pattern.compile("¢ ?(1|5|10|25|50)(?![0-9]).*").matcher(Words.plain(bare));
        if (sign.matches()) {
            return Optional.of(sign.group(1) + (sign.group(1).equals("1") ? " cent" : " cents") + "|US");
        }
        Matcher face = Pattern.compile("[$]?\\s*(0?\\.01|0?\\.05|0?\\.10?|0?\\.25|0?\\.50?|1|1\\.00|1\\.0)")
                .matcher(Words.plain(text).strip());
        if (face.matches() && !text.contains("box")) {
            int value = new BigDecimal(face.group(1)).movePointRight(2).intValue();
            return Optional.of((value == 100 ? "1 dollar" : value + (value == 1 ? " cent" : " cents")) + "|US");
        }
        return Optional.empty();
    }

    /// The denomination of a coin.
    ///
    /// @param country the coin's country, blank when it is not known
    static Said ofCoin(String text, String country, Lexicon words) {
        Matcher shillings = Pattern.compile("(?<![0-9])([0-9]{1,2})\\s*/\\s*(6d?|-)(?![0-9])")
                .matcher(text);
        if (PENCE.contains(country) && shillings.find()) {
            String said = shillings.group(2).equals("-")
                    ? formed(new BigDecimal(shillings.group(1)), "shilling")
                    : shillings.group(1).equals("2") ? "half crown" : "";
            if (!said.isEmpty()) {
                return new Said(said, country, shillings.start(), shillings.end());
            }
        }
        List<Lexicon.Hit> hits = words.find(text, "named", "unit");
        Said best = Said.NONE;
        for (Lexicon.Hit hit : hits) {
            Said said = hit.term().role().equals("named") ? named(text, hit, country) : unit(text, hit, country);
            if (said != null
                    && (best.from() < 0
                            || (hit.term().role().equals("named")
                                    && number(text, hit.from()) == null
                                    && best.text().startsWith("1 ")))) {
                best = said;
            }
            if (said != null && number(text, hit.from()) != null) {
                return said;
            }
        }
        if (best.from() < 0) {
            Matcher dollars =
                    Pattern.compile("[$]\\s*([0-9]{1,3}(?:[.,][0-9]{1,2})?)").matcher(text);
            if (dollars.find()) {
                return new Said(
                        formed(new BigDecimal(dollars.group(1).replace(',', '.')), "dollar"),
                        "",
                        dollars.start(),
                        dollars.end());
            }
            Matcher sign =
                    Pattern.compile("([€£])\\s*([0-9]{1,3}(?:[.,][0-9]{1,2})?)").matcher(text);
            if (sign.find()) {
                return new Said(
                        formed(
                                new BigDecimal(sign.group(2).replace(',', '.')),
                                sign.group(1).equals("€") ? "euro" : "pound"),
                        "",
                        sign.start(),
                        sign.end());
            }
        }
        return best;
    }

    private static @Nullable Said named(String text, Lexicon.Hit hit, String country) {
        String number = number(text, hit.from());
        String word = Words.plain(text.substring(hit.from(), hit.to()));
        boolean abroad = !country.isEmpty() && !country.equals("United States") && !country.equals("Canada");
        if (abroad && word.matches("[0-9]+ ?[c¢]")) {
            BigDecimal cents = new BigDecimal(word.replaceAll("[^0-9]", ""));
            return new Said(formed(cents, hundredth(country)), "", hit.from(), hit.to());
        }
        if (country.equals("Netherlands") && word.startsWith("florin")) {
            return new Said("1 guilder", country, hit.from(), hit.to());
        }
        boolean unit =
                Set.of("cent", "cents", "dollar", "dollars", "penny", "pennies").contains(word);
        if ((number != null && unit) || (unit && PENCE.contains(country))) {
            return unit(text, hit, country);
        }
        if (word.startsWith("half")
                && text.substring(hit.to()).strip().toLowerCase(Locale.ROOT).startsWith("crown")) {
            return null;
        }
        String[] parts = hit.means().split("\\|", -1);
        String home = CODES.getOrDefault(parts[1], "");
        if (home.equals("United States")) {
            boolean european = !country.isEmpty()
                    && !Set.of("United States", "Canada", "Newfoundland", "Bermuda", "Bahamas")
                            .contains(country);
            if (european
                    && Set.of("half", "halves", "quarter", "quarters", "nickel", "nix")
                            .contains(word)) {
                return null;
            }
        }
        return new Said(parts[0], home, hit.from(), hit.to());
    }

    /// What a hundredth of a country's money is called.
    private static String hundredth(String country) {
        return CENTIMES.contains(country)
                ? "centime"
                : CENTIMOS.contains(country) ? "céntimo" : CENTAVOS.contains(country) ? "centavo" : "cent";
    }

    private static final Set<String> EURO = Set.of(
            "France",
            "Belgium",
            "Luxembourg",
            "Spain",
            "Portugal",
            "Italy",
            "Germany",
            "Netherlands",
            "Austria",
            "Finland",
            "Ireland",
            "Greece",
            "Monaco",
            "San Marino",
            "Vatican City",
            "Malta");

    /// Hundredths in a country that has the euro since 1999 are cents from then on.
    static String since(String denomination, String country, String year) {
        boolean euro = EURO.contains(country) && year.matches("[0-9]{4}") && year.compareTo("1999") >= 0;
        boolean switched = denomination.matches("(1|2|5|10|20|50) (centimes?|céntimos?)") && !country.equals("Italy");
        return euro && (switched || year.compareTo("2002") >= 0)
                ? denomination.replaceAll("(centime|céntimo)", "cent")
                : denomination;
    }

    private static @Nullable Said unit(String text, Lexicon.Hit hit, String country) {
        String word = Words.plain(text.substring(hit.from(), hit.to()));
        String unit = hit.term().role().equals("unit")
                ? hit.means()
                : word.startsWith("dollar") ? "dollar" : word.startsWith("pen") ? "penny" : "cent";
        String number = number(text, hit.from());
        // one letter is a unit only behind a number
        if (number == null && word.length() <= 2 && !word.equals("pf") && !word.equals("dm")) {
            return null;
        }
        if (unit.equals("cent")) {
            boolean brief = word.equals("c") || word.equals("ct") || word.equals("cts");
            unit = CENTIMES.contains(country)
                    ? "centime"
                    : CENTIMOS.contains(country) && (brief || word.startsWith("cent"))
                            ? "céntimo"
                            : CENTAVOS.contains(country) ? "centavo" : "cent";
        } else if (unit.equals("penny")
                && Set.of("United States", "Canada", "Newfoundland").contains(country)) {
            unit = "cent";
        } else if (unit.equals("eurocent")) {
            unit = "cent";
        } else if (unit.equals("franc") && word.equals("f") && country.equals("Netherlands")) {
            unit = "guilder";
        }
        BigDecimal value = number == null ? BigDecimal.ONE : value(number);
        boolean american = country.equals("United States") || country.equals("Canada");
        if (american && (unit.equals("centavo") || unit.equals("centime") || unit.equals("céntimo"))) {
            unit = "cent";
        }
        if (value != null && unit.equals("dollar") && value.compareTo(BigDecimal.ONE) < 0) {
            unit = "cent";
            value = value.movePointRight(2);
            number = Numbers.plain(value);
        }
        if (value == null) {
            return new Said(number + " " + unit, HOMES.getOrDefault(unit, ""), hit.from(), hit.to());
        }
        int from = number == null ? hit.from() : Math.max(0, text.lastIndexOf(number, hit.from()));
        String said = number != null && number.contains("/") && value.compareTo(BigDecimal.ONE) < 0
                ? number.replace(" ", "") + " " + unit
                : formed(value, unit);
        if (number == null
                && value.compareTo(BigDecimal.ONE) == 0
                && hit.means().equals("cent")
                && word.equals("cents")) {
            return null;
        }
        return new Said(said, HOMES.getOrDefault(unit, unit.equals("dollar") ? "United States" : ""), from, hit.to());
    }

    private static String formed(BigDecimal value, String unit) {
        String number = Numbers.plain(value);
        boolean one = value.compareTo(BigDecimal.ONE) <= 0;
        if (value.compareTo(new BigDecimal("0.5")) == 0) {
            number = "1/2";
        } else if (value.compareTo(new BigDecimal("0.25")) == 0 && !unit.equals("dollar")) {
            number = "1/4";
        }
        return number + " " + (one ? unit : MANY.getOrDefault(unit, unit + "s"));
    }

    private static final Map<String, Integer> SPELLED = spelled();

    private static Map<String, Integer> spelled() {
        Map<String, Integer> spelled = new HashMap<>();
        Map.ofEntries(
                        Map.entry(1, "one un une ein eine een uno una"),
                        Map.entry(2, "two deux zwei twee dos due"),
                        Map.entry(3, "three trois drei drie tres"),
                        Map.entry(4, "four quatre vier cuatro"),
                        Map.entry(5, "five cinq funf vijf cinco cinque"),
                        Map.entry(10, "ten dix zehn tien diez dieci"),
                        Map.entry(20, "twenty vingt zwanzig twintig veinte"),
                        Map.entry(25, "twenty-five vingt-cinq veinticinco"),
                        Map.entry(50, "fifty cinquante funfzig vijftig cincuenta"),
                        Map.entry(100, "hundred hundert honderd cien"))
                .forEach((number, said) -> {
                    for (String word : said.split(" ", -1)) {
                        spelled.put(word, number);
                    }
                });
        return spelled;
    }

    private static final String NUMBER_WORDS =
            "(?<![a-z])(?:" + String.join("|", spelled().keySet()) + ")";

    /// The number right in front of a place: `2½`, `1/2`, `25`.
    private static @Nullable String number(String text, int at) {
        Matcher number = Pattern.compile(
                        "([0-9]+(?:[.,][0-9]+)?\\s*[½¼¾]|[0-9]+ [0-9]\\s*/\\s*[0-9]|[0-9]+\\s*/\\s*[0-9]+|[½¼¾]|[0-9]+(?:[.,][0-9]+)?|halve|half|demi|medio|media|halber|un demi|"
                                + NUMBER_WORDS + ")\\s*[-.]?\\s*$")
                .matcher(Words.plain(text.substring(0, at)));
        if (!number.find()) {
            return null;
        }
        String found = number.group(1).strip();
        // 1953 crown: the year in front of a coin, not so many of them
        boolean year = found.matches("1[5-9][0-9]{2}|20[0-3][0-9]") && !found.equals("2000");
        return year ? null : found;
    }

    private static @Nullable BigDecimal value(String number) {
        Integer spelled = SPELLED.get(number.strip());
        if (spelled != null) {
            return BigDecimal.valueOf(spelled);
        }
        Matcher mixed = Pattern.compile("([0-9]+) ([0-9])\\s*/\\s*([0-9])").matcher(number.strip());
        if (mixed.matches() && !mixed.group(3).equals("0")) {
            return new BigDecimal(mixed.group(1))
                    .add(new BigDecimal(mixed.group(2))
                            .divide(new BigDecimal(mixed.group(3)), 4, RoundingMode.HALF_UP)
                            .stripTrailingZeros());
        }
        String plain = number.replace(',', '.').replace(" ", "");
        BigDecimal part = BigDecimal.ZERO;
        for (Map.Entry<String, String> sign :
                Map.of("½", "0.5", "¼", "0.25", "¾", "0.75").entrySet()) {
            if (plain.endsWith(sign.getKey())) {
                part = new BigDecimal(sign.getValue());
                plain = plain.substring(0, plain.length() - 1);
            }
        }
        return switch (plain) {
            case "" -> part;
            case "1/2", "half", "halve", "demi", "medio", "media", "halber", "un demi" -> new BigDecimal("0.5");
            case "1/4" -> new BigDecimal("0.25");
            default -> plain.matches("[0-9]{1,9}(\\.[0-9]{1,4})?") ? new BigDecimal(plain).add(part) : null;
        };
    }
}
