package org.rollwright.store;

import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.Properties;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.zip.CRC32;

/// The few settings of a data folder that are no part of the record, in `settings.properties`.
///
/// The file ends with a checksum over what it says, so that a damaged place of the backups is not taken for the
/// hunter's choice.
public final class Settings {
    static final String FILE = "settings.properties";
    private static final String BACKUPS = "backup.folder";
    private static final String CHECKSUM = "checksum";
    /// The first line of files that have a checksum, so that a damaged name of it is not taken for its absence.
    private static final String HEAD = "Rollwright, ends with a checksum";

    private final Path folder;

    public Settings(Path folder) {
        this.folder = folder;
    }

    /// Where backups go: the folder named, or else `backups` in the data folder itself.
    public Path backups() {
        return named().orElse(folder.resolve("backups"));
    }

    /// The folder for backups that was named, empty when none was.
    public Optional<Path> named() {
        String text = read().getProperty(BACKUPS, "").strip();
        try {
            return text.isEmpty() ? Optional.empty() : Optional.of(Path.of(text));
        } catch (java.nio.file.InvalidPathException e) {
            return Optional.empty();
        }
    }

    /// Remembers where backups go.
    ///
    /// @throws IOException when the data folder cannot be written to
    public void backups(Path where) throws IOException {
        choose(Map.of(BACKUPS, where.toAbsolutePath().normalize().toString()));
    }

    /// All that were chosen, by name.
    public Map<String, String> all() {
        Properties settings = read();
        return settings.stringPropertyNames().stream()
                .filter(name -> !name.equals(CHECKSUM))
                .collect(Collectors.toMap(Function.identity(), settings::getProperty));
    }

    /// Chooses some; the others stay.
    ///
    /// @throws IOException when the data folder cannot be written to
    public void choose(Map<String, String> some) throws IOException {
        Properties settings = read();
        settings.remove(CHECKSUM);
        settings.putAll(some);
        settings.setProperty(CHECKSUM, checksum(settings));
        StringWriter text = new StringWriter();
        settings.store(text, HEAD);
        Disk.write(folder.resolve(FILE), text.toString().getBytes(StandardCharsets.UTF_8));
    }

    /// Whether the file was changed by something else than the tool: damage, or a hand. Files of earlier
    /// versions have no checksum and are taken as they are.
    public boolean changedFromOutside() {
        if (!Files.exists(folder.resolve(FILE))) {
            return false;
        }
        Optional<Properties> settings = load();
        if (settings.isEmpty()) {
            return true;
        }
        String said = settings.get().getProperty(CHECKSUM);
        settings.get().remove(CHECKSUM);
        return said == null ? promisesChecksum() : !said.equals(checksum(settings.get()));
    }

    private boolean promisesChecksum() {
        return Disk.bytes(folder.resolve(FILE))
                .filter(bytes -> new String(bytes, StandardCharsets.UTF_8).startsWith("#" + HEAD))
                .isPresent();
    }

    private static String checksum(Properties settings) {
        TreeMap<String, String> sorted = new TreeMap<>();
        settings.stringPropertyNames().forEach(name -> sorted.put(name, settings.getProperty(name)));
        CRC32 crc = new CRC32();
        crc.update(sorted.toString().getBytes(StandardCharsets.UTF_8));
        return String.format("%08x", crc.getValue());
    }

    private Properties read() {
        return load().orElseGet(Properties::new);
    }

    /// Empty when there are none yet or the file cannot be read: the usual ones count.
    private Optional<Properties> load() {
        Properties settings = new Properties();
        try {
            settings.load(new StringReader(Files.readString(folder.resolve(FILE), StandardCharsets.UTF_8)));
            return Optional.of(settings);
        } catch (IOException | IllegalArgumentException e) {
            return Optional.empty();
        }
    }
}
