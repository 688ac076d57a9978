package org.rollwright.web.guard;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/// Percent escapes of addresses and forms (RFC 3986, 2.1; the letters in them are UTF-8).
public final class Escapes {
    private Escapes() {}

    /// Whether every percent sign begins an escape, and every run of escapes is well-formed UTF-8. What is not
    /// would be lost, or read as something else than was sent.
    ///
    /// @param text as sent; none is sound
    public static boolean sound(@Nullable String text) {
        if (text == null) {
            return true;
        }
        int at = text.indexOf('%');
        while (at >= 0) {
            int end = at;
            boolean ascii = true;
            while (end < text.length() && text.charAt(end) == '%') {
                int value = value(text, end);
                if (value < 0) {
                    return false;
                }
                ascii &= value < 0x80;
                end += 3;
            }
            if (!ascii && !utf8(text, at, end)) {
                return false;
            }
            at = text.indexOf('%', end);
        }
        return true;
    }

    /// The byte that an escape stands for, or -1.
    private static int value(String text, int at) {
        if (at + 2 >= text.length()) {
            return -1;
        }
        int high = hex(text.charAt(at + 1));
        int low = hex(text.charAt(at + 2));
        return high < 0 || low < 0 ? -1 : high * 16 + low;
    }

    /// The language's own reading of digits takes those of every script.
    private static int hex(char letter) {
        return letter < 0x80 ? Character.digit(letter, 16) : -1;
    }

    private static boolean utf8(String text, int from, int to) {
        byte[] bytes = new byte[(to - from) / 3];
        for (int i = 0; i < bytes.length; i++) {
            bytes[i] = (byte) value(text, from + 3 * i);
        }
        try {
            var unused = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes));
            return true;
        } catch (CharacterCodingException e) {
            return false;
        }
    }
}
