package org.rollwright.web;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.qrcode.QRCodeWriter;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;

/// Pages for printing: templates become PDF, black on white.
public final class Paper {
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

    static byte[] pdf(Render render, String template, Map<String, Object> values) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            PdfRendererBuilder builder = new PdfRendererBuilder();
            builder.useFastMode();
            builder.withProducer("Rollwright");
            // nothing is ever fetched: only data addresses are followed
            builder.useUriResolver((base, uri) -> uri.startsWith("data:") ? uri : null);
            builder.withHtmlContent(render.print(template, values), null);
            builder.toStream(out);
            builder.run();
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory", e);
        }
        return out.toByteArray();
    }

    /// A QR code as a picture, four pixels to a module, with the quiet zone of four modules that ISO/IEC 18004
    /// asks for.
    static String qr(String text) {
        try {
            BitMatrix code = new QRCodeWriter()
                    .encode(
                            text,
                            BarcodeFormat.QR_CODE,
                            0,
                            0,
                            Map.of(EncodeHintType.ERROR_CORRECTION, ErrorCorrectionLevel.M, EncodeHintType.MARGIN, 4));
            int scale = 4;
            BufferedImage image = new BufferedImage(
                    code.getWidth() * scale, code.getHeight() * scale, BufferedImage.TYPE_BYTE_BINARY);
            for (int y = 0; y < image.getHeight(); y++) {
                for (int x = 0; x < image.getWidth(); x++) {
                    image.setRGB(x, y, code.get(x / scale, y / scale) ? 0 : 0xffffff);
                }
            }
            ByteArrayOutputStream png = new ByteArrayOutputStream();
            ImageIO.write(image, "png", png);
            return data("image/png", png.toByteArray());
        } catch (WriterException e) {
            throw new IllegalArgumentException("too long for a QR code: " + text, e);
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory", e);
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

    static String data(String type, byte[] bytes) {
        return "data:" + type + ";base64," + Base64.getEncoder().encodeToString(bytes);
    }

    /// What the printer's built-in letters can show; others become a question mark.
    static String plain(String text) {
        StringBuilder out = new StringBuilder();
        text.replace("≈", "about").codePoints().forEach(code -> {
            boolean known =
                    (code >= 32 && code < 127) || (code >= 160 && code < 256) || "–—‘’“”•…€›‹™".indexOf(code) >= 0;
            out.appendCodePoint(known ? code : '?');
        });
        return out.toString();
    }
}
