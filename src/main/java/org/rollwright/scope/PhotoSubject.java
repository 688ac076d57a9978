package org.rollwright.scope;

import java.util.Locale;
import java.util.Optional;
import org.rollwright.hunt.FindId;
import org.rollwright.journal.Word;

/// What a photograph shows.
///
/// @param key number of the find or key of the variety; blank otherwise
/// @param part which marker of the variety, from 1; 0 for none in particular
public record PhotoSubject(Word<Kind> kind, String key, int part) {
    /// What kind of thing it is.
    public enum Kind implements Word.Listed {
        FIND,
        VARIETY,
        /// Nothing in particular.
        BENCH;

        @Override
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    public static final PhotoSubject BENCH = new PhotoSubject(Word.of(Kind.BENCH), "", 0);

    public static PhotoSubject find(FindId find) {
        return new PhotoSubject(Word.of(Kind.FIND), Long.toString(find.number()), 0);
    }

    public static PhotoSubject variety(String key, int marker) {
        return new PhotoSubject(Word.of(Kind.VARIETY), key, marker);
    }

    /// The find it shows, empty when it shows something else.
    public Optional<FindId> findId() {
        return kind.is(Kind.FIND) && key.matches("0*[1-9][0-9]{0,17}")
                ? Optional.of(new FindId(Long.parseLong(key)))
                : Optional.empty();
    }

    /// The key of the variety it shows, empty when it shows something else.
    public Optional<String> varietyKey() {
        return kind.is(Kind.VARIETY) ? Optional.of(key) : Optional.empty();
    }
}
