package org.rollwright.journal;

import java.util.Arrays;
import java.util.Optional;

/// A word of a fixed list as the journal has it. A word that is not in the list (of another version, or blank for none)
/// is kept as it is, so that a record is written again as it was read.
///
/// @param <E> the list
/// @param word as it stands in the journal
public record Word<E extends Enum<E> & Word.Listed>(String word) {
    /// One of a fixed list.
    public interface Listed {
        /// The journal's word for it, which never changes.
        String word();
    }

    /// The word for one of the list.
    public static <E extends Enum<E> & Listed> Word<E> of(E one) {
        return new Word<>(one.word());
    }

    public boolean is(E one) {
        return one.word().equals(word);
    }

    /// Which one of the list it is, empty when it is none.
    public Optional<E> in(Class<E> list) {
        return Arrays.stream(list.getEnumConstants()).filter(this::is).findFirst();
    }

    @Override
    public String toString() {
        return word;
    }
}
