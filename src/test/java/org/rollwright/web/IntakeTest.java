package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.rollwright.desk.State;
import org.rollwright.web.shell.LivePages;

/// Who sends slowly, or much, keeps nobody from their page.
class IntakeTest {
    private static final String FORM = "\nContent-Type: application/x-www-form-urlencoded";
    private static final String PARTS = "\nContent-Type: multipart/form-data; boundary=cut";

    @TempDir
    private Path folder;

    /// Connections that send a byte a second.
    private static final class Dribble implements AutoCloseable {
        private final List<Socket> sockets = new ArrayList<>();
        private final AtomicBoolean going = new AtomicBoolean(true);
        private final Thread thread = new Thread(this::run, "dribble");

        Dribble(int port, int count, String head) throws IOException {
            for (int i = 0; i < count; i++) {
                Socket socket = Wire.open(port);
                sockets.add(socket);
                socket.getOutputStream().write(head.replace("\n", "\r\n").getBytes(StandardCharsets.UTF_8));
            }
            thread.setDaemon(true);
            thread.start();
        }

        private void run() {
            while (going.get()) {
                for (Socket socket : sockets) {
                    try {
                        socket.getOutputStream().write('1');
                    } catch (IOException e) {
                        // the server has had enough of this one
                    }
                }
                try {
                    Thread.sleep(1_000);
                } catch (InterruptedException e) {
                    return;
                }
            }
        }

        @Override
        public void close() throws IOException {
            going.set(false);
            thread.interrupt();
            for (Socket socket : sockets) {
                socket.close();
            }
        }
    }

    /// Four hundred of them, more than there are threads.
    @ParameterizedTest
    @ValueSource(
            strings = {
                "POST /mat/1/line HTTP/1.1" + FORM + "\nContent-Length: 1000\n\n",
                "POST /till HTTP/1.1" + FORM + "\nContent-Length: 8000000\n\n",
                "POST /till HTTP/1.1" + FORM + "\nTransfer-Encoding: chunked\n\n5000\n",
                "POST /scope/photos HTTP/1.1" + PARTS + "\nContent-Length: 30000000\n\n--cut\n",
                "GET /mat/1 HTTP/1.1\nX-Slow: "
            })
    void pages_answer_while_four_hundred_connections_dribble(String head) throws IOException {
        try (TestBench bench = new TestBench()) {
            int port = Wire.port(bench);
            String request = head.replaceFirst("\n", "\nHost: 127.0.0.1:" + port + "\n");
            Wire.ask(port, "GET /mat/1", "", "");
            long before = bench.bench.desk().<Long>read(State::last);
            try (Dribble dribble = new Dribble(port, 400, request)) {
                List<Long> millis = new ArrayList<>();
                for (int i = 0; i < 20; i++) {
                    long begin = System.nanoTime();
                    String page = i % 2 == 0
                            ? Wire.ask(port, "GET /mat/1", "", "")
                            : Wire.ask(port, "POST /mat/1/line", FORM, "line=%2B+44d");
                    millis.add((System.nanoTime() - begin) / 1_000_000);
                    assertThat(Wire.status(page)).isEqualTo(i % 2 == 0 ? 200 : 303);
                }
                millis.sort(null);
                System.out.println("beside 400 dribbling connections: median " + millis.get(10) + " ms, slowest "
                        + millis.getLast() + " ms");
                assertThat(millis.get(10)).isLessThan(200);
                assertThat(millis.getLast()).isLessThan(2_000);
                assertThat(dribble.sockets).hasSize(400);
            }
            assertThat(bench.bench.desk().<Long>read(State::last)).isEqualTo(before + 10);
        }
    }

    /// A page that follows a hunt sends nothing for hours, and stays.
    @Test
    void a_page_that_only_listens_is_not_taken_for_a_slow_sender() throws Exception {
        try (TestBench bench = new TestBench();
                Socket socket = Wire.open(Wire.port(bench))) {
            socket.getOutputStream()
                    .write("GET /mat/1/live HTTP/1.1\r\nHost: 127.0.0.1\r\nAccept: text/event-stream\r\n\r\n"
                            .getBytes(StandardCharsets.UTF_8));
            Thread.sleep(12_000);
            bench.type("+ 44d");
            listen(socket, "data: " + bench.bench.desk().<Long>read(State::last) + "\n");
        }
    }

    /// Whoever opens pages without end closes the first of them, and those that are open go on.
    @Test
    void only_so_many_pages_follow_at_once() throws Exception {
        try (TestBench bench = new TestBench()) {
            List<Socket> sockets = new ArrayList<>();
            for (int i = 0; i < 150; i++) {
                Socket socket = Wire.open(Wire.port(bench));
                sockets.add(socket);
                socket.getOutputStream()
                        .write("GET /mat/1/live HTTP/1.1\r\nHost: 127.0.0.1\r\nAccept: text/event-stream\r\n\r\n"
                                .getBytes(StandardCharsets.UTF_8));
                listen(socket, ": open");
            }
            assertThat(bench.server.following()).isEqualTo(LivePages.MOST);
            assertThat(new String(sockets.getFirst().getInputStream().readAllBytes(), StandardCharsets.UTF_8))
                    .as("the first has ended")
                    .doesNotContain("never");
            bench.type("+ 44d");
            listen(sockets.getLast(), "data: " + bench.bench.desk().<Long>read(State::last) + "\n");
            for (Socket socket : sockets) {
                socket.close();
            }
        }
    }

