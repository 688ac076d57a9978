package org.rollwright.catalog;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/// The project's own catalogue, read from the folder catalog/ once for all tests.
public final class CatalogFolder {
    private static final CatalogLoader.Loaded LOADED = CatalogLoader.load(files());

    private CatalogFolder() {}

    public static Catalog catalog() {
        return LOADED.catalog();
    }

    static CatalogLoader.Loaded loaded() {
        return LOADED;
    }

    public static List<NamedText> files() {
        List<NamedText> files = new ArrayList<>();
        Path root = Path.of("catalog");
        try (Stream<Path> paths = Files.walk(root)) {
            for (Path path : paths.filter(
                            p -> p.toString().endsWith(".csv") && !p.startsWith(root.resolve("varieties")))
                    .sorted()
                    .toList()) {
                files.add(new NamedText(root.relativize(path).toString().replace('\\', '/'), Files.readString(path)));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return files;
    }
}
