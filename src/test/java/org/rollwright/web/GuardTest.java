package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.rollwright.desk.State;

/// Requests that say one thing and mean another.
class GuardTest {
    private final TestBench bench = new TestBench();
    private final int port = Wire.port(bench);

    @AfterEach
    void close() {
        bench.close();
    }

    private long last() {
        return bench.bench.desk().<Long>read(State::last);
    }

    private static final String FORM = "\nContent-Type: application/x-www-form-urlenaround";

    /// Browsers ask no leave for a simple GET, so a method in a header would get past every check of origin.
    @ParameterizedTest
    @ValueSource(
            strings = {
                "X-HTTP-Method-Override: POST",
                "x-http-method-override: post",
                "X-HTTP-Method: POST",
                "X-Method-Override: POST",
                "X-Original-Method: POST"
            })
    void a_get_that_calls_itself_a_post_records_nothing(String header) throws IOException {
        long before = last();
        for (String origin : List.of("\nOrigin: https://coins.example", "\nSec-Fetch-Site: cross-site", "")) {
            for (String method : List.of("GET", "HEAD")) {
                String answer = Wire.ask(
                        port,
                        method + " /mat/1/line?line=%2B+44d&_method=POST",
                        origin + FORM + "\n" + header,
                        "line=%2B+44d");
                assertThat(Wire.status(answer)).as(method + origin).isIn(403, 404, 405);
            }
        }
        assertThat(last()).isEqualTo(before);
    }

