package org.rollwright.store;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/// Reads what [Packer] wrote, in the same order.
final class Unpacker {
    /// Letters of the longest number an image holds: money and prices, far below.
    private static final int LONGEST_DECIMAL = 64;

    /// The bytes are not what they should be.
    static final class Damaged extends RuntimeException {
        private static final long serialVersionUID = 1;

        Damaged(String message) {
            super(message);
        }

        Damaged(String message, RuntimeException cause) {
            super(message, cause);
        }
    }

    private final byte[] bytes;
    private int at;
    private long second;
    private final List<Object> shared = new ArrayList<>();

    Unpacker(byte[] bytes) {
        this.bytes = bytes;
    }

    boolean atEnd() {
        return at == bytes.length;
    }

    private byte raw() {
        if (at >= bytes.length) {
            throw new Damaged("ends too early");
        }
        return bytes[at++];
    }

    long whole() {
        long rest = 0;
        for (int shift = 0; shift < 70; shift += 7) {
            byte one = raw();
            rest |= (long) (one & 0x7f) << shift;
            if (one >= 0) {
                return (rest >>> 1) ^ -(rest & 1);
            }
        }
        throw new Damaged("a number too long");
    }

    int small() {
        long value = whole();
        if (value != (int) value) {
            throw new Damaged("a number too large");
        }
        return (int) value;
    }

    boolean flag() {
        return raw() != 0;
    }

    double real() {
        long bits = 0;
        for (int i = 0; i < 8; i++) {
            bits |= (raw() & 0xffL) << (8 * i);
        }
        return Double.longBitsToDouble(bits);
    }

    String text() {
        return shared(String.class, Unpacker::plainText);
    }

    private String plainText() {
        int length = size();
        String text = new String(bytes, at, length, StandardCharsets.UTF_8);
        at += length;
        return text;
    }

    Instant instant() {
        second += whole();
        return Instant.ofEpochSecond(second, whole());
    }

    LocalDate day() {
        return LocalDate.ofEpochDay(whole());
    }

    BigDecimal decimal() {
        String text = text();
        try {
            if (text.length() <= LONGEST_DECIMAL) {
                return new BigDecimal(text);
            }
        } catch (NumberFormatException e) {
            throw new Damaged("a number that is none", e);
        }
        throw new Damaged("a number that cannot be");
    }

    /// How many follow; never more than there are bytes left.
    private int size() {
        int size = small();
        if (size < 0 || size > bytes.length - at) {
            throw new Damaged("a length that cannot be");
        }
        return size;
    }

    <T> List<T> all(Function<Unpacker, T> how) {
        int size = size();
        List<T> values = new ArrayList<>(size);
        for (int i = 0; i < size; i++) {
            values.add(how.apply(this));
        }
        return List.copyOf(values);
    }

    <T> T shared(Class<T> type, Function<Unpacker, T> how) {
        int known = small();
        if (known >= shared.size() || known < -1) {
            throw new Damaged("a value not met before");
        }
        if (known >= 0) {
            return type.cast(shared.get(known));
        }
        T value = how.apply(this);
        shared.add(value);
        return value;
    }
}
