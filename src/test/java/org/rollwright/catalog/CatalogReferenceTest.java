package org.rollwright.catalog;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Metal;
import org.rollwright.coin.Mint;

/// The catalogue against published figures. The files in src/test/resources/reference name a source for every
/// row: statutes (31 USC 5112 and 5113), the Mint's specification tables, published mintages and year totals.
class CatalogReferenceTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();

    private static List<NamedCsvRecord> rows(String file) throws IOException {
        List<NamedCsvRecord> rows = new ArrayList<>();
        try (CsvReader<NamedCsvRecord> reader =
                CsvReader.builder().ofNamedCsvRecord(Path.of("src/test/resources/reference", file))) {
            reader.forEach(rows::add);
        }
        return rows;
    }

    private static List<Issue> cents(int year, String mint) {
        return CATALOG.ofYear(Denomination.US_CENT, year).stream()
                .filter(issue -> issue.mint().code().equals(mint) && !issue.collectorOnly())
                .toList();
    }

    @Test
    void the_project_s_own_files_load_without_a_problem() {
        assertThat(CatalogFolder.loaded().problems()).isEmpty();
        assertThat(CATALOG.issues()).hasSizeGreaterThan(2_500);
        assertThat(CATALOG.issues())
                .allSatisfy(issue -> assertThat(issue.source()).isNotBlank());
    }

    @Test
    void mintages_of_us_cents_are_those_of_the_reference_table() throws IOException {
        int compared = 0;
        for (NamedCsvRecord row : rows("cent_mintage.csv")) {
            String mint = row.getField("mint");
            int year = Integer.parseInt(row.getField("year"));
            boolean vdb = mint.endsWith("-VDB");
            List<Issue> issues = cents(year, vdb ? mint.substring(0, 1) : mint);
            assertThat(issues).as("%d %s exists", year, mint).isNotEmpty();
            String mintage = row.getField("mintage");
            List<Issue> one = issues.stream()
                    .filter(issue -> issue.identity().kind().equals(vdb ? "vdb" : ""))
                    .toList();
            if (!mintage.isEmpty() && one.size() == 1) {
                assertThat(one.getFirst().mintage())
                        .as("%d %s, source %s", year, mint, row.getField("source"))
                        .isEqualTo(Long.parseLong(mintage));
                compared++;
            }
        }
        assertThat(compared).isGreaterThan(200);
    }

    @Test
    void mintages_of_canadian_cents_are_those_of_the_reference_table() throws IOException {
        Denomination cent = new Denomination(Country.CANADA, "cent");
        int compared = 0;
        for (NamedCsvRecord row : rows("ca_cent_mintage.csv")) {
            if (row.getField("mintage").isEmpty() || !row.getField("variety").isEmpty()) {
                continue;
            }
            int year = Integer.parseInt(row.getField("year"));
            List<Issue> issues = CATALOG.lookup(Identity.of(cent, year, Mint.NONE)).stream()
                    .filter(issue -> issue.series().id().equals("ca-cent-small"))
                    .toList();
            assertThat(issues).as("%d", year).isNotEmpty();
            if (issues.size() == 1) {
                assertThat(issues.getFirst().mintage())
                        .as("%d", year)
                        .isEqualTo(Long.parseLong(row.getField("mintage")));
                compared++;
            }
        }
        assertThat(compared).isGreaterThan(50);
    }

    @Test
    void year_totals_agree_with_published_ones_wherever_every_mint_has_a_figure() throws IOException {
        int compared = 0;
        for (NamedCsvRecord row : rows("cent_year_totals_check.csv")) {
            int year = Integer.parseInt(row.getField("year"));
            List<Issue> issues = CATALOG.ofYear(Denomination.US_CENT, year).stream()
                    .filter(issue -> !issue.collectorOnly())
                    .filter(issue -> !issue.identity().kind().equals("no d"))
                    .toList();
            if (issues.isEmpty() || issues.stream().anyMatch(issue -> issue.mintage() == null)) {
                continue;
            }
            long sum = 0;
            for (Issue issue : issues) {
                Long mintage = issue.mintage();
                sum += mintage == null ? 0 : mintage;
            }
            assertThat(sum)
                    .as("%d, source %s", year, row.getField("source"))
                    .isEqualTo(Long.parseLong(row.getField("sum_of_my_business_strikes")));
            if (row.getField("status").startsWith("agrees")
                    && row.getField("note").isEmpty()) {
                assertThat(sum + proofs(row)).isEqualTo(Long.parseLong(row.getField("published_total")));
            }
            compared++;
        }
        assertThat(compared).isGreaterThan(10);
    }

    private static long proofs(NamedCsvRecord row) {
        return row.getField("published_includes_proofs").equals("yes")
                ? Long.parseLong(row.getField("proofs_expected"))
                : 0;
    }

    @Test
    void weights_tolerances_and_diameters_of_us_coins_are_those_of_statute_and_mint() throws IOException {
        int compared = 0;
        for (NamedCsvRecord row : rows("us_specs.csv")) {
            if (row.getField("alloy").contains("Morgan")) {
                continue;
            }
            // the table's nickels since 1866 take in the Shield nickel, which is smaller: 20.5 mm, Wikipedia, Nickel
            // (United States coin)
            double weight = Double.parseDouble(row.getField("weight_g"));
            double tolerance = Double.parseDouble(row.getField("tolerance_g"));
            double diameter = Double.parseDouble(row.getField("diameter_mm"));
            int from = Integer.parseInt(row.getField("year_from"));
            String key = row.getField("denomination");
            Denomination denomination =
                    new Denomination(Country.US, row.getField("alloy").contains("Eisenhower") ? "large-dollar" : key);
            List<Issue> fitting = CATALOG.issues().stream()
                    .filter(issue -> issue.identity().denomination().equals(denomination)
                            && !issue.series().id().equals("us-nickel-shield")
                            && issue.year() >= from
                            && issue.year() <= Integer.parseInt(row.getField("year_to"))
                            && Math.abs(issue.alloy().weight().grams() - weight) < 1e-9)
                    .toList();
            if (row.getField("alloy").contains("later 1943")) {
                assertThat(cents(1943, "D").getFirst().alloys())
                        .anySatisfy(alloy -> assertThat(alloy.weight().grams()).isEqualTo(weight));
                continue;
            }
            assertThat(fitting)
                    .as("%s %s, source %s", key, row.getField("alloy"), row.getField("source"))
                    .isNotEmpty();
            assertThat(fitting).allSatisfy(issue -> {
                var own = issue.alloy().tolerance();
                assertThat(own).isNotNull();
                assertThat(own.grams()).isEqualTo(tolerance, within(1e-9));
                assertThat(issue.alloy().diameter().millimetres()).isEqualTo(diameter, within(1e-9));
            });
            compared++;
        }
        assertThat(compared).isGreaterThan(15);
    }

    @Test
    void weights_of_canadian_cents_are_those_of_the_published_table() throws IOException {
        Denomination cent = new Denomination(Country.CANADA, "cent");
        for (NamedCsvRecord row : rows("ca_specs.csv")) {
            if (!row.getField("denomination").equals("1 cent")) {
                continue;
            }
            int year = Integer.parseInt(row.getField("year_to"))
                    - (row.getField("year_to").equals("1920") ? 1 : 0);
            assertThat(CATALOG.ofYear(cent, year))
                    .as("%d %s", year, row.getField("alloy"))
                    .anySatisfy(issue -> assertThat(issue.alloy().weight().grams())
                            .isEqualTo(Double.parseDouble(row.getField("weight_g")), within(1e-9)));
        }
    }

    @Test
    void rolls_and_boxes_are_those_of_the_published_tables() throws IOException {
        Map<String, String> keys = Map.of(
                "half dollar", "half",
                "dollar (small)", "dollar",
                "1 cent", "cent",
                "5 cents", "nickel",
                "10 cents", "dime",
                "25 cents", "quarter",
                "50 cents", "half",
                "1 dollar", "dollar",
                "2 dollars", "two-dollars",
                "dollar (large, obsolete)", "large-dollar");
        for (NamedCsvRecord row : rows("rolls.csv")) {
            String name = row.getField("denomination");
            Country country = row.getField("country").equals("US") ? Country.US : Country.CANADA;
            DenominationFacts facts = CATALOG.facts(new Denomination(country, keys.getOrDefault(name, name)))
                    .orElseThrow(() -> new AssertionError(name));
            assertThat(facts.coinsPerRoll()).as(name).isEqualTo(Integer.parseInt(row.getField("coins_per_roll")));
            assertThat(facts.face().getAmount().doubleValue())
                    .isEqualTo(Double.parseDouble(row.getField("face_value_each")));
            Integer rolls = facts.rollsPerBox();
            assertThat(rolls == null ? "" : rolls.toString()).as(name).isEqualTo(row.getField("rolls_per_box"));
        }
    }

    @Test
    void alloys_change_in_the_years_the_statutes_and_the_mint_give() {
        // us_specs.csv: bronze to zinc in 1982 with both alloys; steel in 1943; wartime silver 1942-45; 90 % silver to
        // 1964;
        // 40 % halves 1965-70. ca_specs.csv: silver to 1967, both alloys in 1968.
        assertThat(metals("cent", 1981)).containsOnly(Metal.COPPER);
        assertThat(metals("cent", 1982)).containsExactlyInAnyOrder(Metal.COPPER, Metal.ZINC);
        assertThat(metals("cent", 1983)).containsOnly(Metal.ZINC);
        assertThat(metals("cent", 1943)).containsOnly(Metal.STEEL);
        assertThat(metals("nickel", 1942)).containsExactlyInAnyOrder(Metal.CUPRONICKEL, Metal.SILVER);
        assertThat(metals("nickel", 1945)).containsOnly(Metal.SILVER);
        assertThat(metals("dime", 1964)).containsOnly(Metal.SILVER);
        assertThat(metals("dime", 1965)).containsOnly(Metal.CUPRONICKEL);
        assertThat(metals("half", 1969)).containsOnly(Metal.SILVER);
        assertThat(metals("half", 1971)).containsOnly(Metal.CUPRONICKEL);
    }

    private static List<Metal> metals(String key, int year) {
        return CATALOG.ofYear(new Denomination(Country.US, key), year).stream()
                .filter(issue -> !issue.collectorOnly())
                .map(issue -> issue.alloy().metal())
                .distinct()
                .toList();
    }

    @Test
    void the_kinds_hunters_tell_apart_are_there() {
        // Seven common 1982 cents, date sizes of 1960 and of 1970-S: common practice.
        assertThat(cents(1982, "P")).hasSize(4);
        assertThat(cents(1982, "D")).hasSize(3);
        assertThat(cents(1960, "P"))
                .extracting(issue -> issue.identity().kind())
                .containsExactlyInAnyOrder("large date", "small date");
        assertThat(cents(1970, "S")).hasSize(2);
        assertThat(cents(2009, "P")).hasSize(4);
    }

    @Test
    void years_and_mints_that_struck_nothing_are_not_there() {
        // Common practice: no Philadelphia or San Francisco cents in 1922, no quarters in 1933, no dimes in 1932 and
        // 1933.
        assertThat(cents(1922, "P")).isEmpty();
        assertThat(cents(1922, "S")).isEmpty();
        assertThat(CATALOG.ofYear(new Denomination(Country.US, "quarter"), 1933))
                .isEmpty();
        assertThat(CATALOG.ofYear(new Denomination(Country.US, "dime"), 1932)).isEmpty();
        assertThat(CATALOG.ofYear(new Denomination(Country.US, "nickel"), 1922)).isEmpty();
    }

    /// A face value with three decimals ended the program at its start; a cell without end filled every page.
    @Test
    void a_cell_of_a_catalogue_that_cannot_be_used_is_named_and_the_rest_is_read() {
        for (String face : List.of("0.005", "1d", "0x1p3", "1e99999999", "NaN", "-1", "9999999999999999999")) {
            List<NamedText> files = CatalogFolder.files().stream()
                    .map(file -> file.name().equals("denominations.csv")
                            ? new NamedText(file.name(), file.text().replace("1c,0.01,", "1c," + face + ","))
                            : file)
                    .toList();
            CatalogLoader.Loaded loaded = CatalogLoader.load(files);
            assertThat(loaded.problems().toString())
                    .as(face)
                    .contains("denominations.csv")
                    .contains("face");
        }
        List<NamedText> files = CatalogFolder.files().stream()
                .map(file -> file.name().equals("denominations.csv")
                        ? new NamedText(file.name(), file.text().replace("one cent,", "x".repeat(50_000) + ","))
                        : file)
                .toList();
        assertThat(CatalogLoader.load(files).problems().stream().map(Object::toString))
                .allMatch(sentence -> sentence.length() < 1_000)
                .first()
                .asString()
                .contains("The cell has 50,000 characters. Write at most 4,096.");
    }
}
