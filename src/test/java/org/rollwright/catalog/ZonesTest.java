package org.rollwright.catalog;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.rollwright.coin.Country;
import org.rollwright.coin.Identity;

/// The drawings of catalog/zones and the zones on them.
class ZonesTest {
    private static final Catalog CATALOG = CatalogFolder.catalog();
    private static final Zones ZONES = CATALOG.zones();
    private static final int MOST_BYTES = 6_000;

    static String svg(Face face) throws IOException {
        return Files.readString(Path.of("catalog", "zones", face.name() + ".svg"));
    }

    @Test
    void every_coin_of_ours_has_two_faces() {
        assertThat(CatalogFolder.loaded().problems()).isEmpty();
        // our zones are read when a drawing is first shown, and never with a problem
        assertThat(ZoneLoader.load(CatalogFolder.files()).problems()).isEmpty();
        for (Issue issue : CATALOG.issues()) {
            for (Side side : Side.values()) {
                assertThat(ZONES.shown(issue, side))
                        .as(issue.identity() + " " + side)
                        .isPresent();
            }
        }
    }

    @Test
    void every_face_has_a_drawing_and_every_drawing_a_face() throws Exception {
        Set<String> drawn = new HashSet<>();
        try (Stream<Path> files = Files.list(Path.of("catalog", "zones"))) {
            files.map(file -> file.getFileName().toString())
                    .filter(name -> name.endsWith(".svg"))
                    .forEach(name -> drawn.add(name.replace(".svg", "")));
        }
        Set<String> named = new HashSet<>();
        ZONES.faces().forEach(face -> named.add(face.name()));
        assertThat(drawn).isEqualTo(named);
        for (Face face : ZONES.faces()) {
            String svg = svg(face);
            assertThat(svg.getBytes(StandardCharsets.UTF_8).length)
                    .as(face.name())
                    .isLessThan(MOST_BYTES);
            assertThat(svg)
                    .as(face.name())
                    .contains("viewBox=\"0 0 1000 1000\"", "stroke=\"currentColor\"", "class=\"field\"")
                    .doesNotContain("<image", "<script", "<text", "href", "style", "#");
            DocumentBuilderFactory.newInstance()
                    .newDocumentBuilder()
                    .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
            List<String> groups = groups(svg);
            assertThat(groups).as(face.name()).doesNotHaveDuplicates();
            assertThat(groups)
                    .as("groups of " + face.name() + " are zones")
                    .allMatch(group -> face.zone(group).isPresent());
        }
    }

    private static List<String> groups(String svg) {
        List<String> groups = new ArrayList<>();
        Matcher matcher = Pattern.compile(" id=\"([^\"]+)\"").matcher(svg);
        while (matcher.find()) {
            groups.add(matcher.group(1));
        }
        return groups;
    }

    @Test
    void zones_of_a_face_are_told_apart() {
        for (Face face : ZONES.faces()) {
            assertThat(face.zones().stream().map(Zone::id)).as(face.name()).doesNotHaveDuplicates();
            assertThat(face.zones().stream().map(Zone::name)).as(face.name()).doesNotHaveDuplicates();
        }
    }

    @Test
    void date_and_mint_mark_stand_in_their_zones() {
        for (Face face : ZONES.faces()) {
            for (Mark mark : face.marks()) {
                Zone zone = face.zone(mark.zone()).orElseThrow();
                double x = mark.x() - 500.0;
                double y = mark.y() - mark.size() / 2.0 - 500.0;
                double radius = mark.bend() == 0
                        ? Math.hypot(x, y)
                        : Math.abs(mark.bend()) + Math.signum(mark.bend()) * mark.size() / 2.0;
                double angle = mark.bend() == 0 ? Math.toDegrees(Math.atan2(x, -y)) : mark.x();
                // those of the war years stand elsewhere than the others of their face, in a zone of their own
                boolean elsewhere = mark.kind().equals("wartime");
                assertThat(elsewhere || zone.holds(radius / 4.9, angle))
                        .as(face.name() + " " + mark.what() + ": " + zone + " " + radius / 4.9 + " " + angle)
                        .isTrue();
            }
        }
    }

