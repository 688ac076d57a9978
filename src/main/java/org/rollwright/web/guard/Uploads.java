package org.rollwright.web.guard;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/// Where the server puts parts of an upload while it is read: a folder of this process alone, since a process that is
/// killed leaves its parts behind, and the next one clears them away.
public final class Uploads {
    private static final String NAME = "rollwright-uploads-";

    private Uploads() {}

    /// Makes the folder, and deletes those of processes that are no more.
    ///
    /// @return empty when the folder for temporary files takes nothing; an upload then says so
    public static Optional<Path> folder() {
        Path temporary = Path.of(System.getProperty("java.io.tmpdir"));
        try {
            clear(temporary);
            return Optional.of(Files.createTempDirectory(
                    temporary, NAME + ProcessHandle.current().pid() + "-"));
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    private static void clear(Path temporary) throws IOException {
        List<Path> left;
        try (Stream<Path> all = Files.list(temporary)) {
            left = all.filter(Uploads::isAbandoned).toList();
        }
        for (Path folder : left) {
            delete(folder);
        }
    }

    private static boolean isAbandoned(Path folder) {
        String name = folder.getFileName().toString();
        if (!name.startsWith(NAME) || !name.matches(NAME + "[0-9]{1,9}-.*")) {
            return false;
        }
        long process = Long.parseLong(name.substring(NAME.length(), name.indexOf('-', NAME.length())));
        return ProcessHandle.of(process).isEmpty();
    }

    /// What cannot be deleted belongs to somebody else.
    static void delete(Path folder) {
        try (Stream<Path> inside = Files.walk(folder)) {
            for (Path path : inside.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(path);
            }
        } catch (IOException | UncheckedIOException e) {
            // somebody else's
        }
    }
}
