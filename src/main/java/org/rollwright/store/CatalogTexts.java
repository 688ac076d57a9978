package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.rollwright.catalog.NamedText;
import org.rollwright.catalog.RowProblem;
import org.rollwright.coin.Refusal;

/// Reads the catalogue's files: ours from the program, the user's own from the data folder.
public final class CatalogTexts {
    /// @param problems files that are no text in UTF-8
    public record Texts(List<NamedText> files, List<RowProblem> problems) {}

    private static final List<String> TABLES = List.of(
            "countries.csv",
            "units.csv",
            "denominations.csv",
            "mints.csv",
            "alloys.csv",
            "series.csv",
            "words.csv",
            "watches.csv",
            "albums.csv",
            "cautions.csv",
            "sources.csv",
            "kinds.csv",
            "zones/faces.csv",
            "zones/zones.csv",
            "zones/marks.csv",
            "zones/designs.csv",
            "zones/letters.csv");

    private static final List<String> VARIETIES = List.of(
            "us-cent",
            "us-five-cents",
            "us-dime",
            "us-quarter",
            "us-half-dollar",
            "us-dollar",
            "ca-cent",
            "ca-silver-and-nickel",
            "lookalikes");

    private CatalogTexts() {}

    /// Ours first, then those of the user in `catalog/` of the data folder.
    public static Texts read(Path dataFolder) {
        List<NamedText> files = new ArrayList<>();
        List<RowProblem> problems = new ArrayList<>();
        for (String table : TABLES) {
            files.add(new NamedText(table, resource(table)));
        }
        for (String series : seriesNames(resource("series.csv"))) {
            String name = "series/" + series + ".csv";
            files.add(new NamedText(name, resource(name)));
        }
        own(dataFolder.resolve("catalog"), files, problems);
        return new Texts(files, problems);
    }

    /// Our files of varieties, then those of the user in `catalog/varieties/` of the data folder.
    public static Texts varieties(Path dataFolder) {
        List<NamedText> files = new ArrayList<>();
        List<RowProblem> problems = new ArrayList<>();
        for (String file : VARIETIES) {
            String name = "varieties/" + file + ".csv";
            files.add(new NamedText(name, resource(name)));
        }
        own(dataFolder.resolve("catalog").resolve("varieties"), files, problems);
        return new Texts(files, problems);
    }

    /// A text of ours, such as `albums.csv` or `narration/weights.csv`.
    public static String resource(String name) {
        try (InputStream in = CatalogTexts.class.getResourceAsStream("/catalog/" + name)) {
            if (in == null) {
                throw new IllegalStateException("missing from the build: catalog/" + name);
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<String> seriesNames(String table) {
        List<String> names = new ArrayList<>();
        try (CsvReader<NamedCsvRecord> rows = CsvReader.builder().ofNamedCsvRecord(table)) {
            rows.forEach(row -> names.add(row.getField("series")));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return names;
    }

    private static void own(Path folder, List<NamedText> files, List<RowProblem> problems) {
        if (!Files.isDirectory(folder)) {
            return;
        }
        try (Stream<Path> paths = Files.walk(folder, 2)) {
            for (Path path : paths.filter(
                            p -> p.toString().endsWith(".csv") && !p.startsWith(folder.resolve("varieties")))
                    .sorted()
                    .toList()) {
                String name =
                        "your catalog/" + folder.relativize(path).toString().replace('\\', '/');
                try {
                    files.add(new NamedText(
                            name,
                            StandardCharsets.UTF_8
                                    .newDecoder()
                                    .decode(ByteBuffer.wrap(Files.readAllBytes(path)))
                                    .toString()));
                } catch (CharacterCodingException e) {
                    problems.add(
                            new RowProblem(name, 1, "", new Refusal(t("store.not-utf8"), t("store.save-as-utf8"))));
                }
            }
        } catch (IOException e) {
            problems.add(new RowProblem(
                    "your catalog",
                    1,
                    "",
                    new Refusal(t("store.folder-unreadable"), t("store.make-readable", folder))));
        }
    }
}
