package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.zip.CRC32;
import org.rollwright.desk.State;
import org.rollwright.scope.picture.Photo;
import org.rollwright.scope.picture.PhotoReader;
import org.rollwright.scope.picture.PhotoShelf;

/// Photographs as files under the hash of their bytes: `photos/ab/abcd….jpg` and a small one beside it.
///
/// The name is the proof: bytes that do not have it are never shown, never copied over sound ones, and are
/// replaced when the photograph comes in again. The small picture carries a checksum behind its end and is made
/// anew from the large one when that is wrong.
public final class PhotoFolder implements PhotoShelf {
    static final String NAME = "photos";
    private static final String LARGE = ".jpg";
    private static final String SMALL = ".small.jpg";
    private static final int SEAL = 0x52575054;
    private static final int SEAL_BYTES = 8;

    /// What there is of a photograph.
    enum State {
        SOUND,
        MISSING,
        /// There is a file, and its bytes are not those of its name.
        DAMAGED
    }

    private final Path folder;

    /// @param dataFolder or a folder of backups, whose photographs lie the same way
    public PhotoFolder(Path dataFolder) {
        this.folder = dataFolder.resolve(NAME);
    }

    @Override
    public void keep(Photo photo) {
        try {
            if (state(photo.id()) != State.SOUND) {
                put(photo.id(), photo.jpeg());
            }
            write(file(photo.id(), SMALL), sealed(photo.thumbnail()));
        } catch (IOException e) {
            throw new NotKept(t("store.photograph-unsaved", folder), e);
        }
    }

    private void put(String id, byte[] jpeg) throws IOException {
        write(file(id, LARGE), jpeg);
    }

    private static void write(Path file, byte[] bytes) throws IOException {
        Disk.makeFolderOf(file);
        Disk.write(file, bytes);
    }

    /// Copies a photograph from another folder when it is sound there and not here.
    ///
    /// @return what there is of it here afterwards, read back
    State take(String id, PhotoFolder from) throws IOException {
        State here = state(id);
        if (here != State.SOUND) {
            Optional<byte[]> there = from.jpeg(id);
            if (there.isPresent()) {
                put(id, there.get());
                return state(id);
            }
        }
        return here;
    }

    State state(String id) {
        Path file = file(id, LARGE);
        if (!Files.exists(file)) {
            return State.MISSING;
        }
        return jpeg(id).isPresent() ? State.SOUND : State.DAMAGED;
    }

    /// Whether the small picture is there and whole; it can be made anew at any time.
    boolean hasSmall(String id) {
        return Disk.bytes(file(id, SMALL)).flatMap(PhotoFolder::unsealed).isPresent();
    }

    /// Names of all large pictures that lie here, sound or not.
    List<String> all() throws IOException {
        return Disk.files(folder).stream()
                .map(file -> file.getFileName().toString())
                .filter(name -> name.endsWith(LARGE))
                .map(name -> name.substring(0, name.length() - LARGE.length()))
                .filter(Photo::isId)
                .toList();
    }

    /// Where a photograph's file lies.
    Path file(String id) {
        return file(id, LARGE);
    }

    private Path file(String id, String ending) {
        if (!Photo.isId(id)) {
            throw new IllegalArgumentException("no photograph is called " + id);
        }
        return folder.resolve(id.substring(0, 2)).resolve(id + ending);
    }

    /// The photograph; empty when it is missing, and when its bytes are not those it was kept with.
    @Override
    public Optional<byte[]> jpeg(String id) {
        return Photo.isId(id)
                ? Disk.bytes(file(id, LARGE)).filter(bytes -> Photo.idOf(bytes).equals(id))
                : Optional.empty();
    }

    @Override
    public Optional<byte[]> thumbnail(String id) {
        if (!Photo.isId(id)) {
            return Optional.empty();
        }
        Optional<byte[]> kept = Disk.bytes(file(id, SMALL)).flatMap(PhotoFolder::unsealed);
        return kept.isPresent() ? kept : jpeg(id).map(large -> madeAnew(id, large));
    }

    private byte[] madeAnew(String id, byte[] large) {
        byte[] small = PhotoReader.small(large);
        try {
            write(file(id, SMALL), sealed(small));
        } catch (IOException e) {
            // shown all the same; the next view tries again
        }
        return small;
    }

    /// A small picture with its checksum behind the picture's own end, where programs that show pictures do not
    /// look.
    private static byte[] sealed(byte[] picture) {
        return ByteBuffer.allocate(picture.length + SEAL_BYTES)
                .put(picture)
                .putInt(SEAL)
                .putInt(checksum(picture))
                .array();
    }

    private static Optional<byte[]> unsealed(byte[] bytes) {
        int length = bytes.length - SEAL_BYTES;
        if (length <= 0) {
            return Optional.empty();
        }
        byte[] picture = Arrays.copyOf(bytes, length);
        ByteBuffer seal = ByteBuffer.wrap(bytes, length, SEAL_BYTES);
        return seal.getInt() == SEAL && seal.getInt() == checksum(picture) ? Optional.of(picture) : Optional.empty();
    }

    private static int checksum(byte[] bytes) {
        CRC32 crc = new CRC32();
        crc.update(bytes);
        return (int) crc.getValue();
    }
}
