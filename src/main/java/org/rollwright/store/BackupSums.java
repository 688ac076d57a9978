package org.rollwright.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/// The SHA-256 of every file of a backup, in the usual form of a list of checksums (`HASH  NAME`, a line each),
/// so that `sha256sum -c` proves a backup without this tool as well.
final class BackupSums {
    static final String FILE = "SHA256SUMS";

    private BackupSums() {}

    /// Writes the list for a folder that is complete otherwise.
    static void write(Path folder) throws IOException {
        StringBuilder list = new StringBuilder();
        for (Map.Entry<String, String> one : read(folder).entrySet()) {
            list.append(one.getValue()).append("  ").append(one.getKey()).append('\n');
        }
        Disk.write(folder.resolve(FILE), list.toString().getBytes(StandardCharsets.UTF_8));
    }

    /// Whether there is a list; backups of earlier versions have none.
    static boolean has(Path folder) {
        return Files.exists(folder.resolve(FILE));
    }

    /// The first file whose bytes are not those of the list, or that is missing or not in the list; empty when
    /// all is as it was written.
    static Optional<String> firstWrong(Path folder) throws IOException {
        Map<String, String> said = new TreeMap<>();
        String list = new String(Files.readAllBytes(folder.resolve(FILE)), StandardCharsets.UTF_8);
        for (String line : list.lines().toList()) {
            if (line.length() < 67 || !line.startsWith("  ", 64)) {
                return Optional.of(FILE);
            }
            said.put(line.substring(66), line.substring(0, 64));
        }
        Map<String, String> found = read(folder);
        for (String name : said.keySet()) {
            if (!said.get(name).equals(found.get(name))) {
                return Optional.of(name);
            }
        }
        return found.keySet().stream().filter(name -> !said.containsKey(name)).findFirst();
    }

    private static Map<String, String> read(Path folder) throws IOException {
        Map<String, String> sums = new TreeMap<>();
        for (Path file : Disk.files(folder)) {
            String name = folder.relativize(file).toString().replace('\\', '/');
            if (!name.equals(FILE)) {
                sums.put(name, sum(file));
            }
        }
        return sums;
    }

    private static String sum(Path file) throws IOException {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file)));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
