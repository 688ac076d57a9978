package org.rollwright.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/// The models through `calc`, against reference/model_check_values.csv (computed with an independent statistics
/// library; the tolerance stands in its last column).
class CalcTest {
    private static synchronized Commands.Outcome calc(String model, String json) {
        InputStream before = System.in;
        try {
            System.setIn(new ByteArrayInputStream(json.getBytes(StandardCharsets.UTF_8)));
            return Commands.run("calc", model);
        } finally {
            System.setIn(before);
        }
    }

    private static List<NamedCsvRecord> rows(String model) throws IOException {
        List<NamedCsvRecord> rows = new ArrayList<>();
        try (CsvReader<NamedCsvRecord> reader =
                CsvReader.builder().ofNamedCsvRecord(Path.of("src/test/resources/reference/model_check_values.csv"))) {
            reader.stream().filter(row -> row.getField("model").equals(model)).forEach(rows::add);
        }
        return rows;
    }

    private static void check(NamedCsvRecord row, double computed) {
        double value = Double.parseDouble(row.getField("value"));
        String tolerance = row.getField("tolerance");
        double allowed = tolerance.startsWith("rel ")
                ? Math.abs(value) * Double.parseDouble(tolerance.substring(4))
                : tolerance.startsWith("abs ")
                        ? Double.parseDouble(tolerance.substring(4))
                        : Double.parseDouble(tolerance);
        assertThat(computed)
                .as("%s %s: %s", row.getField("model"), row.getField("case"), row.getField("quantity"))
                .isCloseTo(value, within(Math.max(allowed, Math.ulp(value))));
    }

    private static List<Double> numbers(String text) {
        List<Double> numbers = new ArrayList<>();
        Matcher matcher = Pattern.compile("[0-9]+(?:\\.[0-9]+)?").matcher(text);
        while (matcher.find()) {
            numbers.add(Double.parseDouble(matcher.group()));
        }
        return numbers;
    }

    private static JsonNode result(String model, String json) {
        Commands.Outcome outcome = calc(model, json);
        assertThat(outcome.err()).isEmpty();
        assertThat(outcome.status()).isZero();
        return JsonMapper.shared().readTree(outcome.out());
    }

    @Test
    void completion() throws IOException {
        for (NamedCsvRecord row : rows("completion")) {
            StringBuilder holes = new StringBuilder();
            Matcher matcher = Pattern.compile("shape=([0-9.]+),rate=([0-9.]+)").matcher(row.getField("inputs"));
            while (matcher.find()) {
                holes.append(holes.isEmpty() ? "" : ",")
                        .append("{\"shape\":")
                        .append(matcher.group(1))
                        .append(",\"rate\":")
                        .append(matcher.group(2))
                        .append('}');
            }
            String quantity = row.getField("quantity");
            double number = numbers(quantity).getFirst();
            boolean probability = quantity.startsWith("coins for");
            JsonNode result = result(
                    "completion",
                    "{\"holes\":[" + holes + "],\"coins\":[" + (probability ? "" : number) + "],\"probabilities\":["
                            + (probability ? number : "") + "]}");
            String key = probability ? "coinsFor" : quantity.startsWith("expected") ? "expectedFilled" : "complete";
            check(row, result.get(key).get(0).asDouble());
        }
    }

    @Test
    void rate() throws IOException {
        for (NamedCsvRecord row : rows("rate")) {
            List<Double> in = numbers(row.getField("inputs"));
            String quantity = row.getField("quantity");
            boolean exactly = quantity.startsWith("P(exactly");
            List<Double> asked = numbers(quantity);
            JsonNode result = result(
                    "rate",
                    "{\"shape\":" + in.get(0) + ",\"rate\":" + in.get(1) + ",\"found\":" + in.get(2) + ",\"coins\":"
                            + in.get(3) + ",\"next\":" + (exactly ? asked.get(1) : 2500) + ",\"counts\":["
                            + (exactly ? asked.get(0).intValue() : 0) + "]}");
            check(
                    row,
                    exactly
                            ? result.get("pExactly").get(0).asDouble()
                            : result.get(
                                            quantity.startsWith("posterior")
                                                    ? "mean"
                                                    : quantity.startsWith("5%") ? "q05" : "q95")
                                    .asDouble());
        }
    }

    @Test
    void box() throws IOException {
        for (NamedCsvRecord row : rows("box")) {
            List<Double> in = numbers(row.getField("inputs"));
            String quantity = row.getField("quantity");
            int observed =
                    quantity.startsWith("P(") ? numbers(quantity).getFirst().intValue() : 0;
            JsonNode result = result(
                    "box", "{\"mean\":" + in.get(0) + ",\"size\":" + in.get(1) + ",\"observed\":" + observed + "}");
            check(
                    row,
                    result.get(quantity.startsWith("P(") ? "pAtLeast" : quantity.endsWith("low") ? "low90" : "high90")
                            .asDouble());
        }
    }

