package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import java.io.IOException;
import java.io.InputStream;
import java.net.JarURLConnection;
import java.net.URL;
import java.net.URLConnection;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.zip.CRC32;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteJDBCLoader;
import org.sqlite.util.LibraryLoaderUtil;

/// The database's machine code, unpacked once to a place that stays.
///
/// Left to itself the database unpacks a megabyte into the temporary folder at every start, leaves it there when
/// the process is killed, and fails when that folder is full or forbids programs.
final class NativeLibrary {
    private static final String PATH = "org.sqlite.lib.path";
    private static final String NAME = "org.sqlite.lib.name";
    private static boolean ready;

    private NativeLibrary() {}

    /// Nowhere could it be unpacked and loaded. The message is a sentence for a person.
    static final class Missing extends Exception {
        private static final long serialVersionUID = 1L;

        Missing(String sentence) {
            super(sentence, null, false, false);
        }
    }

    /// Sees to it that the library is loaded.
    ///
    /// @throws Missing when no folder takes it
    static synchronized void load() throws Missing {
        if (!ready) {
            if (System.getProperty(PATH) == null) {
                load(places());
            }
            ready = true;
        }
    }

    /// Tries one place after the other.
    @SuppressWarnings("restricted") // the launchers allow native code; without it there is no database
    static void load(List<Path> places) throws Missing {
        String name = LibraryLoaderUtil.getNativeLibName();
        URL packed = SQLiteJDBCLoader.class.getResource(LibraryLoaderUtil.getNativeLibResourcePath() + "/" + name);
        if (packed == null) {
            // a system the library has no code for, or one whose own package brings it
            return;
        }
        List<String> failures = new ArrayList<>();
        for (Path place : places) {
            Path file = place.resolve(name);
            try {
                unpack(packed, file);
                System.load(file.toAbsolutePath().toString());
                System.setProperty(PATH, place.toAbsolutePath().toString());
                System.setProperty(NAME, name);
                return;
            } catch (IOException e) {
                failures.add(
                        Disk.isFull(place)
                                ? t("store.place-is-full", place)
                                : t("store.place-cannot-be-written", place));
            } catch (UnsatisfiedLinkError e) {
                failures.add(t("store.place-forbids-programs", place));
            }
        }
        throw new Missing(t("store.library-not-started", String.join("; ", failures)));
    }

    /// Beside the program, when it lies in a folder of its own; the user's folder for what can be made anew; the
    /// temporary folder.
    private static List<Path> places() {
        String version = "sqlite-" + SQLiteJDBCLoader.getVersion();
        List<Path> places = new ArrayList<>();
        besideTheProgram()
                .ifPresent(folder -> places.add(folder.resolve("native").resolve(version)));
        places.add(cache().resolve(version));
        places.add(Path.of(System.getProperty("java.io.tmpdir"))
                .resolve("rollwright-" + System.getProperty("user.name", ""))
                .resolve(version));
        return places;
    }

    private static Optional<Path> besideTheProgram() {
        try {
            Path jar = Path.of(NativeLibrary.class
                    .getProtectionDomain()
                    .getCodeSource()
                    .getLocation()
                    .toURI());
            return Optional.ofNullable(jar.getParent());
        } catch (java.net.URISyntaxException | RuntimeException e) {
            return Optional.empty();
        }
    }

    private static Path cache() {
        Path home = Path.of(System.getProperty("user.home", ""));
        String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
        if (system.startsWith("win")) {
            return home.resolve("AppData").resolve("Local").resolve("Rollwright");
        }
        if (system.contains("mac")) {
            return home.resolve("Library").resolve("Caches").resolve("Rollwright");
        }
        @Nullable String named = System.getenv("XDG_CACHE_HOME");
        return (named == null || !Path.of(named).isAbsolute() ? home.resolve(".cache") : Path.of(named))
                .resolve("rollwright");
    }

    /// Leaves a file that is there and right; a damaged or foreign one is replaced.
    private static void unpack(URL packed, Path file) throws IOException {
        if (isRight(packed, file)) {
            return;
        }
        Disk.makeFolderOf(file);
        try (InputStream in = packed.openStream()) {
            Disk.write(file, in.readAllBytes());
        } catch (IOException e) {
            // another process may have done it in the same moment
            if (!isRight(packed, file)) {
                throw e;
            }
        }
    }

    /// Compares with the checksum that the archive keeps, without unpacking.
    private static boolean isRight(URL packed, Path file) throws IOException {
        if (!Files.isRegularFile(file)) {
            return false;
        }
        URLConnection connection = packed.openConnection();
        if (!(connection instanceof JarURLConnection jar)) {
            return false;
        }
        CRC32 crc = new CRC32();
        crc.update(Files.readAllBytes(file));
        return jar.getJarEntry().getCrc() == crc.getValue();
    }
}