    private static void listen(Socket socket, String until) throws IOException {
        String heard = "";
        byte[] some = new byte[4096];
        while (!heard.contains(until)) {
            int n = socket.getInputStream().read(some);
            assertThat(n).isPositive();
            heard += new String(some, 0, n, StandardCharsets.UTF_8);
        }
    }

    /// What comes in small pieces, but steadily, is taken: a phone at the far end of the garage.
    @Test
    void a_body_in_pieces_is_taken() throws Exception {
        try (TestBench bench = new TestBench();
                Socket socket = Wire.open(Wire.port(bench))) {
            long before = bench.bench.desk().<Long>read(State::last);
            String body = "line=%2B+44d+%22" + "a".repeat(120) + "%22";
            OutputStream out = socket.getOutputStream();
            out.write(("POST /mat/1/line HTTP/1.1\nHost: 127.0.0.1\nConnection: close" + FORM + "\nContent-Length: "
                            + body.length() + "\n\n")
                    .replace("\n", "\r\n")
                    .getBytes(StandardCharsets.UTF_8));
            for (int i = 0; i < body.length(); i += 10) {
                out.write(body.substring(i, Math.min(body.length(), i + 10)).getBytes(StandardCharsets.UTF_8));
                Thread.sleep(300);
            }
            String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(Wire.status(answer)).isEqualTo(303);
            assertThat(bench.bench.desk().<Long>read(State::last)).isEqualTo(before + 1);
        }
    }

    private enum Body {
        FORM,
        LINES,
        LONG,
        ROWS,
        FIELD,
        FILE
    }

    private static void flood(int port, Body kind, List<Integer> answers) {
        String begin =
                switch (kind) {
                    case FORM, LONG -> "note=";
                    case LINES, ROWS -> "";
                    case FIELD -> "--cut\r\nContent-Disposition: form-data; name=\"caption\"\r\n\r\n";
                    case FILE ->
                        "--cut\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"a.jpg\"\r\n\r\n\u00ff\u00d8\u00ff";
                };
        boolean parts = kind == Body.FIELD || kind == Body.FILE;
        // two files, each as large as a photograph may be
        String between = kind == Body.FILE ? "\r\n" + begin : "";
        String end = parts ? "\r\n--cut--\r\n" : "";
        String some =
                switch (kind) {
                    case LINES -> "line=1&";
                    case ROWS -> "r12345-at=00%3A01%3A02.345&r12345-box=1&";
                    default -> "aaaaaaa";
                };
        byte[] piece = some.repeat(10_000).getBytes(StandardCharsets.UTF_8);
        int bytes =
                switch (kind) {
                    case FORM, LINES, FIELD -> 55_000_000;
                    case FILE -> 49_000_000;
                    case LONG -> 19_000_000;
                    case ROWS -> 9_500_000;
                };
        int pieces = bytes / piece.length;
        long length = begin.length() + (long) pieces * piece.length + between.length() + end.length();
        String path = parts ? "/scope/photos" : "/mat/1/line";
        try (Socket socket = Wire.open(port)) {
            socket.setSoTimeout(60_000);
            OutputStream out = socket.getOutputStream();
            out.write(("POST " + path + " HTTP/1.1\nHost: 127.0.0.1\nConnection: close" + (parts ? PARTS : FORM)
                            + "\nContent-Length: " + length + "\n\n")
                    .replace("\n", "\r\n")
                    .getBytes(StandardCharsets.UTF_8));
            out.write(begin.getBytes(StandardCharsets.ISO_8859_1));
            for (int i = 0; i < pieces; i++) {
                if (i == pieces / 2) {
                    out.write(between.getBytes(StandardCharsets.ISO_8859_1));
                }
                out.write(piece);
            }
            out.write(end.getBytes(StandardCharsets.UTF_8));
            String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            synchronized (answers) {
                answers.add(Wire.status(answer));
            }
        } catch (IOException e) {
            synchronized (answers) {
                answers.add(0);
            }
        }
    }

