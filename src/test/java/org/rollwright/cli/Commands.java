package org.rollwright.cli;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import org.rollwright.cli.serve.Pages;

/// Runs a command as ./run does, within the test, and catches what it prints.
public final class Commands {
    /// What came of it.
    public record Outcome(int status, String out, String err) {}

    private Commands() {}

    public static synchronized Outcome run(String... args) {
        PrintStream out = System.out;
        PrintStream err = System.err;
        ByteArrayOutputStream caughtOut = new ByteArrayOutputStream();
        ByteArrayOutputStream caughtErr = new ByteArrayOutputStream();
        try {
            System.setOut(new PrintStream(caughtOut, true, StandardCharsets.UTF_8));
            System.setErr(new PrintStream(caughtErr, true, StandardCharsets.UTF_8));
            Pages none = (work, port) -> new Pages.Started.NoPort(port, port);
            int status = RootCommand.commandLine(none)
                    .setOut(new java.io.PrintWriter(System.out, true, StandardCharsets.UTF_8))
                    .setErr(new java.io.PrintWriter(System.err, true, StandardCharsets.UTF_8))
                    .execute(args);
            return new Outcome(
                    status, caughtOut.toString(StandardCharsets.UTF_8), caughtErr.toString(StandardCharsets.UTF_8));
        } finally {
            System.setOut(out);
            System.setErr(err);
        }
    }
}
