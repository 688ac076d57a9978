package org.rollwright.web.photos;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.awt.image.BufferedImage;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.desk.State;
import org.rollwright.scope.PhotoNote;
import org.rollwright.scope.picture.Registration;
import org.rollwright.web.scope.VarietyViews;

/// Two photographs beside and over each other.
///
/// @param result null while two have not been chosen
public record CompareView(
        String first,
        String second,
        List<VarietyViews.Thumb> photos,
        @Nullable Result result) {

    /// How they lie over each other.
    public record Result(int width, int height, String sentence, String verdict, List<String> figures) {}

    /// Correlations from which on both are taken for one design; measured on photographs of 24 coins, see
    /// docs/scope.md.
    private static final double SAME = 0.5;

    private static final double PERHAPS = 0.35;

    static CompareView choices(State book, Catalog catalog, String first, String second) {
        return new CompareView(
                first,
                second,
                book.scope().photos().stream()
                        .sorted(Comparator.comparing(PhotoNote::at).reversed())
                        .limit(60)
                        .map(note -> VarietyViews.thumb(book, catalog, note))
                        .toList(),
                null);
    }

    CompareView with(Registration found, BufferedImage picture) {
        double likeness = found.likeness();
        String verdict = likeness >= SAME ? "same" : likeness >= PERHAPS ? "perhaps" : "different";
        String sentence =
                switch (verdict) {
                    case "same" -> t("compare.same-side");
                    case "perhaps" -> t("compare.perhaps-same");
                    default -> t("compare.no-agreement");
                };
        return new CompareView(
                first,
                second,
                photos,
                new Result(
                        picture.getWidth(),
                        picture.getHeight(),
                        sentence,
                        verdict,
                        List.of(
                                found.turnDegrees() < 0
                                        ? f("compare.turned-counter-clockwise", -found.turnDegrees())
                                        : f("compare.turned-clockwise", found.turnDegrees()),
                                f("compare.scale", found.scale()),
                                f("compare.correlation", found.correlation(), found.edges()),
                                found.outlined() ? t("compare.both-coins-were-outlined") : t("compare.no-edge"))));
    }
}
