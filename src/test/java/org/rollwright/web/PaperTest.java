package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.rollwright.web.shell.Render.PAGES;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.ImageType;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.rollwright.album.AlbumEvent;
import org.rollwright.cabinet.LabelSheet;
import org.rollwright.web.paper.Paper;

/// What is printed, read back: text, codes, places on the page.
class PaperTest {
    private final TestBench bench = new TestBench();

    @AfterEach
    void close() {
        bench.close();
    }

    private HttpResponse<byte[]> send(HttpRequest.Builder request) throws IOException, InterruptedException {
        try (HttpClient client = HttpClient.newHttpClient()) {
            return client.send(request.build(), HttpResponse.BodyHandlers.ofByteArray());
        }
    }

    private PDDocument labels(String form) throws IOException, InterruptedException {
        HttpResponse<byte[]> response = send(HttpRequest.newBuilder(URI.create(bench.address + "/cabinet/labels.pdf"))
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(form)));
        assertThat(response.statusCode()).isEqualTo(200);
        assertThat(response.headers().firstValue("Content-Type").orElse("")).startsWith("application/pdf");
        return Loader.loadPDF(response.body());
    }

    /// Reads the code in the lower right corner of each label, which also says that it lies there.
    private static List<String> codes(PDDocument document, LabelSheet sheet, int labels) throws IOException {
        int dpi = 300;
        BufferedImage image = new PDFRenderer(document).renderImageWithDPI(0, dpi, ImageType.GRAY);
        List<String> texts = new ArrayList<>();
        for (int n = 0; n < labels; n++) {
            double side = 21.5;
            int x = (int) ((sheet.x(n) + sheet.width() - side) / 25.4 * dpi);
            int y = (int) ((sheet.y(n) + sheet.height() - side) / 25.4 * dpi);
            int pixels = (int) (side / 25.4 * dpi);
            int[] rgb = image.getRGB(x, y, pixels, pixels, null, 0, pixels);
            try {
                texts.add(new QRCodeReader()
                        .decode(new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(pixels, pixels, rgb))))
                        .getText());
            } catch (com.google.zxing.ReaderException e) {
                texts.add("none on label " + n);
            }
        }
        return texts;
    }

    @Test
    void labels_say_the_coin_and_their_codes_open_its_page() throws Exception {
        bench.type("36d vf30 bn", "19s g6", "x2 41");
        try (PDDocument document = labels("coin=f1.1&coin=f2.1&coin=f3.1&coin=f3.2")) {
            assertThat(document.getNumberOfPages()).isEqualTo(1);
            String text = new PDFTextStripper().getText(document);
            assertThat(text)
                    .contains("1936-D")
                    .contains("VF30 BN")
                    .contains("1919-S")
                    .contains("f3.2");
            assertThat(codes(document, LabelSheet.usual(), 4))
                    .containsExactly(
                            bench.address + "/cabinet/coin/f1.1",
                            bench.address + "/cabinet/coin/f2.1",
                            bench.address + "/cabinet/coin/f3.1",
                            bench.address + "/cabinet/coin/f3.2");
        }
    }

    /// With the mask that the standard's penalties choose, this one was not found on the page.
    @Test
    void a_code_that_a_reader_would_miss_is_masked_another_way() throws Exception {
        String missed = "http://127.0.0.1:46583/cabinet/coin/f2.1";
        LabelSheet sheet = LabelSheet.usual();
        List<Paper.Label> labels = new ArrayList<>();
        for (int n = 0; n < 4; n++) {
            labels.add(new Paper.Label(sheet.x(n), sheet.y(n), "US one cent", "", List.of(), Paper.qr(missed)));
        }
        byte[] pdf = Paper.pdf(PAGES.paperLabels(sheet, List.of(new Paper.LabelPage(labels))));
        try (PDDocument document = Loader.loadPDF(pdf)) {
            assertThat(codes(document, sheet, 4)).hasSize(4).containsOnly(missed);
        }
    }

    /// Places on the page within 0.3 mm of the sheet's geometry, on both papers, over a page's end.
    @Test
    void labels_lie_where_the_sheet_has_them() throws Exception {
        bench.type("x9 41");
        for (String paper : List.of("A4", "Letter")) {
            StringBuilder form = new StringBuilder(
                    "paper=" + paper + "&columns=3&rows=2&width=50&height=40&left=15.5&top=22&gapx=3&gapy=4.5&first=3");
            for (int piece = 1; piece <= 9; piece++) {
                form.append("&coin=f1.").append(piece);
            }
            LabelSheet sheet = new LabelSheet(
                    paper.equals("A4") ? LabelSheet.Paper.A4 : LabelSheet.Paper.LETTER,
                    3,
                    2,
                    50,
                    40,
                    15.5,
                    22,
                    3,
                    4.5,
                    3);
            try (PDDocument document = labels(form.toString())) {
                assertThat(document.getNumberOfPages()).isEqualTo(2);
                List<double[]> starts = new ArrayList<>();
                new PDFTextStripper() {
                    @Override
                    protected void writeString(String text, List<TextPosition> positions) {
                        if (text.startsWith("US one cent")) {
                            TextPosition first = positions.getFirst();
                            starts.add(new double[] {
                                getCurrentPageNo() - 1.0, mm(first.getXDirAdj()), mm(first.getYDirAdj())
                            });
                        }
                    }
                }.getText(document);
                assertThat(starts).hasSize(9);
                double baseline = starts.getFirst()[2] - sheet.y(0);
                for (int n = 0; n < 9; n++) {
                    int wanted = n;
                    assertThat(starts).as(paper + " label " + n).anySatisfy(start -> {
                        assertThat(start[0]).isEqualTo(sheet.page(wanted));
                        assertThat(start[1]).isCloseTo(sheet.x(wanted) + 1.5, within(0.3));
                        assertThat(start[2]).isCloseTo(sheet.y(wanted) + baseline, within(0.3));
                    });
                }
                // the first line's baseline lies below the label's edge by padding and letter height
                assertThat(baseline).isBetween(2.5, 5.5);
            }
        }
    }

    private static double mm(float points) {
        return points * 25.4 / 72;
    }

    @Test
    void a_sheet_that_does_not_fit_its_paper_is_refused() throws Exception {
        bench.type("41");
        HttpResponse<byte[]> response = send(HttpRequest.newBuilder(URI.create(bench.address + "/cabinet/labels.pdf"))
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString("coin=f1.1&columns=5&width=50")));
        assertThat(response.statusCode()).isEqualTo(422);
        assertThat(new String(response.body(), java.nio.charset.StandardCharsets.UTF_8))
                .contains("the paper ends at 210.0 mm");
    }

    @Test
    void lists_and_reports_hold_their_text() throws Exception {
        bench.typeAnEvening();
        bench.bench
                .desk()
                .record(
                        0,
                        "",
                        book -> new AlbumEvent.AlbumDefined(
                                book.album().nextAlbum(), "Wheat cents", "series wheat; years 1934-1958"));
        for (String[] expected : new String[][] {
            {"/cabinet/insurance.pdf", "Coins owned", "1936-D", "face value"},
            {"/cabinet/insurance.pdf?paper=Letter&q=36d", "1 coins", "1936-D", "Box 12"},
            {"/albums/1/wants.pdf", "Wanted: Wheat cents", "holes filled", "1938"},
            {"/albums/1/page.pdf", "Wheat cents", "filled", "1941"},
            {"/boxes/1/report.pdf", "Box 12", "finds in the order logged", "1957-D"}
        }) {
            HttpResponse<byte[]> response = send(HttpRequest.newBuilder(URI.create(bench.address + expected[0])));
            assertThat(response.statusCode()).as(expected[0]).isEqualTo(200);
            try (PDDocument document = Loader.loadPDF(response.body())) {
                String text = new PDFTextStripper().getText(document);
                assertThat(text).as(expected[0]).contains(expected[1]);
                boolean letter = expected[0].contains("Letter");
                assertThat(mm(document.getPage(0).getMediaBox().getWidth()))
                        .isCloseTo(letter ? 215.9 : 210, within(0.3));
            }
        }
    }
}
