package org.rollwright.web.odds;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.rollwright.coin.Limits;
import org.rollwright.odds.OddsReport;
import org.rollwright.text.Figures;
import org.rollwright.web.shell.Choice;
import tools.jackson.databind.json.JsonMapper;

/// The Odds page, ready to print.
///
/// @param charts data of the charts as JSON
public record OddsView(
        List<Choice> denominations,
        List<Choice> watches,
        OddsReport report,
        String charts,
        String cost,
        String prices,
        List<Buy> huntOrBuy,
        List<String> problems) {
    /// A hole with the hunter's own price, against what hunting for it costs.
    ///
    /// @param hunting cost of the boxes for an even chance
    /// @param price own price for the coin
    public record Buy(String album, String hole, double hunting, double price) {
        public boolean huntFirst() {
            return hunting <= price;
        }
    }

    /// Reads prices such as `1909-S 95; 1914-D 180`.
    ///
    /// @param problems gets a sentence for every part that is none
    static Map<String, Double> prices(String text, List<String> problems) {
        Map<String, Double> prices = new LinkedHashMap<>();
        for (String part : text.split("[;\\n]")) {
            String one = part.strip();
            if (one.isEmpty()) {
                continue;
            }
            int blank = one.lastIndexOf(' ');
            try {
                double price = Double.parseDouble(Limits.typed(one.substring(blank + 1)));
                if (blank < 1 || !(price > 0) || price > 1e9) {
                    throw new NumberFormatException(one);
                }
                prices.put(one.substring(0, blank).strip().toLowerCase(Locale.ROOT), price);
            } catch (NumberFormatException e) {
                problems.add(t("odds.price-wrong", one));
            }
        }
        return prices;
    }

    /// Holes with a price, those that hunting fills most cheaply against it first.
    static List<Buy> huntOrBuy(OddsReport report, double costPerBox, Map<String, Double> prices) {
        List<Buy> list = new ArrayList<>();
        report.albums()
                .forEach(album -> album.holes().forEach(hole -> {
                    Double price = prices.get(hole.hole().toLowerCase(Locale.ROOT));
                    if (price != null) {
                        list.add(new Buy(album.album(), hole.hole(), hole.boxesForHalf() * costPerBox, price));
                    }
                }));
        list.sort(java.util.Comparator.comparingDouble(one -> one.hunting() / one.price()));
        return list;
    }

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
        charts.put(
                "albums",
                report.albums().stream().map(OddsReport.AlbumLine::curve).toList());
        return JsonMapper.shared().writeValueAsString(charts).replace("<", "\\u003c");
    }

    /// A number with one decimal below ten.
    public static String number(double value) {
        if (Double.isInfinite(value) || value > 1e7) {
            return "–";
        }
        return value < 10 ? Figures.of("%.1f", value) : Figures.of("%,.0f", value);
    }

    /// A number of finds per box, with enough digits for rare coins.
    public static String small(double value) {
        // below, a figure says nothing that 0 does not
        return value < 1e-12 ? "0" : value >= 0.1 ? Figures.of("%.2f", value) : Figures.of("%.2g", value);
    }

    /// A probability as percent.
    public static String percent(double p) {
        return p > 0 && p < 0.005 ? "<" + Figures.percent(0.01, 0) : Figures.percent(p, 0);
    }
}
