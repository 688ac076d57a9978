package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Mint;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.HuntId;

/// An evening's finds typed on the Mat, key by key.
class EveningKeysTest extends PageWithBench {
    private static final Path EVENING = Path.of("src/test/resources/entry/evening.txt");

    private static final Path CABINET = Path.of("src/test/resources/entry/cabinet300.txt");

    /// 469 were counted when this was first looked at, on as many lines of another evening.
    private static final int MOST_KEYS = 420;

    /// @param watches what is watched for from here on, blank for what was
    private record Line(String watches, String typed, String coin) {}

    private static List<Line> evening() throws IOException {
        List<Line> evening = new ArrayList<>();
        String watches = "";
        for (String line : Files.readAllLines(EVENING, StandardCharsets.UTF_8)) {
            if (line.startsWith("@ ")) {
                watches = line.substring(2);
            } else if (!line.startsWith("#")) {
                String[] parts = line.split(" \\| ");
                evening.add(new Line(watches, parts[0], parts[1]));
                watches = "";
            }
        }
        return evening;
    }

    private static String coin(Find find) {
        return coin(find.facts()) + (find.count() > 1 ? " x" + find.count() : "");
    }

    private static String coin(CoinDescription facts) {
        Mint mint = facts.identity().mint();
        String mark = mint == null
                ? "-?"
                : switch (mint.code()) {
                    case "P", "-" -> "";
                    case String code -> "-" + code;
                };
        return facts.identity().denomination().country().code() + " "
                + facts.identity().year() + mark;
    }

    private static void found(Page page, int finds) {
        for (int wait = 0; wait < 100 && finds > 0 && page.locator("#f" + finds).count() == 0; wait++) {
            assertThat(page.locator("#held").innerText()).isBlank();
            page.waitForTimeout(100);
        }
    }

    /// Hunts differ in what is watched for; starting one is counted elsewhere.
    private void watch(Page page, int before, String watches) {
        if (watches.isEmpty()) {
            return;
        }
        // what was typed is on its way: the watch begins behind it
        found(page, before);
        for (String name : List.of("wheat", "indian")) {
            boolean watched = bench.bench
                    .desk()
                    .read(book -> book.hunt().hunt(new HuntId(1)).orElseThrow().watches().stream()
                            .anyMatch(watch -> watch.name().equals(name)));
            if (watched != List.of(watches.split(" ")).contains(name)) {
                bench.type((watched ? "unwatch " : "watch ") + name);
            }
        }
    }

    @Test
    void fifty_four_mixed_finds_take_at_most_420_keys_and_each_is_the_coin_that_was_meant() throws Exception {
        List<Line> evening = evening();
        Page page = window.newPage();
        page.navigate(bench.address + "/mat/1");
        page.evaluate("window.keys = 0; document.addEventListener('keydown', () => window.keys++, true)");
        page.keyboard().press("=");
        for (int at = 0; at < evening.size(); at++) {
            watch(page, at, evening.get(at).watches());
            for (char key : evening.get(at).typed().toCharArray()) {
                page.keyboard().press(key == ' ' ? "Space" : String.valueOf(key));
            }
            // a find in every roll: the key that enters it opens the next one, 0 and 50 coins apart from the last
            page.keyboard().press(at + 1 < evening.size() && at < 49 ? "=" : "Enter");
        }
        found(page, evening.size());
        int keys = ((Number) page.evaluate("window.keys")).intValue();
        List<Find> finds = bench.bench
                .desk()
                .read(book -> book.hunt().finds().stream()
                        .sorted(Comparator.comparingInt(Find::ordinal))
                        .toList());
        assertThat(finds.stream().map(EveningKeysTest::coin).toList())
                .as(page.locator("#held").innerText() + page.locator("#preview").innerText())
                .isEqualTo(evening.stream().map(Line::coin).toList());
        int roll = bench.bench
                .desk()
                .read(book -> book.hunt().hunt(new HuntId(1)).orElseThrow().roll());
        assertThat(roll).isEqualTo(50);
        System.out.println("54 lines and 50 rolls: " + keys + " keys");
        assertThat(keys).isLessThanOrEqualTo(MOST_KEYS);
    }

    /// A second a key.
    @Test
    void three_hundred_coins_owned_before_take_twenty_minutes() throws Exception {
        List<String[]> coins = Files.readAllLines(CABINET, StandardCharsets.UTF_8).stream()
                .filter(line -> !line.startsWith("#"))
                .map(line -> line.split(" \\| "))
                .toList();
        assertThat(coins).hasSize(300);
        Page page = window.newPage();
        page.navigate(bench.address + "/cabinet");
        page.evaluate("window.keys = 0; document.addEventListener('keydown', () => window.keys++, true)");
        page.locator("form[action='/cabinet/add'] textarea").focus();
        for (String[] coin : coins) {
            page.keyboard().type(coin[0]);
            page.keyboard().press("Enter");
        }
        int keys = ((Number) page.evaluate("window.keys")).intValue();
        page.locator("form[action='/cabinet/add'] button").click();
        page.waitForLoadState();
        assertThat(page.locator("form[action='/cabinet/add'] textarea").inputValue())
                .as("lines that were not taken")
                .isBlank();
        List<String> owned = bench.bench
                .desk()
                .read(book -> book.cabinet().added().stream()
                        .map(coin -> coin(coin.description()))
                        .toList());
        assertThat(owned)
                .containsExactlyInAnyOrderElementsOf(
                        coins.stream().map(coin -> coin[1]).toList());
        System.out.println("300 coins: " + keys + " keys");
        assertThat(keys).isLessThanOrEqualTo(20 * 60);
    }
}
