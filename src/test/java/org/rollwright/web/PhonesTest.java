package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.web.guard.Guesses;
import org.rollwright.web.guard.Lan;

/// The port for phones: where it listens, and what becomes of those who guess. Addresses of the loopback
/// network stand for those of a house, which a test machine may not have.
class PhonesTest {
    @TempDir
    private Path folder;

    private final TestBench bench = new TestBench();

    @AfterEach
    void close() {
        bench.close();
    }

    private static boolean listens(String address, int port) {
        try (Socket socket = new Socket()) {
            socket.connect(new InetSocketAddress(address, port), 2_000);
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    @Test
    void it_listens_on_the_addresses_shown_and_no_other() throws Exception {
        Lan lan = Lan.open(folder, Instant.now(), List.of("127.0.0.1", "127.0.0.5"));
        int port = bench.server.alsoFor(lan, bench.bench, 17_500, told -> {}).orElseThrow();
        for (String address : lan.addresses()) {
            assertThat(listens(address, port)).as(address).isTrue();
        }
        for (String address : List.of("127.0.0.2", "127.0.0.6", "::1")) {
            assertThat(listens(address, port)).as(address).isFalse();
        }
        for (String address : Lan.ownAddresses()) {
            assertThat(listens(address, port)).as(address).isFalse();
        }
    }

    @Test
    void a_port_that_is_taken_on_one_address_is_taken_on_none() throws Exception {
        Lan lan = Lan.open(folder, Instant.now(), List.of("127.0.0.1", "127.0.0.5"));
        try (java.net.ServerSocket other = new java.net.ServerSocket()) {
            other.bind(new InetSocketAddress("127.0.0.5", 17_540));
            int port =
                    bench.server.alsoFor(lan, bench.bench, 17_540, told -> {}).orElseThrow();
            assertThat(port).isEqualTo(17_541);
            assertThat(listens("127.0.0.1", 17_540)).isFalse();
        }
    }

    private String ask(Lan lan, String from, int port, String path, String cookie) throws Exception {
        try (Socket socket = Wire.secret(lan, from, port)) {
            return Wire.ask(
                    socket,
                    "GET " + path + " HTTP/1.1\nHost: 127.0.0.1:" + port
                            + (cookie.isEmpty() ? "" : "\nCookie: rollwright-lan=" + cookie)
                            + "\nConnection: close\n\n");
        }
    }

    private static int seconds(String answer) {
        return answer.lines()
                .filter(line -> line.startsWith("Retry-After: "))
                .mapToInt(line -> Integer.parseInt(line.substring(13)))
                .findFirst()
                .orElse(0);
    }

    @Test
    void who_guesses_has_to_wait_longer_each_time_and_the_computer_says_so() throws Exception {
        Lan lan = Lan.open(folder, Instant.now(), List.of("127.0.0.1"));
        List<String> told = new ArrayList<>();
        int port = bench.server.alsoFor(lan, bench.bench, 17_560, told::add).orElseThrow();
        for (int i = 1; i < Guesses.FREE; i++) {
            assertThat(Wire.status(ask(lan, "127.0.0.9", port, "/join?word=guess" + i, "")))
                    .as("try " + i)
                    .isEqualTo(403);
        }
        assertThat(told).isEmpty();
        int before = 0;
        for (int i = 0; i < 6; i++) {
            String answer = i % 2 == 0
                    ? ask(lan, "127.0.0.9", port, "/join?word=more" + i, "")
                    : ask(lan, "127.0.0.9", port, "/mat", "more" + i);
            assertThat(Wire.status(answer)).isEqualTo(429);
            assertThat(seconds(answer)).as("try " + i).isGreaterThan(before);
            assertThat(answer).contains("Wait " + seconds(answer) + " seconds");
            before = seconds(answer);
            assertThat(Wire.status(ask(lan, "127.0.0.9", port, "/join?word=" + lan.word(), "")))
                    .as("not even the right word is looked at")
                    .isEqualTo(429);
            bench.now.updateAndGet(time -> time.plusSeconds(seconds(answer)));
        }
        assertThat(told).hasSize(2).allSatisfy(sentence -> assertThat(sentence).contains("127.0.0.9"));
        assertThat(Wire.ask(Wire.port(bench), "GET /settings", "", "")).contains("10 wrong words");
        assertThat(Wire.status(ask(lan, "127.0.0.9", port, "/join?word=" + lan.word(), "")))
                .as("after the wait")
                .isEqualTo(200);
    }

    @Test
    void a_phone_that_knows_the_word_is_never_kept_out_by_others() throws Exception {
        Lan lan = Lan.open(folder, Instant.now(), List.of("127.0.0.1"));
        int port = bench.server.alsoFor(lan, bench.bench, 17_580, told -> {}).orElseThrow();
        long begin = System.nanoTime();
        int looked = 0;
        for (int i = 0; i < 60; i++) {
            String answer = i % 2 == 0
                    ? ask(lan, "127.0.0." + (10 + i % 3), port, "/join?word=guess" + i, "")
                    : ask(lan, "127.0.0." + (10 + i % 3), port, "/mat", "guess" + i);
            looked += Wire.status(answer) == 403 ? 1 : 0;
            if (i % 10 == 9) {
                assertThat(ask(lan, "127.0.0.20", port, "/mat/1", lan.word()))
                        .as("another phone")
                        .contains("Box 12");
                assertThat(ask(lan, "127.0.0.10", port, "/mat/1", lan.word()))
                        .as("even from the address of the one who guesses")
                        .contains("Box 12");
            }
        }
        System.out.println("60 guesses from three addresses: " + looked + " answered with no wait, "
                + (System.nanoTime() - begin) / 1_000_000 + " ms");
        assertThat(looked).isEqualTo(3 * (Guesses.FREE - 1));
        assertThat(Wire.status(ask(lan, "127.0.0.20", port, "/mat", "")))
                .as("without a word")
                .isEqualTo(403);
    }
}
