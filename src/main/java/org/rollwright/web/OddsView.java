package org.rollwright.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.rollwright.odds.OddsReport;
import tools.jackson.databind.json.JsonMapper;

/// The Odds page, ready to print.
///
/// @param charts data of the charts as JSON
public record OddsView(
        List<Choice> denominations, List<Choice> watches, OddsReport report, String charts, List<String> problems) {
    /// One entry of a list to choose from.
    public record Choice(String value, String label, boolean chosen) {}

    static String charts(OddsReport report) {
        Map<String, Object> charts = new LinkedHashMap<>();
        List<Object> series = new ArrayList<>();
        report.series().forEach(point -> series.add(List.of(point.label(), point.found(), point.low(), point.high())));
        charts.put("series", series);
        List<Object> sources = new ArrayList<>();
        report.sources()
                .forEach(line -> sources.add(List.of(
                        line.source(),
                        line.mean(),
                        line.half().low(),
                        line.half().high(),
                        line.ninety().low(),
                        line.ninety().high())));
        charts.put("sources", sources);
        charts.put("target", report.target());
        return JsonMapper.shared().writeValueAsString(charts).replace("<", "\\u003c");
    }

    /// A number with one decimal below ten.
    public static String number(double value) {
        if (Double.isInfinite(value) || value > 1e7) {
            return "–";
        }
        return value < 10 ? String.format(Locale.ROOT, "%.1f", value) : String.format(Locale.ROOT, "%,.0f", value);
    }

    /// A number of finds per box, with enough digits for rare coins.
    public static String small(double value) {
        return value >= 0.1 ? String.format(Locale.ROOT, "%.2f", value) : String.format(Locale.ROOT, "%.2g", value);
    }

    /// A probability as percent.
    public static String percent(double p) {
        return p > 0 && p < 0.005 ? "<1 %" : String.format(Locale.ROOT, "%.0f %%", 100 * p);
    }
}