    /// Found by three people who were shown pictures only: a mint mark in the corner of its frame, half a figure in
    /// another. The frame of a mint mark or of the last figure of a date holds it with room on every side.
    @Test
    void small_spots_stand_in_the_middle_of_their_frames() {
        for (Face face : ZONES.faces()) {
            for (Mark mark : face.marks()) {
                String text = mark.what() == Mark.What.DATE
                        ? Integer.toString(mark.first() == 0 ? 1950 : mark.first())
                        : mark.mints().getFirst();
                String id = mark.what() == Mark.What.DATE ? "date-last" : mark.zone();
                Optional<Zone> zone = face.zone(id).filter(one -> one.sweep() < 60);
                boolean several = face.marks().stream()
                                .filter(one -> one.what() == mark.what())
                                .map(one -> one.x() + " " + one.y() + " " + one.bend())
                                .distinct()
                                .count()
                        > 1;
                if (zone.isEmpty() || several || mark.kind().equals("wartime")) {
                    continue;
                }
                double[] middle = middleOfLast(text, mark);
                Zone frame = zone.get();
                double round = (middle[1] - frame.from() + 360) % 360 / frame.sweep();
                double across = (middle[0] - frame.inner()) / (frame.outer() - frame.inner());
                assertThat(round).as("round " + face.name() + " " + frame).isBetween(0.28, 0.72);
                assertThat(across).as("across " + face.name() + " " + frame).isBetween(0.28, 0.72);
            }
        }
    }

    /// Radius in per cent and angle of the middle of a text's last letter.
    private static double[] middleOfLast(String text, Mark mark) {
        double scale = mark.size() / 100.0;
        double width = -24;
        double last = 0;
        for (String letter : text.split("")) {
            last = ZONES.letter(letter).orElseThrow().width();
            width += last + 24;
        }
        double right = (width / 2 - last / 2) * scale;
        double up = mark.size() / 2.0;
        if (mark.bend() == 0) {
            double turn = Math.toRadians(mark.turn());
            double x = mark.x() + right * Math.cos(turn) + up * Math.sin(turn) - 500;
            double y = mark.y() + right * Math.sin(turn) - up * Math.cos(turn) - 500;
            return new double[] {Math.hypot(x, y) / 4.9, (Math.toDegrees(Math.atan2(x, -y)) + 360) % 360};
        }
        double radius = Math.abs(mark.bend());
        double off = Math.toDegrees(right / radius);
        return new double[] {
            (radius + Math.signum(mark.bend()) * up) / 4.9, (mark.x() + (mark.bend() < 0 ? -off : off) + 360) % 360
        };
    }

    @Test
    void every_kind_and_every_check_names_zones_the_coin_has() {
        for (Issue issue : CATALOG.issues()) {
            boolean asks = !issue.identity().kind().isEmpty() || !issue.check().isEmpty();
            assertThat(issue.looks().isEmpty()).as(issue.identity().toString()).isEqualTo(!asks);
            for (Spot spot : issue.looks()) {
                assertThat(ZONES.has(issue, spot))
                        .as(issue.identity() + ": " + spot)
                        .isTrue();
            }
        }
    }

    @Test
    void a_zone_holds_what_lies_in_its_sector() {
        Zone past = new Zone("z", "past the top", 50, 80, 350, 20);
        assertThat(past.sweep()).isEqualTo(30);
        assertThat(past.holds(60, 355)).isTrue();
        assertThat(past.holds(60, -5)).isTrue();
        assertThat(past.holds(60, 19)).isTrue();
        assertThat(past.holds(60, 30)).isFalse();
        assertThat(past.holds(40, 0)).isFalse();
        assertThat(new Zone("z", "all round", 0, 100, 0, 360).holds(3, 200)).isTrue();
    }

