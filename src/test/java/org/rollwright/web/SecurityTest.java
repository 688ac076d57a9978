package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.KeyStore;
import java.security.cert.X509Certificate;
import java.time.Duration;
import java.time.Instant;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManagerFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.rollwright.album.AlbumEvent;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.scope.picture.PaintedCoin;
import org.rollwright.till.Branch;
import org.rollwright.till.TillEvent;
import org.rollwright.web.guard.Lan;
import org.rollwright.web.paper.Paper;

/// What docs/security.md promises of the pages.
class SecurityTest extends PageWithBench {
    @TempDir
    private Path folder;

    private int port() {
        return Integer.parseInt(bench.address.substring(bench.address.lastIndexOf(':') + 1));
    }

    /// A request as written, without what a client library would add.
    private static String raw(Socket socket, String request) throws IOException {
        socket.setSoTimeout(20_000);
        OutputStream out = socket.getOutputStream();
        out.write(request.replace("\n", "\r\n").getBytes(StandardCharsets.UTF_8));
        out.flush();
        InputStream in = socket.getInputStream();
        return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }

    private String plain(String request) throws IOException {
        try (Socket socket = new Socket(java.net.InetAddress.getLoopbackAddress(), port())) {
            return raw(socket, request);
        }
    }

    private static int status(String answer) {
        return Integer.parseInt(answer.split(" ")[1]);
    }

    /// A server on all addresses would answer on every one of 127.0.0.0/8 (RFC 1122, 3.2.1.3), and on those of
    /// the networks this machine is in.
    @Test
    void it_listens_on_the_loopback_address_alone() {
        List<String> others = new java.util.ArrayList<>(Lan.ownAddresses());
        others.add("127.0.0.2");
        for (String address : others) {
            boolean answered;
            try (Socket socket = new Socket()) {
                socket.connect(new java.net.InetSocketAddress(address, port()), 2_000);
                answered = true;
            } catch (IOException e) {
                answered = false;
            }
            assertThat(answered).as(address).isFalse();
        }
    }

    /// DNS rebinding: a foreign name that points here is not ours.
    @ParameterizedTest
    @ValueSource(strings = {"coins.example", "coins.example:7300", "127.0.0.1.coins.example", "localhost.example", ""})
    void a_request_under_a_foreign_name_is_refused(String host) throws IOException {
        String answer = plain("GET /mat HTTP/1.1\nHost: " + host + "\nConnection: close\n\n");
        assertThat(status(answer)).isIn(400, 403);
        assertThat(answer).doesNotContain("<main");
    }

