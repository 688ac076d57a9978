package org.rollwright.album;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jgrapht.alg.connectivity.ConnectivityInspector;
import org.jgrapht.alg.interfaces.MatchingAlgorithm;
import org.jgrapht.alg.matching.MaximumWeightBipartiteMatching;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleWeightedGraph;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.OwnedCoin;

/// Compares coins with albums: one assignment of coins to holes over all albums at once.
///
/// What is sought, in this order: (1) no filled hole is emptied or gets a coin that is not better by the
/// policy; (2) as many holes as possible are filled; (3) those of earlier albums first; (4) the best coins lie
/// in holes; (5) as few coins as possible are moved. Each aim is a weight larger than all later ones together,
/// so a maximum-weight matching in the graph of coins and holes answers all of them. Parts of the graph that do
/// not touch are solved apart, which keeps the weights exact in a double (whole numbers below 2^53).
public final class Comparison {
    /// A hole of an album, as a vertex.
    private record Spot(int album, Hole hole) {}

    private final List<AlbumState> albums;
    private final Policy policy;
    private final Map<CoinRef, OwnedCoin> coins = new LinkedHashMap<>();
    private final Map<Spot, OwnedCoin> content = new HashMap<>();
    private final Map<OwnedCoin, List<Spot>> fits = new LinkedHashMap<>();
    private final List<Proposal.Untold> untold = new ArrayList<>();
    private final List<Proposal.Untold> varieties = new ArrayList<>();

    private Comparison(List<AlbumState> albums, Collection<OwnedCoin> owned, Policy policy) {
        this.albums = List.copyOf(albums);
        this.policy = policy;
        owned.forEach(coin -> coins.put(coin.ref(), coin));
        for (int i = 0; i < albums.size(); i++) {
            AlbumState album = albums.get(i);
            for (Hole hole : album.places().holes()) {
                CoinRef there = album.content().get(hole.key());
                OwnedCoin coin = there == null ? null : coins.get(there);
                if (coin != null) {
                    content.put(new Spot(i, hole), coin);
                }
            }
        }
    }

    /// Compares.
    ///
    /// @param albums in order of importance
    /// @param owned every coin in the hunter's hands, those in albums included
    public static Proposal propose(List<AlbumState> albums, Collection<OwnedCoin> owned, Policy policy) {
        Comparison comparison = new Comparison(albums, owned, policy);
        comparison.findPlaces();
        return comparison.proposal(comparison.solve());
    }

    private void findPlaces() {
        Map<CoinRef, List<Spot>> lying = new HashMap<>();
        content.forEach((spot, coin) ->
                lying.computeIfAbsent(coin.ref(), key -> new ArrayList<>()).add(spot));
        for (OwnedCoin coin : coins.values()) {
            List<Spot> spots = new ArrayList<>();
            for (int i = 0; i < albums.size(); i++) {
                Places.Fit fit = albums.get(i).places().fit(coin.description());
                int album = i;
                fit.holes().forEach(hole -> spots.add(new Spot(album, hole)));
                addIfEmpty(album, fit.untold(), coin, untold);
                if (!lying.containsKey(coin.ref())) {
                    addIfEmpty(album, fit.plain(), coin, varieties);
                }
            }
            // A coin that already lies somewhere may stay there, whatever the rule says today.
            for (Spot spot : lying.getOrDefault(coin.ref(), List.of())) {
                if (!spots.contains(spot)) {
                    spots.add(spot);
                }
            }
            if (!spots.isEmpty()) {
                fits.put(coin, spots);
            }
        }
    }

    private void addIfEmpty(int album, List<Hole> holes, OwnedCoin coin, List<Proposal.Untold> into) {
        List<Hole> empty = holes.stream()
                .filter(hole -> !content.containsKey(new Spot(album, hole)))
                .toList();
        if (!empty.isEmpty()) {
            into.add(new Proposal.Untold(
                    albums.get(album).id(), albums.get(album).name(), empty, coin));
        }
    }

    /// Whether a coin may come into a hole: an empty one, its own, or one whose coin it betters.
    private boolean allowed(OwnedCoin coin, Spot spot) {
        OwnedCoin there = content.get(spot);
        return there == null
                || there.equals(coin)
                || policy.compare(coin.description(), there.description()) instanceof Policy.Verdict.Better;
    }

