package org.rollwright.action;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/// Everything that can be done beside the entry line, in the order of a hunter's evening.
public final class Actions {
    /// The table of contents.
    public static final List<Action> ALL = Stream.of(
                    HuntActions.ALL,
                    ScopeActions.ALL,
                    AlbumActions.ALL,
                    ScaleActions.ALL,
                    CabinetActions.ALL,
                    TillActions.ALL)
            .flatMap(List::stream)
            .toList();

    private Actions() {}

    /// An action by its name.
    public static Optional<Action> named(String name) {
        return ALL.stream().filter(action -> action.name().equals(name)).findFirst();
    }
}
