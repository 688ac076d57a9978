package org.rollwright.cabinet;

import java.util.Optional;
import org.rollwright.hunt.FindId;

/// One owned coin: a coin of a find, or a coin that came another way.
///
/// @param find number of the find, or 0 for a coin that came another way
/// @param piece which coin of the find, from 1; for a coin that came another way its own running number
public record CoinRef(long find, int piece) {
    public CoinRef {
        if (find < 0 || piece < 1) {
            throw new IllegalArgumentException("no such coin: find " + find + ", piece " + piece);
        }
    }

    public static CoinRef of(FindId find, int piece) {
        return new CoinRef(find.number(), piece);
    }

    public Optional<FindId> findId() {
        return find == 0 ? Optional.empty() : Optional.of(new FindId(find));
    }

    /// `f12.1`, or `own.3` for a coin that came another way.
    @Override
    public String toString() {
        return find == 0 ? "own." + piece : "f" + find + "." + piece;
    }

    /// Reads what [#toString()] prints.
    public static Optional<CoinRef> parse(String text) {
        int dot = text.indexOf('.');
        if (dot < 1) {
            return Optional.empty();
        }
        try {
            int piece = Integer.parseInt(text.substring(dot + 1));
            String head = text.substring(0, dot);
            if (head.equals("own")) {
                return Optional.of(new CoinRef(0, piece));
            }
            return head.startsWith("f")
                    ? Optional.of(new CoinRef(Long.parseLong(head.substring(1)), piece))
                    : Optional.empty();
        } catch (IllegalArgumentException e) {
            return Optional.empty();
        }
    }
}
