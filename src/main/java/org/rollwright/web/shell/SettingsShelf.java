package org.rollwright.web.shell;

import java.io.IOException;
import java.util.Map;

/// Where the hunter's settings are kept; they are no part of the record.
public interface SettingsShelf {
    /// All that were chosen, by name.
    Map<String, String> read();

    /// Chooses some; the others stay.
    ///
    /// @throws IOException when they cannot be saved
    void choose(Map<String, String> some) throws IOException;
}
