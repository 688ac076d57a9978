package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FuzzTest {
    @TempDir
    private Path folder;

    /// The same inputs every time; bench/fuzz throws ten million and more.
    @Test
    void every_reader_answers_whatever_it_is_given() {
        for (Fuzz.Told told : new Fuzz(1, folder).run(300_000)) {
            assertThat(told.failures()).as(told.name()).isEmpty();
        }
    }
}