    /// Of coins that fit the same holes only the best few can matter: as many as there are holes. Graded and
    /// ungraded coins are kept apart, because a policy may let in one and not the other.
    private List<OwnedCoin> candidates() {
        record Group(List<Spot> spots, boolean graded) {}

        Map<Group, List<OwnedCoin>> groups = new LinkedHashMap<>();
        Set<OwnedCoin> lying = new HashSet<>(content.values());
        List<OwnedCoin> chosen = new ArrayList<>();
        fits.forEach((coin, spots) -> {
            if (lying.contains(coin)) {
                chosen.add(coin);
            } else {
                groups.computeIfAbsent(new Group(spots, coin.description().grade() != null), key -> new ArrayList<>())
                        .add(coin);
            }
        });
        groups.forEach((group, members) ->
                members.stream().sorted(best()).limit(group.spots.size()).forEach(chosen::add));
        return chosen;
    }

    /// Best first; of equal coins the one found first.
    private Comparator<OwnedCoin> best() {
        return Comparator.comparing((OwnedCoin coin) -> policy.quality(coin.description()), Arrays::compare)
                .reversed()
                .thenComparingLong(coin -> coin.ref().find())
                .thenComparingInt(coin -> coin.ref().piece());
    }

    private Map<Spot, OwnedCoin> solve() {
        SimpleWeightedGraph<Object, DefaultWeightedEdge> graph = new SimpleWeightedGraph<>(DefaultWeightedEdge.class);
        List<OwnedCoin> candidates = candidates();
        for (OwnedCoin coin : candidates) {
            graph.addVertex(coin);
            for (Spot spot : fits.getOrDefault(coin, List.of())) {
                if (allowed(coin, spot)) {
                    graph.addVertex(spot);
                    graph.addEdge(coin, spot);
                }
            }
        }
        Map<Spot, OwnedCoin> result = new LinkedHashMap<>();
        for (Set<Object> part : new ConnectivityInspector<>(graph).connectedSets()) {
            if (part.size() > 1) {
                solve(graph, part, result);
            }
        }
        return result;
    }

    private void solve(
            SimpleWeightedGraph<Object, DefaultWeightedEdge> graph, Set<Object> part, Map<Spot, OwnedCoin> result) {
        List<OwnedCoin> worstFirst = new ArrayList<>();
        Set<Object> spots = new HashSet<>();
        for (Object vertex : part) {
            if (vertex instanceof OwnedCoin coin) {
                worstFirst.add(coin);
            } else {
                spots.add(vertex);
            }
        }
        worstFirst.sort(best().reversed());
        long holes = spots.size();
        long rankUnit = holes + 1;
        long priorityUnit = rankUnit * (holes * worstFirst.size() + 1);
        long fillUnit = priorityUnit * (holes * albums.size() + 1);
        for (int rank = 0; rank < worstFirst.size(); rank++) {
            OwnedCoin coin = worstFirst.get(rank);
            for (DefaultWeightedEdge edge : graph.edgesOf(coin)) {
                Spot spot = (Spot) graph.getEdgeTarget(edge);
                boolean filled = content.containsKey(spot);
                long weight = (filled ? 2 : 1) * fillUnit
                        + (albums.size() - spot.album) * priorityUnit
                        + rank * rankUnit
                        + (coin.equals(content.get(spot)) ? 1 : 0);
                graph.setEdgeWeight(edge, (double) weight);
            }
        }
        MatchingAlgorithm.Matching<Object, DefaultWeightedEdge> matching = new MaximumWeightBipartiteMatching<>(
                        new org.jgrapht.graph.AsSubgraph<>(graph, part),
                        new java.util.LinkedHashSet<>(worstFirst),
                        spots)
                .getMatching();
        for (DefaultWeightedEdge edge : matching.getEdges()) {
            result.put((Spot) graph.getEdgeTarget(edge), (OwnedCoin) graph.getEdgeSource(edge));
        }
    }

