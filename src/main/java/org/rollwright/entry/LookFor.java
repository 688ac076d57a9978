package org.rollwright.entry;

import java.util.LinkedHashSet;
import java.util.Set;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Identity;

/// What deserves a look under the loupe on a date.
public final class LookFor {
    private LookFor() {}

    /// In plain words, as the catalogue has it; blank when there is nothing in particular.
    public static String on(Catalog catalog, Identity identity) {
        Set<String> checks = new LinkedHashSet<>();
        for (Issue issue : catalog.lookup(identity)) {
            for (String check : issue.check().split(";")) {
                if (!check.isBlank()) {
                    checks.add(check.strip());
                }
            }
        }
        return String.join("; ", checks);
    }
}
