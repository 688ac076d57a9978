package org.rollwright.scope.picture;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/// A picture file walked piece by piece: the pieces a decoder needs, and whether anything foreign lies among or
/// behind the others.
final class PhotoFrame {
    /// Beginnings of other files and of scripts, which have no place in a photograph.
    private static final List<String> FOREIGN =
            List.of("<script", "<?php", "<html", "<svg", "<!doctype", "%pdf-", "pk\u0003\u0004", "\u007felf", "#!/");

    private final String format;
    private final byte[] clean;
    private final boolean foreign;
    private final byte[] exif;

    private PhotoFrame(String format, byte[] clean, boolean foreign, byte[] exif) {
        this.exif = exif;
        this.format = format;
        this.clean = clean;
        this.foreign = foreign;
    }

    /// Name of the format for a decoder.
    String format() {
        return format;
    }

    /// The file without notes, profiles, comments and whatever stood behind its end.
    byte[] clean() {
        return clean.clone();
    }

    /// The block of notes in EXIF, as TIFF; empty when there is none.
    byte[] exif() {
        return exif.clone();
    }

    boolean foreign() {
        return foreign;
    }

    /// @return empty when the file does not reach its own end
    static Optional<PhotoFrame> jpeg(byte[] bytes) {
        ByteArrayOutputStream clean = new ByteArrayOutputStream(bytes.length);
        clean.write(bytes, 0, 2);
        boolean foreign = false;
        byte[] exif = {};
        int at = 2;
        while (at + 4 <= bytes.length) {
            if ((bytes[at] & 0xff) != 0xff) {
                return Optional.empty();
            }
            int marker = bytes[at + 1] & 0xff;
            if (marker == 0xff) {
                at++;
                continue;
            }
            int length = (bytes[at + 2] & 0xff) << 8 | (bytes[at + 3] & 0xff);
            if (length < 2 || at + 2 + length > bytes.length) {
                return Optional.empty();
            }
            boolean note = (marker >= 0xe1 && marker <= 0xef && marker != 0xee) || marker == 0xfe;
            if (note) {
                foreign |= suspicious(bytes, at + 4, length - 2);
                if (marker == 0xe1 && PhotoReader.starts(bytes, at + 4, 'E', 'x', 'i', 'f', 0, 0) && length > 8) {
                    exif = Arrays.copyOfRange(bytes, at + 10, at + 2 + length);
                }
            } else {
                clean.write(bytes, at, length + 2);
            }
            at += length + 2;
            if (marker == 0xda) {
                int end = at;
                while (end + 1 < bytes.length
                        && !((bytes[end] & 0xff) == 0xff
                                && bytes[end + 1] != 0
                                && !((bytes[end + 1] & 0xff) >= 0xd0 && (bytes[end + 1] & 0xff) <= 0xd7)
                                && (bytes[end + 1] & 0xff) != 0xff)) {
                    end++;
                }
                clean.write(bytes, at, end - at);
                at = end;
                if (PhotoReader.starts(bytes, at, 0xff, 0xd9)) {
                    clean.write(bytes, at, 2);
                    return Optional.of(
                            new PhotoFrame("jpeg", clean.toByteArray(), foreign || foreignBehind(bytes, at + 2), exif));
                }
            }
        }
        return Optional.empty();
    }

    /// @return empty when the file does not reach its own end
    static Optional<PhotoFrame> png(byte[] bytes) {
        Set<String> needed = Set.of("IHDR", "PLTE", "tRNS", "IDAT", "IEND");
        ByteArrayOutputStream clean = new ByteArrayOutputStream(bytes.length);
        clean.write(bytes, 0, 8);
        boolean foreign = false;
        byte[] exif = {};
        int at = 8;
        while (at + 12 <= bytes.length) {
            long length = number(bytes, at);
            if (length < 0 || at + 12 + length > bytes.length) {
                return Optional.empty();
            }
            String type = new String(bytes, at + 4, 4, StandardCharsets.ISO_8859_1);
            int whole = (int) length + 12;
            if (needed.contains(type)) {
                clean.write(bytes, at, whole);
            } else {
                foreign |= suspicious(bytes, at + 8, (int) length);
                exif = type.equals("eXIf") ? Arrays.copyOfRange(bytes, at + 8, at + 8 + (int) length) : exif;
            }
            at += whole;
            if (type.equals("IEND")) {
                return Optional.of(
                        new PhotoFrame("png", clean.toByteArray(), foreign || foreignBehind(bytes, at), exif));
            }
        }
        return Optional.empty();
    }

