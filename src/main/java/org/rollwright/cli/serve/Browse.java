package org.rollwright.cli.serve;

import java.io.IOException;
import java.util.List;
import java.util.Locale;

/// Opens an address in the system's browser.
final class Browse {
    private Browse() {}

    /// Failing is no harm: the address is printed as well.
    static void show(String address) {
        try {
            new ProcessBuilder(command(System.getProperty("os.name"), address))
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
        } catch (IOException e) {
            System.err.println("No browser could be opened; open " + address + " yourself.");
        }
    }

    /// @param system as in the system property os.name
    static List<String> command(String system, String address) {
        String name = system.toLowerCase(Locale.ROOT);
        if (name.startsWith("win")) {
            return List.of("rundll32", "url.dll,FileProtocolHandler", address);
        }
        return List.of(name.contains("mac") ? "open" : "xdg-open", address);
    }
}