    /// The other way round: what is sent as a POST is judged as one.
    @Test
    void a_post_that_calls_itself_a_get_is_judged_as_a_post() throws IOException {
        long before = last();
        String answer = Wire.ask(
                port,
                "POST /mat/1/line",
                FORM + "\nX-HTTP-Method-Override: GET\nOrigin: https://coins.example",
                "line=%2B+44d");
        assertThat(Wire.status(answer)).isEqualTo(403);
        assertThat(last()).isEqualTo(before);
        String ours = Wire.ask(port, "POST /mat/1/line", FORM + "\nX-HTTP-Method-Override: GET", "line=%2B+44d");
        assertThat(Wire.status(ours)).as("the header has no effect").isEqualTo(303);
        assertThat(last()).isEqualTo(before + 1);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "get /mat/1",
                "post /mat/1/line",
                "Post /mat/1/line",
                "PUT /mat/1/line",
                "DELETE /mat/1",
                "PATCH /mat/1/line",
                "QUERY /mat/1/line",
                "BREW /mat/1/line",
                "BEFORE /mat/1/line",
                "TRACE /mat/1",
                "OPTIONS /mat/1",
                "OPTIONS *",
                "CONNECT 127.0.0.1:80",
                "PRI *"
            })
    void other_methods_do_nothing_and_are_told_so(String what) throws IOException {
        long before = last();
        String answer = Wire.ask(port, what, FORM + "\nX-Probe: echoed", "line=%2B+44d");
        assertThat(Wire.status(answer)).as(what).isIn(0, 400, 403, 404, 405, 501, 505);
        assertThat(answer).doesNotContain("echoed").doesNotContain("\tat ");
        assertThat(last()).isEqualTo(before);
    }

    /// Whatever else a request says of where it goes, it is the name in `Host` that counts, and there is one.
    @Test
    void a_request_goes_to_one_host_by_one_name() throws IOException {
        String own = "127.0.0.1:" + port;
        for (String head : List.of(
                "GET http://coins.example/mat HTTP/1.1\nHost: " + own,
                "GET http://coins.example/mat HTTP/1.1\nHost: coins.example",
                "GET /mat HTTP/1.1\nHost: " + own + "\nHost: coins.example",
                "GET /mat HTTP/1.1\nHost: coins.example\nHost: " + own,
                "GET /mat HTTP/1.1\nHost: coins.example\nX-Forwarded-Host: " + own,
                "GET /mat HTTP/1.1\nHost: coins.example\nForwarded: host=" + own,
                "GET /mat HTTP/1.1\nHost: " + own + "@coins.example",
                "GET /mat HTTP/1.1\nHost: coins.example#" + own,
                "GET /mat HTTP/1.1",
                "GET /mat HTTP/1.0")) {
            String answer = Wire.ask(port, head + "\nConnection: close\n\n");
            assertThat(Wire.status(answer)).as(head).isIn(400, 403);
            assertThat(answer).as(head).doesNotContain("<nav");
        }
        assertThat(Wire.status(Wire.ask(
                        port, "GET http://" + own + "/mat HTTP/1.1\nHost: " + own + "\nConnection: close\n\n")))
                .as("the absolute form of our own address")
                .isEqualTo(200);
    }

    /// Nothing that a link, a picture or a prefetch can ask for may change anything, whatever it brings along.
    @Test
    void asking_for_a_page_never_changes_anything() throws IOException {
        bench.typeAnEvening();
        long before = last();
        String brought = "line=%2B+44d&do=save&find=1&what=44d&kind=DRAW&amount=5.00&region=us&name=x&hunt=1&album=1"
                + "&photo=1&back=%2Fmat&a=1&b=2&place=1&coin=f1.1&to=1";
        List<String> pages = new ArrayList<>();
        for (String route : bench.server.pages()) {
            String path = route.replaceAll("\\{[^}]*\\}", "1");
            if (path.endsWith("/live")) {
                continue;
            }
            pages.add(path);
            String answer = Wire.ask(port, "GET " + path + "?" + brought, FORM, brought);
            assertThat(Wire.status(answer)).as(path).isLessThan(500).isNotZero();
            Wire.ask(port, "HEAD " + path + "?" + brought, "", "");
        }
        assertThat(pages).hasSizeGreaterThan(50);
        assertThat(last()).isEqualTo(before);
        assertThat(bench.bench.settings().read()).isEmpty();
        assertThat(bench.stops.get()).isZero();
    }

    /// Links from elsewhere may open a page; a foreign page may not have one drawn behind the hunter's back.
    @Test
    void a_foreign_page_cannot_keep_the_tool_busy() throws IOException {
        String picture = "\nSec-Fetch-Site: cross-site\nSec-Fetch-Mode: no-cors\nSec-Fetch-Dest: image";
        String link = "\nSec-Fetch-Site: cross-site\nSec-Fetch-Mode: navigate\nSec-Fetch-Dest: document";
        String frame = "\nSec-Fetch-Site: cross-site\nSec-Fetch-Mode: navigate\nSec-Fetch-Dest: iframe";
        assertThat(Wire.status(Wire.ask(port, "GET /odds", picture, ""))).isEqualTo(403);
        assertThat(Wire.status(Wire.ask(port, "GET /mat", frame, ""))).isEqualTo(403);
        assertThat(Wire.status(Wire.ask(port, "GET /mat", link, ""))).isEqualTo(200);
    }

    private static final List<String> BROKEN = List.of(
            "%uff0e", "%u0041", "%zz", "%", "%4", "%%", "%-1", "%+1", "%c0%ae", "%ff", "%ed%a0%80", "%e2%82", "%G0");

    /// Seeded: an escape that is none, anywhere in an address or a form.
    @Test
    void an_escape_that_is_none_is_refused_with_a_sentence_and_changes_nothing() throws IOException {
        Random random = new Random(20_261_127);
        long before = last();
        List<String> pages = bench.server.pages();
        for (int round = 0; round < 400; round++) {
            String broken = BROKEN.get(random.nextInt(BROKEN.size()));
            String around = "ab".substring(random.nextInt(3)) + broken + "xy".substring(random.nextInt(3));
            String path = pages.get(random.nextInt(pages.size())).replaceAll("\\{[^}]*\\}", "1");
            String answer =
                    switch (random.nextInt(5)) {
                        case 0 -> Wire.ask(port, "GET " + path + "/" + around, "", "");
                        case 1 -> Wire.ask(port, "GET " + path + "?line=" + around, "", "");
                        case 2 -> Wire.ask(port, "GET " + path + "?" + around + "=1&x", "", "");
                        case 3 -> Wire.ask(port, "POST /mat/1/line", FORM, "line=%2B+44d&x=" + around);
                        default -> Wire.ask(port, "POST /mat/1/line", FORM, around + "&line=%2B+44d");
                    };
            assertThat(Wire.status(answer))
                    .as(round + ": " + around + " " + path + "\n" + answer)
                    .isEqualTo(400);
            assertThat(answer).as(path).contains("<h1>").doesNotContain("\tat ");
        }
        assertThat(last()).isEqualTo(before);
    }

    /// What only looks like an escape, or stands where escapes mean nothing, is no fault of anybody. Cookies are
    /// shared by all programs of a computer's loopback name.
    @Test
    void what_is_no_escape_is_left_alone() throws IOException {
        for (String header : List.of(
                "Cookie: other=%uff0e",
                "Cookie: other=%zz; \u00e4=%",
                "Cookie: =;;==;$Version=1",
                "Accept-Language: %uff0e",
                "Referer: http://127.0.0.1/%uff0e",
                "User-Agent: %zz%",
                "X-Bench: %uff0e")) {
            assertThat(Wire.status(Wire.ask(port, "GET /mat/1", "\n" + header, "")))
                    .as(header)
                    .isIn(200, 400);
        }
        assertThat(Wire.ask(port, "GET /mat/1", "\nCookie: other=%uff0e", "")).contains("Box 12");
        String all = "line=%2B+44d+%22100%25+%E2%82%AC+%F0%9F%AA%99+%00%22";
        assertThat(Wire.status(Wire.ask(port, "GET /mat/1/preview?" + all, "", "")))
                .isEqualTo(200);
    }

    /// What a form says of its letters and its parts is the sender's to get right.
    @ParameterizedTest
    @ValueSource(
            strings = {
                "application/x-www-form-urlenaround; charset",
                "application/x-www-form-urlenaround; charset=",
                "application/x-www-form-urlenaround; charset=utf-7",
                "application/x-www-form-urlenaround; charset=no-such-thing",
                "application/x-www-form-urlenaround; charset=\"%uff0e\"",
                "application/x-www-form-urlenaround; charset=utf-16",
                "multipart/form-data",
                "multipart/form-data; boundary=",
                "multipart/form-data; boundary=x; charset",
                "multipart/form-data; boundary=\"%uff0e",
                "%uff0e"
            })
    void a_form_that_cannot_be_read_is_refused(String type) throws IOException {
        long before = last();
        for (String path :
                List.of("/mat/1/line", "/till", "/scope/photos", "/mat/1/narration", "/settings", "/cabinet/add")) {
            String answer = Wire.ask(port, "POST " + path, "\nContent-Type: " + type, "--x\nline=%2B+44d");
            assertThat(Wire.status(answer)).as(path).isBetween(400, 499);
            assertThat(answer).doesNotContain("\tat ");
            String page = Wire.ask(port, "GET /cabinet?q=44d", "\nContent-Type: " + type, "");
            assertThat(Wire.status(page)).as("a page, " + type).isIn(200, 400);
        }
        assertThat(last()).isEqualTo(before);
    }

    /// Too much before the body: told so by the server, never a fault.
    @Test
    void headers_and_questions_are_bounded() throws IOException {
        for (String request : List.of(
                "GET /cabinet?q=" + "x".repeat(100_000) + " HTTP/1.1\nHost: 127.0.0.1",
                "GET /mat HTTP/1.1\nHost: 127.0.0.1\nX-Long: " + "x".repeat(100_000),
                "GET /mat HTTP/1.1\nHost: 127.0.0.1" + "\nX-Many: 1".repeat(20_000))) {
            int status;
            try {
                status = Wire.status(Wire.ask(port, request + "\nConnection: close\n\n"));
            } catch (IOException e) {
                // closed while we were still sending
                status = 431;
            }
            assertThat(status).isIn(0, 400, 414, 431);
        }
        assertThat(Wire.status(Wire.ask(port, "GET /mat", "", ""))).isEqualTo(200);
    }
}
