package org.rollwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/// Each of the commands that keep the data as the first thing a process does. Found by an attack from outside: a
/// restore looked at the backups before the database's library was loaded, the driver loaded another copy, and the
/// process crashed; within one process of tests nothing of it showed.
class FirstInProcessTest {
    @TempDir
    private Path folder;

    private String run(String... arguments) throws IOException, InterruptedException {
        Path out = folder.resolve("out.txt");
        Process process = ToolProcess.of(List.of(arguments))
                .redirectErrorStream(true)
                .redirectOutput(out.toFile())
                .start();
        int status = process.waitFor();
        String said = Files.readString(out);
        assertThat(status).as(said).isZero();
        return said;
    }

    @Test
    void every_command_that_keeps_the_data_works_by_itself() throws Exception {
        String data = folder.resolve("data").toString();
        String shelf = folder.resolve("shelf").toString();
        Path lines = Files.writeString(folder.resolve("lines.txt"), "44d\n39s vf20\n");
        run("mat", "--script", lines.toString(), "--data", data, "--box", "One", "--denomination", "cent");
        List<String> said = new ArrayList<>();
        said.add(run("backup", "--data", data, "--to", shelf));
        said.add(run("backup", "--data", data, "--list"));
        said.add(run("check", "--data", data));
        said.add(
                run("restore", "--data", data, "--into", folder.resolve("again").toString()));
        said.add(run("salvage", "--data", data));
        said.add(run("salvage", "--data", data, "--photographs"));
        said.add(run(
                "salvage", "--data", data, "--into", folder.resolve("salvaged").toString()));
        said.add(run("journal", "--data", data, "--save", folder.resolve("text").toString()));
        assertThat(said).allSatisfy(one -> assertThat(one).doesNotContain("fatal error", "mistake of the tool"));
        assertThat(run("box", "--data", folder.resolve("again").toString())).contains("One");
    }
}
