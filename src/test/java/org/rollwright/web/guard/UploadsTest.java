package org.rollwright.web.guard;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class UploadsTest {
    @TempDir
    private Path folder;

    @Test
    void what_a_killed_process_left_is_cleared_away_and_nothing_else() throws IOException {
        String before = System.getProperty("java.io.tmpdir");
        System.setProperty("java.io.tmpdir", folder.toString());
        try {
            Path dead = Files.createDirectory(folder.resolve("rollwright-uploads-999999999-abc"));
            Files.writeString(dead.resolve("MultiPart1"), "half a photograph");
            Path mine = Files.createDirectory(folder.resolve(
                    "rollwright-uploads-" + ProcessHandle.current().pid() + "-abc"));
            Path other = Files.createDirectory(folder.resolve("rollwright-uploads-x"));
            assertThat(Uploads.folder()).isPresent();
            assertThat(dead).doesNotExist();
            assertThat(mine).exists();
            assertThat(other).exists();
        } finally {
            System.setProperty("java.io.tmpdir", before);
        }
    }
}
