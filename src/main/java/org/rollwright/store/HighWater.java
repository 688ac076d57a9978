package org.rollwright.store;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.zip.CRC32;

/// How far the journal had come when an entry was acknowledged last, beside the store's file: what is missing at
/// its end is noticed, however it was lost.
///
/// Two places of 64 bytes, written in turn, each with its own checksum, so that a torn write leaves the other. A
/// mark is written after its entry is durable and never before, so it is never ahead of a sound journal. It is
/// synchronised every [#SYNC_EVERY] entries and now and then: after a power cut it may be that far behind, and a
/// loss of the last entries that comes together with a power cut may go unnoticed by it. It is not behind after
/// anything else.
///
/// Used by one thread at a time but for [#sync()].
final class HighWater implements AutoCloseable {
    static final String FILE = "rollwright.mark";
    /// Entries after which it is synchronised at the latest.
    static final int SYNC_EVERY = 64;

    private static final int PLACE = 64;

    /// A place in the journal.
    ///
    /// @param seq of the last entry, 0 for none
    /// @param checksum of that entry
    record Mark(long seq, long checksum) {}

    /// What a file says.
    ///
    /// @param mark the furthest that can be read
    /// @param damaged whether a place of it cannot be read
    record Found(Optional<Mark> mark, boolean damaged) {}

    // not a channel: an interrupted thread would close it
    private final RandomAccessFile file;
    private long writes;
    private volatile boolean synced = true;

    private HighWater(RandomAccessFile file) {
        this.file = file;
    }

    /// Opens the mark of a folder for writing, in the state given; what else it said is forgotten.
    static HighWater open(Path folder, Mark mark) throws IOException {
        if (read(folder).equals(new Found(Optional.of(mark), false))) {
            return new HighWater(new RandomAccessFile(folder.resolve(FILE).toFile(), "rw"));
        }
        Path file = folder.resolve(FILE);
        byte[] both = new byte[2 * PLACE];
        System.arraycopy(place(mark), 0, both, 0, PLACE);
        System.arraycopy(place(mark), 0, both, PLACE, PLACE);
        Disk.write(file, both);
        return new HighWater(new RandomAccessFile(file.toFile(), "rw"));
    }

    /// Reads the mark of a folder.
    static Found read(Path folder) {
        Path file = folder.resolve(FILE);
        if (!Files.exists(file)) {
            return new Found(Optional.empty(), false);
        }
        byte[] all = Disk.bytes(file).orElse(new byte[0]);
        Optional<Mark> best = Optional.empty();
        boolean damaged = all.length != 2 * PLACE;
        for (int at = 0; at + PLACE <= all.length && at < 2 * PLACE; at += PLACE) {
            Optional<Mark> here = parse(new String(all, at, PLACE, StandardCharsets.ISO_8859_1));
            damaged |= here.isEmpty();
            if (here.isPresent() && (best.isEmpty() || best.get().seq < here.get().seq)) {
                best = here;
            }
        }
        return new Found(best, damaged);
    }

    private static byte[] place(Mark mark) {
        String text = mark.seq + " " + mark.checksum;
        String line = text + " " + checksum(text);
        return String.format("%-" + (PLACE - 1) + "s\n", line).getBytes(StandardCharsets.ISO_8859_1);
    }

    private static Optional<Mark> parse(String place) {
        String[] words = place.split(" +", -1);
        try {
            if (words.length == 4
                    && words[3].equals("\n")
                    && Long.parseLong(words[2]) == checksum(words[0] + " " + words[1])) {
                return Optional.of(new Mark(Long.parseLong(words[0]), Long.parseLong(words[1])));
            }
        } catch (NumberFormatException e) {
            // damaged
        }
        return Optional.empty();
    }

    private static long checksum(String text) {
        CRC32 crc = new CRC32();
        crc.update(text.getBytes(StandardCharsets.ISO_8859_1));
        return crc.getValue();
    }

    /// Raises the mark. Failing harms nothing: it stays lower than it could be.
    void raise(Mark mark) {
        try {
            file.seek((writes % 2) * PLACE);
            file.write(place(mark));
            writes++;
            synced = false;
        } catch (IOException e) {
            return;
        }
        if (writes % SYNC_EVERY == 0) {
            Thread.ofVirtual().name("mark").start(this::sync);
        }
    }

    /// Makes it durable as it is now.
    void sync() {
        if (!synced) {
            try {
                synced = true;
                file.getFD().sync();
            } catch (IOException e) {
                synced = false;
            }
        }
    }

    @Override
    public void close() {
        sync();
        try {
            file.close();
        } catch (IOException e) {
            // the mark is written, and nothing more can be done
        }
    }
}
