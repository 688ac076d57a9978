package org.rollwright.store;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/// Reads entries out of the pages of a store's file one by one, without the database: where the first page or one in
/// the middle of the tree is destroyed, the database finds nothing, though the pages with the entries are whole.
///
/// What comes out is only a guess of what lay there; the chain of checksums tells what counts. Layout of pages:
/// "Database File Format", sqlite.org/fileformat2.html, sections 1.3, 1.6 and 2.1.
final class PageScan {
    private static final int LEAF_OF_TABLE = 0x0d;
    private static final int USUAL_PAGE = 4096;
    private static final int FIRST_PAGE_HEAD = 100;
    private static final int COLUMNS = 6;

    private final ByteBuffer file;
    private final int page;

    private PageScan(byte[] bytes) {
        this.file = ByteBuffer.wrap(bytes);
        int said = bytes.length >= FIRST_PAGE_HEAD ? file.getShort(16) & 0xFFFF : 0;
        this.page = said >= 512 && Integer.bitCount(said) == 1 ? said : USUAL_PAGE;
    }

    /// Every row of the journal's shape in a file, in no order.
    static List<SqliteJournal.Row> rows(byte[] bytes) {
        PageScan scan = new PageScan(bytes);
        List<SqliteJournal.Row> rows = new ArrayList<>();
        for (int start = 0; start + scan.page <= bytes.length; start += scan.page) {
            scan.page(start, rows);
        }
        return rows;
    }

    private void page(int start, List<SqliteJournal.Row> rows) {
        int head = start == 0 ? FIRST_PAGE_HEAD : start;
        if (file.get(head) != LEAF_OF_TABLE) {
            return;
        }
        int cells = file.getShort(head + 3) & 0xFFFF;
        for (int i = 0; i < cells && head + 8 + 2 * i + 2 <= start + page; i++) {
            int cell = start + (file.getShort(head + 8 + 2 * i) & 0xFFFF);
            if (cell < start + page) {
                try {
                    row(cell).ifPresent(rows::add);
                } catch (IndexOutOfBoundsException
                        | java.nio.BufferUnderflowException
                        | IllegalArgumentException
                        | ArithmeticException e) {
                    // a damaged cell: the next one
                }
            }
        }
    }

    /// A place in the bytes, moved on by what is read.
    private static final class Reader {
        final ByteBuffer bytes;
        int at;

        Reader(ByteBuffer bytes, int at) {
            this.bytes = bytes;
            this.at = at;
        }

        long variable() {
            long value = 0;
            for (int i = 0; i < 8; i++) {
                byte next = bytes.get(at++);
                value = value << 7 | (next & 0x7F);
                if (next >= 0) {
                    return value;
                }
            }
            return value << 8 | (bytes.get(at++) & 0xFF);
        }

        long whole(int length) {
            long value = bytes.get(at);
            for (int i = 1; i < length; i++) {
                value = value << 8 | (bytes.get(at + i) & 0xFF);
            }
            at += length;
            return value;
        }
    }

    private Optional<SqliteJournal.Row> row(int cell) {
        Reader reader = new Reader(file, cell);
        long size = reader.variable();
        long seq = reader.variable();
        if (size < COLUMNS || size > file.capacity() || seq < 1) {
            return Optional.empty();
        }
        Reader payload = new Reader(ByteBuffer.wrap(payload(reader.at, (int) size)), 0);
        long head = payload.variable();
        long[] types = new long[COLUMNS];
        for (int i = 0; i < COLUMNS; i++) {
            types[i] = payload.variable();
        }
        boolean shaped = payload.at == head
                && types[0] == 0
                && isText(types[1])
                && isWhole(types[2])
                && isText(types[3])
                && isText(types[4])
                && isWhole(types[5]);
        if (!shaped) {
            return Optional.empty();
        }
        String at = text(payload, types[1]);
        long scope = whole(payload, types[2]);
        String raw = text(payload, types[3]);
        String body = text(payload, types[4]);
        return Optional.of(new SqliteJournal.Row(seq, at, scope, raw, body, whole(payload, types[5])));
    }

    /// What a cell holds, put together from its page and the pages it flows over into.
    private byte[] payload(int at, int size) {
        int usable = page;
        byte[] all = new byte[size];
        int most = usable - 35;
        int least = (usable - 12) * 32 / 255 - 23;
        int here = size;
        if (size > most) {
            int fitting = least + (size - least) % (usable - 4);
            here = fitting <= most ? fitting : least;
        }
        file.get(at, all, 0, here);
        int done = here;
        long next = size > here ? file.getInt(at + here) & 0xFFFFFFFFL : 0;
        while (done < size) {
            int start = Math.toIntExact((next - 1) * page);
            int some = Math.min(usable - 4, size - done);
            file.get(start + 4, all, done, some);
            done += some;
            next = file.getInt(start) & 0xFFFFFFFFL;
        }
        return all;
    }

    private static boolean isText(long type) {
        return type >= 13 && type % 2 == 1;
    }

    private static boolean isWhole(long type) {
        return (type >= 1 && type <= 6) || type == 8 || type == 9;
    }

    private static String text(Reader payload, long type) {
        long length = (type - 13) / 2;
        if (length > payload.bytes.capacity()) {
            throw new IllegalArgumentException("longer than all of it");
        }
        byte[] bytes = new byte[(int) length];
        payload.bytes.get(payload.at, bytes);
        payload.at += bytes.length;
        return new String(bytes, StandardCharsets.UTF_8);
    }

    private static long whole(Reader payload, long type) {
        return switch ((int) type) {
            case 8 -> 0;
            case 9 -> 1;
            case 5 -> payload.whole(6);
            case 6 -> payload.whole(8);
            default -> payload.whole((int) type);
        };
    }
}