    /// @return empty when the file does not reach its own end
    static Optional<PhotoFrame> webp(byte[] bytes) {
        Set<String> needed = Set.of("VP8 ", "VP8L", "VP8X", "ALPH");
        long size = littleEndian(bytes, 4) + 8;
        if (size > bytes.length) {
            return Optional.empty();
        }
        ByteArrayOutputStream clean = new ByteArrayOutputStream(bytes.length);
        boolean foreign = false;
        byte[] exif = {};
        boolean image = false;
        int at = 12;
        while (at + 8 <= size) {
            long length = littleEndian(bytes, at + 4);
            long whole = 8 + length + (length & 1);
            if (at + 8 + length > size) {
                return Optional.empty();
            }
            String type = new String(bytes, at, 4, StandardCharsets.ISO_8859_1);
            if (needed.contains(type)) {
                byte[] piece = Arrays.copyOfRange(bytes, at, (int) Math.min(size, at + whole));
                if (type.equals("VP8X") && length > 0) {
                    // only what is kept may be announced: alpha, no profile, notes or animation
                    piece[8] &= 0x10;
                }
                clean.writeBytes(piece);
                image |= type.startsWith("VP8") && !type.equals("VP8X");
            } else if (type.equals("ANIM") || type.equals("ANMF")) {
                return Optional.empty();
            } else {
                foreign |= suspicious(bytes, at + 8, (int) length);
                exif = type.equals("EXIF") ? Arrays.copyOfRange(bytes, at + 8, at + 8 + (int) length) : exif;
            }
            at += (int) whole;
        }
        if (!image) {
            return Optional.empty();
        }
        byte[] body = clean.toByteArray();
        ByteArrayOutputStream file = new ByteArrayOutputStream(body.length + 12);
        file.writeBytes("RIFF".getBytes(StandardCharsets.ISO_8859_1));
        int total = body.length + 4;
        for (int shift = 0; shift < 32; shift += 8) {
            file.write(total >> shift & 0xff);
        }
        file.writeBytes("WEBP".getBytes(StandardCharsets.ISO_8859_1));
        file.writeBytes(body);
        return Optional.of(
                new PhotoFrame("webp", file.toByteArray(), foreign || foreignBehind(bytes, (int) size), exif));
    }

    /// Phones put a second picture or a short film behind the end; anything else there is foreign.
    private static boolean foreignBehind(byte[] bytes, int from) {
        int at = from;
        while (at < bytes.length && bytes[at] == 0) {
            at++;
        }
        if (at == bytes.length) {
            return false;
        }
        boolean ofAPhone = PhotoReader.starts(bytes, at, 0xff, 0xd8, 0xff)
                || PhotoReader.starts(bytes, at + 4, 'f', 't', 'y', 'p');
        return !ofAPhone || suspicious(bytes, at, bytes.length - at);
    }

    private static boolean suspicious(byte[] bytes, int from, int length) {
        String text = new String(bytes, from, length, StandardCharsets.ISO_8859_1).toLowerCase(java.util.Locale.ROOT);
        return FOREIGN.stream().anyMatch(text::contains);
    }

    private static long number(byte[] bytes, int at) {
        return (bytes[at] & 0xffL) << 24
                | (bytes[at + 1] & 0xffL) << 16
                | (bytes[at + 2] & 0xffL) << 8
                | (bytes[at + 3] & 0xffL);
    }

    private static long littleEndian(byte[] bytes, int at) {
        return (bytes[at + 3] & 0xffL) << 24
                | (bytes[at + 2] & 0xffL) << 16
                | (bytes[at + 1] & 0xffL) << 8
                | (bytes[at] & 0xffL);
    }
}
