package org.rollwright.album;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Identity;

/// One album's holes, and where in it a coin belongs. Immutable and thread-safe.
public final class Places {
    /// Where a coin belongs.
    ///
    /// @param holes it fits, ordinary ones and variety holes; empty when none
    /// @param untold holes it may belong to once its kind, design or mint is told
    /// @param plain plain holes of its date that it would fit if it were not of a variety
    public record Fit(List<Hole> holes, List<Hole> untold, List<Hole> plain) {
        public Fit {
            holes = List.copyOf(holes);
            untold = List.copyOf(untold);
            plain = List.copyOf(plain);
        }
    }

    private static final Fit NOWHERE = new Fit(List.of(), List.of(), List.of());

    private final AlbumRule rule;
    private final Catalog catalog;
    private final List<Hole> holes;
    private final Map<Identity, Hole> byIssue = new HashMap<>();
    private final Map<Identity, List<Hole>> varietyHoles = new HashMap<>();

    public Places(AlbumRule rule, Catalog catalog, List<Hole> holes) {
        this.rule = rule;
        this.catalog = catalog;
        this.holes = List.copyOf(holes);
        for (Hole hole : holes) {
            for (Issue issue : hole.issues()) {
                if (hole.variety().isEmpty()) {
                    byIssue.put(issue.identity(), hole);
                } else {
                    varietyHoles
                            .computeIfAbsent(issue.identity(), key -> new ArrayList<>())
                            .add(hole);
                }
            }
        }
    }

    public List<Hole> holes() {
        return holes;
    }

    /// Where a coin belongs. A coin that could be several issues fits only when all of them belong in the same
    /// hole.
    public Fit fit(CoinDescription facts) {
        if (!rule.takes(facts)) {
            return NOWHERE;
        }
        Set<Hole> possible = new LinkedHashSet<>();
        Set<Hole> variety = new LinkedHashSet<>();
        boolean elsewhere = false;
        for (Issue issue : catalog.lookup(facts.identity())) {
            Hole hole = byIssue.get(issue.identity());
            if (hole == null) {
                elsewhere = true;
            } else {
                possible.add(hole);
            }
            for (Hole extra : varietyHoles.getOrDefault(issue.identity(), List.of())) {
                if (facts.varieties().contains(extra.variety())) {
                    variety.add(extra);
                }
            }
        }
        List<Hole> fits = new ArrayList<>(variety);
        boolean one = possible.size() == 1 && !elsewhere;
        if (!rule.takesPlain(facts)) {
            return new Fit(fits, List.of(), one ? List.copyOf(possible) : List.of());
        }
        if (one) {
            fits.addAll(possible);
            return new Fit(fits, List.of(), List.of());
        }
        return possible.isEmpty() && fits.isEmpty() ? NOWHERE : new Fit(fits, List.copyOf(possible), List.of());
    }
}
