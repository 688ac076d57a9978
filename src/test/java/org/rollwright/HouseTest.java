package org.rollwright;

import static com.tngtech.archunit.base.DescribedPredicate.alwaysTrue;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/// The rules of the house: which room may know which (see docs/decisions/0001-house.md).
class HouseTest {
    private static final Path ROOMS = Path.of("src/main/java/org/rollwright");
    private static final JavaClasses HOUSE = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("org.rollwright");

    /// Which rooms each room knows, and whose books it thus may read: not one more, not one less.
    private static final Map<String, Set<String>> KNOWS = Map.ofEntries(
            Map.entry("text", Set.of()),
            Map.entry("coin", Set.of("text")),
            Map.entry("catalog", Set.of("coin", "text")),
            Map.entry("journal", Set.of("coin", "text")),
            Map.entry("hunt", Set.of("catalog", "coin", "journal", "text")),
            Map.entry("scale", Set.of("coin", "journal", "text")),
            Map.entry("scope", Set.of("catalog", "coin", "hunt", "journal", "text")),
            Map.entry("cabinet", Set.of("catalog", "coin", "hunt", "journal", "text")),
            Map.entry("album", Set.of("cabinet", "catalog", "coin", "journal", "text")),
            Map.entry("till", Set.of("cabinet", "catalog", "coin", "hunt", "journal", "text")),
            Map.entry("odds", Set.of("catalog", "coin", "hunt", "scope", "text")),
            Map.entry("calc", Set.of("cabinet", "coin", "odds", "scale", "scope", "text")),
            Map.entry(
                    "recap",
                    Set.of("album", "cabinet", "catalog", "coin", "hunt", "journal", "odds", "scale", "scope", "text")),
            Map.entry("desk", Set.of("album", "cabinet", "coin", "hunt", "journal", "scale", "scope", "text", "till")),
            Map.entry("entry", Set.of("catalog", "coin", "desk", "hunt", "journal", "text")),
            Map.entry(
                    "action",
                    Set.of(
                            "album", "cabinet", "catalog", "coin", "desk", "entry", "hunt", "journal", "scale", "scope",
                            "text", "till")));

    /// What speaks to the outside may know everything inside; only the store is kept from most of it, and from it most.
    private static final Map<String, Set<String>> KNOWS_NOT = Map.of(
            "store",
            Set.of("web", "cli", "odds", "recap", "action", "calc"),
            "web",
            Set.of("store", "cli"),
            "cli",
            Set.of());

    @Test
    void every_room_knows_the_rooms_it_says_and_no_others() {
        Map<String, Set<String>> arrows = new HousePicture().arrows();
        KNOWS.forEach((room, known) ->
                assertThat(arrows.get(room)).as("what %s knows", room).isEqualTo(known));
        KNOWS_NOT.forEach((room, unknown) -> unknown.forEach(
                other -> assertThat(arrows.get(room)).as("what %s knows", room).doesNotContain(other)));
        Set<String> all = new TreeSet<>(KNOWS.keySet());
        all.addAll(KNOWS_NOT.keySet());
        assertThat(arrows.keySet()).as("rooms with a rule").isEqualTo(all);
    }

    @Test
    void packages_form_no_cycles() {
        // templates are made from src/main/jte and belong to the places of web
        slices().matching("org.rollwright.(*)..")
                .should()
                .beFreeOfCycles()
                .ignoreDependency(alwaysTrue(), resideInAPackage("org.rollwright.pages.."))
                .check(HOUSE);
    }

    @Test
    void places_of_the_pages_and_of_commands_form_no_cycles() {
        slices().matching("org.rollwright.web.(*)..").should().beFreeOfCycles().check(HOUSE);
        slices().matching("org.rollwright.cli.(*)..").should().beFreeOfCycles().check(HOUSE);
        noClasses()
                .that()
                .resideInAnyPackage("org.rollwright.web.shell..", "org.rollwright.web.guard..")
                .should()
                .dependOnClassesThat()
                .haveFullyQualifiedName("org.rollwright.web.Server")
                .because("places stand on the shell, and the server on places")
                .check(HOUSE);
    }

