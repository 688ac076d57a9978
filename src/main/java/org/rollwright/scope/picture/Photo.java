package org.rollwright.scope.picture;

/// A photograph as it is kept: pixels only, upright, in JPEG, with a small picture of it.
///
/// Its name is the hash of its bytes, so the same photograph is kept once and a damaged file is noticed.
public final class Photo {
    private final String id;
    private final int width;
    private final int height;
    private final byte[] jpeg;
    private final byte[] thumbnail;

    Photo(int width, int height, byte[] jpeg, byte[] thumbnail) {
        this.id = idOf(jpeg);
        this.width = width;
        this.height = height;
        this.jpeg = jpeg;
        this.thumbnail = thumbnail;
    }

    /// First half of the SHA-256 of the bytes, 32 hexadecimal digits.
    public static String idOf(byte[] jpeg) {
        try {
            byte[] hash = java.security.MessageDigest.getInstance("SHA-256").digest(jpeg);
            return java.util.HexFormat.of().formatHex(hash, 0, 16);
        } catch (java.security.NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    /// Whether a text can name a photograph.
    public static boolean isId(String text) {
        return text.matches("[0-9a-f]{32}");
    }

    public String id() {
        return id;
    }

    public int width() {
        return width;
    }

    public int height() {
        return height;
    }

    /// The kept file.
    public byte[] jpeg() {
        return jpeg.clone();
    }

    /// A small JPEG, its longer side 320 pixels at most.
    public byte[] thumbnail() {
        return thumbnail.clone();
    }
}
