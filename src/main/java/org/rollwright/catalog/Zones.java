package org.rollwright.catalog;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.rollwright.coin.Mint;

/// Which faces a coin has, and where on them to look. Immutable and thread-safe.
public final class Zones {
    /// Which faces coins have.
    ///
    /// @param country code, always told
    /// @param denomination key; blank for any
    /// @param series id; blank for any
    /// @param design blank for any
    /// @param kind blank for any
    /// @param obverse name of a face; blank when the row does not tell
    /// @param reverse name of a face; blank when the row does not tell
    /// @param without zones whose lines these coins do not show
    record Design(
            String country,
            String denomination,
            String series,
            String design,
            String kind,
            int first,
            int last,
            String obverse,
            String reverse,
            Set<String> without) {
        Design {
            without = Set.copyOf(without);
        }

        boolean isOf(Issue issue) {
            return country.equals(issue.identity().denomination().country().code())
                    && fits(denomination, issue.identity().denomination().key())
                    && fits(series, issue.series().id())
                    && fits(design, issue.identity().design())
                    && fits(kind, issue.identity().kind())
                    && first <= issue.year()
                    && issue.year() <= last;
        }

        private static boolean fits(String asked, String is) {
            return asked.isEmpty() || asked.equals(is);
        }

        String face(Side side) {
            return side == Side.OBVERSE ? obverse : reverse;
        }
    }

    /// A letter or figure of ours, as strokes.
    ///
    /// @param width where its height is 100
    /// @param strokes an SVG path in a box of this width and of height 100, the base line at 100
    record Letter(int width, String strokes) {}

    /// A face as one coin shows it.
    ///
    /// @param date as it stands on this side, blank when it does not
    /// @param mint mark as it stands on this side, blank when there is none
    /// @param without zones whose lines the coin does not show
    public record Shown(Side side, Face face, String date, String mint, int year, String kind, Set<String> without) {
        public Shown {
            without = Set.copyOf(without);
        }

        /// The same side of a coin that lacks the mint mark it should bear.
        public Shown withoutMint() {
            return new Shown(side, face, date, "", year, kind, without);
        }
    }

    private final List<Design> designs;
    private final Map<String, Face> faces;
    private final Map<String, Letter> letters;

    Zones(List<Design> designs, Map<String, Face> faces, Map<String, Letter> letters) {
        this.designs = List.copyOf(designs);
        this.faces = Map.copyOf(faces);
        this.letters = Map.copyOf(letters);
    }

    /// Every face, in no order.
    public Collection<Face> faces() {
        return faces.values();
    }

    /// A face by its name.
    public Optional<Face> face(String name) {
        return Optional.ofNullable(faces.get(name));
    }

    Optional<Letter> letter(String letter) {
        return Optional.ofNullable(letters.get(letter));
    }

    /// One side of a coin; empty when the catalogue has no drawing of its design.
    public Optional<Shown> shown(Issue issue, Side side) {
        // the last row that tells counts, so that special rows follow general ones, and the user's ours
        for (Design design : designs.reversed()) {
            Face face = faces.get(design.face(side));
            if (face != null && design.isOf(issue)) {
                return Optional.of(new Shown(
                        side,
                        face,
                        has(face, Mark.What.DATE, issue) ? Integer.toString(issue.year()) : "",
                        mint(face, issue),
                        issue.year(),
                        issue.identity().kind(),
                        design.without()));
            }
        }
        return Optional.empty();
    }

    private static boolean has(Face face, Mark.What what, Issue issue) {
        return face.marks().stream()
                .anyMatch(mark -> mark.what() == what
                        && mark.standsOn(issue.year(), issue.identity().kind()));
    }

    private static String mint(Face face, Issue issue) {
        Mint mint = issue.mint();
        return face.marks().stream()
                .filter(mark -> mark.what() == Mark.What.MINT
                        && mark.standsOn(issue.year(), issue.identity().kind())
                        && mark.mints().contains(mint.code()))
                .findFirst()
                .map(mark -> mint.code())
                .orElse("");
    }

    /// The zone a spot names on a coin; empty for the whole coin and the edge, and when that side has no such zone.
    public Optional<Zone> zone(Issue issue, Spot spot) {
        return spot instanceof Spot.On on
                ? shown(issue, on.side()).flatMap(shown -> shown.face().zone(on.zone()))
                : Optional.empty();
    }

    /// Whether a coin has what a spot names.
    public boolean has(Issue issue, Spot spot) {
        return !(spot instanceof Spot.On) || zone(issue, spot).isPresent();
    }
}