    /// Forms sent from another site: browsers name their origin, or say that it is another one.
    @ParameterizedTest
    @ValueSource(
            strings = {
                "Origin: https://coins.example",
                "Origin: null",
                "Origin: http://127.0.0.1:1",
                "Sec-Fetch-Site: cross-site",
                "Sec-Fetch-Site: same-site"
            })
    void a_form_from_another_site_changes_nothing(String header) throws IOException {
        String body = "kind=DRAW&amount=5.00";
        String answer = plain("POST /till HTTP/1.1\nHost: 127.0.0.1:" + port() + "\n" + header
                + "\nContent-Type: application/x-www-form-urlencoded\nContent-Length: " + body.length()
                + "\nConnection: close\n\n" + body);
        assertThat(status(answer)).isEqualTo(403);
        int moves = bench.bench.desk().read(book -> book.till().cashMoves().size());
        assertThat(moves).isZero();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/assets/../../pom.xml",
                "/assets/..%2f..%2fpom.xml",
                "/assets/%2e%2e%2f%2e%2e%2fpom.xml",
                "/assets/bench.css%00.js",
                "/scope/photo/..%2f..%2frollwright.db",
                "/guide/..%2f..%2f..%2fetc%2fpasswd",
                "/guide/%2e%2e/%2e%2e/etc/passwd"
            })
    void no_path_leads_out_of_the_house(String path) throws IOException {
        String answer = plain("GET " + path + " HTTP/1.1\nHost: 127.0.0.1:" + port() + "\nConnection: close\n\n");
        assertThat(status(answer)).isIn(400, 404);
        assertThat(answer).doesNotContain("root:").doesNotContain("modelVersion");
    }

    @Test
    void more_than_may_be_sent_is_refused_with_a_sentence() throws IOException {
        String answer = plain(
                "POST /scope/photos HTTP/1.1\nHost: 127.0.0.1:" + port()
                        + "\nContent-Type: multipart/form-data; boundary=x\nContent-Length: 900000000\nConnection: close\n\n--x");
        assertThat(status(answer)).isIn(400, 413);
        assertThat(answer).doesNotContain("\tat ");
    }

    private static final String PROBE =
            "\"'><img src=x onerror=\"window.hacked=1\"><script>window.hacked=1</script>{{7*7}}";

    /// Whatever a hunter types or takes in comes back as text, on every page.
    @Test
    void what_is_typed_is_never_run() {
        bench.typeAnEvening();
        bench.bench
                .desk()
                .record(
                        0,
                        "",
                        book -> new HuntEvent.BoxChanged(
                                new BoxId(1),
                                new BoxDetails(
                                        PROBE,
                                        BoxDetails.Form.BOX,
                                        50,
                                        50,
                                        0,
                                        PROBE,
                                        PROBE,
                                        PROBE,
                                        PROBE,
                                        PROBE,
                                        null,
                                        null,
                                        null,
                                        PROBE,
                                        PROBE)));
        bench.bench
                .desk()
                .record(
                        0,
                        "",
                        book -> new TillEvent.BranchWritten(new Branch(
                                PROBE,
                                PROBE,
                                true,
                                true,
                                EnumSet.allOf(java.time.DayOfWeek.class),
                                0,
                                java.math.BigDecimal.ZERO,
                                java.math.BigDecimal.ZERO,
                                3,
                                org.rollwright.journal.Word.of(org.rollwright.till.Bearing.N),
                                false,
                                PROBE)));
        bench.bench
                .desk()
                .record(
                        0,
                        "",
                        book -> new AlbumEvent.AlbumDefined(
                                book.album().nextAlbum(), PROBE, "series wheat; years 1940-1941"));
        bench.bench.desk().record(1, "", book -> new HuntEvent.Noted(new org.rollwright.hunt.HuntId(1), PROBE));
        bench.photograph(PaintedCoin.paint(null), PROBE);
        Page page = window.newPage();
        page.navigate(bench.address + "/mat/1");
        for (String path : List.of(
                "/mat",
                "/mat/1",
                "/mat/1/finish",
                "/boxes",
                "/boxes/1",
                "/albums",
                "/albums/1",
                "/albums/compare",
                "/scope",
                "/scope/photo/" + bench.photographs().getFirst(),
                "/recap/1",
                "/recap/1/overlay",
                "/recap/1/card.svg",
                "/recap/series",
                "/till",
                "/till/branches",
                "/till/time",
                "/till/round",
                "/cabinet",
                "/odds",
                "/cabinet?q=" + java.net.URLEncoder.encode(PROBE, StandardCharsets.UTF_8),
                "/scope?q=" + java.net.URLEncoder.encode(PROBE, StandardCharsets.UTF_8),
                "/odds?prices=" + java.net.URLEncoder.encode(PROBE, StandardCharsets.UTF_8),
                "/recap/1?zone=" + java.net.URLEncoder.encode(PROBE, StandardCharsets.UTF_8)
                        + "&began=2026-01-01+00:00",
                "/recap/1/overlay?theme=" + java.net.URLEncoder.encode(PROBE, StandardCharsets.UTF_8))) {
            var answer = page.navigate(bench.address + path);
            assertThat(page.evaluate("window.hacked === undefined")).as(path).isEqualTo(true);
            String text = answer.text();
            assertThat(text).as(path).doesNotContain("<script>window").doesNotContain("<img src=x");
            assertThat(answer.headers())
                    .as(path)
                    .containsEntry("x-content-type-options", "nosniff")
                    .containsKey("content-security-policy");
        }
    }

    private static final Pattern INLINE = Pattern.compile(
            "<script(?![^>]*\\bsrc=)(?![^>]*application/json)|<[a-z][^>]*\\son[a-z]+=|<[a-z][^>]*\\sstyle=|javascript:");

    @Test
    void no_page_has_script_or_style_of_its_own() {
        bench.typeAnEvening();
        Page page = window.newPage();
        for (String path : AllPages.PAGES) {
            var answer = page.request().get(bench.address + path);
            assertThat(INLINE.matcher(answer.text()).results().map(java.util.regex.MatchResult::group))
                    .as(path)
                    .isEmpty();
            assertThat(Optional.ofNullable(answer.headers().get("content-security-policy")))
                    .hasValueSatisfying(policy -> assertThat(policy)
                            .contains("default-src 'none'")
                            .contains("frame-ancestors 'none'")
                            .doesNotContain("unsafe"));
        }
    }

    @Test
    void a_photograph_is_served_as_what_it_is() {
        bench.photograph(PaintedCoin.paint(null), "one");
        Page page = window.newPage();
        var picture = page.request()
                .get(bench.address + "/photos/" + bench.photographs().getFirst() + ".jpg");
        assertThat(picture.headers())
                .hasEntrySatisfying("content-type", type -> assertThat(type).startsWith("image/jpeg"))
                .containsEntry("x-content-type-options", "nosniff");
    }

    /// Phones: encrypted, and nothing without the word, not even a picture or a style.
    @Test
    void a_phone_gets_in_with_the_word_only() throws Exception {
        // the loopback address stands for that of a network, which a test machine may not have
        List<String> own = List.of("127.0.0.1");
        Lan lan = Lan.open(folder, Instant.now(), own);
        assertThat(Lan.open(folder, Instant.now(), own).fingerprint())
                .as("the certificate stays")
                .isEqualTo(lan.fingerprint());
        assertThat(Lan.open(folder, Instant.now(), own).word())
                .isNotEqualTo(lan.word())
                .hasSize(26);
        assertThat(Files.getPosixFilePermissions(folder.resolve("lan.p12"))).hasSize(2);
        int phones = bench.server.alsoFor(lan, bench.bench, 17_400, told -> {}).orElseThrow();
        String host = lan.addresses().getFirst();
        for (String path : List.of("/", "/mat", "/assets/bench.css", "/mat/1/live", "/recap/1/card.svg")) {
            assertThat(status(secret(lan, host, phones, path, "", ""))).as(path).isEqualTo(403);
        }
        assertThat(status(secret(lan, host, phones, "/join?word=" + "a".repeat(26), "", "")))
                .isEqualTo(403);
        String joined = secret(lan, host, phones, "/join?word=" + lan.word(), "", "");
        assertThat(joined)
                .contains("Set-Cookie: rollwright-lan=" + lan.word())
                .contains("HttpOnly")
                .contains("Secure")
                .containsIgnoringCase("SameSite=Strict");
        assertThat(secret(lan, host, phones, "/mat/1", lan.word(), "")).contains("Box 12");
        assertThat(secret(lan, host, phones, "/settings", lan.word(), ""))
                .as("a phone cannot stop the tool")
                .contains("/settings")
                .doesNotContain("/settings/stop");
        assertThat(status(secret(lan, host, phones, "POST /settings/stop", "\nContent-Length: 0", lan.word(), "")))
                .isEqualTo(403);
        assertThat(bench.stops.get()).isZero();
        assertThat(status(secret(lan, host, phones, "/mat/1", lan.word(), "coins.example")))
                .isEqualTo(403);
        assertThat(lan.address(phones)).startsWith("https://" + host + ":" + phones + "/join?word=");
        assertThat(Paper.qrInLetters(lan.address(phones)).lines().count()).isGreaterThan(15);
    }

    /// A request to the phones' port by a client that trusts exactly this certificate.
    private static String secret(Lan lan, String host, int port, String path, String word, String name)
            throws Exception {
        return secret(lan, host, port, "GET " + path, "", word, name);
    }

    private static String secret(Lan lan, String host, int port, String what, String more, String word, String name)
            throws Exception {
        X509Certificate certificate = (X509Certificate) lan.keys().getCertificate("lan");
        KeyStore trusted = KeyStore.getInstance("PKCS12");
        trusted.load(null, null);
        trusted.setCertificateEntry("lan", certificate);
        TrustManagerFactory trust = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        trust.init(trusted);
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(null, trust.getTrustManagers(), null);
        assertThat(Duration.between(Instant.now(), certificate.getNotAfter().toInstant()))
                .isGreaterThan(Duration.ofDays(300));
        try (Socket socket = context.getSocketFactory().createSocket(host, port)) {
            return raw(
                    socket,
                    what + " HTTP/1.1" + more + "\nHost: " + (name.isEmpty() ? host : name) + ":" + port
                            + (word.isEmpty() ? "" : "\nCookie: rollwright-lan=" + word) + "\nConnection: close\n\n");
        }
    }
}
