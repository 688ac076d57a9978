package org.rollwright.entry;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.StringLength;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.TradeWord;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Strike;
import org.rollwright.hunt.Disposition;

class EntryPropertyTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();

    @Provide
    Arbitrary<Command.FindDraft> drafts() {
        Arbitrary<CoinDescription> facts = Combinators.combine(
                        identities(),
                        Arbitraries.of(Grade.steps()).map(Grade::new).optional(),
                        texts().optional(),
                        Arbitraries.of(Colour.class).optional(),
                        Arbitraries.of(Strike.class),
                        said(TradeWord.Role.VARIETY),
                        said(TradeWord.Role.ERROR),
                        texts().optional())
                .as((identity, grade, details, colour, strike, varieties, errors, note) -> new CoinDescription(
                        identity,
                        grade.orElse(null),
                        details.orElse(null),
                        colour.orElse(null),
                        strike,
                        varieties,
                        errors,
                        note.orElse(""),
                        List.of()));
        return Combinators.combine(
                        facts,
                        Arbitraries.integers().between(1, 2500),
                        Arbitraries.of(true, false),
                        Arbitraries.of(Disposition.class))
                .as(Command.FindDraft::new);
    }

    /// Whatever a hunter can read off a coin: an issue of the catalogue, a kind not told, something unreadable,
    /// a stray.
    private static Arbitrary<Identity> identities() {
        Arbitrary<Identity> issues = Arbitraries.of(CATALOG.issues()).map(Issue::identity);
        Arbitrary<Identity> untold = Arbitraries.of(CATALOG.issues())
                .map(Issue::identity)
                .map(identity -> new Identity(identity.denomination(), identity.year(), identity.mint(), "", ""))
                .filter(identity -> {
                    List<Issue> fits = CATALOG.lookup(identity);
                    boolean oneSeries =
                            fits.stream().map(Issue::series).distinct().count() == 1;
                    boolean oneDesign = fits.stream()
                                    .map(issue -> issue.identity().design())
                                    .distinct()
                                    .count()
                            == 1;
                    return oneSeries && !oneDesign && fits.size() > 1;
                });
        Arbitrary<Identity> undated = Arbitraries.of("P", "D", "S")
                .map(mint -> new Identity(Denomination.US_CENT, null, new Mint(mint), "", ""));
        Arbitrary<Identity> strays = Arbitraries.integers()
                .between(1901, 2025)
                .map(year -> new Identity(new Denomination(new Country("BM"), "1c"), year, Mint.NONE, "", ""));
        return Arbitraries.oneOf(issues, untold, undated, strays);
    }

    /// Words from the list, and words of the hunter's own.
    private static Arbitrary<List<String>> said(TradeWord.Role role) {
        List<String> known = CATALOG.tradeWords().stream()
                .filter(word -> word.role() == role)
                .map(TradeWord::canonical)
                .distinct()
                .toList();
        return Arbitraries.oneOf(Arbitraries.of(known), texts()).list().ofMaxSize(3);
    }

    /// Texts as a field of one line can hold them: no control characters, no spaces at the ends or doubled.
    private static Arbitrary<String> texts() {
        return Arbitraries.strings()
                .withChars("abc XYZ 12,:;\"'!+-<>@#é—“”")
                .ofMinLength(1)
                .ofMaxLength(30)
                .map(String::strip)
                .filter(text -> !text.isEmpty());
    }

    @Property(tries = 10000)
    void printing_any_find_and_parsing_it_again_gives_the_same_find(@ForAll("drafts") Command.FindDraft draft) {
        for (String watch : List.of("wheat", "everything")) {
            EntryContext context = EntryLineTest.watching("cent", watch);
            String line = FindText.print(draft, CATALOG, context.denomination());
            Reading reading = EntryParser.parse(line, context);
            assertThat(reading).as(line).isEqualTo(new Reading.Clear(List.of(new Command.Found(draft))));
        }
    }

    @Property(tries = 3000)
    void no_input_of_any_unicode_throws(@ForAll @StringLength(max = 4096) String line) {
        assertThat(EntryParser.parse(line, EntryLineTest.watching("cent", "wheat")))
                .isNotNull();
    }

    @Property(tries = 5000)
    void no_line_of_trade_words_and_digits_throws(@ForAll("scrambles") String line) {
        Reading reading = EntryParser.parse(line, EntryLineTest.watching("cent", "wheat", "canadian"));
        assertThat(reading).isNotNull();
        Optional<Reading.Choose> choose = reading instanceof Reading.Choose one ? Optional.of(one) : Optional.empty();
        choose.ifPresent(one -> assertThat(one.options()).hasSizeGreaterThan(1));
    }

    @Provide
    Arbitrary<String> scrambles() {
        return Arbitraries.of(
                        "39s",
                        "19",
                        "82",
                        "82d",
                        "copper",
                        "x3",
                        "3x",
                        "x",
                        "ca",
                        "gb",
                        "1p",
                        "dime",
                        "r17",
                        "49",
                        "+",
                        "-",
                        "<",
                        "e",
                        "3/48",
                        "w",
                        "3lb",
                        "4oz",
                        "!",
                        "vf30",
                        "bn",
                        "rpm",
                        "\"",
                        "\"a b\"",
                        "note:\"x\"",
                        "nd",
                        "?",
                        "36?",
                        "fix",
                        "f12",
                        "move",
                        "b2",
                        "r5",
                        "split",
                        "2",
                        "drop",
                        "put",
                        "keep",
                        "watch",
                        "wheat",
                        ",",
                        "",
                        "1909",
                        "vdb",
                        "small",
                        "zinc",
                        "proof",
                        "cleaned",
                        "ender",
                        "skip",
                        "99",
                        "de",
                        "photo:a",
                        "’44D",
                        "999999999999",
                        "x99999999999",
                        "r99999999999",
                        "w",
                        "1e99g",
                        "0")
                .list()
                .ofMaxSize(9)
                .map(words -> String.join(" ", words));
    }
}
