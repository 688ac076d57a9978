package org.rollwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/// The demo series' books against a count of its script's lines made here, without the tool.
class DemoBooksTest {
    @TempDir
    Path folder;

    private static final Map<String, BigDecimal> FACES = Map.of(
            "cent", new BigDecimal("0.01"),
            "nickel", new BigDecimal("0.05"),
            "dime", new BigDecimal("0.10"),
            "half", new BigDecimal("0.50"));

    /// Coins per roll: catalog/denominations.csv names the sources.
    private static final Map<String, Integer> ROLLS = Map.of("cent", 50, "nickel", 40, "dime", 50, "half", 20);

    private static final class Parcel {
        private String coins = "";
        private int boxes;
        private int rolls;
        private long kept;
        private long difference;
        private boolean finished;
    }

    @Test
    void the_demo_series_reconciles_to_the_cent() throws Exception {
        List<String> lines = Files.readAllLines(Path.of("demo/series.txt"));
        Map<String, Parcel> parcels = new HashMap<>();
        Map<String, String> returned = new HashMap<>();
        BigDecimal drawn = BigDecimal.ZERO;
        BigDecimal countedShort = BigDecimal.ZERO;
        Parcel now = new Parcel();
        for (String line : lines) {
            if (line.startsWith("@hunt ")) {
                now = new Parcel();
                now.coins = value(line, "denomination");
                now.rolls = Integer.parseInt(value(line, "rolls"));
                now.boxes = line.contains("boxes ") ? value(line, "boxes").split(",").length : 1;
                parcels.put(line.substring(6, line.indexOf(';')), now);
            } else if (line.startsWith("@back ")) {
                for (String label : line.substring(6, line.indexOf(';')).split(",")) {
                    returned.put(label.strip(), line);
                }
            } else if (line.startsWith("@cash OUTSIDE CASH")) {
                drawn = drawn.add(new BigDecimal(value(line, "amount")));
            } else if (line.startsWith("@cash OUTSIDE SHORT")) {
                countedShort = countedShort.add(new BigDecimal(value(line, "amount")));
            } else if (line.equals("finish")) {
                now.finished = true;
            } else if (!line.startsWith("@") && !line.startsWith("#")) {
                entry(now, line);
            }
        }
        BigDecimal kept = BigDecimal.ZERO;
        BigDecimal missing = countedShort;
        BigDecimal toReturn = BigDecimal.ZERO;
        BigDecimal inBoxes = BigDecimal.ZERO;
        for (Map.Entry<String, Parcel> entry : parcels.entrySet()) {
            Parcel parcel = entry.getValue();
            BigDecimal face = java.util.Objects.requireNonNull(FACES.get(parcel.coins));
            int coins = parcel.boxes * parcel.rolls * java.util.Objects.requireNonNull(ROLLS.get(parcel.coins));
            if (!parcel.finished) {
                inBoxes = inBoxes.add(face.multiply(BigDecimal.valueOf(coins)));
                continue;
            }
            kept = kept.add(face.multiply(BigDecimal.valueOf(parcel.kept)));
            missing = missing.subtract(face.multiply(BigDecimal.valueOf(parcel.difference)));
            if (!returned.containsKey(entry.getKey())) {
                toReturn = toReturn.add(face.multiply(BigDecimal.valueOf(coins + parcel.difference - parcel.kept)));
            }
        }
        // the last two boxes were paid from the cash drawn
        BigDecimal cash = drawn.subtract(inBoxes);

        assertThat(Commands.run("box", "--demo", "--data", folder.toString()).status())
                .isEqualTo(5);
        fill();
        Commands.Outcome printed = Commands.run("till", "--demo", "--data", folder.toString(), "--json");
        assertThat(printed.status()).as(printed.err()).isZero();
        JsonNode books = JsonMapper.shared().readTree(printed.out());
        assertThat(books.get("sum").asString()).isEqualTo("0.00");
        assertThat(books.get("leftOut")).isEmpty();
        assertThat(balance(books, "kept")).isEqualByComparingTo(kept);
        assertThat(balance(books, "short")).isEqualByComparingTo(missing);
        assertThat(balance(books, "to be returned")).isEqualByComparingTo(toReturn);
        assertThat(balance(books, "in boxes")).isEqualByComparingTo(inBoxes);
        assertThat(balance(books, "cash in hand")).isEqualByComparingTo(cash);
        assertThat(balance(books, "drawn from outside"))
                .isEqualByComparingTo(
                        kept.add(missing).add(toReturn).add(inBoxes).add(cash));

        Commands.Outcome statement = Commands.run("till", "--demo", "--data", folder.toString(), "--statement");
        assertThat(statement.out()).contains("Drawn from outside less all the others: 0.00");
        assertThat(statement.out().lines().filter(line -> line.matches("20.*-> in boxes .*")))
                .hasSizeGreaterThan(40);
    }

    /// Whoever tries the demo sees values: of the coins with a grade more than half, and some without.
    @Test
    void the_demo_series_has_prices_enough_to_see_values() throws Exception {
        fill();
        Commands.Outcome listed = Commands.run("cabinet", "--demo", "--data", folder.toString(), "--json");
        assertThat(listed.status()).as(listed.err()).isZero();
        JsonNode coins = JsonMapper.shared().readTree(listed.out());
        long graded = 0;
        for (JsonNode row : coins.get("rows")) {
            graded += row.get("grade").asString().isEmpty() ? 0 : 1;
        }
        long valued = coins.get("coins").asLong() - coins.get("withoutValue").asLong();
        assertThat(graded).isGreaterThan(100);
        assertThat(valued).isBetween(graded / 2, graded - 1);
        assertThat(Commands.run("recap", "--demo", "--data", folder.toString(), "--short")
                        .out())
                .contains("1972")
                .contains("dime 1964");
    }

    private void fill() throws Exception {
        Path script = folder.resolve("series.txt");
        Files.copy(Path.of("demo/series.txt"), script);
        Commands.Outcome filled =
                Commands.run("mat", "--demo", "--data", folder.toString(), "--script", script.toString());
        assertThat(filled.status()).as(filled.err()).isZero();
    }

    private static BigDecimal balance(JsonNode books, String name) {
        return new BigDecimal(books.get("balances").get(name).asString());
    }

    private static String value(String line, String key) {
        Matcher found = Pattern.compile("; " + key + " ([^;]*)").matcher(line);
        return found.find() ? found.group(1).strip() : "";
    }

    /// A line of the script: rolls, finds, a counted roll.
    private static void entry(Parcel parcel, String line) {
        if (line.startsWith("e ") || line.startsWith("w ") || line.startsWith("!")) {
            return;
        }
        Matcher counted = Pattern.compile("r\\d+ (\\d+)").matcher(line);
        if (counted.matches()) {
            parcel.difference +=
                    Long.parseLong(counted.group(1)) - java.util.Objects.requireNonNull(ROLLS.get(parcel.coins));
            return;
        }
        for (String part : line.split(",")) {
            String find = part.strip().replaceFirst("^\\+", "").strip();
            if (!find.isEmpty() && !find.matches("r\\d+")) {
                Matcher many = Pattern.compile("x(\\d+) .*").matcher(find);
                parcel.kept += many.matches() ? Integer.parseInt(many.group(1)) : 1;
            }
        }
    }
}
