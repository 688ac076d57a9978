package org.rollwright.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/// The tool as a process of its own, on the tests' class path.
public final class ToolProcess {
    private ToolProcess() {}

    /// A process that runs a command, not yet started.
    static ProcessBuilder of(List<String> arguments) {
        return of("org.rollwright.Main", arguments);
    }

    /// A process of a class of the tests, not yet started.
    public static ProcessBuilder of(String main, List<String> arguments) {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "--enable-native-access=ALL-UNNAMED",
                "-cp",
                System.getProperty("java.class.path"),
                main));
        command.addAll(arguments);
        return new ProcessBuilder(command);
    }
}