    private Proposal proposal(Map<Spot, OwnedCoin> result) {
        Map<OwnedCoin, Spot> placeAfter = new HashMap<>();
        result.forEach((spot, coin) -> placeAfter.put(coin, spot));
        Set<Spot> changed = new LinkedHashSet<>();
        for (int i = 0; i < albums.size(); i++) {
            for (Hole hole : albums.get(i).places().holes()) {
                Spot spot = new Spot(i, hole);
                OwnedCoin coin = result.get(spot);
                if (coin != null && !coin.equals(content.get(spot))) {
                    changed.add(spot);
                }
            }
        }
        Map<Spot, Integer> groups = groups(changed, result, placeAfter);
        List<Proposal.Move> moves = new ArrayList<>();
        for (Spot spot : changed) {
            moves.add(move(spot, result, placeAfter, groups.getOrDefault(spot, 0)));
        }
        Set<Spot> filled = result.keySet();
        varieties.removeIf(one -> one.holes().stream()
                .allMatch(hole -> filled.stream()
                        .anyMatch(spot -> spot.hole.equals(hole)
                                && albums.get(spot.album).id().equals(one.album()))));
        return new Proposal(moves, looks(placeAfter.keySet()), untold, varieties);
    }

    private Proposal.Move move(Spot spot, Map<Spot, OwnedCoin> result, Map<OwnedCoin, Spot> placeAfter, int group) {
        AlbumState album = albums.get(spot.album);
        OwnedCoin coin = result.get(spot);
        if (coin == null) {
            throw new IllegalStateException("a move without a coin: " + spot);
        }
        OwnedCoin there = content.get(spot);
        if (there == null) {
            return new Proposal.Move(group, album.id(), album.name(), spot.hole, coin, null, "", "");
        }
        Spot next = placeAfter.get(there);
        String to =
                next == null ? t("album.duplicates") : albums.get(next.album).name() + ", " + next.hole.key();
        String reason = policy.compare(coin.description(), there.description()) instanceof Policy.Verdict.Better better
                ? better.reason()
                : "";
        return new Proposal.Move(group, album.id(), album.name(), spot.hole, coin, there, to, reason);
    }

    /// Moves along which one coin pushes another belong together.
    private Map<Spot, Integer> groups(Set<Spot> changed, Map<Spot, OwnedCoin> result, Map<OwnedCoin, Spot> placeAfter) {
        Map<OwnedCoin, Spot> placeBefore = new HashMap<>();
        content.forEach((spot, coin) -> placeBefore.put(coin, spot));
        Map<Spot, Integer> groups = new HashMap<>();
        int next = 1;
        for (Spot start : changed) {
            if (groups.containsKey(start)) {
                continue;
            }
            List<Spot> chain = new ArrayList<>(List.of(start));
            while (!chain.isEmpty()) {
                Spot spot = chain.removeLast();
                if (groups.putIfAbsent(spot, next) != null) {
                    continue;
                }
                addIfChanged(changed, chain, placeBefore.get(result.get(spot)));
                OwnedCoin there = content.get(spot);
                addIfChanged(changed, chain, there == null ? null : placeAfter.get(there));
            }
            next++;
        }
        return groups;
    }

    private static void addIfChanged(Set<Spot> changed, List<Spot> chain, @Nullable Spot spot) {
        if (spot != null && changed.contains(spot)) {
            chain.add(spot);
        }
    }

    /// For each filled hole the best coin that nobody can judge against it without looking.
    private List<Proposal.Look> looks(Set<OwnedCoin> placed) {
        Map<Spot, OwnedCoin> bestLook = new LinkedHashMap<>();
        fits.forEach((coin, spots) -> {
            if (placed.contains(coin)) {
                return;
            }
            for (Spot spot : spots) {
                OwnedCoin there = content.get(spot);
                if (there != null
                        && policy.compare(coin.description(), there.description()) instanceof Policy.Verdict.Look) {
                    bestLook.merge(spot, coin, (a, b) -> best().compare(a, b) <= 0 ? a : b);
                }
            }
        });
        List<Proposal.Look> looks = new ArrayList<>();
        bestLook.forEach((spot, coin) -> {
            OwnedCoin there = content.get(spot);
            if (there != null
                    && policy.compare(coin.description(), there.description()) instanceof Policy.Verdict.Look look) {
                AlbumState album = albums.get(spot.album);
                looks.add(new Proposal.Look(album.id(), album.name(), spot.hole, coin, there, look.reason()));
            }
        });
        return looks;
    }
}