    @Test
    void spots_are_read_and_written() {
        assertThat(Spot.written(Spot.parse("obverse:date; coin ;edge").orElseThrow()))
                .isEqualTo("obverse:date;coin;edge");
        assertThat(Spot.parse("").orElseThrow()).isEmpty();
        assertThat(Spot.parse("front:date")).isEmpty();
        assertThat(Spot.parse("obverse:")).isEmpty();
        assertThat(Spot.parse("obverse:The Date")).isEmpty();
    }

    @Test
    void a_drawing_bears_date_and_mint_mark_and_shows_what_to_look_at() throws IOException {
        Issue cent = issue(1982, "D", "zinc small date");
        Zones.Shown obverse = ZONES.shown(cent, Side.OBVERSE).orElseThrow();
        assertThat(obverse.date()).isEqualTo("1982");
        assertThat(obverse.mint()).isEqualTo("D");
        Zone date = obverse.face().zone("date").orElseThrow();
        String drawn = CATALOG.drawing().of(svg(obverse.face()), obverse, List.of(date));
        assertThat(drawn)
                .contains("data-zone=\"date\" data-shown", "zone-arrow", "zone-line", "zone-shade")
                .doesNotContain(" id=");
        String plain = CATALOG.drawing().of(svg(obverse.face()), obverse, List.of());
        assertThat(plain.split("transform=", -1))
                .as("four figures and a letter")
                .hasSize(6);
        assertThat(plain).doesNotContain("zone-arrow");
    }

    /// Common practice: Philadelphia marked no cents but those of 2017, and five cents of the war.
    @Test
    void philadelphia_is_marked_where_it_was() {
        assertThat(ZONES.shown(issue(1982, "P", "zinc small date"), Side.OBVERSE)
                        .orElseThrow()
                        .mint())
                .isEmpty();
        assertThat(ZONES.shown(issue(2017, "P", ""), Side.OBVERSE).orElseThrow().mint())
                .isEqualTo("P");
    }

    /// United States Mint, Mint Marks: a P on five cents, dimes, quarters and halves since 1980. Common practice: O on
    /// silver with the head of Liberty, H on Canadian large cents, no date on the side of Victoria.
    @Test
    void marks_stand_where_the_coins_have_them() {
        for (String key : List.of("nickel", "half")) {
            assertThat(mint("US", key, 1979, "P", "", Side.OBVERSE)).as(key).isEmpty();
            assertThat(mint("US", key, 1980, "P", "", Side.OBVERSE)).as(key).isEqualTo("P");
            assertThat(mint("US", key, 1979, "D", "", Side.OBVERSE)).as(key).isEqualTo("D");
        }
        for (String key : List.of("dime", "quarter", "half")) {
            assertThat(mint("US", key, 1901, "O", "", Side.REVERSE)).as(key).isEqualTo("O");
        }
        for (int year : List.of(1881, 1907)) {
            assertThat(mint("CA", "cent", year, "H", "", Side.REVERSE)).isEqualTo("H");
        }
        for (Issue issue : CATALOG.issues()) {
            Zones.Shown obverse = ZONES.shown(issue, Side.OBVERSE).orElseThrow();
            if (obverse.face().name().equals("ca-victoria-obverse")) {
                assertThat(obverse.date()).isEmpty();
            }
        }
    }

    /// Both portraits of the queen are dated 2003, each on the five coins of small change and of the dollars; common
    /// practice. The king is on coins since 2023, Order in Council P.C. 2023-1108.
    @Test
    void coins_of_2003_have_the_portrait_of_their_kind() {
        int seen = 0;
        for (Issue issue : CATALOG.issues()) {
            Identity coin = issue.identity();
            if (coin.denomination().country().code().equals("CA") && issue.year() == 2003) {
                String face =
                        ZONES.shown(issue, Side.OBVERSE).orElseThrow().face().name();
                if (coin.kind().endsWith("crowned")) {
                    assertThat(face).as(coin.toString()).contains("elizabeth-1990");
                    seen++;
                } else {
                    assertThat(face).as(coin.toString()).contains("elizabeth-2003");
                }
            }
        }
        assertThat(seen).isEqualTo(7);
    }

