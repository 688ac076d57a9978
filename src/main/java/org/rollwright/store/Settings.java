package org.rollwright.store;

import java.io.IOException;
import java.io.Reader;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Map;
import java.util.Optional;
import java.util.Properties;
import java.util.function.Function;
import java.util.stream.Collectors;

/// The few settings of a data folder that are no part of the record, in `settings.properties`.
public final class Settings {
    private static final String FILE = "settings.properties";
    private static final String BACKUPS = "backup.folder";

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
        return text.isEmpty() ? Optional.empty() : Optional.of(Path.of(text));
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
                .collect(Collectors.toMap(Function.identity(), settings::getProperty));
    }

    /// Chooses some; the others stay.
    ///
    /// @throws IOException when the data folder cannot be written to
    public void choose(Map<String, String> some) throws IOException {
        Properties settings = read();
        settings.putAll(some);
        StringWriter text = new StringWriter();
        settings.store(text, "Rollwright");
        Path part = folder.resolve(FILE + ".part");
        Files.writeString(part, text.toString());
        Files.move(part, folder.resolve(FILE), StandardCopyOption.REPLACE_EXISTING);
    }

    private Properties read() {
        Properties settings = new Properties();
        try (Reader reader = Files.newBufferedReader(folder.resolve(FILE), StandardCharsets.UTF_8)) {
            settings.load(reader);
        } catch (IOException | IllegalArgumentException e) {
            // none yet, or not readable: the usual ones count
        }
        return settings;
    }
}
