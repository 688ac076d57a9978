package org.rollwright.scope.picture;

import static org.rollwright.text.Texts.t;

import com.drew.lang.ByteArrayReader;
import com.drew.metadata.Metadata;
import com.drew.metadata.MetadataException;
import com.drew.metadata.exif.ExifIFD0Directory;
import com.drew.metadata.exif.ExifReader;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import org.rollwright.coin.Refusal;
import org.rollwright.journal.Declined;

/// Reads a photograph from bytes that nobody vouches for.
///
/// What kind a file is, its own first bytes say, never its name. Its frame is walked before any pixel is
/// decoded: sizes are bounded, a cut file and one with something else inside or behind are refused. What
/// remains are pixels, turned upright and written anew, so nothing of the file's own text survives.
public final class PhotoReader {
    /// Largest file taken, bytes.
    public static final int MOST_BYTES = 25_000_000;

    /// Most pixels a file may claim.
    public static final long MOST_PIXELS = 120_000_000;

    /// A larger picture is reduced by whole steps until it has no more pixels than this.
    public static final long KEPT_PIXELS = 16_000_000;

    private static final int THUMBNAIL = 320;
    /// One picture is decoded at a time, so that memory stays bounded whatever arrives.
    private static final Object ONE_AT_A_TIME = new Object();

    static {
        ImageIO.setUseCache(false);
    }

    private PhotoReader() {}

    /// What came of reading.
    public sealed interface Read {
        record Good(Photo photo) implements Read {}

        /// Nothing was kept.
        record Refused(Refusal flaw) implements Read {}
    }

    /// Reads and cleans a photograph.
    public static Read read(byte[] bytes) {
        try {
            synchronized (ONE_AT_A_TIME) {
                return new Read.Good(photo(bytes));
            }
        } catch (Declined e) {
            return new Read.Refused(e.why().getFirst());
        } catch (IOException | RuntimeException e) {
            return new Read.Refused(new Refusal(t("picture.damaged"), t("picture.send-again")));
        }
    }

