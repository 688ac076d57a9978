package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import java.util.Set;
import org.rollwright.scope.picture.Photo;
import org.rollwright.scope.picture.PhotoShelf;

/// Photographs as files under the hash of their bytes: `photos/ab/abcd….jpg` and a small one beside it.
///
/// A file is written under another name, synchronised, and then renamed, so that a name never stands for half a
/// photograph.
public final class PhotoFolder implements PhotoShelf {
    private final Path folder;

    public PhotoFolder(Path dataFolder) {
        this.folder = dataFolder.resolve("photos");
    }

    @Override
    public void keep(Photo photo) {
        Path file = file(photo.id(), ".jpg");
        if (Files.exists(file)) {
            return;
        }
        try {
            Files.createDirectories(file.getParent());
            write(file(photo.id(), ".small.jpg"), photo.thumbnail());
            write(file, photo.jpeg());
        } catch (IOException e) {
            throw new NotKept(t("store.the-photograph-was-not-saved", folder), e);
        }
    }

    private static void write(Path file, byte[] bytes) throws IOException {
        Path part = file.resolveSibling(file.getFileName() + ".part");
        try (FileChannel channel = FileChannel.open(
                part,
                Set.of(StandardOpenOption.CREATE, StandardOpenOption.WRITE, StandardOpenOption.TRUNCATE_EXISTING))) {
            java.nio.ByteBuffer buffer = java.nio.ByteBuffer.wrap(bytes);
            while (buffer.hasRemaining()) {
                channel.write(buffer);
            }
            channel.force(true);
        }
        Files.move(part, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    }

    private Path file(String id, String ending) {
        if (!Photo.isId(id)) {
            throw new IllegalArgumentException("no photograph is called " + id);
        }
        return folder.resolve(id.substring(0, 2)).resolve(id + ending);
    }

    @Override
    public Optional<byte[]> jpeg(String id) {
        return bytes(id, ".jpg");
    }

    @Override
    public Optional<byte[]> thumbnail(String id) {
        return bytes(id, ".small.jpg");
    }

    private Optional<byte[]> bytes(String id, String ending) {
        if (!Photo.isId(id)) {
            return Optional.empty();
        }
        try {
            return Optional.of(Files.readAllBytes(file(id, ending)));
        } catch (IOException e) {
            return Optional.empty();
        }
    }
}
