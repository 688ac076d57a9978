package org.rollwright;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/// The rules of the house: which room may know which (see docs/decisions/0001-house.md).
class HouseTest {
    private static final JavaClasses HOUSE = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("org.rollwright");

    private static final List<String> FEATURES = List.of("entry", "album", "scope", "odds", "scale", "cabinet", "till");

    @Test
    void arrows_point_from_the_outside_to_the_coin() {
        layeredArchitecture()
                .consideringOnlyDependenciesInLayers()
                .layer("text")
                .definedBy("org.rollwright.text..")
                .layer("coin")
                .definedBy("org.rollwright.coin..")
                .layer("catalog")
                .definedBy("org.rollwright.catalog..")
                .layer("hunt")
                .definedBy("org.rollwright.hunt..")
                .optionalLayer("entry")
                .definedBy("org.rollwright.entry..")
                .optionalLayer("album")
                .definedBy(
                        "org.rollwright.album..",
                        "org.rollwright.odds..",
                        "org.rollwright.scope..",
                        "org.rollwright.scale..",
                        "org.rollwright.cabinet..",
                        "org.rollwright.till..",
                        "org.rollwright.recap..")
                .optionalLayer("store")
                .definedBy("org.rollwright.store..")
                .optionalLayer("web")
                .definedBy("org.rollwright.web..", "org.rollwright.pages..")
                .optionalLayer("cli")
                .definedBy("org.rollwright.cli..")
                .layer("main")
                .definedBy("org.rollwright")
                .whereLayer("text")
                .mayNotAccessAnyLayer()
                .whereLayer("main")
                .mayNotBeAccessedByAnyLayer()
                .whereLayer("cli")
                .mayOnlyBeAccessedByLayers("main")
                .whereLayer("web")
                .mayOnlyBeAccessedByLayers("main")
                .whereLayer("store")
                .mayOnlyBeAccessedByLayers("cli", "main")
                .whereLayer("album")
                .mayOnlyBeAccessedByLayers("web", "cli", "store", "main")
                .whereLayer("entry")
                .mayOnlyBeAccessedByLayers("web", "cli", "store", "main")
                .whereLayer("hunt")
                .mayOnlyBeAccessedByLayers("entry", "album", "web", "cli", "store", "main")
                .whereLayer("catalog")
                .mayOnlyBeAccessedByLayers("hunt", "entry", "album", "web", "cli", "store", "main")
                .because("a feature that knows pages or tables cannot be understood, tested or reused alone")
                .check(HOUSE);
    }

    @Test
    void no_feature_knows_a_sibling() {
        for (String feature : FEATURES) {
            String[] siblings = FEATURES.stream()
                    .filter(other -> !other.equals(feature))
                    .map(other -> "org.rollwright." + other + "..")
                    .toArray(String[]::new);
            noClasses()
                    .that()
                    .resideInAPackage("org.rollwright." + feature + "..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAnyPackage(siblings)
                    .because("what features share belongs into hunt, catalog or coin")
                    .allowEmptyShould(true)
                    .check(HOUSE);
        }
    }

    @Test
    void packages_form_no_cycles() {
        slices().matching("org.rollwright.(*)..").should().beFreeOfCycles().check(HOUSE);
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
                .resideInAnyPackage("org.jdbi..", "org.sqlite..", "org.flywaydb..", "java.sql..")
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
    }

    /// Below the line `store`: rooms that know no file, no clock and no chance of their own.
    private static final String[] CORE = {
        "org.rollwright.text..",
        "org.rollwright.coin..",
        "org.rollwright.catalog..",
        "org.rollwright.hunt..",
        "org.rollwright.entry..",
        "org.rollwright.album..",
        "org.rollwright.odds..",
        "org.rollwright.scope..",
        "org.rollwright.scale..",
        "org.rollwright.cabinet..",
        "org.rollwright.till..",
        "org.rollwright.recap.."
    };

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
    void every_package_has_a_name_plate_that_says_what_it_must_not_know() throws IOException {
        try (Stream<Path> folders = Files.walk(Path.of("src/main/java/org/rollwright"))) {
            for (Path folder : folders.filter(Files::isDirectory).toList()) {
                Path plate = folder.resolve("package-info.java");
                assertThat(plate).exists();
                String text = Files.readString(plate);
                assertThat(text).as(plate.toString()).contains("@NullMarked").contains("///");
            }
        }
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
