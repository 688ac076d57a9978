package org.rollwright.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/// What of a data folder is the tool's own, and so is made the owner's alone.
final class OwnFiles {
    private static final Set<String> NAMES =
            Set.of("settings.properties", "lan.p12", "photos", "backups", "catalog", "demo", VoiceFolder.FOLDER);
    private static final String BEGINNING = "rollwright.";

    private OwnFiles() {}

    /// Makes what others could read in a data folder the owner's alone: the tool's own files, and the folder itself
    /// when there is nothing else in it. A folder that holds other things as well keeps its modes.
    ///
    /// @throws IOException when the folder cannot be listed
    static void makePrivate(Path folder) throws IOException {
        List<Path> inside;
        try (Stream<Path> all = Files.list(folder)) {
            inside = all.toList();
        }
        boolean alone = true;
        for (Path path : inside) {
            if (!isOurs(path)) {
                alone = false;
            } else if (Disk.isOpenToOthers(path)) {
                Disk.makePrivateBelow(path);
            }
        }
        if (alone && Disk.isOpenToOthers(folder)) {
            try {
                Disk.makePrivate(folder);
            } catch (IOException e) {
                // somebody else's folder: what is in it is private all the same
            }
        }
    }

    private static boolean isOurs(Path path) {
        String name = path.getFileName().toString();
        return NAMES.contains(name) || name.startsWith(BEGINNING);
    }
}