    @Test
    void enders() throws IOException {
        for (NamedCsvRecord row : rows("enders")) {
            List<Double> in = numbers(row.getField("inputs"));
            String quantity = row.getField("quantity");
            JsonNode result = result(
                    "enders",
                    "{\"coins\":" + in.get(0) + ",\"a\":" + in.get(1) + ",\"b\":" + in.get(2) + ",\"matching\":"
                            + in.get(3) + ",\"visible\":" + in.get(4) + "}");
            check(
                    row,
                    result.get(quantity.startsWith("posterior") ? "mean" : quantity.startsWith("5%") ? "q05" : "q95")
                            .asDouble());
        }
    }

    @Test
    void dispersion_and_clustering() throws IOException {
        for (NamedCsvRecord row : rows("dispersion")) {
            String rolls = String.join(
                    ",", row.getField("inputs").replace("finds per roll ", "").split(" "));
            JsonNode result = result("clustering", "{\"perRoll\":[" + rolls + "],\"window\":5,\"seed\":7}");
            String quantity = row.getField("quantity");
            check(
                    row,
                    result.get(
                                    quantity.startsWith("Fisher")
                                            ? "d"
                                            : quantity.startsWith("upper")
                                                    ? "p"
                                                    : quantity.startsWith("largest") ? "largest" : "pLargest")
                            .asDouble());
        }
    }

    @Test
    void doubling() throws IOException {
        for (NamedCsvRecord row : rows("doubling")) {
            StringBuilder pairs = new StringBuilder();
            Matcher pair = Pattern.compile("\\(([-0-9.]+),([-0-9.]+)\\)->\\(([-0-9.]+),([-0-9.]+)\\)")
                    .matcher(row.getField("inputs"));
            while (pair.find()) {
                pairs.append(pairs.isEmpty() ? "" : ",")
                        .append('[')
                        .append(pair.group(1))
                        .append(',')
                        .append(pair.group(2))
                        .append(',')
                        .append(pair.group(3))
                        .append(',')
                        .append(pair.group(4))
                        .append(']');
            }
            JsonNode result = result("doubling", "{\"pairs\":[" + pairs + "]}");
            String quantity = row.getField("quantity");
            boolean centre = row.getField("case").equals("A");
            assertThat(result.get("motion").asString()).isEqualTo(centre ? "rotation" : "pivot");
            assertThat(result.has("class")).isFalse();
            check(
                    row,
                    quantity.startsWith("rotation")
                            ? result.get("angleDeg").asDouble()
                            : result.get("pivot")
                                    .get(quantity.contains(" x ") ? 0 : 1)
                                    .asDouble());
        }
    }

    @Test
    void weight_and_mixture() throws IOException {
        for (NamedCsvRecord row : rows("weight")) {
            List<Double> in = numbers(row.getField("inputs"));
            String quantity = row.getField("quantity");
            if (row.getField("inputs").contains("of bronze cents")) {
                JsonNode result = result(
                        "weight",
                        "{\"grams\":" + in.get(0) + ",\"coinMean\":" + in.get(1) + ",\"coinSd\":" + in.get(2)
                                + ",\"resolution\":" + in.get(3) + "}");
                check(row, result.get(quantity.equals("coins") ? "coins" : "se").asDouble());
            } else {
                JsonNode result = result(
                        "mixture",
                        "{\"coins\":" + in.get(0) + ",\"grams\":" + in.get(1) + ",\"heavyMean\":" + in.get(2)
                                + ",\"lightMean\":" + in.get(3) + ",\"heavySd\":" + in.get(4) + ",\"lightSd\":"
                                + in.get(5) + ",\"resolution\":" + in.get(6) + "}");
                check(
                        row,
                        result.get(
                                        quantity.startsWith("bronze")
                                                ? "moments"
                                                : quantity.contains("mean") ? "mean" : "sd")
                                .asDouble());
            }
        }
    }

    @Test
    void grading() throws IOException {
        for (NamedCsvRecord row : rows("grading")) {
            List<Double> in = numbers(row.getField("inputs"));
            JsonNode result = result(
                    "grading",
                    "{\"estimate\":" + in.get(0) + ",\"sd\":" + in.get(1) + ",\"grades\":" + in.subList(2, 7)
                            + ",\"values\":" + in.subList(7, 12) + ",\"raw\":" + in.get(12) + ",\"fees\":" + in.get(13)
                            + "}");
            String quantity = row.getField("quantity");
            check(
                    row,
                    result.get(
                                    quantity.startsWith("expected")
                                            ? "expectedNet"
                                            : quantity.startsWith("gain") ? "gain" : "pAhead")
                            .asDouble());
        }
    }