    /// George V without DEI GRATIA in 1911, and with a lettering of its own on the dollar of his jubilee;
    /// George VI with IND IMP until 1947, and with DEI GRATIA, whose A tells the relief of the five cents of
    /// 1951, since 1948. Canadian Currency Museum, captions, for 1911; the rest from memory.
    @Test
    void the_lettering_around_the_georges_is_that_of_the_year() {
        assertThat(ZONES.shown(issue("CA", "cent", 1911, "-", ""), Side.OBVERSE)
                        .orElseThrow()
                        .without())
                .containsExactly("dei-gra");
        assertThat(ZONES.shown(issue("CA", "cent", 1912, "-", ""), Side.OBVERSE)
                        .orElseThrow()
                        .without())
                .isEmpty();
        assertThat(ZONES.shown(issue("CA", "dollar", 1935, "-", ""), Side.OBVERSE)
                        .orElseThrow()
                        .without())
                .contains("legend");
        for (Issue issue : CATALOG.issues()) {
            String face = ZONES.shown(issue, Side.OBVERSE).orElseThrow().face().name();
            if (face.startsWith("ca-george-vi")) {
                boolean later = issue.year() >= 1948;
                assertThat(face)
                        .as(issue.identity().toString())
                        .isEqualTo(later ? "ca-george-vi-1948-obverse" : "ca-george-vi-obverse");
                assertThat(ZONES.has(issue, new Spot.On(Side.OBVERSE, "gratia")))
                        .isEqualTo(later);
            }
        }
    }

    /// A kind that is told by a mark that is not there is drawn without it.
    @Test
    void a_mark_that_should_be_absent_is_not_drawn() throws IOException {
        Issue dime = issue("US", "dime", 1982, "P", "no p");
        Zones.Shown without = ZONES.shown(dime, Side.OBVERSE).orElseThrow();
        assertThat(without.without()).contains("mint-mark");
        assertThat(without.withoutMint().mint()).isEmpty();
        Zones.Shown proof =
                ZONES.shown(issue("US", "dime", 1983, "P", ""), Side.OBVERSE).orElseThrow();
        String marked = CATALOG.drawing().of(svg(proof.face()), proof, List.of());
        String bare = CATALOG.drawing().of(svg(proof.face()), proof.withoutMint(), List.of());
        assertThat(marked.split("transform=", -1)).hasSize(6);
        assertThat(bare.split("transform=", -1)).hasSize(5);
    }

    private static String mint(String country, String key, int year, String mint, String kind, Side side) {
        return ZONES.shown(issue(country, key, year, mint, kind), side)
                .orElseThrow()
                .mint();
    }

    private static Issue issue(String country, String key, int year, String mint, String kind) {
        return CATALOG.issues().stream()
                .filter(issue -> issue.year() == year
                        && issue.mint().code().equals(mint)
                        && issue.identity().kind().equals(kind)
                        && issue.identity().denomination().key().equals(key)
                        && issue.identity().denomination().country().code().equals(country))
                .findFirst()
                .orElseThrow();
    }

    private static Issue issue(int year, String mint, String kind) {
        Optional<Issue> found = CATALOG.issues().stream()
                .filter(issue -> issue.year() == year
                        && issue.mint().code().equals(mint)
                        && issue.identity().kind().equals(kind)
                        && issue.identity().denomination().key().equals("cent")
                        && issue.identity().denomination().country().equals(Country.US))
                .findFirst();
        return found.orElseThrow();
    }
}
