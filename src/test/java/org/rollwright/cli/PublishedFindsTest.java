package org.rollwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/// Real input: lists of finds that hunters published (forum threads and blogs, named in the column source of
/// reference/finds_lists.csv), typed as entry lines through `mat --script --json`, give the published totals by
/// date and mint, list by list.
class PublishedFindsTest {
    @TempDir
    private Path folder;

    private static List<NamedCsvRecord> rows() throws IOException {
        List<NamedCsvRecord> rows = new ArrayList<>();
        try (CsvReader<NamedCsvRecord> reader =
                CsvReader.builder().ofNamedCsvRecord(Path.of("src/test/resources/reference/finds_lists.csv"))) {
            reader.forEach(rows::add);
        }
        return rows;
    }

    /// The line a hunter would type: two digits, the mint's letter, and what tells 1982 cents apart. Where both
    /// an Indian head and a wheat cent of the year are watched for, the bench asks and the hunter says which.
    private static String line(NamedCsvRecord row) {
        String year = row.getField("year");
        String mint =
                row.getField("mint").equals("P") ? "" : row.getField("mint").toLowerCase(java.util.Locale.ROOT);
        int count = Integer.parseInt(row.getField("count"));
        String note = row.getField("note");
        boolean told = note.contains("date") && (note.startsWith("copper") || note.startsWith("zinc"));
        return (count > 1 ? "x" + count + " " : "")
                + year.substring(2)
                + mint
                + (year.equals("1909") ? " wheat" : "")
                + (told ? " " + note.replace(" date", "") : "");
    }

    private static String key(String year, String mint, String kind) {
        return year + "-" + mint + (kind.isEmpty() ? "" : " " + kind);
    }

    @Test
    void typed_lists_give_the_published_totals_box_by_box() throws IOException {
        Map<String, List<String>> scripts = new LinkedHashMap<>();
        Map<String, Map<String, Integer>> published = new LinkedHashMap<>();
        for (NamedCsvRecord row : rows()) {
            String survey = row.getField("survey_id");
            boolean kinds = row.getField("year").equals("1982");
            scripts.computeIfAbsent(survey, key -> new ArrayList<>()).add(line(row));
            published
                    .computeIfAbsent(survey, key -> new TreeMap<>())
                    .merge(
                            key(row.getField("year"), row.getField("mint"), kinds ? row.getField("note") : ""),
                            Integer.parseInt(row.getField("count")),
                            Integer::sum);
        }
        assertThat(scripts).hasSizeGreaterThanOrEqualTo(9);
        List<String> script = new ArrayList<>();
        scripts.forEach((survey, lines) -> {
            script.add("@hunt " + survey + "; denomination cent; rolls 50; watch wheat, indian, copper");
            script.add("+");
            script.addAll(lines);
        });
        Path file = folder.resolve("lists.txt");
        Files.write(file, script);

        Commands.Outcome outcome =
                Commands.run("mat", "--data", folder.resolve("data").toString(), "--script", file.toString(), "--json");

        assertThat(outcome.err()).isEmpty();
        assertThat(outcome.status()).isZero();
        JsonNode report = JsonMapper.shared().readTree(outcome.out());
        assertThat(report.get("refused").size()).isZero();
        Map<String, Map<String, Integer>> typed = new LinkedHashMap<>();
        for (JsonNode hunt : report.get("hunts")) {
            for (JsonNode box : hunt.get("boxes")) {
                Map<String, Integer> counts = new TreeMap<>();
                for (JsonNode date : box.get("byDate")) {
                    counts.merge(
                            key(
                                    date.get("year").asString(),
                                    date.get("mint").asString(),
                                    date.get("kind").asString()),
                            date.get("count").asInt(),
                            Integer::sum);
                }
                typed.put(box.get("label").asString(), counts);
            }
        }
        assertThat(typed).isEqualTo(published);
    }
}