    @Test
    void attribution() throws IOException {
        for (NamedCsvRecord row : rows("attribution")) {
            List<Double> in = numbers(row.getField("inputs")
                    .replace("np.float64", "")
                    .replace("V1", "")
                    .replace("V2", ""));
            if (row.getField("quantity").startsWith("P(")) {
                String likelihoods = row.getField("inputs")
                        .substring(row.getField("inputs").indexOf("[["))
                        .strip();
                JsonNode result = result(
                        "attribution",
                        "{\"candidates\":[\"ordinary\",\"V1\",\"V2\",\"V3\"],\"priors\":" + in.subList(0, 4)
                                + ",\"likelihoods\":" + likelihoods + "}");
                int candidate =
                        List.of("P(ordinary)", "P(V1)", "P(V2)", "P(V3)").indexOf(row.getField("quantity"));
                check(row, result.get("posterior").get(candidate).asDouble());
            } else {
                JsonNode result = result(
                        "attribution",
                        "{\"candidates\":[\"a\",\"b\",\"c\"],\"priors\":" + in.subList(0, 3)
                                + ",\"likelihoods\":[],\"ask\":[" + in.subList(3, 6) + "]}");
                check(row, result.get("gainBits").get(0).asDouble());
            }
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '~',
            value = {
                "rate | {\"shape\":-1,\"rate\":1,\"found\":0,\"coins\":1,\"next\":1,\"counts\":[]} | 'shape'",
                "rate | {\"shape\":1,\"rate\":1,\"found\":5,\"coins\":1,\"next\":1,\"counts\":[]} | 'found'",
                "rate | {\"shape\":1,\"rate\":1,\"coins\":1,\"next\":1,\"counts\":[]} | ('found') is missing",
                "rate | {\"shape\":\"x\",\"rate\":1,\"found\":0,\"coins\":1,\"next\":1,\"counts\":[]} | ('shape'): 'x' is no number",
                "rate | {\"shape\":[1],\"rate\":1,\"found\":0,\"coins\":1,\"next\":1} | ('shape'): '[1]' is no number",
                "rate | {\"shape\":null,\"rate\":1,\"found\":0,\"coins\":1,\"next\":1} | ('shape') is missing",
                "enders | {\"coins\":10,\"a\":1,\"b\":1,\"visible\":11,\"matching\":0} | 'visible'",
                "enders | {\"coins\":10,\"a\":1,\"b\":1,\"visible\":5,\"matching\":6} | 'matching'",
                "box | {\"mean\":1,\"size\":0,\"observed\":1} | 'size'",
                "box | {\"mean\":1,\"size\":1,\"observed\":1.5} | 'observed'",
                "box | {\"mean\":NaN,\"size\":1,\"observed\":1} | JSON",
                "clustering | {\"perRoll\":[1],\"window\":1} | 'perRoll'",
                "clustering | {\"perRoll\":[1,-1],\"window\":1} | 'perRoll'",
                "completion | {\"holes\":[{\"shape\":1}],\"coins\":[],\"probabilities\":[]} | ('holes'), row 1, rate is missing",
                "completion | {\"holes\":[[2,50000]],\"coins\":[],\"probabilities\":[1]} | 'probabilities'",
                "completion | {\"holes\":[],\"coins\":[],\"probabilities\":[0.5]} | 'holes'",
                "completion | {\"holes\":[[2,50000]],\"found\":[1],\"searched\":9} | 'holes'",
                "completion | {\"found\":[1],\"perBox\":9} | ('searched') is missing",
                "completion | {\"holes\":[[2,50000]]} | 'probabilities'",
                "moon | {} | no calculator 'moon'. There are rate, box,",
                "box | {\"mean\":1e308,\"size\":1,\"observed\":3} | ('mean'): '1e308' is no number in reach. Write a number from 0 to 1,000,000,000.",
                "box | {\"mean\":3,\"size\":1e-308,\"observed\":3} | ('size'): '1e-308' is no number in reach. Write a number from 0.000001 to",
                "enders | {\"coins\":900000000,\"a\":1,\"b\":1,\"visible\":1,\"matching\":0} | ('coins'): '900000000' is no whole number",
                "clustering | {\"perRoll\":[900000000,1],\"window\":1} | ('perRoll'), number 1:",
                "clustering | {\"perRoll\":[20000,1],\"window\":1} | ('perRoll') holds more than 20,000 finds",
                "weight | {\"grams\":-1,\"coinMean\":3,\"coinSd\":0,\"resolution\":1} | 'grams'",
                "mixture | {\"grams\":1,\"coins\":5,\"heavyMean\":2,\"lightMean\":3,\"heavySd\":0,\"lightSd\":0,\"resolution\":1} | 'heavyMean'",
                "grading | {\"estimate\":64,\"sd\":1,\"grades\":[65,64],\"values\":[1,2],\"raw\":1,\"fees\":1} | 'grades'",
                "doubling | {\"pairs\":[[0,1,0,1]]} | 'pairs'",
                "doubling | {\"pairs\":[[0,1,0],[1,1,1,1],[2,1,2,1]]} | 'pairs'",
                "attribution | {\"candidates\":[\"a\",\"b\"],\"priors\":[1],\"likelihoods\":[]} | 'priors'",
                "attribution | {\"candidates\":[\"a\",\"b\"],\"priors\":[1,1],\"likelihoods\":[[0,0]]} | 'likelihoods'",
                "box | [] | no JSON object",
            })
    void unusable_input_is_answered_by_one_sentence_that_names_the_key(String model, String json, String sentence) {
        Commands.Outcome outcome = calc(model, json);
        assertThat(outcome.status()).isEqualTo(2);
        assertThat(outcome.out()).isEmpty();
        assertThat(outcome.err().strip().lines()).hasSize(1);
        assertThat(outcome.err()).contains(sentence);
    }
}
