package org.rollwright.web.photos;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Limits;
import org.rollwright.scope.Doubling;
import org.rollwright.scope.HubDoubling;
import org.rollwright.scope.Repunch;
import org.rollwright.scope.picture.CoinOutline;
import org.rollwright.scope.picture.ColourShare;
import org.rollwright.text.Figures;

/// What was measured on a photograph from the points set so far: outline, doubling, mint mark, colour.
///
/// @param outline ellipse as `x y a b turn` in pixels and radians, blank when there is none
public record Measured(
        String outline,
        String problem,
        @Nullable Doubled doubled,
        @Nullable Mark mark,
        @Nullable Red red) {

    /// A doubling fitted.
    ///
    /// @param drawing what to draw over the picture: the motion, its pivot in pixels, the angle in radians as
    ///     the picture's coordinates have it, the part of a radial spread, the shift in pixels
    public record Doubled(
            String motion,
            String sentence,
            List<String> figures,
            List<FitRow> fits,
            String leaning,
            List<String> reasonsFor,
            List<String> reasonsAgainst,
            String drawing) {}

    /// One row of the table of motions.
    public record FitRow(String motion, String residual, String aicc, String behind, boolean best) {}

    /// A mint mark punched twice.
    public record Mark(String sentence) {}

    /// The colour of a copper coin.
    public record Red(String sentence, String warning) {}

    private static final double LEAST_CLICK = 0.005;

    /// Reads the fields of the bench's form.
    static Measured of(BufferedImage picture, Map<String, List<String>> form) {
        List<double[]> edge = points(form, "edge");
        Optional<CoinOutline> outline = ellipse(one(form, "outline"));
        String problem = "";
        if (edge.size() == 3) {
            outline = CoinOutline.through(
                    new double[] {edge.get(0)[0], edge.get(1)[0], edge.get(2)[0]},
                    new double[] {edge.get(0)[1], edge.get(1)[1], edge.get(2)[1]});
            problem = outline.isEmpty() ? t("measured.points-on-a-line") : "";
        }
        if (outline.isEmpty()) {
            return new Measured("", problem.isEmpty() ? t("measured.no-coin") : problem, null, null, null);
        }
        CoinOutline coin = outline.get();
        @Nullable Red red = form.containsKey("colour") ? red(picture, coin, form) : null;
        double diameter = number(one(form, "diameter"), 0);
        String shape = String.format(
                Locale.ROOT, "%.2f %.2f %.2f %.2f %.5f", coin.x(), coin.y(), coin.a(), coin.b(), coin.turn());
        if (!(diameter >= 5 && diameter <= 100)) {
            return new Measured(shape, t("measured.width-missing"), null, null, red);
        }
        double scale = diameter / (2 * coin.radius());
        double up = number(one(form, "up"), 0);
        double click = Math.max(LEAST_CLICK, scale * number(one(form, "click"), 1));
        Doubled doubled = doubled(coin, scale, click, form);
        return new Measured(
                shape,
                doubled == null && points(form, "pairs").size() >= 6 ? t("measured.no-motion") : "",
                doubled,
                mark(scale, up, form),
                red);
    }

    private static @Nullable Doubled doubled(
            CoinOutline coin, double scale, double click, Map<String, List<String>> form) {
        List<double[]> points = points(form, "pairs");
        List<Doubling.Pair> pairs = new ArrayList<>();
        for (int i = 0; i + 1 < points.size(); i += 2) {
            double[] from = points.get(i);
            double[] to = points.get(i + 1);
            pairs.add(new Doubling.Pair(
                    (from[0] - coin.x()) * scale,
                    (coin.y() - from[1]) * scale,
                    (to[0] - coin.x()) * scale,
                    (coin.y() - to[1]) * scale));
        }
        double apart = pairs.stream()
                .mapToDouble(pair -> Math.hypot(pair.u() - pair.x(), pair.v() - pair.y()))
                .average()
                .orElse(0);
        if (pairs.size() < 3 || apart < 1.5 * click) {
            return null;
        }
        Doubling fit = Doubling.fit(pairs, click);
        HubDoubling reasons = HubDoubling.weigh(
                fit, year(form), answer(form, "mark"), answer(form, "shelf"), answer(form, "wider"), click);
        double best = fit.fits().getFirst().aicc();
        List<FitRow> rows = fit.fits().stream()
                .map(one -> new FitRow(
                        said(one.motion()),
                        Figures.of("%.3f", one.rms()),
                        Figures.of("%.1f", one.aicc()),
                        one.aicc() == best ? "" : Figures.of("+%.1f", one.aicc() - best),
                        one.aicc() == best))
                .toList();
        return new Doubled(
                said(fit.motion()),
                sentence(fit),
                figures(fit, pairs, click),
                rows,
                reasons.sentence(),
                reasons.reasonsFor(),
                reasons.reasonsAgainst(),
                drawing(fit, coin, scale));
    }

    private static String sentence(Doubling fit) {
        double gap = fit.fits().get(1).aicc() - fit.fits().getFirst().aicc();
        String sure = gap >= 10 ? t("measured.clearly") : gap >= 4 ? t("measured.fairly") : t("measured.barely");
        return t(
                "measured.motion-answer",
                said(fit.motion()),
                switch (fit.motion()) {
                    case SHIFT -> t("measured.moved-straight-to-one-side");
                    case ROTATION -> t("measured.turned-about-centre");
                    case PIVOT -> t("measured.turned-off-centre");
                    case SPREAD -> t("measured.spread-between-rim-and-centre");
                },
                sure,
                said(fit.fits().get(1).motion()));
    }

    private static String said(Doubling.Motion motion) {
        return switch (motion) {
            case SHIFT -> t("measured.shift");
            case ROTATION -> t("measured.rotation");
            case PIVOT -> t("measured.pivot-word");
            case SPREAD -> t("measured.spread-word");
        };
    }

    private static List<String> figures(Doubling fit, List<Doubling.Pair> pairs, double click) {
        List<String> figures = new ArrayList<>();
        double mean = pairs.stream()
                .mapToDouble(pair -> Math.hypot(pair.u() - pair.x(), pair.v() - pair.y()))
                .average()
                .orElse(0);
        figures.add(f("measured.spread", mean, mean / HubDoubling.THOUSANDTH, pairs.size()));
        if (fit.motion() == Doubling.Motion.ROTATION || fit.motion() == Doubling.Motion.PIVOT) {
            figures.add(f(
                    "measured.turned",
                    Math.abs(fit.angleDegrees()),
                    1.96 * fit.angleSd(),
                    fit.angleDegrees() < 0 ? t("measured.clockwise") : t("measured.counter-clockwise")));
        }
        if (fit.motion() == Doubling.Motion.PIVOT) {
            figures.add(f("measured.pivot", fit.pivotX(), fit.pivotY()));
        }
        if (fit.motion() == Doubling.Motion.SHIFT) {
            Repunch shift = Repunch.of(fit.shiftX(), fit.shiftY());
            figures.add(f("measured.moved", shift.offset(), shift.direction()));
        }
        figures.add(f("measured.misfit", fit.rms(), click));
        return figures;
    }

    /// In the picture's own coordinates, y down, so that a turn counter-clockwise on the coin is negative here.
    private static String drawing(Doubling fit, CoinOutline coin, double scale) {
        boolean turns = fit.motion() == Doubling.Motion.ROTATION || fit.motion() == Doubling.Motion.PIVOT;
        double px = turns ? coin.x() + fit.pivotX() / scale : coin.x();
        double py = turns ? coin.y() - fit.pivotY() / scale : coin.y();
        return String.format(
                Locale.ROOT,
                "%s %.2f %.2f %.6f %.6f %.3f %.3f",
                fit.motion().word(),
                px,
                py,
                turns ? -Math.toRadians(fit.angleDegrees()) : 0,
                fit.spread(),
                fit.shiftX() / scale,
                -fit.shiftY() / scale);
    }

    private static @Nullable Mark mark(double scale, double up, Map<String, List<String>> form) {
        List<double[]> points = points(form, "punch");
        if (points.size() < 2) {
            return null;
        }
        double dx = (points.get(1)[0] - points.get(0)[0]) * scale;
        double dy = (points.get(0)[1] - points.get(1)[1]) * scale;
        // the coin's top lies `up` degrees clockwise from the picture's top
        double turn = Math.toRadians(up);
        Repunch repunch =
                Repunch.of(dx * Math.cos(turn) - dy * Math.sin(turn), dx * Math.sin(turn) + dy * Math.cos(turn));
        return new Mark(f(
                "measured.second-punch",
                repunch.offset(),
                repunch.offset() / HubDoubling.THOUSANDTH,
                repunch.direction()));
    }

    private static Red red(BufferedImage picture, CoinOutline coin, Map<String, List<String>> form) {
        List<double[]> grey = points(form, "grey").stream()
                .filter(point -> point[0] >= 0
                        && point[1] >= 0
                        && point[0] < picture.getWidth()
                        && point[1] < picture.getHeight())
                .toList();
        ColourShare share = ColourShare.of(
                picture,
                coin,
                grey.isEmpty() ? null : new ColourShare.Grey(grey.getFirst()[0], grey.getFirst()[1]),
                new ColourShare.Threshold(
                        within(number(one(form, "chroma"), 30), 5, 100),
                        within(number(one(form, "lightness"), 40), 0, 100)));
        ColourShare.Standard standard = new ColourShare.Standard(
                within(number(one(form, "redFrom"), 95), 50, 100), within(number(one(form, "brownTo"), 5), 0, 50));
        return new Red(
                f(
                        "measured.red-share",
                        100 * share.red(),
                        standard.of(share.red()),
                        standard.redFrom(),
                        standard.brownTo()),
                (share.withCard() ? "" : t("measured.no-grey-card") + " ")
                        + (share.measured() < 0.7 ? f("measured.glare", 100 * (1 - share.measured())) : ""));
    }

    private static double within(double value, double least, double most) {
        return Math.max(least, Math.min(most, value));
    }

    private static @Nullable Integer year(Map<String, List<String>> form) {
        String text = one(form, "year");
        return text.matches("[0-9]{4}") ? Integer.valueOf(text) : null;
    }

    private static @Nullable Boolean answer(Map<String, List<String>> form, String name) {
        return switch (one(form, name)) {
            case "yes" -> Boolean.TRUE;
            case "no" -> Boolean.FALSE;
            default -> null;
        };
    }

    private static String one(Map<String, List<String>> form, String name) {
        List<String> values = form.getOrDefault(name, List.of());
        return values.isEmpty() ? "" : values.getLast().strip();
    }

    private static double number(String text, double otherwise) {
        try {
            double value = Double.parseDouble(Limits.pointed(text));
            return Double.isFinite(value) ? value : otherwise;
        } catch (NumberFormatException e) {
            return otherwise;
        }
    }

    /// Points as `x,y x,y …`; what cannot be read is passed over.
    private static List<double[]> points(Map<String, List<String>> form, String name) {
        List<double[]> points = new ArrayList<>();
        for (String part : one(form, name).split("\\s+")) {
            String[] xy = part.split(",");
            if (xy.length == 2 && points.size() < 400) {
                double x = number(xy[0], Double.NaN);
                double y = number(xy[1], Double.NaN);
                if (Math.abs(x) < 1e6 && Math.abs(y) < 1e6) {
                    points.add(new double[] {x, y});
                }
            }
        }
        return points;
    }

    private static Optional<CoinOutline> ellipse(String text) {
        String[] parts = text.split("\\s+");
        if (parts.length != 5) {
            return Optional.empty();
        }
        double[] v = new double[5];
        for (int i = 0; i < 5; i++) {
            v[i] = number(parts[i], Double.NaN);
        }
        return v[2] > 1 && v[3] > 1 && v[2] < 1e6 && Math.abs(v[0]) < 1e6 && Math.abs(v[1]) < 1e6 && v[3] <= v[2]
                ? Optional.of(new CoinOutline(v[0], v[1], v[2], v[3], v[4], 1))
                : Optional.empty();
    }
}
