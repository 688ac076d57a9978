package org.rollwright.store;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.function.BiConsumer;

/// Writes values one after the other in few bytes; [Unpacker] reads them. Whole numbers take as many bytes as
/// they need; an instant is told from the one before it; a text, and whatever else is written as shared, is
/// written once and named by number afterwards.
final class Packer {
    private byte[] bytes = new byte[1 << 16];
    private int length;
    private long second;
    private final Map<Object, Integer> shared = new HashMap<>();

    byte[] bytes() {
        return Arrays.copyOf(bytes, length);
    }

    private void raw(int value) {
        if (length == bytes.length) {
            bytes = Arrays.copyOf(bytes, 2 * length);
        }
        bytes[length++] = (byte) value;
    }

    /// Any number; those near zero are short.
    void whole(long value) {
        long rest = (value << 1) ^ (value >> 63);
        while ((rest & ~0x7fL) != 0) {
            raw((int) (rest & 0x7f) | 0x80);
            rest >>>= 7;
        }
        raw((int) rest);
    }

    void flag(boolean value) {
        raw(value ? 1 : 0);
    }

    void real(double value) {
        long bits = Double.doubleToRawLongBits(value);
        for (int i = 0; i < 8; i++) {
            raw((int) (bits >>> (8 * i)));
        }
    }

    void text(String value) {
        shared(value, (out, text) -> {
            byte[] utf8 = text.getBytes(StandardCharsets.UTF_8);
            out.whole(utf8.length);
            for (byte one : utf8) {
                out.raw(one);
            }
        });
    }

    void name(Enum<?> value) {
        text(value.name());
    }

    void instant(Instant value) {
        whole(value.getEpochSecond() - second);
        whole(value.getNano());
        second = value.getEpochSecond();
    }

    void day(LocalDate value) {
        whole(value.toEpochDay());
    }

    void decimal(BigDecimal value) {
        text(value.toString());
    }

    <T> void all(Collection<T> values, BiConsumer<Packer, T> how) {
        whole(values.size());
        for (T value : values) {
            how.accept(this, value);
        }
    }

    /// Written once; equal values after it only by its number.
    <T> void shared(T value, BiConsumer<Packer, T> how) {
        Integer known = shared.get(value);
        whole(known == null ? -1 : known);
        if (known == null) {
            how.accept(this, value);
            // numbered when its parts have their numbers, as the reader meets them
            shared.put(value, shared.size());
        }
    }
}
