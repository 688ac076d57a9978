package org.rollwright.cli.serve;

import java.nio.file.Path;
import java.time.InstantSource;
import java.util.function.Supplier;
import org.rollwright.catalog.Catalog;
import org.rollwright.desk.Desk;
import org.rollwright.entry.Recorder;
import org.rollwright.entry.narration.OwnVoice;
import org.rollwright.scope.VarietyShelf;
import org.rollwright.scope.picture.PhotoShelf;
import org.rollwright.store.Settings;

/// Starts the pages. The commands do not know how; `Main` hands it in.
public interface Pages {
    /// What the pages work on.
    ///
    /// @param trouble what the hunter must know whichever page is open; blank when all is well
    /// @param stop ends the tool; returns at once
    record Work(
            Desk desk,
            Catalog catalog,
            VarietyShelf varieties,
            PhotoShelf photos,
            Recorder recorder,
            OwnVoice voice,
            InstantSource clock,
            Settings settings,
            boolean demo,
            Supplier<String> trouble,
            Runnable stop) {}

    /// Pages that are being served.
    interface Serving extends AutoCloseable {
        int port();

        /// Serves them to phones in the same network as well.
        ///
        /// @param folder where the certificate is kept
        Phones alsoForPhones(Path folder);

        @Override
        void close();
    }

    /// What came of serving phones.
    sealed interface Phones {
        /// @param address to open on the phone, with the word in it
        /// @param fingerprint of the certificate
        /// @param picture the address as a QR code in letters
        record Served(String address, String fingerprint, String picture) implements Phones {}

        record NotServed(String sentence) implements Phones {}
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
