package org.rollwright.web.photos;

import java.awt.image.BufferedImage;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.rollwright.scope.picture.PhotoReader;
import org.rollwright.scope.picture.PhotoShelf;

/// The photographs being worked on, decoded; the last two only, because each takes up to 64 MB.
final class OpenPhotos {
    private static final int KEPT = 2;

    private final PhotoShelf shelf;
    private final Map<String, BufferedImage> kept = new LinkedHashMap<>();

    OpenPhotos(PhotoShelf shelf) {
        this.shelf = shelf;
    }

    synchronized Optional<BufferedImage> pixels(String id) {
        BufferedImage known = kept.remove(id);
        if (known == null) {
            Optional<byte[]> jpeg = shelf.jpeg(id);
            if (jpeg.isEmpty()) {
                return Optional.empty();
            }
            known = PhotoReader.pixels(jpeg.get());
        }
        kept.put(id, known);
        while (kept.size() > KEPT) {
            kept.remove(kept.keySet().iterator().next());
        }
        return Optional.of(known);
    }
}
