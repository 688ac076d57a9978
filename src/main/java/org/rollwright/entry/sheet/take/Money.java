package org.rollwright.entry.sheet.take;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/// What was paid, as it is written.
///
/// @param amount null when none is said
/// @param currency three letters, blank when none is said
/// @param per whether it is said to be for each coin or for all
/// @param face whether face value was paid
/// @param doubtful whether the keeper was not sure
record Money(@Nullable BigDecimal amount, String currency, Per per, boolean face, boolean doubtful) {
    /// What an amount is for.
    enum Per {
        EACH,
        ALL,
        UNSAID
    }

    private static final Map<String, String> SIGNS = Map.ofEntries(
            Map.entry("c$", "CAD"),
            Map.entry("ca$", "CAD"),
            Map.entry("cad", "CAD"),
            Map.entry("cdn", "CAD"),
            Map.entry("us$", "USD"),
            Map.entry("$us", "USD"),
            Map.entry("usd", "USD"),
            Map.entry("$", "USD"),
            Map.entry("dollars", "USD"),
            Map.entry("dollar", "USD"),
            Map.entry("bucks", "USD"),
            Map.entry("€", "EUR"),
            Map.entry("eur", "EUR"),
            Map.entry("euro", "EUR"),
            Map.entry("euros", "EUR"),
            Map.entry("£", "GBP"),
            Map.entry("gbp", "GBP"),
            Map.entry("pounds", "GBP"),
            Map.entry("quid", "GBP"),
            Map.entry("chf", "CHF"),
            Map.entry("sfr", "CHF"),
            Map.entry("fs", "CHF"),
            Map.entry("nlg", "NLG"),
            Map.entry("hfl", "NLG"),
            Map.entry("gulden", "NLG"),
            Map.entry("fl", "NLG"),
            Map.entry("ƒ", "NLG"),
            Map.entry("frf", "FRF"),
            Map.entry("ff", "FRF"),
            Map.entry("francs", "FRF"),
            Map.entry("fr", "FRF"),
            Map.entry("franc", "FRF"),
            Map.entry("dem", "DEM"),
            Map.entry("dm", "DEM"),
            Map.entry("mark", "DEM"),
            Map.entry("bef", "BEF"),
            Map.entry("esp", "ESP"),
            Map.entry("pts", "ESP"),
            Map.entry("ptas", "ESP"),
            Map.entry("pta", "ESP"),
            Map.entry("pesetas", "ESP"),
            Map.entry("aud", "AUD"),
            Map.entry("a$", "AUD"),
            Map.entry("kr", "SEK"),
            Map.entry("sek", "SEK"),
            Map.entry("dkk", "DKK"),
            Map.entry("nok", "NOK"));

    private static final Pattern AMOUNT = Pattern.compile(
            "(?:(?<![0-9])[.,](?=[0-9]{1,2}(?![0-9])))?[0-9](?:[0-9.,]|(?<=[0-9])[ ](?=[0-9]{3}(?![0-9])))*");
    private static final Pattern SIGN = Pattern.compile("us\\$|\\$us|ca?\\$|a\\$|[$€£ƒ]|(?<![a-z])[a-z]{1,7}(?![a-z])");

    /// The currency a text names, blank when none.
    static String currency(String text) {
        String plain = Words.plain(text).replace("c $", "c$");
        Matcher sign = SIGN.matcher(plain);
        while (sign.find()) {
            String found = SIGNS.get(sign.group());
            if (found != null) {
                return found;
            }
        }
        return plain.contains("ƒ") ? "NLG" : "";
    }

