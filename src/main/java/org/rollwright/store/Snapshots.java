package org.rollwright.store;

import java.util.Optional;
import java.util.zip.CRC32;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.JdbiException;
import org.rollwright.hunt.LogbookImage;

/// Saved states beside the journal. Whatever is wrong with one, it is passed over and made anew.
final class Snapshots {
    /// Changes whenever the shape of [LogbookImage] does; a snapshot of another format is ignored.
    static final int FORMAT = 5;

    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Saved(long seq, byte[] body, long checksum) {}

    private final Handle handle;

    Snapshots(Handle handle) {
        this.handle = handle;
    }

    /// Saves a state and forgets older ones.
    ///
    /// @return whether it was saved; failing harms nothing
    boolean save(LogbookImage image) {
        try {
            byte[] body = ImageFormat.write(image);
            handle.useTransaction(transaction -> {
                transaction.execute("delete from snapshot");
                transaction
                        .createUpdate("""
                                insert into snapshot (seq, format, body, checksum) values (:seq, :format, :body, :checksum)
                                """)
                        .bind("seq", image.last())
                        .bind("format", FORMAT)
                        .bind("body", body)
                        .bind("checksum", checksum(body))
                        .execute();
            });
            return true;
        } catch (JdbiException e) {
            return false;
        }
    }

    /// The latest usable state that does not run ahead of the journal.
    Optional<LogbookImage> load(long journalLast) {
        try {
            Optional<Saved> saved = handle.createQuery("""
                            select seq, body, checksum from snapshot
                            where format = :format and seq <= :last order by seq desc limit 1
                            """)
                    .bind("format", FORMAT)
                    .bind("last", journalLast)
                    .map((result, context) -> new Saved(result.getLong(1), result.getBytes(2), result.getLong(3)))
                    .findOne();
            if (saved.isEmpty() || saved.get().checksum != checksum(saved.get().body)) {
                return Optional.empty();
            }
            LogbookImage image = ImageFormat.read(saved.get().body);
            return image.last() == saved.get().seq ? Optional.of(image) : Optional.empty();
        } catch (JdbiException | Unpacker.Damaged e) {
            return Optional.empty();
        }
    }

    private static long checksum(byte[] bytes) {
        CRC32 crc = new CRC32();
        crc.update(bytes);
        return crc.getValue();
    }
}
