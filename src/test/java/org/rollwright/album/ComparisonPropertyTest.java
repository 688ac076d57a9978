package org.rollwright.album;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.OwnedCoin;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Strike;

class ComparisonPropertyTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();
    private static final List<String> RULES = List.of(
            "series wheat; years 1944-1945",
            "series wheat; years 1944-1945; one per date",
            "series wheat; years 1943-1945; one per series",
            "series wheat; years 1944; sound only",
            "series wheat; years 1944-1945; also 1944-D ddo",
            "series wheat; years 1943-1945; least f12");

    private record Spot(int album, String hole) {}

    /// A small case: up to three albums, up to seven coins, some of them lying in holes they fit.
    private record Case(List<AlbumState> albums, List<OwnedCoin> owned) {}

    private static Case random(long seed) {
        Random random = new Random(seed);
        List<OwnedCoin> owned = new ArrayList<>();
        int coins = 1 + random.nextInt(7);
        for (int i = 1; i <= coins; i++) {
            owned.add(new OwnedCoin(new CoinRef(i, 1), coin(random), "box"));
        }
        List<AlbumState> albums = new ArrayList<>();
        Set<CoinRef> lying = new HashSet<>();
        int count = 1 + random.nextInt(3);
        for (int i = 0; i < count; i++) {
            AlbumRule rule = AlbumRuleTest.rule(RULES.get(random.nextInt(RULES.size())));
            List<Hole> holes = rule.holes(CATALOG, Country.US);
            Places places = new Places(rule, CATALOG, holes);
            Map<String, CoinRef> content = new HashMap<>();
            for (OwnedCoin coin : owned) {
                List<Hole> fits = places.fit(coin.description()).holes();
                if (!fits.isEmpty() && random.nextInt(3) == 0 && !lying.contains(coin.ref())) {
                    String hole = fits.get(random.nextInt(fits.size())).key();
                    if (content.putIfAbsent(hole, coin.ref()) == null) {
                        lying.add(coin.ref());
                    }
                }
            }
            albums.add(new AlbumState(new AlbumId(i + 1), "Album " + (i + 1), places, content));
        }
        return new Case(albums, owned);
    }

    private static CoinDescription coin(Random random) {
        Identity identity = CATALOG.lookup(Identity.of(
                        Denomination.US_CENT, 1943 + random.nextInt(3), random.nextBoolean() ? Mint.P : Mint.D))
                .getFirst()
                .identity();
        Grade grade =
                random.nextInt(4) == 0 ? null : new Grade(List.of(4, 12, 20, 30).get(random.nextInt(4)));
        return new CoinDescription(
                identity,
                grade,
                random.nextInt(4) == 0 ? "bent" : null,
                null,
                Strike.BUSINESS,
                random.nextInt(4) == 0 ? List.of("ddo") : List.of(),
                List.of(),
                "",
                List.of());
    }

    private static Map<Spot, OwnedCoin> before(Case one) {
        Map<CoinRef, OwnedCoin> byRef = one.owned.stream().collect(Collectors.toMap(OwnedCoin::ref, coin -> coin));
        Map<Spot, OwnedCoin> before = new HashMap<>();
        for (int i = 0; i < one.albums.size(); i++) {
            int album = i;
            one.albums.get(i).content().forEach((hole, ref) -> before.put(new Spot(album, hole), byRef.get(ref)));
        }
        return before;
    }

    private static Map<Spot, OwnedCoin> after(Case one, Proposal proposal) {
        Map<Spot, OwnedCoin> after = before(one);
        for (Proposal.Move move : proposal.moves()) {
            after.remove(new Spot((int) move.album().number() - 1, move.hole().key()));
        }
        for (Proposal.Move move : proposal.moves()) {
            after.put(new Spot((int) move.album().number() - 1, move.hole().key()), move.coin());
        }
        return after;
    }

    /// The aims of a state, compared in order: filled holes kept and holes filled, albums' priority, quality,
    /// coins unmoved.
    private static long[] aims(Case one, Map<Spot, OwnedCoin> state) {
        Map<Spot, OwnedCoin> before = before(one);
        List<OwnedCoin> worstFirst = new ArrayList<>(one.owned);
        worstFirst.sort(
                Comparator.comparing((OwnedCoin coin) -> Policy.usual().quality(coin.description()), Arrays::compare)
                        .reversed()
                        .thenComparingLong(coin -> coin.ref().find())
                        .reversed());
        long priority = 0;
        long quality = 0;
        long stays = 0;
        for (Map.Entry<Spot, OwnedCoin> entry : state.entrySet()) {
            priority += one.albums.size() - entry.getKey().album;
            quality += worstFirst.indexOf(entry.getValue());
            stays += entry.getValue().equals(before.get(entry.getKey())) ? 1 : 0;
        }
        return new long[] {state.size(), priority, quality, stays};
    }

    /// Every allowed assignment, tried one after the other.
    private static long[] bruteForce(Case one) {
        List<Spot> spots = new ArrayList<>();
        for (int i = 0; i < one.albums.size(); i++) {
            for (Hole hole : one.albums.get(i).places().holes()) {
                spots.add(new Spot(i, hole.key()));
            }
        }
        Map<Spot, OwnedCoin> before = before(one);
        long[][] best = new long[1][];
        search(one, spots, 0, before, new HashMap<>(), new HashSet<>(), best);
        return best[0];
    }

    private static void search(
            Case one,
            List<Spot> spots,
            int at,
            Map<Spot, OwnedCoin> before,
            Map<Spot, OwnedCoin> now,
            Set<CoinRef> used,
            long[][] best) {
        if (at == spots.size()) {
            long[] aims = aims(one, now);
            if (best[0] == null || Arrays.compare(aims, best[0]) > 0) {
                best[0] = aims;
            }
            return;
        }
        Spot spot = spots.get(at);
        @Nullable OwnedCoin there = before.get(spot);
        for (OwnedCoin coin : one.owned) {
            boolean fits = coin.equals(there)
                    || one.albums.get(spot.album).places().fit(coin.description()).holes().stream()
                            .anyMatch(hole -> hole.key().equals(spot.hole));
            boolean allowed = there == null
                    || coin.equals(there)
                    || Policy.usual().compare(coin.description(), there.description()) instanceof Policy.Verdict.Better;
            if (fits && allowed && used.add(coin.ref())) {
                now.put(spot, coin);
                search(one, spots, at + 1, before, now, used, best);
                now.remove(spot);
                used.remove(coin.ref());
            }
        }
        if (there == null) {
            search(one, spots, at + 1, before, now, used, best);
        }
    }

    @Property(tries = 600)
    void the_assignment_is_as_good_as_the_best_of_all_that_are_possible(@ForAll @LongRange(max = 1L << 40) long seed) {
        Case one = random(seed);
        Proposal proposal = Comparison.propose(one.albums, one.owned, Policy.usual());
        assertThat(aims(one, after(one, proposal))).as("seed %d", seed).isEqualTo(bruteForce(one));
    }

    @Property(tries = 600)
    void no_hole_is_emptied_or_made_worse_and_no_coin_lies_twice(@ForAll @LongRange(max = 1L << 40) long seed) {
        Case one = random(seed);
        Proposal proposal = Comparison.propose(one.albums, one.owned, Policy.usual());
        Map<Spot, OwnedCoin> after = after(one, proposal);
        before(one).forEach((spot, coin) -> {
            OwnedCoin now = after.get(spot);
            assertThat(now).as("seed %d", seed).isNotNull();
            assertThat(now.equals(coin)
                            || Policy.usual().compare(now.description(), coin.description())
                                    instanceof Policy.Verdict.Better)
                    .as("seed %d", seed)
                    .isTrue();
        });
        assertThat(after.values().stream().map(OwnedCoin::ref).toList())
                .as("seed %d", seed)
                .doesNotHaveDuplicates();
    }

    @Property(tries = 400)
    void comparing_again_after_accepting_proposes_nothing(@ForAll @LongRange(max = 1L << 40) long seed) {
        Case one = random(seed);
        Map<Spot, OwnedCoin> after = after(one, Comparison.propose(one.albums, one.owned, Policy.usual()));
        assertThat(Comparison.propose(states(one, after), one.owned, Policy.usual())
                        .moves())
                .as("seed %d", seed)
                .isEmpty();
    }

    private static List<AlbumState> states(Case one, Map<Spot, OwnedCoin> state) {
        List<AlbumState> states = new ArrayList<>();
        for (int i = 0; i < one.albums.size(); i++) {
            Map<String, CoinRef> content = new HashMap<>();
            for (Map.Entry<Spot, OwnedCoin> entry : state.entrySet()) {
                if (entry.getKey().album == i) {
                    content.put(entry.getKey().hole, entry.getValue().ref());
                }
            }
            AlbumState old = one.albums.get(i);
            states.add(new AlbumState(old.id(), old.name(), old.places(), content));
        }
        return states;
    }

    @Property(tries = 400)
    void any_choice_of_groups_leaves_every_coin_in_one_place(@ForAll @LongRange(max = 1L << 40) long seed) {
        Case one = random(seed);
        Proposal proposal = Comparison.propose(one.albums, one.owned, Policy.usual());
        Random random = new Random(seed);
        Set<Integer> chosen = proposal.moves().stream()
                .map(Proposal.Move::group)
                .filter(group -> random.nextBoolean())
                .collect(Collectors.toSet());
        Map<Spot, CoinRef> now = new HashMap<>();
        before(one).forEach((spot, coin) -> now.put(spot, coin.ref()));
        for (AlbumEvent.HoleChange change : proposal.accept(chosen)) {
            now.put(new Spot((int) change.album().number() - 1, change.hole()), change.coin());
        }
        assertThat(now.values()).as("seed %d", seed).doesNotHaveDuplicates();
        assertThat(now).hasSizeGreaterThanOrEqualTo(before(one).size());
    }
}
