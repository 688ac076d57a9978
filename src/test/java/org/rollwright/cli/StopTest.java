package org.rollwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/// The tool as a process of its own, stopped on its page as from a menu without a terminal.
class StopTest {
    @TempDir
    private Path folder;

    @Test
    void the_process_ends_and_the_next_one_opens_the_store() throws IOException, InterruptedException {
        Process tool = ToolProcess.of(List.of("serve", "--data", folder.toString(), "--port", "0"))
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        try (BufferedReader said = tool.inputReader();
                HttpClient client = HttpClient.newHttpClient()) {
            String address = said.readLine().replaceAll(".*(http://[^ ]*)/.*", "$1");
            HttpResponse<String> started = post(client, address + "/mat", "denomination=US+cent&form=box&count=1");
            assertThat(started.statusCode()).isEqualTo(303);
            assertThat(post(client, address + "/mat/1/line", "line=39s").statusCode())
                    .isEqualTo(303);
            assertThat(post(client, address + "/settings/stop", "").body()).contains("The tool has stopped");
            assertThat(tool.waitFor(30, TimeUnit.SECONDS)).isTrue();
            assertThat(tool.exitValue()).isZero();
        } finally {
            tool.destroyForcibly();
        }
        assertThat(Commands.run("box", "--data", folder.toString()).out()).contains("1 find");
        assertThat(Commands.run("check", "--data", folder.toString()).status()).isZero();
    }

    private static HttpResponse<String> post(HttpClient client, String address, String form)
            throws IOException, InterruptedException {
        return client.send(
                HttpRequest.newBuilder(URI.create(address))
                        .header("Content-Type", "application/x-www-form-urlencoded")
                        .POST(HttpRequest.BodyPublishers.ofString(form))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }
}
