package org.rollwright;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.rollwright.album.AlbumRule;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.cli.RootCommand;
import org.rollwright.cli.serve.Pages;
import org.rollwright.coin.Denomination;
import org.rollwright.entry.EntryContext;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Reading;

/// What the guide, the README and the decisions say is so: their examples are read by the real grammar, the
/// files they name are there, the commands they name exist.
class GuideTest {
    private static final Pattern CODE = Pattern.compile("`([^`\n]+)`");

    private static List<Path> documents() throws IOException {
        List<Path> files = new ArrayList<>(
                List.of(Path.of("README.md"), Path.of("CONTRIBUTING.md"), Path.of("catalog/README.md")));
        try (Stream<Path> docs = Files.walk(Path.of("docs"))) {
            docs.filter(path -> path.toString().endsWith(".md")).sorted().forEach(files::add);
        }
        return files;
    }

    @Test
    void every_example_in_the_table_of_the_entry_line_is_read() throws IOException {
        EntryContext context = new EntryContext(CatalogFolder.catalog(), Denomination.US_CENT, List.of(), 2026);
        List<String> wrong = new ArrayList<>();
        int read = 0;
        for (String line : Files.readAllLines(Path.of("docs/guide/entry-line.md"))) {
            if (!line.startsWith("| `")) {
                continue;
            }
            Matcher codes = CODE.matcher(line.substring(1, line.indexOf("|", 1)));
            while (codes.find()) {
                read++;
                Reading reading = EntryParser.parse(codes.group(1), context);
                if (reading instanceof Reading.Problem) {
                    wrong.add(codes.group(1) + ": " + reading);
                }
            }
        }
        assertThat(wrong).isEmpty();
        assertThat(read).isGreaterThan(20);
    }

    @Test
    void every_example_of_an_album_is_a_rule_with_holes() throws IOException {
        String guide = Files.readString(Path.of("docs/guide/albums.md"));
        String block = guide.split("```")[1];
        List<String> rules = block.lines().filter(line -> !line.isBlank()).toList();
        assertThat(rules)
                .hasSizeGreaterThan(3)
                .allSatisfy(rule -> assertThat(AlbumRule.parse(rule)).isInstanceOf(AlbumRule.Parsed.Good.class));
    }

    @Test
    void every_file_that_a_document_names_is_there() throws IOException {
        List<String> missing = new ArrayList<>();
        Pattern link = Pattern.compile("\\]\\((?!http|#|/)([^)#]+)");
        Pattern path = Pattern.compile("`((?:docs|catalog|demo|bench|src|bin|packaging)/[^` ]+)`");
        for (Path document : documents()) {
            String text = Files.readString(document);
            Matcher links = link.matcher(text);
            Path folder = document.getParent() == null ? Path.of("") : document.getParent();
            while (links.find()) {
                if (!Files.exists(folder.resolve(links.group(1)))) {
                    missing.add(document + ": " + links.group(1));
                }
            }
            Matcher paths = path.matcher(text);
            while (paths.find()) {
                String named = paths.group(1);
                boolean pattern = named.contains("<") || named.contains("*");
                if (!pattern && !Files.exists(Path.of(named)) && !Files.exists(folder.resolve(named))) {
                    missing.add(document + ": " + named);
                }
            }
        }
        assertThat(missing).isEmpty();
    }

    @Test
    void every_command_is_listed_and_every_listed_command_exists() throws IOException {
        Pages none = (work, port) -> new Pages.Started.NoPort(port, port);
        String guide = Files.readString(Path.of("docs/guide/commands.md"));
        RootCommand.commandLine(none).getSubcommands().forEach((name, command) -> {
            if (!command.getCommandSpec().usageMessage().hidden() && !name.equals("serve")) {
                assertThat(guide).contains("`./run " + name + "`");
            }
            StringWriter help = new StringWriter();
            command.usage(new PrintWriter(help));
            assertThat(help.toString()).contains("Usage: ");
        });
        // every command line shown is one the program takes, down to its options
        Matcher shown = Pattern.compile("^(?:\\$ )?\\./run ([a-z]+[^#\\n`]*)$", Pattern.MULTILINE)
                .matcher(Files.readString(Path.of("README.md")));
        int lines = 0;
        while (shown.find()) {
            lines++;
            String[] words = shown.group(1).strip().replace("\"Box 1\"", "Box1").split(" +");
            RootCommand.commandLine(none).parseArgs(words);
        }
        assertThat(lines).isGreaterThanOrEqualTo(3);
        Matcher named = Pattern.compile("\\./run ([a-z]+)").matcher(Files.readString(Path.of("README.md")) + guide);
        while (named.find()) {
            assertThat(RootCommand.commandLine(none).getSubcommands()).containsKey(named.group(1));
        }
    }
}
