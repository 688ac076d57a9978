package org.rollwright.cli;

import java.time.InstantSource;
import org.rollwright.catalog.Catalog;
import org.rollwright.entry.Recorder;
import org.rollwright.entry.narration.Decoder;
import org.rollwright.hunt.Desk;
import org.rollwright.scope.VarietyShelf;
import org.rollwright.scope.picture.PhotoShelf;

/// Starts the pages. The commands do not know how; `Main` hands it in.
public interface Pages {
    /// What the pages work on.
    record Work(
            Desk desk,
            Catalog catalog,
            VarietyShelf varieties,
            PhotoShelf photos,
            Recorder recorder,
            Decoder decoder,
            InstantSource clock,
            boolean demo) {}

    /// Pages that are being served.
    interface Serving extends AutoCloseable {
        int port();

        @Override
        void close();
    }

    /// What came of starting.
    sealed interface Started {
        record Running(Serving serving) implements Started {}

        /// No port was free from the first to the last.
        record NoPort(int first, int last) implements Started {}
    }

    /// Starts on the first free port from the one given; 0 for any.
    Started start(Work work, int port);
}
