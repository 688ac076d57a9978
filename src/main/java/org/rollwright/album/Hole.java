package org.rollwright.album;

import java.util.List;
import org.rollwright.catalog.Issue;

/// One place of an album.
///
/// @param key stable name within the album, whatever the order of the catalogue: `1936-D`, `1955 ddo`, `1999-P
///     delaware`
/// @param variety word a coin must bear to fit, blank for an ordinary hole
/// @param issues the issues that belong here, at least one; those of a variety hole are the ordinary ones of
///     its date
public record Hole(String key, String variety, List<Issue> issues) {
    public Hole {
        issues = List.copyOf(issues);
        if (issues.isEmpty()) {
            throw new IllegalArgumentException("a hole without issues: " + key);
        }
    }

    /// By the key, which tells holes of an album apart; going through all issues would cost more than it tells.
    @Override
    public int hashCode() {
        return key.hashCode();
    }

    /// Year of its first issue, for the order on a page.
    public int year() {
        return issues.getFirst().year();
    }
}
