package org.rollwright.scope.picture;

import java.util.Optional;

/// Where photographs are kept.
public interface PhotoShelf {
    /// Keeps a photograph; when this returns it is on disk.
    ///
    /// @throws NotKept when it could not be written
    void keep(Photo photo);

    /// A kept file by its name, empty when there is none.
    Optional<byte[]> jpeg(String id);

    /// The small picture, empty when there is none.
    Optional<byte[]> thumbnail(String id);

    /// A photograph that could not be written. The message is a sentence for a person.
    final class NotKept extends RuntimeException {
        private static final long serialVersionUID = 1L;

        public NotKept(String sentence, Throwable cause) {
            super(sentence, cause);
        }
    }
}