    @Test
    void libraries_have_homes() {
        noClasses()
                .that()
                .resideOutsideOfPackages("org.rollwright.web..", "org.rollwright.pages..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("io.javalin..", "gg.jte..", "jakarta.servlet..", "org.commonmark..")
                .because("only web speaks HTTP and HTML")
                .check(HOUSE);
        noClasses()
                .that()
                .resideOutsideOfPackage("org.rollwright.store..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.sqlite..", "org.flywaydb..", "java.sql..")
                .because("only store speaks SQL")
                .check(HOUSE);
        noClasses()
                .that()
                .resideOutsideOfPackages("org.rollwright.cli..", "org.rollwright")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("picocli..")
                .because("only cli reads arguments")
                .check(HOUSE);
        noClasses()
                .that()
                .resideOutsideOfPackage("org.rollwright.journal..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("kotlinx..")
                .because("that lists and maps share their parts is known to journal alone")
                .check(HOUSE);
    }

    /// Below the line `store`: rooms that know no file, no clock and no chance of their own.
    private static final String[] CORE =
            KNOWS.keySet().stream().map(room -> "org.rollwright." + room + "..").toArray(String[]::new);

    @Test
    void the_core_reads_no_clock_and_no_disk() {
        noClasses()
                .that()
                .resideInAnyPackage(CORE)
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.nio.file..", "java.net..")
                .because("same input, same output; files come in as bytes and text")
                .check(HOUSE);
        noClasses()
                .that()
                .resideInAnyPackage(CORE)
                .should()
                .callMethod(java.time.Instant.class, "now")
                .orShould()
                .callMethod(System.class, "currentTimeMillis")
                .orShould()
                .callMethod(Math.class, "random")
                .because("time and chance come in as arguments")
                .check(HOUSE);
    }

    @Test
    void every_package_has_a_name_plate() throws IOException {
        try (Stream<Path> folders = Files.walk(ROOMS)) {
            for (Path folder : folders.filter(Files::isDirectory).toList()) {
                Path plate = folder.resolve("package-info.java");
                assertThat(plate).exists();
                assertThat(Files.readString(plate)).as(plate.toString()).contains("@NullMarked");
                assertThat(words(folder)).as("what %s is for", folder).endsWith(".");
            }
        }
    }

    /// What a room knows is said on its name plate in one sentence that is compared with the rules above, which the
    /// first test compares with the code. Nothing else on a plate speaks of knowing: it could not be checked.
    @Test
    void a_name_plate_says_what_its_room_knows_and_says_the_truth() throws IOException {
        Map<Path, String> said = new TreeMap<>();
        KNOWS.forEach((room, known) -> said.put(
                ROOMS.resolve(room),
                " Knows: " + (known.isEmpty() ? "no room" : list(known)) + "; no file, no clock, no chance."));
        KNOWS_NOT.forEach((room, unknown) ->
                said.put(ROOMS.resolve(room), unknown.isEmpty() ? "" : " Knows not: " + list(unknown) + "."));
        try (Stream<Path> folders = Files.walk(ROOMS)) {
            for (Path folder : folders.filter(Files::isDirectory).toList()) {
                String truth = said.getOrDefault(folder, "");
                String words = words(folder);
                assertThat(words).as("name plate of %s", folder).endsWith(truth);
                assertThat(words.substring(0, words.length() - truth.length()))
                        .as("name plate of %s before that", folder)
                        .doesNotContainPattern("(?i)\\bknows\\b|\\bnever know\\b");
            }
        }
    }

    private static String list(Set<String> rooms) {
        return rooms.stream().sorted().map(room -> "`" + room + "`").collect(Collectors.joining(", "));
    }

    /// The words of a plate, in one line.
    private static String words(Path folder) throws IOException {
        return Files.readAllLines(folder.resolve("package-info.java")).stream()
                .filter(line -> line.startsWith("///"))
                .map(line -> line.substring(3).strip())
                .filter(line -> !line.isEmpty())
                .collect(Collectors.joining(" "));
    }

    @Test
    void the_picture_of_the_house_is_true() throws IOException {
        HousePicture picture = new HousePicture();
        assertThat(Files.readString(HousePicture.SVG))
                .as("bench/house draws it anew")
                .isEqualTo(picture.svg());
        String page = Files.readString(HousePicture.PAGE);
        assertThat(page).as("bench/house writes it anew").isEqualTo(HousePicture.inPage(page, picture.table()));
    }
}
