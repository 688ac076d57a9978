package org.rollwright.web.paper;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.BinaryBitmap;
import com.google.zxing.EncodeHintType;
import com.google.zxing.LuminanceSource;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.ReaderException;
import com.google.zxing.WriterException;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import com.google.zxing.qrcode.QRCodeWriter;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.QRCode;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import gg.jte.models.runtime.JteModel;
import io.javalin.http.Context;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Base64;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import org.rollwright.cabinet.LabelSheet;

/// Pages for printing: templates become PDF, black on white.
public final class Paper {
    /// Pixels to a module of a QR code.
    private static final int PIXELS = 4;
    /// Sides of a QR code in pixels at which it is read before it is printed: 20 mm at 200, 300 and 600 dots an
    /// inch.
    private static final int[] TRIED = {157, 236, 472};

    /// A list with a heading.
    ///
    /// @param notes lines under the heading
    /// @param rows cells in the order of the columns
    /// @param pictures data address of a picture for each row, blank for none; empty when no row has one
    public record Sheet(
            String title,
            String paper,
            List<String> notes,
            List<String> columns,
            List<List<String>> rows,
            List<String> pictures) {}

    /// One label.
    ///
    /// @param qr data address of the QR code
    public record Label(double x, double y, String name, String state, List<String> lines, String qr) {}

    /// A page of labels.
    public record LabelPage(List<Label> labels) {}

    static {
        // the library keeps a list of this computer's fonts; not among the user's own files
        System.setProperty("pdfbox.fontcache", System.getProperty("java.io.tmpdir"));
        com.openhtmltopdf.util.XRLog.setLoggingEnabled(false);
    }

    private Paper() {}

    /// A page as a document.
    public static byte[] pdf(JteModel page) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            PdfRendererBuilder builder = new PdfRendererBuilder();
            builder.useFastMode();
            builder.withProducer("Rollwright");
            // nothing is ever fetched: only data addresses are followed
            builder.useUriResolver((base, uri) -> uri.startsWith("data:") ? uri : null);
            builder.withHtmlContent(page.render(), null);
            builder.toStream(out);
            builder.run();
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory", e);
        }
        return out.toByteArray();
    }

    /// A QR code as a picture, four pixels to a module, with the quiet zone of four modules that ISO/IEC 18004
    /// asks for.
    public static String qr(String text) {
        try {
            ByteArrayOutputStream png = new ByteArrayOutputStream();
            ImageIO.write(readable(text), "png", png);
            return data("image/png", png.toByteArray());
        } catch (WriterException e) {
            throw new IllegalArgumentException("too long for a QR code: " + text, e);
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory", e);
        }
    }

    /// The mask that the standard's penalties choose leaves about one code in three hundred that a common
    /// reader does not find, on paper as on the screen; of such a code the first of the eight masks is taken
    /// that it reads.
    private static BufferedImage readable(String text) throws WriterException {
        BitMatrix usual = code(text, Map.of());
        BitMatrix chosen = usual;
        for (int mask = 0; !reads(chosen, text) && mask < QRCode.NUM_MASK_PATTERNS; mask++) {
            chosen = code(text, Map.of(EncodeHintType.QR_MASK_PATTERN, mask));
        }
        return picture(reads(chosen, text) ? chosen : usual, usual.getWidth() * PIXELS);
    }

    private static BitMatrix code(String text, Map<EncodeHintType, Object> more) throws WriterException {
        Map<EncodeHintType, Object> hints = new EnumMap<>(EncodeHintType.class);
        hints.put(EncodeHintType.ERROR_CORRECTION, ErrorCorrectionLevel.M);
        hints.put(EncodeHintType.MARGIN, 4);
        hints.putAll(more);
        return new QRCodeWriter().encode(text, BarcodeFormat.QR_CODE, 0, 0, hints);
    }

    /// @param side in pixels; where it is no whole number of modules some are a pixel wider, as a printer makes
    ///     them
    private static BufferedImage picture(BitMatrix code, int side) {
        BufferedImage image = new BufferedImage(side, side, BufferedImage.TYPE_BYTE_BINARY);
        int modules = code.getWidth();
        for (int y = 0; y < side; y++) {
            for (int x = 0; x < side; x++) {
                image.setRGB(x, y, code.get(x * modules / side, y * modules / side) ? 0 : 0xffffff);
            }
        }
        return image;
    }

    /// Whether it is read at each of the sizes that a printer or a camera may make of it.
    private static boolean reads(BitMatrix code, String text) {
        return IntStream.of(TRIED).allMatch(side -> reads(picture(code, side), text));
    }

    private static boolean reads(BufferedImage image, String text) {
        int width = image.getWidth();
        int height = image.getHeight();
        LuminanceSource light =
                new RGBLuminanceSource(width, height, image.getRGB(0, 0, width, height, null, 0, width));
        try {
            return new QRCodeReader()
                    .decode(new BinaryBitmap(new HybridBinarizer(light)))
                    .getText()
                    .equals(text);
        } catch (ReaderException e) {
            return false;
        }
    }

    /// A QR code for a terminal: two rows of modules in one line of half blocks, dark on light.
    public static String qrInLetters(String text) {
        try {
            BitMatrix code =
                    new QRCodeWriter().encode(text, BarcodeFormat.QR_CODE, 0, 0, Map.of(EncodeHintType.MARGIN, 2));
            StringBuilder lines = new StringBuilder();
            for (int y = 0; y < code.getHeight(); y += 2) {
                for (int x = 0; x < code.getWidth(); x++) {
                    boolean upper = code.get(x, y);
                    boolean lower = y + 1 < code.getHeight() && code.get(x, y + 1);
                    // what is printed is the light part, for terminals are dark
                    lines.append(upper ? lower ? " " : "▄" : lower ? "▀" : "█");
                }
                lines.append('\n');
            }
            return lines.toString();
        } catch (WriterException e) {
            throw new IllegalArgumentException("too long for a QR code: " + text, e);
        }
    }

    public static String data(String type, byte[] bytes) {
        return "data:" + type + ";base64," + Base64.getEncoder().encodeToString(bytes);
    }

    /// What the printer's built-in letters can show; others become a question mark.
    public static String plain(String text) {
        StringBuilder out = new StringBuilder();
        text.replace("≈", "about").codePoints().forEach(code -> {
            boolean known =
                    (code >= 32 && code < 127) || (code >= 160 && code < 256) || "–—‘’“”•…€›‹™".indexOf(code) >= 0;
            out.appendCodePoint(known ? code : '?');
        });
        return out.toString();
    }

    /// Answers with a document.
    public static void send(Context context, String name, byte[] pdf) {
        context.contentType("application/pdf");
        context.header("Content-Disposition", "inline; filename=\"" + name + "\"");
        context.result(pdf);
    }

    /// The size of paper that was asked for, as style sheets call it.
    public static String paper(Context context) {
        return "Letter".equals(context.queryParam("paper")) ? LabelSheet.Paper.LETTER.css() : LabelSheet.Paper.A4.css();
    }
}
