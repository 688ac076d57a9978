package org.rollwright;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeSet;
import java.util.spi.ToolProvider;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/// What goes into the program: no module below its floor, none that must not be there, none that nothing reaches.
class BillOfMaterialsTest {
    private static final Path RULES = Path.of("src/test/resources/bill");

    private record Module(String group, String name, String version) {
        String key() {
            return group + ":" + name;
        }

        boolean is(String rule) {
            return rule.equals(key()) || rule.equals(group + ":*");
        }

        String jar() {
            return name + "-" + version + ".jar";
        }
    }

    /// The list as it lies in the program.
    private static List<Module> bill() throws IOException {
        try (InputStream in = BillOfMaterialsTest.class.getResourceAsStream("/META-INF/sbom/bom.json")) {
            List<Module> modules = new ArrayList<>();
            for (JsonNode one :
                    JsonMapper.shared().readTree(Objects.requireNonNull(in)).get("components")) {
                modules.add(new Module(
                        one.get("group").asString(),
                        one.get("name").asString(),
                        one.get("version").asString()));
            }
            return modules;
        }
    }

    private static List<NamedCsvRecord> rules(String file) throws IOException {
        try (CsvReader<NamedCsvRecord> reader =
                CsvReader.builder().ofNamedCsvRecord(Files.readString(RULES.resolve(file)))) {
            return reader.stream().toList();
        }
    }

    /// Versions compared part by part, numbers as numbers.
    private static int compare(String one, String other) {
        String[] left = one.split("[.-]");
        String[] right = other.split("[.-]");
        for (int i = 0; i < Math.max(left.length, right.length); i++) {
            String a = i < left.length ? left[i] : "0";
            String b = i < right.length ? right[i] : "0";
            boolean numbers = a.matches("[0-9]{1,9}") && b.matches("[0-9]{1,9}");
            int order = numbers ? Integer.compare(Integer.parseInt(a), Integer.parseInt(b)) : a.compareTo(b);
            if (order != 0) {
                return order;
            }
        }
        return 0;
    }

    @Test
    void no_module_is_older_than_its_floor_and_every_module_has_one() throws IOException {
        List<NamedCsvRecord> floors = rules("floors.csv");
        List<String> wrong = new ArrayList<>();
        for (Module module : bill()) {
            Optional<NamedCsvRecord> floor = floors.stream()
                    .filter(row -> module.is(row.getField("module")))
                    .findFirst();
            if (floor.isEmpty()) {
                wrong.add(module.key() + " " + module.version() + " has no floor: look for its advisories");
            } else if (compare(module.version(), floor.get().getField("floor")) < 0) {
                wrong.add(module.key() + " " + module.version() + " is older than "
                        + floor.get().getField("floor") + ": " + floor.get().getField("reason"));
            }
        }
        assertThat(wrong).isEmpty();
        for (NamedCsvRecord row : floors) {
            assertThat(row.getField("reason")).as(row.getField("module")).isNotBlank();
            assertThat(bill())
                    .as(row.getField("module") + " has a floor, so it is there")
                    .anyMatch(module -> module.is(row.getField("module")));
        }
    }

    @Test
    void versions_are_compared_as_numbers() {
        assertThat(compare("3.14.0", "3.18.0")).isNegative();
        assertThat(compare("3.9", "3.18.0")).isNegative();
        assertThat(compare("3.18", "3.18.0")).isZero();
        assertThat(compare("12.1.12", "12.1.5")).isPositive();
    }

    @Test
    void nothing_is_there_that_must_not_be() throws IOException {
        List<String> wrong = new ArrayList<>();
        for (NamedCsvRecord row : rules("denied.csv")) {
            bill().stream()
                    .filter(module -> module.is(row.getField("module")))
                    .forEach(module -> wrong.add(module.key() + ": " + row.getField("reason")));
        }
        assertThat(wrong).isEmpty();
    }

    /// Which libraries the program's own classes lead to, class by class.
    @Test
    void every_library_is_reached() throws IOException {
        List<Module> bill = bill();
        List<String> jars = Arrays.stream(System.getProperty("java.class.path").split(java.io.File.pathSeparator))
                .filter(part -> bill.stream().anyMatch(module -> part.endsWith("/" + module.jar())))
                .toList();
        assertThat(jars).as("the list and the class path tell of the same").hasSameSizeAs(bill);
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        ToolProvider.findFirst("jdeps")
                .orElseThrow()
                .run(
                        new PrintWriter(out),
                        new PrintWriter(err),
                        "--multi-release",
                        "25",
                        "-R",
                        "-s",
                        "--ignore-missing-deps",
                        "-cp",
                        String.join(java.io.File.pathSeparator, jars),
                        Main.class
                                .getProtectionDomain()
                                .getCodeSource()
                                .getLocation()
                                .getPath());
        TreeSet<String> reached = out.toString()
                .lines()
                .filter(line -> line.contains(" -> "))
                .map(line -> line.split(" -> ")[1].strip().replaceAll(".*/", ""))
                .collect(Collectors.toCollection(TreeSet::new));
        assertThat(reached).as(err.toString()).contains("javalin-" + version(bill, "javalin") + ".jar");
        List<NamedCsvRecord> known = rules("unreached.csv");
        List<String> idle = bill.stream()
                .filter(module -> !reached.contains(module.jar()))
                .filter(module -> known.stream().noneMatch(row -> module.is(row.getField("module"))))
                .map(Module::key)
                .toList();
        assertThat(idle).as("libraries nothing uses").isEmpty();
    }

    private static String version(List<Module> bill, String name) {
        return bill.stream()
                .filter(module -> module.name().equals(name))
                .findFirst()
                .orElseThrow()
                .version();
    }
}
