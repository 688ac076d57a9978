package org.rollwright.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.util.Optional;
import java.util.zip.CRC32;
import org.rollwright.desk.State;

/// The saved state beside the journal, in a file of its own: saving it touches neither the store's file nor its
/// connection. Whatever is wrong with it, it is passed over and made anew; deleting it harms nothing.
final class Snapshots {
    static final String FILE = "rollwright.state";

    private static final int MAGIC = 0x52575354;
    private static final int HEAD = 4 + 4 + 8 + 8 + 8;

    /// A state and where in the journal it was taken.
    ///
    /// @param at the last entry in it, with that entry's checksum: beside another journal it is of no use
    record Saved(State.Image image, HighWater.Mark at) {}

    private final Path file;

    Snapshots(Path folder) {
        this.file = folder.resolve(FILE);
    }

    /// Saves a state in place of the one before.
    ///
    /// @return whether it was saved; failing harms nothing
    boolean save(Saved saved) {
        byte[] body = StateFormat.write(saved.image);
        ByteBuffer all = ByteBuffer.allocate(HEAD + body.length);
        all.putInt(MAGIC).putInt(StateFormat.VERSION).putLong(saved.at.seq()).putLong(saved.at.checksum());
        all.putLong(0).put(body);
        all.putLong(HEAD - 8, checksum(all));
        try {
            Disk.write(file, all.array());
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    /// The saved state; empty when there is none that this version can use.
    Optional<Saved> load() {
        Optional<byte[]> bytes = Disk.bytes(file);
        if (bytes.isEmpty() || bytes.get().length < HEAD) {
            return Optional.empty();
        }
        ByteBuffer all = ByteBuffer.wrap(bytes.get());
        if (all.getInt(0) != MAGIC || all.getInt(4) != StateFormat.VERSION || all.getLong(HEAD - 8) != checksum(all)) {
            return Optional.empty();
        }
        try {
            byte[] body = new byte[all.capacity() - HEAD];
            all.get(HEAD, body);
            State.Image image = StateFormat.read(body);
            HighWater.Mark at = new HighWater.Mark(all.getLong(8), all.getLong(16));
            return image.last() == at.seq() ? Optional.of(new Saved(image, at)) : Optional.empty();
        } catch (Unpacker.Damaged e) {
            return Optional.empty();
        }
    }

    /// Over everything but itself.
    private static long checksum(ByteBuffer all) {
        CRC32 crc = new CRC32();
        crc.update(all.slice(0, HEAD - 8));
        crc.update(all.slice(HEAD, all.capacity() - HEAD));
        return crc.getValue();
    }
}