    /// In a program with a quarter of the memory the tool has, which ends at the first failure to get any.
    @ParameterizedTest
    @ValueSource(strings = {"FORM", "LINES", "FIELD", "FILE", "LONG", "ROWS"})
    void thirty_large_bodies_at_once_leave_the_tool_alive(String kind) throws Exception {
        Process tool = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-XX:+UseSerialGC",
                        "-XX:TieredStopAtLevel=1",
                        "-Xmx512m",
                        "-XX:+ExitOnOutOfMemoryError",
                        "-Djava.io.tmpdir=" + folder,
                        "-cp",
                        System.getProperty("java.class.path"),
                        "org.rollwright.web.TestBench")
                .redirectError(folder.resolve("errors").toFile())
                .start();
        try {
            String address = tool.inputReader().readLine();
            int port = Integer.parseInt(address.substring(address.lastIndexOf(':') + 1));
            CountDownLatch done = new CountDownLatch(30);
            List<Integer> answers = new ArrayList<>();
            for (int i = 0; i < 30; i++) {
                Thread.ofPlatform().daemon().start(() -> {
                    flood(port, Body.valueOf(kind), answers);
                    done.countDown();
                });
            }
            long slowest = 0;
            int finds = 0;
            while (finds < 5 || (!done.await(200, TimeUnit.MILLISECONDS) && finds < 500)) {
                long begin = System.nanoTime();
                String kept = Wire.ask(port, "POST /mat/1/line", FORM, "line=%2B+44d+%22meanwhile " + finds + "%22");
                slowest = Math.max(slowest, (System.nanoTime() - begin) / 1_000_000);
                assertThat(Wire.status(kept)).as("find " + finds).isEqualTo(303);
                finds++;
            }
            assertThat(done.await(90, TimeUnit.SECONDS)).isTrue();
            System.out.println("beside 30 large bodies (" + kind + "): " + finds + " finds, slowest " + slowest
                    + " ms; answers "
                    + new java.util.TreeMap<>(answers.stream()
                            .collect(java.util.stream.Collectors.groupingBy(
                                    status -> status, java.util.stream.Collectors.counting()))));
            assertThat(tool.isAlive()).isTrue();
            assertThat(Wire.ask(port, "GET /mat/1", "", "")).contains("meanwhile " + (finds - 1));
            assertThat(answers)
                    .as("each has an answer, and none is our mistake")
                    .allMatch(status -> status != 500);
            assertThat(Files.readString(folder.resolve("errors"))).doesNotContain("OutOfMemoryError");
        } finally {
            tool.destroyForcibly();
        }
    }

    /// Uploads are put into the folder for temporary files; when that cannot be, it is named.
    @Test
    void a_temporary_folder_that_takes_nothing_is_named() throws IOException {
        String before = System.getProperty("java.io.tmpdir");
        Path file = Files.createFile(folder.resolve("no-folder"));
        System.setProperty("java.io.tmpdir", file.toString());
        try (TestBench bench = new TestBench()) {
            String body = "--cut\nContent-Disposition: form-data; name=\"%s\"; filename=\"a.jpg\"\n\n"
                    + "x".repeat(100_000) + "\n--cut--\n";
            for (String path :
                    List.of("/scope/photos photo", "/mat/1/narration captions", "/scope/varieties.csv file")) {
                String sent = body.formatted(path.split(" ")[1]).replace("\n", "\r\n");
                String answer = Wire.askAsIs(
                        Wire.port(bench),
                        ("POST " + path.split(" ")[0] + " HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close"
                                + PARTS.replace("\n", "\r\n") + "\r\nContent-Length: " + sent.length() + "\r\n\r\n"
                                + sent));
                assertThat(Wire.status(answer)).as(path).isEqualTo(503);
                assertThat(answer).contains(file.toString()).contains("<h1>");
            }
        } finally {
            System.setProperty("java.io.tmpdir", before);
        }
    }

    /// A browser sends a photograph in pieces; the page waited for the second one in vain, until the time was up.
    @Test
    void a_large_body_that_comes_in_pieces_is_taken_at_once() throws Exception {
        try (TestBench bench = new TestBench();
                java.net.Socket socket = new java.net.Socket(java.net.InetAddress.getLoopbackAddress(), port(bench))) {
            socket.setSoTimeout(5_000);
            byte[] body = ("note=" + "x".repeat(3_000_000)).getBytes(java.nio.charset.StandardCharsets.UTF_8);
            java.io.OutputStream out = socket.getOutputStream();
            out.write(("POST /scale/cup HTTP/1.1\r\nHost: 127.0.0.1:" + port(bench)
                            + "\r\nConnection: close\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: "
                            + body.length + "\r\n\r\n")
                    .getBytes(java.nio.charset.StandardCharsets.US_ASCII));
            for (int at = 0; at < body.length; at += 300_000) {
                out.write(body, at, Math.min(300_000, body.length - at));
                out.flush();
                Thread.sleep(30);
            }
            byte[] answer = socket.getInputStream().readNBytes(12);
            assertThat(new String(answer, java.nio.charset.StandardCharsets.US_ASCII))
                    .startsWith("HTTP/1.1 ")
                    .doesNotContain(" 408");
        }
    }

    private static int port(TestBench bench) {
        return java.net.URI.create(bench.address).getPort();
    }
}
