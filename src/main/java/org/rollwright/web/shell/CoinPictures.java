package org.rollwright.web.shell;

import static org.rollwright.text.Texts.t;

import gg.jte.Content;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Side;
import org.rollwright.catalog.Spot;
import org.rollwright.catalog.Zone;
import org.rollwright.catalog.Zones;

/// Coins drawn in a page: a side as it is, or with the spots to look at.
public final class CoinPictures {
    /// The drawings of ours, read when first asked for; blank where there is none.
    private static final Map<String, String> DRAWINGS = new ConcurrentHashMap<>();

    private CoinPictures() {}

    /// One side of a coin in a page.
    ///
    /// @param svg the drawing, hidden from who listens to the page
    /// @param side in words
    /// @param words what to look at on it, blank when it is shown as it is
    /// @param description what the side shows
    public record Figure(Content svg, String side, String words, String description) {}

    /// Where to look at a coin.
    ///
    /// @param figures the sides with something to look at
    /// @param others what no drawing shows: the whole coin, the edge
    public record Look(List<Figure> figures, List<String> others) {
        /// Nothing to show.
        public static final Look NONE = new Look(List.of(), List.of());

        public Look {
            figures = List.copyOf(figures);
            others = List.copyOf(others);
        }

        public boolean isEmpty() {
            return figures.isEmpty() && others.isEmpty();
        }
    }

    /// Where to look, drawn.
    ///
    /// @param coin whose design is drawn
    public static Look look(Catalog catalog, Issue coin, List<Spot> spots) {
        return look(catalog, coin, spots, true);
    }

    /// Where to look, drawn.
    ///
    /// @param coin whose design is drawn
    /// @param marked false for a variety that lacks the mint mark of its date
    public static Look look(Catalog catalog, Issue coin, List<Spot> spots, boolean marked) {
        List<Figure> figures = new ArrayList<>();
        for (Side side : Side.values()) {
            Optional<Zones.Shown> shown =
                    catalog.zones().shown(coin, side).map(one -> marked ? one : one.withoutMint());
            List<Zone> zones = spots.stream()
                    .filter(spot -> spot instanceof Spot.On on && on.side() == side)
                    .flatMap(spot -> catalog.zones().zone(coin, spot).stream())
                    .toList();
            if (shown.isPresent() && !zones.isEmpty()) {
                figures.add(figure(catalog, shown.get(), zones));
            }
        }
        List<String> others = spots.stream()
                .flatMap(spot -> switch (spot) {
                    case Spot.Whole whole -> Optional.of(t("look.whole-coin")).stream();
                    case Spot.Edge edge -> Optional.of(t("look.edge")).stream();
                    case Spot.On on -> Optional.<String>empty().stream();
                })
                .toList();
        return new Look(figures, others);
    }

    /// One side of a coin as it is; empty when its design is not drawn.
    public static Optional<Figure> side(Catalog catalog, Issue coin, Side side) {
        return catalog.zones().shown(coin, side).map(shown -> figure(catalog, shown, List.of()));
    }

    private static Figure figure(Catalog catalog, Zones.Shown shown, List<Zone> zones) {
        String svg = catalog.drawing().of(drawing(shown.face().name()), shown, zones);
        return new Figure(
                output -> output.writeContent(svg),
                shown.side() == Side.OBVERSE ? t("look.obverse") : t("look.reverse"),
                String.join("; ", zones.stream().map(Zone::name).toList()),
                shown.face().description());
    }

    /// The text of a drawing of ours, blank where there is none.
    static String drawing(String face) {
        return DRAWINGS.computeIfAbsent(face, name -> {
            try (InputStream in = CoinPictures.class.getResourceAsStream("/catalog/zones/" + name + ".svg")) {
                return in == null ? "" : new String(in.readAllBytes(), StandardCharsets.UTF_8);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        });
    }
}
