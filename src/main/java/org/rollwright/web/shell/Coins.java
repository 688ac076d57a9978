package org.rollwright.web.shell;

import gg.jte.Content;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import java.util.zip.CRC32;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Drawing;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Side;
import org.rollwright.catalog.Zones;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.desk.State;
import org.rollwright.hunt.FindId;
import org.rollwright.scope.PhotoSubject;

/// Coins to be seen: the drawing of a design, tinted by metal and colour, softened by wear, date and mint mark in
/// place, or the hunter's own photograph.
///
/// The drawing of a face is a file that browsers keep; a page holds only what differs from coin to coin.
public final class Coins {
    /// From this many pixels on the fine lines are drawn.
    static final int FINE_FROM = 73;

    private static final int A_YEAR = 31_536_000;
    private static final int WELL_WORN = 6;
    private static final int WORN = 15;
    private static final int FINE = 45;
    private static final int UNCIRCULATED = 60;
    /// Cents of the States and of Canada turned from bronze to plated zinc in the one, to steel later in the other;
    /// what was struck before them has had time to turn brown.
    private static final int BROWN_BEFORE = 1982;

    private static final Map<String, String> MARKS = new ConcurrentHashMap<>();
    private static final Map<String, String> VERSIONS = new ConcurrentHashMap<>();

    private Coins() {}

    /// A coin as it is drawn.
    ///
    /// @param face name of the drawing, blank where there is none
    /// @param without zones the drawing leaves out, joined by commas
    /// @param tint class of its metal and colour
    /// @param wear class of its grade
    /// @param marks date and mint mark
    /// @param photo its photograph, which takes the drawing's place; blank for none
    public record Coin(String face, String without, String tint, String wear, Content marks, String photo) {
        /// Where its drawing lies.
        public String drawing(int pixels) {
            return "/coins/" + (face.isEmpty() ? "bare" : face) + (pixels < FINE_FROM ? ".small.svg" : ".svg") + "?v="
                    + version(face) + (without.isEmpty() ? "" : "&without=" + without) + "#face";
        }
    }

    /// A coin of an issue, ungraded.
    public static Coin of(Catalog catalog, Issue issue) {
        return of(catalog, issue, null, null, null);
    }

    /// A coin as it was described.
    public static Coin of(Catalog catalog, CoinDescription facts) {
        return of(catalog, facts, null);
    }

    /// A coin as it was described.
    ///
    /// @param side to be seen; null for the one with the date
    public static Coin of(Catalog catalog, CoinDescription facts, @Nullable Side side) {
        Identity identity = facts.identity();
        List<Issue> known = identity.year() == null ? List.of() : catalog.lookup(identity);
        if (known.isEmpty()) {
            String year = identity.year() == null ? "" : identity.year().toString();
            String date = catalog.drawing().bare(year);
            return new Coin("", "", "nickel", wear(facts.grade()), output -> output.writeContent(date), "");
        }
        Issue issue = known.getFirst();
        return of(catalog, issue, facts.colour(), facts.grade(), side);
    }

    /// A coin as it was described, by its photograph where one was taken of its find.
    ///
    /// @param find empty for a coin that was not found on the Mat
    /// @param side to be seen when it is drawn; null for the one with the date
    public static Coin seen(
            State book, Catalog catalog, Optional<FindId> find, CoinDescription facts, @Nullable Side side) {
        Coin drawn = of(catalog, facts, side);
        return find.flatMap(id ->
                        book.scope().photos(PhotoSubject.find(id)).stream().findFirst())
                .map(photo -> new Coin(
                        drawn.face(), drawn.without(), drawn.tint(), drawn.wear(), drawn.marks(), photo.photo()))
                .orElse(drawn);
    }

    /// An issue in some state.
    ///
    /// @param asked side to be seen; null for the one with the date
    public static Coin of(
            Catalog catalog, Issue issue, @Nullable Colour colour, @Nullable Grade grade, @Nullable Side asked) {
        Side side = asked == null ? side(catalog, issue) : asked;
        Optional<Zones.Shown> shown = catalog.zones().shown(issue, side);
        String face = shown.map(one -> one.face().name()).orElse("");
        String without =
                shown.map(one -> String.join(",", new TreeSet<>(one.without()))).orElse("");
        String marks = shown.map(one -> MARKS.computeIfAbsent(
                        face + one.date() + one.mint() + one.kind(),
                        key -> catalog.drawing().dateAndMint(one)))
                .orElseGet(() -> catalog.drawing().bare(Integer.toString(issue.year())));
        return new Coin(face, without, tint(issue, colour), wear(grade), output -> output.writeContent(marks), "");
    }

    /// The side with the date, the obverse when there is none on either.
    private static Side side(Catalog catalog, Issue issue) {
        boolean behind = catalog.zones()
                .shown(issue, Side.REVERSE)
                .filter(shown -> !shown.date().isEmpty())
                .isPresent();
        boolean before = catalog.zones()
                .shown(issue, Side.OBVERSE)
                .filter(shown -> !shown.date().isEmpty())
                .isPresent();
        return behind && !before ? Side.REVERSE : Side.OBVERSE;
    }

    private static String tint(Issue issue, @Nullable Colour colour) {
        if (issue.alloy().composition().startsWith("ring ")) {
            return "two-metals";
        }
        return switch (issue.alloy().metal().word()) {
            case "copper" ->
                switch (colour == null ? issue.year() < BROWN_BEFORE ? Colour.BN : Colour.RB : colour) {
                    case BN -> "copper-bn";
                    case RB -> "copper-rb";
                    case RD -> "copper-rd";
                };
            case "zinc" -> colour == Colour.BN ? "copper-rb" : "plated";
            case String metal -> metal;
        };
    }

    private static String wear(@Nullable Grade grade) {
        if (grade == null) {
            return "";
        }
        int points = grade.points();
        return points <= WELL_WORN
                ? "worn-4"
                : points <= WORN
                        ? "worn-3"
                        : points <= FINE ? "worn-2" : points < UNCIRCULATED ? "worn-1" : "mint-state";
    }

    /// What changes when a drawing does, so that browsers may keep it for good.
    static String version(String face) {
        return VERSIONS.computeIfAbsent(face, name -> {
            CRC32 sum = new CRC32();
            sum.update(CoinPictures.drawing(name).getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().toHexDigits((int) sum.getValue());
        });
    }

    /// Adds the address of the drawings.
    public static void register(RoutesConfig routes) {
        routes.get("/coins/{file}", Coins::drawing);
    }

    private static void drawing(Context context) {
        String file = context.pathParam("file");
        boolean small = file.endsWith(".small.svg");
        String face = file.replaceFirst("(\\.small)?\\.svg$", "");
        String svg = face.matches("[a-z0-9-]{1,80}") ? CoinPictures.drawing(face) : "";
        if (svg.isEmpty() && !face.equals("bare")) {
            throw new NotFoundResponse();
        }
        Set<String> without = Arrays.stream(Optional.ofNullable(context.queryParam("without"))
                        .orElse("")
                        .split(","))
                .filter(zone -> !zone.isEmpty())
                .collect(Collectors.toSet());
        context.header("Cache-Control", "private, max-age=" + A_YEAR + ", immutable");
        context.contentType("image/svg+xml");
        context.result(Drawing.face(svg, small, without));
    }
}
