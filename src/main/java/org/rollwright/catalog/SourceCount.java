package org.rollwright.catalog;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/// How many rows of a series stand on which kind of source, so that what is only remembered can be counted.
///
/// @param series name of the file; blank for a sum
/// @param rows of the series
/// @param exist rows by the kind of source that says the coin exists; every kind is there
/// @param mintages rows with a mintage by the kind of its source; every kind is there
/// @param inexact of the mintages, those rounded, estimated, to date or of a calendar year
/// @param disputed of the mintages, those another source contradicts
public record SourceCount(
        String series,
        int rows,
        Map<SourceKind, Integer> exist,
        Map<SourceKind, Integer> mintages,
        Map<Precision, Integer> inexact,
        int disputed) {

    /// Rows with a mintage.
    public int withMintage() {
        return mintages.values().stream().mapToInt(Integer::intValue).sum();
    }

    /// Share of rows known from memory alone, 0 to 1.
    public double fromMemory() {
        return rows == 0 ? 0 : (double) exist.getOrDefault(SourceKind.MEMORY, 0) / rows;
    }

    /// Series by series, in the order of the catalogue.
    public static List<SourceCount> bySeries(Catalog catalog) {
        Map<String, List<Issue>> bySeries = new LinkedHashMap<>();
        catalog.series().forEach(series -> bySeries.put(series.id(), new ArrayList<>()));
        catalog.issues()
                .forEach(issue -> bySeries.computeIfAbsent(issue.series().id(), id -> new ArrayList<>())
                        .add(issue));
        List<SourceCount> counts = new ArrayList<>();
        bySeries.forEach((id, issues) -> counts.add(of(id, issues)));
        return counts;
    }

    /// All issues a condition holds for, as one count.
    public static SourceCount sum(Catalog catalog, Predicate<Issue> which) {
        return of("", catalog.issues().stream().filter(which).toList());
    }

    private static SourceCount of(String series, List<Issue> issues) {
        Map<SourceKind, Integer> exist = new EnumMap<>(SourceKind.class);
        Map<SourceKind, Integer> mintages = new EnumMap<>(SourceKind.class);
        for (SourceKind kind : SourceKind.values()) {
            exist.put(kind, 0);
            mintages.put(kind, 0);
        }
        Map<Precision, Integer> inexact = new EnumMap<>(Precision.class);
        int disputed = 0;
        for (Issue issue : issues) {
            Evidence evidence = issue.evidence();
            exist.merge(evidence.kind(), 1, Integer::sum);
            if (issue.mintage() != null) {
                mintages.merge(evidence.mintageKind(), 1, Integer::sum);
                if (evidence.precision() != Precision.AS_PUBLISHED) {
                    inexact.merge(evidence.precision(), 1, Integer::sum);
                }
                disputed += evidence.disputed() ? 1 : 0;
            }
        }
        return new SourceCount(series, issues.size(), exist, mintages, inexact, disputed);
    }
}
