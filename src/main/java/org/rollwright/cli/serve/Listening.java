package org.rollwright.cli.serve;

import org.rollwright.cli.shell.Open;
import picocli.CommandLine;

/// How the pages are served: options of the tool itself and of its command `serve`.
public final class Listening {
    @CommandLine.Mixin
    Open open = new Open();

    @CommandLine.Option(
            names = "--port",
            paramLabel = "N",
            description = "Port to listen on, the next free one if it is taken (default: ${DEFAULT-VALUE}).",
            defaultValue = "7300")
    int port = 7300;

    @CommandLine.Option(
            names = "--lan",
            description = "Let phones in the same network in as well: encrypted, and only with the word printed.")
    boolean lan;

    @CommandLine.Option(
            names = "--open",
            description = "Open the page in the browser; when the tool is running already, only that.")
    boolean show;

    /// The data folder, as the options say.
    public Open open() {
        return open;
    }
}
