package org.rollwright.album;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.OwnedCoin;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.Rarity;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.desk.Desk;
import org.rollwright.desk.MemoryJournal;
import org.rollwright.desk.State;
import org.rollwright.journal.Event;

/// What an album tells: alerts, wants, moves and looks. Mintages are those of the catalogue, whose sources
/// stand there.
class AlbumListsTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();
    private static final String RULE = "series us-cent-lincoln-wheat; years 1931-1933; one per date and mint";

    private static CoinDescription cent(int year, Mint mint, int grade, String note) {
        CoinDescription plain = CoinDescription.plain(Identity.of(Denomination.US_CENT, year, mint))
                .withGrade(grade == 0 ? null : new Grade(grade));
        return new CoinDescription(
                plain.identity(), plain.grade(), null, null, plain.strike(), List.of(), List.of(), note, List.of());
    }

    private static OwnedCoin owned(int number, CoinDescription coin) {
        return new OwnedCoin(new CoinRef(number, 1), coin, "Box " + number);
    }

    private static AlbumState album(Map<String, CoinRef> content) {
        return new AlbumState(new AlbumId(1), "Wheats", AlbumRuleTest.places(RULE), content);
    }

    private static List<String> said(@Nullable OwnedCoin there, CoinDescription typed) {
        AlbumIndex index = new AlbumIndex(
                List.of(album(there == null ? Map.of() : Map.of("1932-D", there.ref()))),
                Policy.usual(),
                ref -> Optional.ofNullable(there).filter(coin -> coin.ref().equals(ref)));
        return index.alerts(typed).stream()
                .map(alert -> alert.kind() + " " + alert.albumName() + " "
                        + alert.hole().key() + ": " + alert.sentence())
                .toList();
    }

    @Test
    void an_alert_says_what_a_coin_does_for_its_hole_and_for_no_other() {
        CoinDescription fine = cent(1932, Mint.D, 12, "");
        assertThat(said(null, fine)).containsExactly("FILLS Wheats 1932-D: Fills a hole: Wheats, 1932-D");
        assertThat(said(owned(1, cent(1932, Mint.D, 8, "")), fine))
                .containsExactly("UPGRADES Wheats 1932-D: Upgrade: Wheats, 1932-D (F12 over VG8)");
        assertThat(said(owned(1, cent(1932, Mint.D, 0, "")), fine))
                .containsExactly(
                        "MAY_UPGRADE Wheats 1932-D: May upgrade: Wheats, 1932-D (F12 against one without a grade); compare side by side");
        assertThat(said(owned(1, fine), fine))
                .containsExactly("HAVE Wheats 1932-D: Wheats, 1932-D: filled with one as good");
        assertThat(said(owned(1, cent(1932, Mint.D, 30, "")), fine))
                .containsExactly("HAVE Wheats 1932-D: Wheats, 1932-D: filled with a better one (F12 under VF30)");
        assertThat(said(null, cent(1944, Mint.D, 12, ""))).isEmpty();
    }

    @Test
    void wants_are_empty_holes_and_coins_below_the_grade_wished_the_scarcest_last() {
        OwnedCoin worn = owned(1, cent(1932, Mint.D, 8, ""));
        OwnedCoin good = owned(2, cent(1932, Mint.P, 30, ""));
        AlbumState album = album(Map.of("1932-D", worn.ref(), "1932-P", good.ref()));
        Map<CoinRef, Grade> grades = Map.of(worn.ref(), new Grade(8), good.ref(), new Grade(30));
        List<WantList.Want> empty = WantList.of(album, null, grades::get, issues -> OptionalDouble.empty());
        assertThat(empty)
                .extracting(want -> want.hole().key())
                .doesNotContain("1932-D", "1932-P")
                .contains("1931-S");
        assertThat(empty).allSatisfy(want -> assertThat(want.has()).isNull());
        assertThat(empty.stream().map(WantList.Want::rarity).toList()).isSorted();
        List<WantList.Want> wished = WantList.of(album, new Grade(12), grades::get, issues -> OptionalDouble.empty());
        assertThat(wished).hasSize(empty.size() + 1);
        assertThat(wished.stream()
                        .filter(want -> want.has() != null)
                        .map(want -> want.hole().key())
                        .toList())
                .containsExactly("1932-D");
        assertThat(WantList.of(album, new Grade(8), grades::get, issues -> OptionalDouble.empty()))
                .hasSameSizeAs(empty);
        for (Rarity rarity : Rarity.values()) {
            List<Long> struck = empty.stream()
                    .filter(want -> want.rarity() == rarity && want.mintage() != null)
                    .map(WantList.Want::mintage)
                    .toList();
            assertThat(struck).isSortedAccordingTo((a, b) -> Long.compare(b, a));
        }
        // the source of the figure stands in the catalogue beside it
        assertThat(empty.stream()
                        .filter(want -> want.hole().key().equals("1931-S"))
                        .map(WantList.Want::mintage)
                        .toList())
                .containsExactly(866_000L);
        assertThat(empty.getFirst().hole().year()).isBetween(1931, 1933);
    }

    /// Boxes as a hunter's own finds may tell them; 1931-D has no answer. Of 1932-D 10,500,000 were struck and 20 boxes
    /// are needed, the middle of such products of the six known; of 1931-D 4,480,000 were struck, which makes
    /// 20 × 10,500,000 / 4,480,000 = 47 boxes, between 40 and 60.
    @Test
    void wants_stand_by_own_odds_and_one_without_where_its_mintage_puts_it() {
        Map<String, Double> boxes =
                Map.of("1931-P", 10.0, "1932-D", 20.0, "1931-S", 60.0, "1932-P", 5.0, "1933-P", 40.0, "1933-D", 70.0);
        List<WantList.Want> wants = WantList.of(album(Map.of()), null, ref -> null, issues -> {
            Double known =
                    boxes.get(issues.getFirst().year() + "-" + issues.getFirst().mint());
            return known == null ? OptionalDouble.empty() : OptionalDouble.of(known);
        });
        assertThat(wants)
                .extracting(want -> want.hole().key())
                .containsExactly("1932-P", "1931-P", "1932-D", "1933-P", "1931-D", "1931-S", "1933-D");
        assertThat(wants.get(4).boxes()).isEmpty();
    }

    @Test
    void a_variety_hole_has_no_mintage_of_its_own() {
        AlbumState album = new AlbumState(
                new AlbumId(2),
                "With varieties",
                AlbumRuleTest.places("series us-cent-lincoln-wheat; years 1955; one per date and mint; also 1955 ddo"),
                Map.of());
        Map<String, WantList.Want> wants =
                WantList.of(album, null, ref -> null, issues -> OptionalDouble.empty()).stream()
                        .collect(Collectors.toMap(want -> want.hole().key(), want -> want));
        assertThat(wants.keySet()).anyMatch(key -> key.contains("ddo"));
        wants.forEach((key, want) -> {
            if (key.contains("ddo")) {
                assertThat(want.mintage()).isNull();
            } else {
                assertThat(want.mintage()).isNotNull().isPositive();
            }
        });
        assertThat(album.emptyHoles(Denomination.US_CENT).keySet()).noneMatch(key -> key.contains("ddo"));
    }

    @Test
    void empty_holes_are_those_of_the_denomination_without_a_coin_in_order() {
        AlbumState album = album(Map.of("1932-D", new CoinRef(1, 1)));
        assertThat(album.emptyHoles(Denomination.US_CENT).keySet())
                .contains("1931-P", "1931-D", "1931-S", "1932-P", "1933-P", "1933-D")
                .doesNotContain("1932-D");
        assertThat(album.emptyHoles(Denomination.US_CENT).keySet().stream().toList())
                .isEqualTo(album.places().holes().stream()
                        .map(Hole::key)
                        .filter(key -> !key.equals("1932-D"))
                        .toList());
        assertThat(album.emptyHoles(new Denomination(Country.US, "nickel"))).isEmpty();
    }

    @Test
    void shelves_show_what_the_record_holds_and_a_rule_that_is_none_has_no_holes() {
        Desk desk = new Desk(new MemoryJournal(), () -> Instant.EPOCH, State.EMPTY);
        List<Event> events = List.of(
                new CabinetEvent.CoinAdded(new CoinRef(0, 1), cent(1932, Mint.D, 12, ""), "bought"),
                new AlbumEvent.AlbumDefined(new AlbumId(1), "Wheats", RULE),
                new AlbumEvent.AlbumDefined(new AlbumId(2), "Broken", "no such rule"),
                new AlbumEvent.HolesFilled(
                        List.of(new AlbumEvent.HoleChange(new AlbumId(1), "1932-D", new CoinRef(0, 1)))),
                new AlbumEvent.PolicyChanged("grade, sound"));
        events.forEach(event -> assertThat(desk.record(0, "", known -> event)).isInstanceOf(Desk.Outcome.Kept.class));
        State book = desk.state();
        AlbumShelves shelves = new AlbumShelves(CATALOG, Country.US);
        List<AlbumState> states = shelves.states(book.album(), book.holdings());
        assertThat(states).extracting(AlbumState::name).containsExactly("Wheats", "Broken");
        assertThat(states.getFirst().content()).isEqualTo(Map.of("1932-D", new CoinRef(0, 1)));
        assertThat(states.getFirst().places().holes()).hasSizeGreaterThan(5);
        assertThat(states.getLast().places().holes()).isEmpty();
        assertThat(shelves.states(book.album(), book.holdings()).getFirst().places())
                .as("worked out once")
                .isSameAs(states.getFirst().places());
        assertThat(AlbumShelves.policy(book.album()).text()).startsWith("grade, sound");
        assertThat(AlbumShelves.policy(State.EMPTY.album()).text())
                .isEqualTo(Policy.usual().text());
    }

    private static Proposal proposal(Map<String, CoinRef> content, OwnedCoin... coins) {
        return Comparison.propose(List.of(album(content)), List.of(coins), Policy.usual());
    }

    @Test
    void a_better_coin_pushes_the_other_to_the_duplicates_and_both_belong_together() {
        OwnedCoin there = owned(1, cent(1932, Mint.D, 8, ""));
        OwnedCoin better = owned(2, cent(1932, Mint.D, 12, ""));
        OwnedCoin fresh = owned(3, cent(1933, Mint.D, 20, ""));
        Proposal proposal = proposal(Map.of("1932-D", there.ref()), there, better, fresh);
        assertThat(proposal.moves()).hasSize(2);
        Proposal.Move upgrade = proposal.moves().stream()
                .filter(move -> !move.isAddition())
                .findFirst()
                .orElseThrow();
        assertThat(upgrade.coin()).isEqualTo(better);
        assertThat(upgrade.displaced()).isEqualTo(there);
        assertThat(upgrade.displacedTo()).isEqualTo("duplicates");
        assertThat(upgrade.reason()).isEqualTo("F12 over VG8");
        Proposal.Move addition = proposal.moves().stream()
                .filter(Proposal.Move::isAddition)
                .findFirst()
                .orElseThrow();
        assertThat(addition.coin()).isEqualTo(fresh);
        assertThat(addition.displacedTo()).isEmpty();
        assertThat(addition.reason()).isEmpty();
        assertThat(addition.group()).isNotEqualTo(upgrade.group());
        assertThat(proposal.accept(Set.of(upgrade.group())))
                .containsExactly(new AlbumEvent.HoleChange(new AlbumId(1), "1932-D", better.ref()));
        assertThat(proposal.acceptAll())
                .containsExactlyInAnyOrder(
                        new AlbumEvent.HoleChange(new AlbumId(1), "1932-D", better.ref()),
                        new AlbumEvent.HoleChange(new AlbumId(1), "1933-D", fresh.ref()));
        assertThat(proposal.accept(Set.of())).isEmpty();
        assertThat(proposal.looks()).isEmpty();
    }

    @Test
    void coins_that_nobody_can_judge_are_shown_side_by_side_the_best_of_them_once() {
        OwnedCoin there = owned(1, cent(1932, Mint.D, 8, ""));
        OwnedCoin plain = owned(2, cent(1932, Mint.D, 0, ""));
        OwnedCoin pretty = owned(3, cent(1932, Mint.D, 0, "eye 5"));
        Proposal proposal = proposal(Map.of("1932-D", there.ref()), there, plain, pretty);
        assertThat(proposal.moves()).isEmpty();
        assertThat(proposal.looks())
                .containsExactly(new Proposal.Look(
                        new AlbumId(1),
                        "Wheats",
                        AlbumRuleTest.places(RULE).holes().stream()
                                .filter(hole -> hole.key().equals("1932-D"))
                                .findFirst()
                                .orElseThrow(),
                        pretty,
                        there,
                        "no grade told; the other is VG8"));
    }

    @Test
    void eye_appeal_is_the_number_behind_the_word_and_three_without_one() {
        Map<String, Integer> notes = Map.of(
                "",
                3,
                "eye 1",
                1,
                "a fine eye 5",
                5,
                "Eye 4, spotted",
                4,
                "eye 6",
                3,
                "eye 0",
                3,
                "eye ",
                3,
                "dye 1",
                3);
        notes.forEach((note, appeal) -> assertThat(Policy.eyeAppeal(cent(1932, Mint.D, 0, note)))
                .as(note)
                .isEqualTo(appeal));
    }
}
