package org.rollwright.catalog;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.joda.money.Money;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.rollwright.album.AlbumRule;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Metal;
import org.rollwright.coin.Mint;
import org.rollwright.entry.Command;
import org.rollwright.entry.EntryContext;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Reading;

/// The format holds one more country with nothing in code: the euro cents of one country, with the common side and its
/// national sides, as five small tables and a series beside ours (src/test/resources/euro).
///
/// Weights, diameters and alloys: Council Regulation (EU) No 729/2014 on denominations and technical specifications of
/// euro coins; mints and national sides from memory.
class AnotherCountryTest {
    private static final Country GERMANY = new Country("DE");

    private static CatalogLoader.Loaded loaded;

    @BeforeAll
    static void load() throws IOException {
        Path root = Path.of("src/test/resources/euro");
        List<NamedText> files = new ArrayList<>(CatalogFolder.files());
        try (Stream<Path> paths = Files.walk(root)) {
            for (Path path : paths.filter(one -> one.toString().endsWith(".csv"))
                    .sorted()
                    .toList()) {
                String name = root.relativize(path).toString().replace('\\', '/');
                files.add(new NamedText("your catalog/" + name, Files.readString(path)));
            }
        }
        loaded = CatalogLoader.load(files);
    }

    @Test
    void its_tables_join_ours() {
        assertThat(loaded.problems()).isEmpty();
        Catalog catalog = loaded.catalog();
        assertThat(catalog.issues()).hasSize(CatalogFolder.catalog().issues().size() + 3 * 5 * 6);
        Denomination ten = new Denomination(GERMANY, "10-cent");
        assertThat(catalog.facts(ten).orElseThrow().face()).isEqualTo(Money.parse("EUR 0.10"));
        Issue issue = catalog.lookup(Identity.of(ten, 2007, new Mint("J"))).getFirst();
        assertThat(issue.alloy().weight().grams()).isEqualTo(4.10);
        assertThat(issue.alloy().diameter().millimetres()).isEqualTo(19.75);
        assertThat(issue.alloy().metal()).isEqualTo(Metal.BRASS);
        assertThat(issue.identity().design()).isEqualTo("brandenburg gate");
        assertThat(issue.note()).contains("without borders");
        assertThat(catalog.lookup(Identity.of(ten, 2006, new Mint("J")))
                        .getFirst()
                        .note())
                .contains("before its enlargement");
        assertThat(catalog.country(GERMANY).orElseThrow().name()).isEqualTo("Germany");
    }

    @Test
    void its_coins_are_typed_watched_for_and_put_into_albums() {
        Catalog catalog = loaded.catalog();
        EntryContext context = new EntryContext(catalog, new Denomination(GERMANY, "5-cent"), List.of(), 2026);
        Reading reading = EntryParser.parse("02f", context);
        assertThat(reading).isInstanceOf(Reading.Clear.class);
        Command.Found found =
                (Command.Found) ((Reading.Clear) reading).commands().getFirst();
        Identity coin = found.draft().facts().identity();
        assertThat(coin.denomination()).isEqualTo(new Denomination(GERMANY, "5-cent"));
        assertThat(coin.mint()).isEqualTo(new Mint("F"));
        assertThat(coin.year()).isEqualTo(2002);

        Selection steel = ((Selection.Parsed.Good) Selection.parse("country DE; metal steel")).selection();
        assertThat(steel.selects(CoinDescription.plain(coin), catalog.lookup(coin), Country.US))
                .isTrue();
        AlbumRule rule = ((AlbumRule.Parsed.Good) AlbumRule.parse("series de-euro-cents; denomination 5-cent")).rule();
        assertThat(rule.holes(catalog, GERMANY)).hasSize(15);
        AlbumRule designs = ((AlbumRule.Parsed.Good) AlbumRule.parse("country DE; one per design")).rule();
        assertThat(designs.holes(catalog, GERMANY))
                .extracting(hole -> hole.issues().getFirst().identity().design())
                .contains("oak twig", "brandenburg gate");
        assertThat(SourceCount.bySeries(catalog).getLast().rows()).isEqualTo(90);
    }
}
