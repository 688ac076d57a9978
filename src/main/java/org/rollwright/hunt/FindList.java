package org.rollwright.hunt;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/// Numbers of finds in the order logged. Appending and taking back the last are cheap; other removals search
/// from the end, where corrections happen.
final class FindList {
    private final List<FindId> ids = new ArrayList<>();

    void add(FindId id) {
        ids.add(id);
    }

    int remove(FindId id) {
        int at = ids.lastIndexOf(id);
        if (at >= 0) {
            ids.remove(at);
        }
        return at;
    }

    void insert(int at, FindId id) {
        ids.add(Math.min(Math.max(at, 0), ids.size()), id);
    }

    List<FindId> ids() {
        return Collections.unmodifiableList(ids);
    }
}
