package org.rollwright.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/// What bench/powercut.c wrote down of a process: each call that changed files below a folder, each
/// synchronisation, and what was said on the standard output, in order.
final class PowerCutLog {
    /// One record. Files are named by their descriptor where the process did so, else by an absolute path.
    sealed interface Call {}

    record Opened(int fd, String path, boolean made, boolean emptied) implements Call {}

    record Closed(int fd) implements Call {}

    @SuppressWarnings("ArrayRecordComponent") // never compared
    record Written(int fd, long at, byte[] bytes) implements Call {}

    /// @param path blank when the descriptor says which file
    record Resized(int fd, String path, long size) implements Call {}

    /// @param before covers the calls of a lower position in the log than this
    record Synchronised(int fd, long before) implements Call {}

    record Renamed(String from, String to) implements Call {}

    record Unlinked(String path) implements Call {}

    record FolderMade(String path) implements Call {}

    record Linked(String from, String to) implements Call {}

    record Said(String text) implements Call {}

    /// A file was mapped into memory for writing: what is written through that is not in the log.
    record Mapped(int fd) implements Call {}

    record Doubled(int from, int to) implements Call {}

    /// Something the library knows no record for; the test fails on it.
    record Unknown(String path, String what) implements Call {}

    private PowerCutLog() {}

    static List<Call> read(Path file) throws IOException {
        ByteBuffer bytes = ByteBuffer.wrap(Files.readAllBytes(file)).order(ByteOrder.LITTLE_ENDIAN);
        List<Call> calls = new ArrayList<>();
        while (bytes.remaining() > 0) {
            int length = bytes.getInt();
            int end = bytes.position() + length;
            int kind = bytes.get();
            int fd = bytes.getInt();
            long a = bytes.getLong();
            long b = bytes.getLong();
            byte[] first = new byte[bytes.getInt()];
            bytes.get(first);
            byte[] second = new byte[end - bytes.position()];
            bytes.get(second);
            calls.add(call(kind, fd, a, b, first, second));
        }
        return calls;
    }

    private static Call call(int kind, int fd, long a, long b, byte[] first, byte[] second) {
        String one = text(first);
        return switch (kind) {
            case 1 -> new Opened(fd, one, a != 0, b != 0);
            case 2 -> new Closed(fd);
            case 3 -> new Written(fd, a, second);
            case 4 -> new Resized(fd, one, a);
            case 5 -> new Synchronised(fd, a);
            case 6 -> new Renamed(one, text(second));
            case 7 -> new Unlinked(one);
            case 8 -> new FolderMade(one);
            case 9 -> new Linked(one, text(second));
            case 10 -> new Said(text(second));
            case 11 -> new Mapped(fd);
            case 12 -> new Doubled(fd, (int) a);
            default -> new Unknown(one, text(second));
        };
    }

    private static String text(byte[] bytes) {
        return new String(bytes, StandardCharsets.UTF_8);
    }
}
