package org.rollwright.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntPredicate;

/// A write-ahead log as bytes, read without the database, which passes over what it takes for damaged and says
/// nothing.
///
/// The format is SQLite's, as published in "The Write-Ahead Log" of its file format documentation: a head of 32
/// bytes and frames of 24 bytes and a page, each with the head's two salts and a checksum over everything
/// before it.
final class WalFile {
    private static final int HEAD = 32;
    private static final int FRAME_HEAD = 24;
    private static final int MAGIC = 0x377f0682;
    private static final int VERSION = 3_007_000;

    /// One frame of the log.
    ///
    /// @param page the page of the store it holds
    /// @param commit whether it ends a transaction
    /// @param ours whether it has the salts of the head; others are left over from before the log was begun anew
    /// @param sound whether its checksum follows from the frame before it
    record Frame(int page, boolean commit, boolean ours, boolean sound) {}

    private record Sum(int first, int second) {}

    private final ByteBuffer bytes;
    private final int pageSize;
    private final int salt1;
    private final int salt2;
    private final boolean headSound;
    private final List<Frame> frames;

    private WalFile(ByteBuffer bytes, int pageSize, boolean headSound, int salt1, int salt2) {
        this.bytes = bytes;
        this.pageSize = pageSize;
        this.headSound = headSound;
        this.salt1 = salt1;
        this.salt2 = salt2;
        this.frames = List.copyOf(readFrames());
    }

    /// Reads a log; empty when there is none or nothing in it.
    static Optional<WalFile> read(Path file) throws IOException {
        byte[] all = Files.exists(file) ? Files.readAllBytes(file) : new byte[0];
        if (all.length <= HEAD) {
            return Optional.empty();
        }
        ByteBuffer bytes = ByteBuffer.wrap(all);
        Sum sum = sum(bytes, 0, 24, new Sum(0, 0), order(bytes.getInt(0)));
        boolean sound = (bytes.getInt(0) & ~1) == MAGIC
                && bytes.getInt(4) == VERSION
                && sum.first == bytes.getInt(24)
                && sum.second == bytes.getInt(28);
        int pageSize = sound ? bytes.getInt(8) : 4096;
        if (pageSize < 512 || all.length < HEAD + FRAME_HEAD + pageSize) {
            return Optional.empty();
        }
        // a damaged head: its salts are those of the first frame, unless that is damaged as well
        int salts = sound ? 16 : HEAD + 8;
        return Optional.of(new WalFile(bytes, pageSize, sound, bytes.getInt(salts), bytes.getInt(salts + 4)));
    }

    private List<Frame> readFrames() {
        List<Frame> found = new ArrayList<>();
        int size = FRAME_HEAD + pageSize;
        Sum stored = new Sum(bytes.getInt(24), bytes.getInt(28));
        Sum computed = sum(bytes, 0, 24, new Sum(0, 0), order(bytes.getInt(0)));
        for (int at = HEAD; at + size <= bytes.capacity(); at += size) {
            Sum own = new Sum(bytes.getInt(at + 16), bytes.getInt(at + 20));
            Sum afterStored = over(at, stored);
            Sum afterComputed = over(at, computed);
            boolean ours = bytes.getInt(at + 8) == salt1 && bytes.getInt(at + 12) == salt2;
            boolean sound = ours && (own.equals(afterStored) || own.equals(afterComputed));
            found.add(new Frame(bytes.getInt(at), bytes.getInt(at + 4) != 0, ours, sound));
            stored = own;
            computed = afterStored;
        }
        return found;
    }

    private Sum over(int at, Sum seed) {
        ByteOrder order = order(bytes.getInt(0));
        return sum(bytes, at + FRAME_HEAD, pageSize, sum(bytes, at, 8, seed, order), order);
    }

    private static ByteOrder order(int magic) {
        return (magic & 1) == 1 ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN;
    }

    private static Sum sum(ByteBuffer bytes, int from, int length, Sum seed, ByteOrder order) {
        ByteBuffer words = bytes.duplicate().order(order);
        int first = seed.first;
        int second = seed.second;
        for (int at = from; at < from + length; at += 8) {
            first += words.getInt(at) + second;
            second += words.getInt(at + 4) + first;
        }
        return new Sum(first, second);
    }

    List<Frame> frames() {
        return frames;
    }

    /// How many transactions of this log lie in or behind the first damaged place, where the database does not
    /// look.
    ///
    /// A power cut leaves one at most: the one that was being written. The next is begun only when the one
    /// before is synchronised.
    int hiddenTransactions() {
        int firstBad = headSound ? 0 : -1;
        while (firstBad >= 0 && firstBad < frames.size() && frames.get(firstBad).sound) {
            firstBad++;
        }
        return (int) frames.stream()
                .skip(Math.max(firstBad, 0))
                .filter(frame -> frame.ours && frame.commit)
                .count();
    }

    /// The same log with its checksums made anew, so that the database reads what lies behind a damaged place.
    /// What it then gives must be held against checksums of its own.
    ///
    /// @param keep which frames, by their place from 0
    byte[] resealed(IntPredicate keep) {
        int size = FRAME_HEAD + pageSize;
        List<Integer> kept = new ArrayList<>();
        for (int i = 0; i < frames.size(); i++) {
            if (frames.get(i).ours && keep.test(i)) {
                kept.add(i);
            }
        }
        ByteBuffer made = ByteBuffer.allocate(HEAD + kept.size() * size);
        made.putInt(MAGIC)
                .putInt(VERSION)
                .putInt(pageSize)
                .putInt(0)
                .putInt(salt1)
                .putInt(salt2);
        Sum sum = sum(made, 0, 24, new Sum(0, 0), ByteOrder.LITTLE_ENDIAN);
        made.putInt(sum.first).putInt(sum.second);
        for (int i : kept) {
            int at = made.position();
            made.put(bytes.slice(HEAD + i * size, size));
            sum = sum(made, at, 8, sum, ByteOrder.LITTLE_ENDIAN);
            sum = sum(made, at + FRAME_HEAD, pageSize, sum, ByteOrder.LITTLE_ENDIAN);
            made.putInt(at + 16, sum.first).putInt(at + 20, sum.second);
        }
        return made.array();
    }
}