    /// Reads a cell.
    ///
    /// @param dutch whether `f 10` means guilders, not francs
    /// @return empty when it says nothing of money
    static Optional<Money> read(Grid.Cell cell, Numbers.Manner manner, Lexicon words, boolean dutch) {
        if (cell.number() != null) {
            return Optional.of(new Money(
                    cell.number(),
                    currency(cell.format().replaceAll("[\\[\\]\"_-]|409", " ")),
                    Per.UNSAID,
                    false,
                    false));
        }
        String text = cell.text();
        String plain = Words.plain(text);
        boolean doubtful = plain.contains("?") || plain.contains("~");
        String named = currency(text);
        Matcher old = Pattern.compile("(^|[ 0-9])f\\.?(?=[ 0-9]|$)").matcher(plain);
        if (named.isEmpty() && old.find()) {
            named = dutch ? "NLG" : "FRF";
        }
        if (named.equals("FRF") && plain.matches(".*\\bfr\\.?.*") && plain.contains("sfr")) {
            named = "CHF";
        }
        String currency = named;
        Matcher times = Pattern.compile("([0-9]+)\\s*(?:x|@|×|à|a)\\s*([$€£]?\\s*[0-9][0-9.,]*)")
                .matcher(plain);
        if (times.find()) {
            Optional<BigDecimal> each =
                    Numbers.read(times.group(2).replaceAll("[^0-9.,]", "").replaceAll("[.,]$", ""), manner);
            if (each.isPresent()) {
                return Optional.of(new Money(
                        each.get().multiply(new BigDecimal(times.group(1))), currency, Per.ALL, false, doubtful));
            }
        }
        if (plain.matches(".*\\b[0-9]{1,3}\\s*(for|pour|fur|voor|por)\\s*[$€£]?\\s*[0-9].*")) {
            // 3 for $10 where nothing tells how many of the three these are
            Matcher last = AMOUNT.matcher(plain.replaceAll("^.*?(for|pour|fur|voor|por)", ""));
            Optional<BigDecimal> all = last.find()
                    ? Numbers.read(last.group().replace(" ", "").replaceAll("[.,]+$", ""), manner)
                    : Optional.empty();
            return all.map(amount -> new Money(amount, currency, Per.UNSAID, false, true));
        }
        Per per = per(plain, words);
        Matcher amount = AMOUNT.matcher(plain);
        if (amount.find()) {
            String digits = amount.group().replace(" ", "").replaceAll("[.,]+$", "");
            Optional<BigDecimal> number = Numbers.read(digits, manner);
            boolean more = plain.substring(amount.end()).matches(".*[0-9].*");
            boolean cents = plain.substring(amount.end()).matches("\\s*(¢|(c|ct|cts|cents?|p)(?![a-z/])).*")
                    && !plain.contains("$")
                    && !plain.contains("€");
            if (number.isPresent()) {
                return Optional.of(new Money(
                        cents ? number.get().movePointLeft(2) : number.get(),
                        currency,
                        per,
                        false,
                        doubtful || (more && per != Per.ALL)));
            }
        }
        if (words.exact("facevalue", text.replaceAll("[?!.]", "")).isPresent() || words.has(text, "facevalue")) {
            return Optional.of(new Money(null, currency, per, true, doubtful));
        }
        if (words.exact("free", text).isPresent()) {
            return Optional.of(new Money(BigDecimal.ZERO, currency, Per.ALL, false, false));
        }
        return Optional.empty();
    }

    private static Per per(String text, Lexicon words) {
        String rest = text.replaceAll("[$€£]?[0-9][0-9.,]*", " ");
        if (text.contains("/ea") || text.contains("@") || words.has(rest, "each")) {
            return Per.EACH;
        }
        return words.has(rest, "all") || text.matches(".*\\b(les|die|de|los|las|for|all) [0-9]+$")
                ? Per.ALL
                : Per.UNSAID;
    }

    /// Currencies one can still pay face value in.
    static boolean isCurrent(String currency) {
        return List.of("USD", "CAD", "EUR", "GBP", "CHF", "AUD").contains(currency);
    }

    private static final Map<String, String> HOME = Map.ofEntries(
            Map.entry("United States", "USD"),
            Map.entry("Canada", "CAD"),
            Map.entry("United Kingdom", "GBP"),
            Map.entry("Switzerland", "CHF"),
            Map.entry("Australia", "AUD"));

    /// The currency of a country's coins that still buy something.
    static String home(String country, String denomination) {
        return denomination.contains("euro") ? "EUR" : HOME.getOrDefault(country, "");
    }

    /// Face value of one coin in its currency, null when it is not plain.
    static @Nullable BigDecimal face(String denomination) {
        Matcher part = Pattern.compile("([0-9./]+) ([\\p{L}]+)").matcher(denomination);
        if (!part.matches()) {
            return null;
        }
        BigDecimal number = part.group(1).equals("1/2")
                ? new BigDecimal("0.5")
                : part.group(1).equals("1/4")
                        ? new BigDecimal("0.25")
                        : part.group(1).contains("/") ? BigDecimal.ZERO : new BigDecimal(part.group(1));
        if (number.signum() == 0) {
            return null;
        }
        return switch (part.group(2)) {
            case "cent", "cents", "centime", "centimes", "penny", "pence", "pfennig", "pfennigs", "rappen" ->
                number.movePointLeft(2);
            case "dollar",
                    "dollars",
                    "euro",
                    "euros",
                    "franc",
                    "francs",
                    "guilder",
                    "guilders",
                    "mark",
                    "marks",
                    "pound",
                    "pounds" -> number;
            default -> null;
        };
    }
}
