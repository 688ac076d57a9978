package org.rollwright.catalog;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Metal;
import org.rollwright.coin.Mint;

/// The catalogue against published tables, row by row, and against errors that were found in it.
///
/// The table src/test/resources/reference/mintage_published.csv names the source of every row: reports of the United
/// States Mint on coins produced, articles of an encyclopaedia, the news. Its column `use` says how a figure is
/// compared: a `mintage`; one `with proofs`, whose `proofs` stand in a row of their own; a `part` of a date's figure;
/// a `year total` of all designs; an `other` figure, which the catalogue tells beside the one it chose.
class PublishedFactsTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();

    /// Proofs of the half dollars of 1958, which the table counts in without a row for them: as many as of the cents,
    /// because they were sold in sets (cent_year_totals_check.csv, 1958).
    private static final long PROOFS_1958 = 875_652;

    private static List<NamedCsvRecord> published;

    @BeforeAll
    static void read() throws IOException {
        published = new ArrayList<>();
        try (CsvReader<NamedCsvRecord> reader =
                CsvReader.builder().ofNamedCsvRecord(Path.of("src/test/resources/reference/mintage_published.csv"))) {
            reader.forEach(published::add);
        }
    }

    private static List<Issue> issues(String country, String denomination, int year, String mint) {
        return CATALOG.ofYear(new Denomination(new Country(country), denomination), year).stream()
                .filter(issue -> issue.mint().code().equals(mint))
                .toList();
    }

    private static List<Issue> us(String denomination, int year, String mint) {
        return issues("US", denomination, year, mint);
    }

    private static List<Issue> ca(String denomination, int year, String mint) {
        return issues("CA", denomination, year, mint);
    }

    private static List<Issue> ofRow(NamedCsvRecord row) {
        return issues(
                        row.getField("country"),
                        row.getField("denomination"),
                        Integer.parseInt(row.getField("year")),
                        row.getField("mint"))
                .stream()
                .filter(issue -> issue.identity().kind().equals(row.getField("kind")))
                .filter(issue -> row.getField("design").isEmpty()
                        || issue.identity().design().equals(row.getField("design")))
                .toList();
    }

    private static long figure(NamedCsvRecord row) {
        return Long.parseLong(row.getField("mintage"));
    }

    private static long mintage(Issue issue) {
        Long mintage = issue.mintage();
        return mintage == null ? 0 : mintage;
    }

    @Test
    void every_row_of_the_published_mintages_is_used_with_its_source_and_agrees() {
        Map<String, Long> proofs = new HashMap<>();
        published.stream()
                .filter(row -> row.getField("use").equals("proofs"))
                .forEach(row -> proofs.put(row.getField("year") + row.getField("denomination"), figure(row)));
        proofs.put("1958half", PROOFS_1958);
        Map<Issue, Long> parts = new HashMap<>();
        int compared = 0;
        for (NamedCsvRecord row : published) {
            if (row.getField("use").equals("year total")) {
                continue;
            }
            List<Issue> fitting = ofRow(row);
            assertThat(fitting).as("%s", row).hasSize(1);
            Issue issue = fitting.getFirst();
            assertThat(issue.evidence().kind()).as("%s", row).isNotIn(SourceKind.MEMORY, SourceKind.OTHER);
            switch (row.getField("use")) {
                case "mintage" -> {
                    assertThat(issue.mintage()).as("%s", row).isEqualTo(figure(row));
                    assertThat(issue.evidence().mintageSource()).isEqualTo(row.getField("source"));
                }
                case "with proofs" -> {
                    long without =
                            figure(row) - proofs.getOrDefault(row.getField("year") + row.getField("denomination"), 0L);
                    assertThat(issue.mintage()).as("%s", row).isEqualTo(without);
                    assertThat(issue.evidence().precision()).isEqualTo(Precision.WITHOUT_PROOFS);
                }
                case "other" ->
                    assertThat(issue.evidence().otherMintage()).as("%s", row).contains(row.getField("mintage"));
                case "part" -> parts.merge(issue, figure(row), Long::sum);
                default -> assertThat(row.getField("use")).isEqualTo("proofs");
            }
            compared++;
        }
        parts.forEach((issue, sum) ->
                assertThat(issue.mintage()).as("%s", issue.identity()).isEqualTo(sum));
        assertThat(compared).isGreaterThan(600);
    }

    /// The Mint's yearly reports count all quarters of a calendar year, its reports by programme the designs.
    @Test
    void designs_of_a_year_add_up_to_the_mint_s_total_of_the_year() {
        int compared = 0;
        for (NamedCsvRecord row : published) {
            int year = Integer.parseInt(row.getField("year"));
            if (!row.getField("use").equals("year total") || year == 2026) {
                continue; // the year is not over, and some of its coins were struck in the year before
            }
            long sum = us("quarter", year, row.getField("mint")).stream()
                    .mapToLong(PublishedFactsTest::mintage)
                    .sum();
            assertThat((double) sum).as("%s", row).isCloseTo((double) figure(row), within(0.002 * figure(row)));
            compared++;
        }
        assertThat(compared).isEqualTo(30);
    }

    @Test
    void every_source_of_ours_is_known_by_its_kind() {
        TreeSet<String> unknown = new TreeSet<>();
        for (Issue issue : CATALOG.issues()) {
            Evidence evidence = issue.evidence();
            if (evidence.kind() == SourceKind.OTHER) {
                unknown.add(evidence.source());
            }
            if (evidence.mintageKind() == SourceKind.OTHER) {
                unknown.add(evidence.mintageSource());
            }
        }
        assertThat(unknown).isEmpty();
    }

    /// Since 1909 at most 60 % of rows from memory, at least 35 % with a mintage.
    @Test
    void what_is_only_remembered_is_counted_and_less_than_it_was() {
        SourceCount since = SourceCount.sum(CATALOG, issue -> issue.year() >= 1909);
        assertThat(since.fromMemory()).isLessThan(0.60);
        assertThat((double) since.withMintage() / since.rows()).isGreaterThan(0.35);
        SourceCount all = SourceCount.sum(CATALOG, issue -> true);
        assertThat(SourceCount.bySeries(CATALOG).stream()
                        .mapToInt(SourceCount::rows)
                        .sum())
                .isEqualTo(all.rows())
                .isEqualTo(CATALOG.issues().size());
    }

    /// Published: 73 date and mint pairs of Barber halves, 1914 from Philadelphia and San Francisco only; no Denver
    /// quarters of 1938 in the Mint's reports.
    @Test
    void coins_that_were_never_struck_are_gone() {
        assertThat(us("half", 1914, "D")).isEmpty();
        assertThat(us("half", 1914, "P")).hasSize(1);
        assertThat(us("quarter", 1938, "D")).isEmpty();
        assertThat(us("quarter", 1938, "P")).extracting(Issue::mintage).containsExactly(9_472_000L);
        assertThat(us("quarter", 1938, "S")).extracting(Issue::mintage).containsExactly(2_832_000L);
        // no zinc cents of 2008, and plated ones of 2000 only for tests
        assertThat(ca("cent", 2008, "-"))
                .extracting(issue -> issue.alloy().metal())
                .containsExactly(Metal.STEEL);
        assertThat(ca("cent", 2000, "P")).allMatch(Issue::collectorOnly);
    }

    /// Wikipedia, Nickel (United States coin) and Quarter (Canadian coin), tables of composition; the news page on
    /// the cents of 1982.
    @Test
    void alloys_and_sizes_are_those_of_their_years() {
        assertThat(us("cent", 1982, "S"))
                .extracting(issue -> issue.alloy().name())
                .containsExactly("us-cent-brass");
        assertThat(us("nickel", 1883, "P"))
                .filteredOn(issue -> issue.series().id().equals("us-nickel-shield"))
                .extracting(issue -> issue.alloy().diameter().millimetres())
                .containsExactly(20.5);
        for (String mint : List.of("P", "D", "S")) {
            assertThat(us("cent", 1943, mint).getFirst().alloys())
                    .extracting(alloy -> alloy.weight().grams())
                    .containsExactly(2.689, 2.754);
        }
        assertThat(diameter(ca("quarter", 1952, "-"))).isEqualTo(23.62);
        assertThat(diameter(ca("quarter", 1953, "-"))).isEqualTo(23.88);
        assertThat(ca("quarter", 1968, "-"))
                .filteredOn(issue -> issue.alloy().metal() == Metal.SILVER)
                .extracting(issue -> issue.alloy().weight().grams())
                .containsExactly(5.83);
    }

    private static double diameter(List<Issue> issues) {
        return issues.getFirst().alloy().diameter().millimetres();
    }

    /// Wikipedia, Nickel (Canadian coin): cupronickel without a P to 2001 and in 2006, plated steel with a P from
    /// 1999 to 2006. Everything2, Canadian P Coins: the plated ones of 1999 and 2000 for tests, but for about two
    /// million five cents. The Royal Canadian Mint on its compositions: ten and twenty-five cents of nickel to
    // 2000.
    @Test
    void canadian_coins_of_the_plating_years_are_told_by_mark_and_metal() {
        assertThat(metals(ca("nickel", 2000, "-"))).containsExactly(Metal.CUPRONICKEL);
        assertThat(ca("nickel", 2000, "P")).extracting(Issue::mintage).containsExactly(2_000_000L);
        for (int year : List.of(2001, 2006)) {
            assertThat(metals(ca("nickel", year, "-"))).containsExactly(Metal.CUPRONICKEL);
            assertThat(metals(ca("nickel", year, "P"))).containsExactly(Metal.STEEL);
        }
        assertThat(metals(ca("dime", 2000, "-"))).containsExactly(Metal.NICKEL);
        assertThat(metals(ca("quarter", 2000, "-"))).containsExactly(Metal.NICKEL);
        for (String key : List.of("nickel", "dime", "quarter")) {
            for (int year = 2001; year <= 2006; year++) {
                assertThat(metals(ca(key, year, "P"))).as("%s %d", key, year).containsExactly(Metal.STEEL);
            }
        }
        for (int year = 2002; year <= 2006; year++) {
            assertThat(metals(ca("cent", year, "P"))).containsExactly(Metal.STEEL);
            assertThat(metals(ca("cent", year, "-"))).contains(Metal.ZINC);
        }
    }

    private static List<Metal> metals(List<Issue> issues) {
        return issues.stream()
                .filter(issue -> !issue.collectorOnly())
                .map(issue -> issue.alloy().metal())
                .distinct()
                .toList();
    }

    @Test
    void canadian_dates_and_designs_that_were_missing_are_there() {
        assertThat(ca("nickel", 1902, "H")).hasSize(1);
        assertThat(ca("nickel", 1903, "H")).hasSize(1);
        assertThat(kinds(ca("nickel", 1947, "-"))).containsExactly("", "dot", "maple leaf");
        assertThat(kinds(ca("quarter", 1947, "-"))).containsExactly("", "dot", "maple leaf");
        assertThat(kinds(ca("dime", 1947, "-"))).containsExactly("", "maple leaf");
        for (String key : List.of("cent", "dime", "quarter")) {
            assertThat(kinds(ca(key, 1936, "-"))).containsExactly("", "dot");
        }
        // Wikipedia, Quarter (Canadian coin), Commemorative reverses: twelve designs each
        assertThat(ca("quarter", 1992, "-").stream().filter(issue -> !issue.collectorOnly()))
                .hasSize(12);
        assertThat(ca("quarter", 1999, "-")).hasSize(12);
        assertThat(ca("quarter", 2000, "-")).hasSize(12);
        assertThat(designs(ca("quarter", 1973, "-"))).containsExactly("mounted police");
        assertThat(designs(ca("quarter", 2004, "P"))).contains("poppy");
        assertThat(designs(ca("quarter", 2005, "P"))).contains("alberta", "saskatchewan");
        for (int year : List.of(2007, 2008, 2009, 2010, 2011, 2012, 2013, 2015, 2017)) {
            assertThat(designs(ca("quarter", year, "-")))
                    .as("%d", year)
                    .contains("caribou")
                    .hasSizeGreaterThan(1);
        }
        // Wikipedia, Quarter (Canadian coin), section on facts: none of 1997 and 1998 went into circulation
        assertThat(ca("quarter", 1997, "-")).allMatch(Issue::collectorOnly);
        assertThat(ca("quarter", 1998, "-")).allMatch(Issue::collectorOnly);
        assertThat(us("dollar", 2020, "S"))
                .extracting(issue -> issue.series().id())
                .contains("us-dollar-presidential");
    }

    /// Wikipedia, Voyageur dollar: 1935 to 1939 and every year from 1945 to 1986, of nickel since 1968. Wikipedia,
    /// 50-cent piece (Canadian coin): none dated 1922 to 1928, since 2004 from the Mint alone. Wikipedia, Coins of
    /// the Canadian dollar: of 1997 to 2001 no dollars but in sets. The Mint's Act, schedule, part 2: two alloys of
    /// the one and the two dollars. Canada Gazette, SOR/2022-247: two dollars with a black ring.
    @Test
    void canadian_halves_dollars_and_two_dollars_are_there_and_their_gaps_are_gaps() {
        for (int year = 1935; year <= 1986; year++) {
            List<Issue> dollars = ca("dollar", year, "-");
            assertThat(dollars.isEmpty()).as("%d", year).isEqualTo(year >= 1940 && year <= 1944);
            assertThat(metals(dollars)).as("%d", year).isSubsetOf(List.of(year < 1968 ? Metal.SILVER : Metal.NICKEL));
        }
        assertThat(designs(ca("dollar", 1967, "-"))).containsExactly("goose");
        assertThat(designs(ca("dollar", 1987, "-"))).containsExactly("loon");
        for (int year = 1997; year <= 2001; year++) {
            assertThat(ca("dollar", year, "-")).as("%d", year).hasSize(1).allMatch(Issue::collectorOnly);
        }
        for (int year = 1922; year <= 1928; year++) {
            assertThat(ca("half", year, "-")).as("%d", year).isEmpty();
        }
        assertThat(metals(ca("half", 1967, "-"))).containsExactly(Metal.SILVER);
        assertThat(metals(ca("half", 1968, "-"))).containsExactly(Metal.NICKEL);
        for (int year = 2004; year <= 2024; year++) {
            String mint = year <= 2006 ? "P" : "-";
            assertThat(ca("half", year, mint)).as("%d", year).hasSize(1).allMatch(Issue::collectorOnly);
        }
        for (String key : List.of("dollar", "two-dollars")) {
            assertThat(kinds(ca(key, 2012, "-"))).contains("nickel", "steel");
            assertThat(metals(ca(key, 2011, "-"))).containsExactly(Metal.NICKEL);
            assertThat(metals(ca(key, 2013, "-"))).containsExactly(Metal.STEEL);
        }
        assertThat(ca("two-dollars", 1995, "-")).isEmpty();
        assertThat(kinds(ca("two-dollars", 2022, "-"))).contains("black ring");
    }

    private static List<String> kinds(List<Issue> issues) {
        return issues.stream().map(issue -> issue.identity().kind()).toList();
    }

    private static List<String> designs(List<Issue> issues) {
        return issues.stream().map(issue -> issue.identity().design()).toList();
    }

    /// Figures for cents that had none, each with the published total or table it rests on.
    @Test
    void cents_that_had_no_mintage_have_one() {
        assertThat(us("cent", 1945, "D")).extracting(Issue::mintage).containsExactly(266_268_000L);
        assertThat(us("cent", 1951, "P")).extracting(Issue::mintage).containsExactly(284_576_000L);
        assertThat(us("cent", 1945, "D").getFirst().evidence().disputed()).isTrue();
        assertThat(us("cent", 1951, "P").getFirst().evidence().disputed()).isTrue();
        assertThat(us("cent", 2009, "P"))
                .extracting(Issue::mintage)
                .containsExactly(284_400_000L, 376_000_000L, 316_000_000L, 129_600_000L);
        assertThat(us("cent", 2009, "D"))
                .extracting(Issue::mintage)
                .containsExactly(350_400_000L, 363_600_000L, 336_000_000L, 198_000_000L);
        assertThat(us("cent", 2010, "P")).extracting(Issue::mintage).containsExactly(1_963_630_000L);
        assertThat(us("cent", 2010, "D")).extracting(Issue::mintage).containsExactly(2_047_200_000L);
    }

    /// Published totals of wheat cents: 24,723,317,823 for 1909 to 1958 without 1943, within 415,314 of the catalogue;
    /// 19,552,500,823 for 1909 to 1942 and 1947 to 1958 without the initials, within 17,314.
    @Test
    void the_wheat_cents_add_up_to_their_published_totals() {
        long all = 0;
        long some = 0;
        for (Issue issue : CATALOG.issues()) {
            boolean counts = issue.series().id().equals("us-cent-lincoln-wheat")
                    && issue.year() != 1943
                    && !issue.identity().kind().equals("no d");
            if (counts) {
                all += mintage(issue);
                boolean brass = issue.year() >= 1943 && issue.year() <= 1946;
                some += brass || issue.identity().kind().equals("vdb") ? 0 : mintage(issue);
            }
        }
        assertThat(Math.abs(24_723_317_823L - all)).isLessThan(415_315);
        assertThat(Math.abs(19_552_500_823L - some)).isLessThan(17_315);
    }

    /// It is 2026: what is new of a year is one small file, and its rows join older series.
    @Test
    void the_coins_of_2026_are_there_from_one_file() {
        Denomination cent = Denomination.US_CENT;
        // Wikipedia, United States Semiquincentennial coinage: cents in the Mint's sets only
        assertThat(CATALOG.ofYear(cent, 2026)).hasSize(3).allMatch(Issue::collectorOnly);
        assertThat(designs(us("quarter", 2026, "P"))).hasSize(5);
        assertThat(designs(us("quarter", 2026, "D"))).hasSize(5);
        assertThat(us("nickel", 2026, "P"))
                .extracting(issue -> issue.series().id())
                .containsExactly("us-nickel-jefferson-2006");
        assertThat(us("dollar", 2026, "D"))
                .extracting(issue -> issue.series().id())
                .containsExactly("us-dollar-native-american");
        for (String key : List.of("nickel", "dime", "quarter", "half")) {
            assertThat(us(key, 2026, "D")).allMatch(issue -> issue.note().contains("1776 ~ 2026"));
        }
        List<NamedText> files = new ArrayList<>(CatalogFolder.files());
        files.add(new NamedText(
                "your catalog/series/us-2027.csv",
                "series," + String.join(",", CatalogLoader.SERIES_COLUMNS)
                        + "\nus-nickel-jefferson-2006,US,nickel,2027,D,,monticello,,us-nickel-1946,circulation,,,,,"
                        + "read off a coin\n"));
        CatalogLoader.Loaded loaded = CatalogLoader.load(files);
        assertThat(loaded.problems()).isEmpty();
        assertThat(loaded.catalog().series()).hasSameSizeAs(CATALOG.series());
        Issue added = loaded.catalog()
                .ofYear(new Denomination(Country.US, "nickel"), 2027)
                .getFirst();
        assertThat(added.series().id()).isEqualTo("us-nickel-jefferson-2006");
        assertThat(added.evidence().kind()).isEqualTo(SourceKind.OTHER);
        files.add(new NamedText(
                "your catalog/series/us-2028.csv",
                "series," + String.join(",", CatalogLoader.SERIES_COLUMNS)
                        + "\nus-nikel,US,nickel,2028,D,,monticello,,us-nickel-1946,circulation,,,,,read off a coin\n"));
        assertThat(CatalogLoader.load(files).problems())
                .singleElement()
                .hasToString("your catalog/series/us-2028.csv, line 2, column series: 'us-nikel' is no series. Write a"
                        + " name from series.csv, or nothing for the file's own.");
    }

    /// A file in the format of before, without the columns that came later.
    @Test
    void a_series_file_of_before_still_loads() {
        List<NamedText> files = new ArrayList<>(CatalogFolder.files());
        files.add(new NamedText(
                "your catalog/series/my-tokens.csv",
                String.join(",", CatalogLoader.SERIES_COLUMNS)
                        + "\nCA,half,1968,-,,,,ca-quarter-nickel,circulation,3966932,,,,seen\n"));
        CatalogLoader.Loaded loaded = CatalogLoader.load(files);
        assertThat(loaded.problems()).isEmpty();
        Issue issue = loaded.catalog().issues().getLast();
        assertThat(issue.evidence().mintageSource()).isEqualTo("seen");
        assertThat(issue.evidence().precision()).isEqualTo(Precision.AS_PUBLISHED);
    }

    /// Finds keep the identity they were recorded with: a name that was changed, a mark the catalogue learned of later,
    /// a row that is gone.
    @Test
    void what_was_recorded_with_an_earlier_catalogue_is_still_found() {
        Denomination half = new Denomination(Country.US, "half");
        Identity barber = new Identity(half, 1908, Mint.D, "", "barber");
        assertThat(CATALOG.lookup(barber))
                .extracting(issue -> issue.identity().design())
                .containsExactly("liberty head");
        assertThat(CATALOG.lookup(new Identity(half, 1914, Mint.D, "", "barber")))
                .isEmpty();
        Denomination nickel = new Denomination(Country.CANADA, "nickel");
        assertThat(CATALOG.lookup(new Identity(nickel, 2003, Mint.NONE, "", "beaver")))
                .extracting(issue -> issue.mint().code())
                .containsExactly("P", "P"); // with the crowned and with the bareheaded queen
        Denomination cent = new Denomination(Country.CANADA, "cent");
        assertThat(CATALOG.lookup(new Identity(cent, 2003, Mint.NONE, "steel", "maple twig")))
                .extracting(issue -> issue.mint().code())
                .containsExactly("P", "P"); // with the crowned and with the bareheaded queen
        assertThat(CATALOG.lookup(new Identity(cent, 1930, Mint.NONE, "", "maple twig")))
                .extracting(issue -> issue.identity().design())
                .containsExactly("maple leaves");
        assertThat(CATALOG.lookup(new Identity(nickel, 1930, Mint.NONE, "", "beaver")))
                .extracting(issue -> issue.identity().design())
                .containsExactly("maple leaves");
        Denomination quarter = new Denomination(Country.CANADA, "quarter");
        assertThat(CATALOG.lookup(new Identity(quarter, 1999, Mint.NONE, "", "")))
                .hasSize(12);
        assertThat(CATALOG.lookup(new Identity(quarter, 1950, Mint.NONE, "", "")))
                .hasSize(1);
    }

    /// The twig came to the cent and the beaver to the five cents in 1937, with the new king; before them both
    /// had two maple leaves. Wikipedia, Penny (Canadian coin) and Nickel (Canadian coin): design date 1937.
    @Test
    void the_twig_and_the_beaver_are_of_1937() {
        for (int year = 1922; year <= 1938; year++) {
            boolean earlier = year < 1937;
            for (Issue issue : ca("cent", year, "-")) {
                assertThat(issue.identity().design())
                        .as(issue.identity().toString())
                        .isEqualTo(earlier ? "maple leaves" : "maple twig");
            }
            for (Issue issue : ca("nickel", year, "-")) {
                assertThat(issue.identity().design())
                        .as(issue.identity().toString())
                        .isEqualTo(earlier ? "maple leaves" : "beaver");
            }
        }
    }

    /// What a list of facts, written before the catalogue was looked at, did not find in it; from memory.
    @Test
    void figures_and_marks_a_blind_check_missed_are_told() {
        assertThat(mintage(ca("cent", 1907, "-").getFirst())).isEqualTo(2_400_000);
        assertThat(mintage(ca("cent", 1907, "H").getFirst())).isEqualTo(800_000);
        assertThat(us("dime", 1916, "S"))
                .filteredOn(issue -> issue.identity().design().equals("liberty head"))
                .extracting(PublishedFactsTest::mintage)
                .containsExactly(5_820_000L);
        for (int year = 1943; year <= 1945; year++) {
            assertThat(ca("nickel", year, "-").getFirst().note()).contains("Morse code");
        }
        for (int year = 2009; year <= 2011; year++) {
            assertThat(us("dollar", year, "D"))
                    .filteredOn(issue -> issue.series().id().equals("us-dollar-native-american"))
                    .extracting(Issue::note)
                    .containsExactly("mint mark and date on the edge");
        }
    }

    /// What a hunter tells apart within a date is a kind of its own row, by eye, scale or magnet; common practice.
    @Test
    void kinds_within_a_date_are_rows() {
        assertThat(kinds(us("cent", 1982, "P")))
                .containsExactlyInAnyOrder(
                        "copper large date", "copper small date", "zinc large date", "zinc small date");
        assertThat(kinds(us("cent", 1982, "D")))
                .containsExactlyInAnyOrder("copper large date", "zinc large date", "zinc small date");
        for (String mint : List.of("P", "D")) {
            assertThat(kinds(us("cent", 1960, mint))).containsExactlyInAnyOrder("large date", "small date");
        }
        assertThat(kinds(us("cent", 1970, "S"))).containsExactlyInAnyOrder("large date", "small date");
        assertThat(us("cent", 1909, "S"))
                .filteredOn(issue -> issue.series().id().equals("us-cent-lincoln-wheat"))
                .extracting(issue -> issue.identity().kind())
                .containsExactlyInAnyOrder("", "vdb");
        assertThat(designs(us("cent", 2009, "D"))).hasSize(4).doesNotHaveDuplicates();
        for (int year = 2002; year <= 2006; year++) {
            assertThat(ca("cent", year, "P")).allMatch(issue -> issue.alloy().magnetic());
            assertThat(ca("cent", year, "-")).anyMatch(issue -> !issue.alloy().magnetic());
        }
        for (Issue issue : CATALOG.issues()) {
            assertThat(issue.alloys().stream().map(alloy -> alloy.metal()).distinct())
                    .as("%s is of one metal, else it were two kinds", issue.identity())
                    .hasSize(1);
        }
    }

    /// Weights and diameters of src/test/resources/reference/specs_published.csv, whose rows name their source: the
    /// Mint's page of specifications and the tables of an encyclopaedia. Copies of those tables differ among each
    /// other by 0.02 g and 0.1 mm, so that much is let pass; alloys.csv tells both figures where they differ.
    @Test
    void weights_and_diameters_are_those_of_the_published_specifications() throws IOException {
        int compared = 0;
        try (CsvReader<NamedCsvRecord> rows =
                CsvReader.builder().ofNamedCsvRecord(Path.of("src/test/resources/reference/specs_published.csv"))) {
            for (NamedCsvRecord row : rows) {
                int to = Integer.parseInt(row.getField("to"));
                int from = Integer.parseInt(row.getField("from"));
                Denomination denomination =
                        new Denomination(new Country(row.getField("country")), row.getField("denomination"));
                int last = CATALOG.issues().stream()
                        .filter(issue -> issue.identity().denomination().equals(denomination)
                                && issue.year() >= from
                                && issue.year() <= to)
                        .mapToInt(Issue::year)
                        .max()
                        .orElseThrow();
                double weight = Double.parseDouble(row.getField("weight_g"));
                double diameter = Double.parseDouble(row.getField("diameter_mm"));
                assertThat(CATALOG.ofYear(denomination, last)).as("%s", row).anySatisfy(issue -> {
                    assertThat(issue.alloy().weight().grams()).isCloseTo(weight, within(0.0201));
                    assertThat(issue.alloy().diameter().millimetres()).isCloseTo(diameter, within(0.101));
                });
                compared++;
            }
        }
        assertThat(compared).isEqualTo(58);
    }
}