    /// The pixels of a kept photograph.
    ///
    /// @param jpeg as [Photo#jpeg()] gives it
    public static BufferedImage pixels(byte[] jpeg) {
        try {
            BufferedImage picture = ImageIO.read(new ByteArrayInputStream(jpeg));
            if (picture == null) {
                throw new IllegalArgumentException("not a kept photograph");
            }
            return rgb(picture);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /// The small picture of a kept photograph, as [Photo#thumbnail()] has it.
    ///
    /// @param jpeg as [Photo#jpeg()] gives it
    public static byte[] small(byte[] jpeg) {
        synchronized (ONE_AT_A_TIME) {
            return jpeg(shrunk(pixels(jpeg)), 0.85f);
        }
    }

    /// A picture as JPEG, for showing.
    public static byte[] jpeg(BufferedImage picture) {
        return jpeg(picture, 0.9f);
    }

    private static Photo photo(byte[] bytes) throws IOException {
        if (bytes.length > MOST_BYTES) {
            throw new Declined(
                    t("picture.file-too-large", bytes.length / 1_000_000, MOST_BYTES / 1_000_000),
                    t("picture.save-the-photograph-smaller"));
        }
        PhotoFrame frame = frame(bytes);
        BufferedImage picture = decoded(frame);
        BufferedImage upright = upright(picture, orientation(frame.exif()));
        byte[] jpeg = jpeg(upright, 0.92f);
        return new Photo(upright.getWidth(), upright.getHeight(), jpeg, jpeg(shrunk(upright), 0.85f));
    }

    private static PhotoFrame frame(byte[] bytes) {
        if (bytes.length < 32) {
            throw new Declined(t("picture.empty"), t("picture.use-a-photograph-in"));
        }
        Optional<PhotoFrame> frame;
        if (starts(bytes, 0, 0xff, 0xd8, 0xff)) {
            frame = PhotoFrame.jpeg(bytes);
        } else if (starts(bytes, 0, 0x89, 'P', 'N', 'G', 0x0d, 0x0a, 0x1a, 0x0a)) {
            frame = PhotoFrame.png(bytes);
        } else if (starts(bytes, 0, 'R', 'I', 'F', 'F') && starts(bytes, 8, 'W', 'E', 'B', 'P')) {
            frame = PhotoFrame.webp(bytes);
        } else {
            throw notTaken(bytes);
        }
        if (frame.isEmpty()) {
            throw new Declined(t("picture.cut-short"), t("picture.send-again"));
        }
        if (frame.get().foreign()) {
            throw new Declined(t("picture.something-hidden"), t("picture.save-as-jpeg"));
        }
        return frame.get();
    }

    private static Declined notTaken(byte[] bytes) {
        String text = new String(bytes, 0, Math.min(bytes.length, 1024), StandardCharsets.ISO_8859_1)
                .stripLeading()
                .toLowerCase(java.util.Locale.ROOT);
        if (starts(bytes, 4, 'f', 't', 'y', 'p')) {
            return new Declined(t("picture.heic"), t("picture.use-jpeg"));
        }
        if (starts(bytes, 0, 'M', 'Z') || starts(bytes, 0, 0x7f, 'E', 'L', 'F') || text.startsWith("#!")) {
            return new Declined(t("picture.program"), t("picture.use-a-photograph-in"));
        }
        if (text.startsWith("<") || text.contains("<svg")) {
            return new Declined(t("picture.markup"), t("picture.use-a-photograph-in"));
        }
        return new Declined(t("picture.no-photograph"), t("picture.use-a-photograph-in"));
    }

    static boolean starts(byte[] bytes, int from, int... wanted) {
        if (bytes.length < from + wanted.length) {
            return false;
        }
        for (int i = 0; i < wanted.length; i++) {
            if ((bytes[from + i] & 0xff) != wanted[i]) {
                return false;
            }
        }
        return true;
    }

    private static BufferedImage decoded(PhotoFrame frame) throws IOException {
        Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName(frame.format());
        if (!readers.hasNext()) {
            throw new Declined(t("picture.kind-unreadable", frame.format()), t("picture.use-a-photograph-in"));
        }
        ImageReader reader = readers.next();
        try (ImageInputStream input = new MemoryCacheImageInputStream(new ByteArrayInputStream(frame.clean()))) {
            reader.setInput(input, true, true);
            int width = reader.getWidth(0);
            int height = reader.getHeight(0);
            long pixels = (long) width * height;
            if (pixels > MOST_PIXELS) {
                throw new Declined(
                        t("picture.too-many-pixels", width, height, MOST_PIXELS / 1_000_000),
                        t("picture.save-the-photograph-smaller"));
            }
            if (width < 16 || height < 16) {
                throw new Declined(t("picture.too-small", width, height), t("picture.use-a-photograph-in"));
            }
            int step = 1;
            while (pixels / ((long) step * step) > KEPT_PIXELS) {
                step++;
            }
            ImageReadParam param = reader.getDefaultReadParam();
            param.setSourceSubsampling(step, step, 0, 0);
            return reader.read(0, param);
        } finally {
            reader.dispose();
        }
    }

    /// What the camera wrote of how it was held; 1 when it says nothing usable.
    private static int orientation(byte[] exif) {
        if (exif.length == 0) {
            return 1;
        }
        try {
            // this block alone: other notes may be packed, and unpacking them is what a bomb waits for
            Metadata metadata = new Metadata();
            new ExifReader().extract(new ByteArrayReader(exif), metadata);
            for (ExifIFD0Directory directory : metadata.getDirectoriesOfType(ExifIFD0Directory.class)) {
                if (directory.containsTag(ExifIFD0Directory.TAG_ORIENTATION)) {
                    int value = directory.getInt(ExifIFD0Directory.TAG_ORIENTATION);
                    return value >= 1 && value <= 8 ? value : 1;
                }
            }
        } catch (MetadataException | RuntimeException e) {
            // a picture whose notes cannot be read is still a picture
        }
        return 1;
    }

    /// Turned as the eight orientations of EXIF 2.3 say (tag 0x0112).
    static BufferedImage upright(BufferedImage picture, int orientation) {
        int w = picture.getWidth();
        int h = picture.getHeight();
        AffineTransform turn =
                switch (orientation) {
                    case 2 -> new AffineTransform(-1, 0, 0, 1, w, 0);
                    case 3 -> new AffineTransform(-1, 0, 0, -1, w, h);
                    case 4 -> new AffineTransform(1, 0, 0, -1, 0, h);
                    case 5 -> new AffineTransform(0, 1, 1, 0, 0, 0);
                    case 6 -> new AffineTransform(0, 1, -1, 0, h, 0);
                    case 7 -> new AffineTransform(0, -1, -1, 0, h, w);
                    case 8 -> new AffineTransform(0, -1, 1, 0, 0, w);
                    default -> new AffineTransform();
                };
        boolean swapped = orientation >= 5;
        BufferedImage out = new BufferedImage(swapped ? h : w, swapped ? w : h, BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = out.createGraphics();
        graphics.setColor(Color.WHITE);
        graphics.fillRect(0, 0, out.getWidth(), out.getHeight());
        graphics.drawImage(picture, turn, null);
        graphics.dispose();
        return out;
    }

    private static BufferedImage rgb(BufferedImage picture) {
        return picture.getType() == BufferedImage.TYPE_INT_RGB ? picture : upright(picture, 1);
    }

    private static BufferedImage shrunk(BufferedImage picture) {
        double factor = Math.min(1, THUMBNAIL / (double) Math.max(picture.getWidth(), picture.getHeight()));
        BufferedImage now = picture;
        // halving step by step averages; one large step would only pick pixels
        while (factor < 0.5) {
            now = scaled(now, 0.5);
            factor *= 2;
        }
        return scaled(now, factor);
    }

    private static BufferedImage scaled(BufferedImage picture, double factor) {
        int w = Math.max(1, (int) Math.round(picture.getWidth() * factor));
        int h = Math.max(1, (int) Math.round(picture.getHeight() * factor));
        BufferedImage out = new BufferedImage(w, h, BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = out.createGraphics();
        graphics.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
        graphics.drawImage(picture, 0, 0, w, h, null);
        graphics.dispose();
        return out;
    }

    private static byte[] jpeg(BufferedImage picture, float quality) {
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
            writer.setOutput(out);
            ImageWriteParam param = writer.getDefaultWriteParam();
            param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            param.setCompressionQuality(quality);
            writer.write(null, new IIOImage(picture, List.of(), null), param);
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory", e);
        } finally {
            writer.dispose();
        }
        return bytes.toByteArray();
    }
}
