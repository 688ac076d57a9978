package org.rollwright.scope.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.Random;
import java.util.zip.CRC32;
import java.util.zip.DeflaterOutputStream;
import javax.imageio.ImageIO;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.rollwright.coin.Refusal;

class PhotoReaderTest {
    /// Red in the upper left quarter, blue elsewhere, wider than high.
    private static BufferedImage picture() {
        BufferedImage picture = new BufferedImage(80, 40, BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = picture.createGraphics();
        graphics.setColor(Color.BLUE);
        graphics.fillRect(0, 0, 80, 40);
        graphics.setColor(Color.RED);
        graphics.fillRect(0, 0, 40, 20);
        graphics.dispose();
        return picture;
    }

    private static byte[] file(String format) {
        try {
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            assertThat(ImageIO.write(picture(), format, bytes)).isTrue();
            return bytes.toByteArray();
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    private static byte[] joined(byte[]... parts) {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        for (byte[] part : parts) {
            all.writeBytes(part);
        }
        return all.toByteArray();
    }

    private static byte[] text(String text) {
        return text.getBytes(StandardCharsets.ISO_8859_1);
    }

    /// A JPEG with an EXIF block that says how the camera was held, and where it stood.
    private static byte[] exif(int orientation) {
        byte[] jpeg = file("jpeg");
        byte[] tiff = joined(
                text("Exif\0\0II*\0\010\0\0\0"),
                new byte[] {2, 0},
                new byte[] {0x12, 1, 3, 0, 1, 0, 0, 0, (byte) orientation, 0, 0, 0},
                new byte[] {0x0e, 1, 2, 0, 20, 0, 0, 0, 38, 0, 0, 0},
                new byte[] {0, 0, 0, 0},
                text("GPS 45.1234N 67.89E\0"));
        int length = tiff.length + 2;
        byte[] app1 = joined(new byte[] {(byte) 0xff, (byte) 0xe1, (byte) (length >> 8), (byte) length}, tiff);
        byte[] head = java.util.Arrays.copyOf(jpeg, 2);
        byte[] rest = java.util.Arrays.copyOfRange(jpeg, 2, jpeg.length);
        return joined(head, app1, rest);
    }

    private static Photo good(byte[] bytes) {
        PhotoReader.Read read = PhotoReader.read(bytes);
        assertThat(read).isInstanceOf(PhotoReader.Read.Good.class);
        return ((PhotoReader.Read.Good) read).photo();
    }

    private static Refusal refused(byte[] bytes) {
        PhotoReader.Read read = PhotoReader.read(bytes);
        assertThat(read).isInstanceOf(PhotoReader.Read.Refused.class);
        PhotoReader.Read.Refused refused = (PhotoReader.Read.Refused) read;
        assertThat(refused.flaw().wrong()).endsWith(".");
        assertThat(refused.flaw().right()).endsWith(".");
        return refused.flaw();
    }

    private static boolean red(BufferedImage picture, double x, double y) {
        Color colour =
                new Color(picture.getRGB((int) (x * (picture.getWidth() - 1)), (int) (y * (picture.getHeight() - 1))));
        return colour.getRed() > 150 && colour.getBlue() < 100;
    }

    /// Where the first row and column of the stored pixels lie upright: EXIF 2.3, tag 0x0112.
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8})
    void the_camera_s_orientation_is_applied(int orientation) {
        Photo photo = good(exif(orientation));
        BufferedImage upright = PhotoReader.pixels(photo.jpeg());
        boolean swapped = orientation >= 5;
        assertThat(upright.getWidth()).isEqualTo(swapped ? 40 : 80);
        assertThat(upright.getHeight()).isEqualTo(swapped ? 80 : 40);
        double x = orientation == 1 || orientation == 4 || orientation == 5 || orientation == 8 ? 0.2 : 0.8;
        double y = orientation == 1 || orientation == 2 || orientation == 5 || orientation == 6 ? 0.2 : 0.8;
        for (double px : new double[] {0.2, 0.8}) {
            for (double py : new double[] {0.2, 0.8}) {
                assertThat(red(upright, px, py)).as(px + "/" + py).isEqualTo(px == x && py == y);
            }
        }
    }

    @Test
    void location_and_every_other_note_is_dropped() throws Exception {
        Photo photo = good(exif(6));
        String kept = new String(photo.jpeg(), StandardCharsets.ISO_8859_1);
        assertThat(kept).doesNotContain("GPS").doesNotContain("Exif").doesNotContain("45.1234");
        com.drew.metadata.Metadata metadata =
                com.drew.imaging.ImageMetadataReader.readMetadata(new java.io.ByteArrayInputStream(photo.jpeg()));
        metadata.getDirectories()
                .forEach(directory -> assertThat(directory.getName()).isIn("JPEG", "JFIF", "Huffman", "File Type"));
    }

    @Test
    void jpeg_png_and_webp_are_taken() {
        assertThat(good(file("jpeg")).width()).isEqualTo(80);
        assertThat(good(file("png")).height()).isEqualTo(40);
        // 32 by 32 pixels, lossless; written by an open encoder for this test
        byte[] webp = Base64.getDecoder().decode(WEBP);
        Photo photo = good(webp);
        assertThat(photo.width()).isEqualTo(32);
        assertThat(red(PhotoReader.pixels(photo.jpeg()), 0.2, 0.2)).isTrue();
        assertThat(good(Base64.getDecoder().decode(LOSSY_WEBP)).height()).isEqualTo(32);
    }

    private static final String LOSSY_WEBP =
            "UklGRlgAAABXRUJQVlA4IEwAAAAQAwCdASogACAAAUAmJaACxG7F4B+IH6q8YFygATNYAwAA/vLrf/5rrYSgfK//0triDjCOH/nqaCLP/2bbpoaZjhDRwZBEjsWAAAAA";

    private static final String WEBP = "UklGRjAAAABXRUJQVlA4TCMAAAAvH8AHABcQ8y8gKPJ/tPkP2oBM2iYmZ7Je90f0fwKq4NfuAwA=";

    @Test
    void the_same_picture_has_the_same_name() {
        assertThat(good(file("png")).id()).isEqualTo(good(file("png")).id()).matches("[0-9a-f]{32}");
    }

    private static byte[] chunk(String type, byte[] body) {
        CRC32 crc = new CRC32();
        byte[] name = text(type);
        crc.update(name);
        crc.update(body);
        return joined(number(body.length), name, body, number((int) crc.getValue()));
    }

    private static byte[] number(int value) {
        return new byte[] {(byte) (value >> 24), (byte) (value >> 16), (byte) (value >> 8), (byte) value};
    }

    private static byte[] bomb() throws IOException {
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (DeflaterOutputStream deflater = new DeflaterOutputStream(packed)) {
            byte[] zeros = new byte[1 << 20];
            for (int i = 0; i < 9; i++) {
                deflater.write(zeros);
            }
        }
        byte[] head = joined(number(30_000), number(30_000), new byte[] {8, 2, 0, 0, 0});
        return joined(
                new byte[] {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10},
                chunk("IHDR", head),
                chunk("IDAT", packed.toByteArray()),
                chunk("IEND", new byte[0]));
    }

    @Test
    void a_picture_of_30_000_by_30_000_pixels_in_ten_kilobytes_is_refused_by_its_size() throws Exception {
        byte[] bomb = bomb();
        assertThat(bomb.length).isLessThan(12_000);
        System.gc();
        long before = used();
        assertThat(refused(bomb).wrong()).contains("30000 by 30000");
        assertThat(used() - before).isLessThan(50_000_000);
    }

    private static long used() {
        return Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
    }

    @Test
    void a_bomb_in_a_note_of_a_png_is_never_unpacked() throws Exception {
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (DeflaterOutputStream deflater = new DeflaterOutputStream(packed)) {
            byte[] zeros = new byte[1 << 20];
            for (int i = 0; i < 400; i++) {
                deflater.write(zeros);
            }
        }
        byte[] png = file("png");
        byte[] note = chunk("zTXt", joined(text("x\0\0"), packed.toByteArray()));
        byte[] profile = chunk("iCCP", joined(text("x\0\0"), packed.toByteArray()));
        byte[] all = joined(
                java.util.Arrays.copyOf(png, 33), note, profile, java.util.Arrays.copyOfRange(png, 33, png.length));
        long before = used();
        assertThat(good(all).width()).isEqualTo(80);
        assertThat(used() - before).isLessThan(100_000_000);
    }

    @Test
    void what_is_no_photograph_is_refused_with_its_own_name() {
        assertThat(refused(text("MZ" + "x".repeat(100))).wrong()).contains("program");
        assertThat(refused(text("\177ELF" + "x".repeat(100))).wrong()).contains("program");
        assertThat(refused(text("<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>"))
                        .wrong())
                .contains("SVG");
        assertThat(refused(text("\0\0\0\040ftypheic" + "x".repeat(100))).wrong())
                .contains("HEIC");
        assertThat(refused(text("GIF89a" + "x".repeat(100))).right()).contains("JPEG");
        assertThat(refused(new byte[0]).wrong()).contains("empty");
        assertThat(refused(new byte[PhotoReader.MOST_BYTES + 1]).wrong()).contains("at most 25 MB");
    }

    @Test
    void cut_files_are_refused() {
        for (String format : new String[] {"jpeg", "png"}) {
            byte[] whole = file(format);
            for (int length = 40; length < whole.length - 1; length += 37) {
                refused(java.util.Arrays.copyOf(whole, length));
            }
        }
    }

    @Test
    void something_else_inside_or_behind_a_picture_is_refused() {
        for (String format : new String[] {"jpeg", "png"}) {
            byte[] whole = file(format);
            assertThat(refused(joined(whole, text("PK\3\4 a packed folder"))).wrong())
                    .contains("hidden");
            assertThat(refused(joined(whole, text("<script>alert(1)</script>"))).wrong())
                    .contains("hidden");
            assertThat(refused(joined(whole, new byte[] {'M', 'Z', 1, 2, 3})).wrong())
                    .contains("hidden");
            good(joined(whole, new byte[64]));
            // a phone's second picture behind the first is dropped
            good(joined(whole, file("jpeg")));
        }
        byte[] jpeg = file("jpeg");
        byte[] comment = text("<?php echo 1; ?>");
        byte[] hidden = joined(
                java.util.Arrays.copyOf(jpeg, 2),
                new byte[] {(byte) 0xff, (byte) 0xfe, 0, (byte) (comment.length + 2)},
                comment,
                java.util.Arrays.copyOfRange(jpeg, 2, jpeg.length));
        assertThat(refused(hidden).wrong()).contains("hidden");
    }

    /// Damaged files end in a photograph or a sentence, never in an exception.
    @Property(tries = 400)
    void damage_never_escapes(@ForAll long seed) {
        Random random = new Random(seed);
        byte[] bytes = random.nextBoolean() ? exif(1 + random.nextInt(8)) : file("png");
        for (int i = 0; i <= random.nextInt(20); i++) {
            bytes[random.nextInt(bytes.length)] = (byte) random.nextInt();
        }
        assertThat(PhotoReader.read(bytes)).isNotNull();
    }
}
