package org.rollwright.store;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;

/// Where a user's data lie.
public final class DataFolder {
    private DataFolder() {}

    /// The usual folder of the operating system.
    ///
    /// @param environment the process's environment
    /// @param system name of the operating system, as in the system property os.name
    /// @param home the user's home folder
    public static Path usual(Map<String, String> environment, String system, Path home) {
        String name = system.toLowerCase(Locale.ROOT);
        if (name.startsWith("win")) {
            String roaming = environment.getOrDefault("APPDATA", "");
            return (roaming.isBlank() ? home.resolve("AppData").resolve("Roaming") : Path.of(roaming))
                    .resolve("Rollwright");
        }
        if (name.contains("mac")) {
            return home.resolve("Library").resolve("Application Support").resolve("Rollwright");
        }
        String xdg = environment.getOrDefault("XDG_DATA_HOME", "");
        // The XDG base directory specification: a relative path is invalid and ignored.
        boolean usable = !xdg.isBlank() && Path.of(xdg).isAbsolute();
        return (usable ? Path.of(xdg) : home.resolve(".local").resolve("share")).resolve("rollwright");
    }
}
