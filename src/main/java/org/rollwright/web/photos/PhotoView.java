package org.rollwright.web.photos;

import static org.rollwright.text.Texts.f;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.coin.Length;
import org.rollwright.desk.State;
import org.rollwright.scope.PhotoNote;
import org.rollwright.scope.picture.CoinOutline;
import org.rollwright.web.scope.VarietyViews;

/// What the bench for one photograph shows.
///
/// @param diameter of the coin in millimetres as text, blank when not known
/// @param outline ellipse as `x y a b turn` in pixels and radians, blank when none was found
public record PhotoView(
        String id,
        int width,
        int height,
        String about,
        String find,
        String caption,
        String diameter,
        List<Diameter> diameters,
        String year,
        String outline,
        String tilt,
        List<VarietyViews.Thumb> others) {

    /// A coin's diameter to choose from.
    public record Diameter(String millimetres, String name) {}

    static PhotoView of(State book, Catalog catalog, PhotoNote note, @Nullable Length diameter) {
        String find = "";
        String year = "";
        var known = note.about().findId().flatMap(book.hunt()::find);
        if (known.isPresent()) {
            find = known.map(one -> one.hunt().number() + "/" + one.ordinal()).orElse("");
            year = known.map(one -> one.facts().identity().year())
                    .map(String::valueOf)
                    .orElse("");
        }
        return new PhotoView(
                note.photo(),
                note.width(),
                note.height(),
                VarietyViews.about(book, catalog, note.about()),
                find,
                note.caption(),
                diameter == null ? "" : millimetres(diameter.millimetres()),
                diameters(catalog),
                year,
                "",
                "",
                book.scope().photos().stream()
                        .filter(other -> !other.photo().equals(note.photo()))
                        .sorted(java.util.Comparator.comparing(PhotoNote::at).reversed())
                        .limit(24)
                        .map(other -> VarietyViews.thumb(book, catalog, other))
                        .toList());
    }

    PhotoView withOutline(@Nullable CoinOutline found) {
        return new PhotoView(
                id,
                width,
                height,
                about,
                find,
                caption,
                diameter,
                diameters,
                year,
                found == null
                        ? ""
                        : String.format(
                                Locale.ROOT,
                                "%.2f %.2f %.2f %.2f %.5f",
                                found.x(),
                                found.y(),
                                found.a(),
                                found.b(),
                                found.turn()),
                found == null || found.tiltDegrees() < 12 ? "" : f("photo.aslant", found.tiltDegrees()),
                others);
    }

    /// The diameters the catalogue knows, one for each denomination and size.
    private static List<Diameter> diameters(Catalog catalog) {
        List<Diameter> diameters = new ArrayList<>();
        for (DenominationFacts facts : catalog.denominations()) {
            catalog.issues().stream()
                    .filter(issue -> issue.identity().denomination().equals(facts.denomination()))
                    .map(issue -> millimetres(issue.alloy().diameter().millimetres()))
                    .distinct()
                    .forEach(size -> diameters.add(new Diameter(
                            size, facts.denomination().country() + " " + facts.name() + ", " + size + " mm")));
        }
        return diameters;
    }

    private static String millimetres(double value) {
        return java.math.BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }
}
