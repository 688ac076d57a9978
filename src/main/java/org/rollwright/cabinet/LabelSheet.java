package org.rollwright.cabinet;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.Locale;

/// The geometry of a sheet of labels, millimetres from the upper left corner of the page.
///
/// @param first place of the first label, from 1, so that a sheet begun can be used up
public record LabelSheet(
        Paper paper,
        int columns,
        int rows,
        double width,
        double height,
        double left,
        double top,
        double gapAcross,
        double gapDown,
        int first) {
    /// Sizes of paper: ISO 216 A4, and ANSI A (US Letter).
    public enum Paper {
        A4(210, 297),
        LETTER(215.9, 279.4);

        private final double width;
        private final double height;

        Paper(double width, double height) {
            this.width = width;
            this.height = height;
        }

        public double width() {
            return width;
        }

        public double height() {
            return height;
        }

        /// For the @page rule.
        public String css() {
            return String.format(Locale.ROOT, "%.1fmm %.1fmm", width, height);
        }
    }

    /// A sheet for card holders of two by two inches: 45 mm labels, four by five on A4 (our own default).
    public static LabelSheet usual() {
        return new LabelSheet(Paper.A4, 4, 5, 45, 45, 12, 20, 2, 2, 1);
    }

    public int perPage() {
        return columns * rows;
    }

    /// Why it cannot be printed, blank when it can.
    public String problem() {
        if (columns < 1 || rows < 1 || columns > 20 || rows > 40) {
            return t("cabinet.label-grid");
        }
        if (width < 15 || height < 8 || left < 0 || top < 0 || gapAcross < 0 || gapDown < 0) {
            return t("cabinet.label-size");
        }
        double right = left + columns * width + (columns - 1) * gapAcross;
        double bottom = top + rows * height + (rows - 1) * gapDown;
        if (right > paper.width + 0.01) {
            return f("cabinet.labels-too-wide", right, paper.width);
        }
        if (bottom > paper.height + 0.01) {
            return f("cabinet.labels-too-low", bottom, paper.height);
        }
        return first < 1 || first > perPage() ? t("cabinet.first-label-wrong", perPage()) : "";
    }

    /// Left edge of the nth label of the document, from 0.
    public double x(int n) {
        return left + ((n + first - 1) % perPage()) % columns * (width + gapAcross);
    }

    /// Upper edge of the nth label of the document, from 0.
    public double y(int n) {
        int row = ((n + first - 1) % perPage()) / columns;
        return top + row * (height + gapDown);
    }

    /// Page of the nth label, from 0.
    public int page(int n) {
        return (n + first - 1) / perPage();
    }
}
