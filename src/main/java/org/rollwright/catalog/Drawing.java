package org.rollwright.catalog;

import static java.util.Locale.ROOT;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/// The drawing of one side as a coin shows it: date and mint mark in place, and the spots to look at marked by an
/// outline, an arrow and the rest of the side dimmed, so that no one needs to tell colours apart.
///
/// Lines are drawn in `currentColor`. Slots to fill are the classes `field` (the coin) and `relief` (what stands out
/// of it); `fine` are lines that a small picture may leave out. What marks a zone has the classes `zone-shade`,
/// `zone-ink`, `zone-line`, `zone-halo` and `zone-arrow`; the lines of a zone that is shown have `data-shown`.
public final class Drawing {
    /// Radius of the coin in units of the drawing; its centre is 500, 500.
    private static final int RADIUS = 490;
    /// Space between two letters that are 100 high.
    private static final int GAP = 24;

    private static final Pattern IDS = Pattern.compile("<(g|circle) id=\"([a-z0-9-]+)\"([^>]*)>");
    private static final Pattern FINE = Pattern.compile("<(path|circle|g)[^>]*class=\"fine\"[^>]*/>");
    private static final Pattern STROKE = Pattern.compile("stroke-width=\"([0-9.]+)\"");
    private static final Pattern TITLE = Pattern.compile("<title>.*?</title>", Pattern.DOTALL);

    /// Where the date of a coin without a drawing stands.
    private static final Mark MIDDLE = new Mark(Mark.What.DATE, "", 0, 9999, List.of(), "", 500, 570, 150, 0, 0);

    private final Zones zones;

    Drawing(Zones zones) {
        this.zones = zones;
    }

    /// Draws a side.
    ///
    /// @param svg the text of the face's drawing, blank when there is none: the bare coin is drawn then
    /// @param looks zones to be shown; none for the coin alone
    /// @return an `svg` element without ids, fit to stand in a page any number of times. Who listens to the
    ///     page does not hear it, so the page says in words what it shows
    public String of(String svg, Zones.Shown shown, List<Zone> looks) {
        String body = body(svg);
        StringBuilder drawn = new StringBuilder();
        Matcher groups = IDS.matcher(body);
        while (groups.find()) {
            String id = groups.group(2);
            String data = " data-zone=\"" + id + "\""
                    + (looks.stream().anyMatch(zone -> zone.id().equals(id)) ? " data-shown" : "")
                    + (shown.without().contains(id) ? " visibility=\"hidden\"" : "");
            String group = "<" + groups.group(1) + data + groups.group(3) + ">"
                    + (groups.group(1).equals("g") ? marks(shown, id) : "");
            groups.appendReplacement(drawn, Matcher.quoteReplacement(group));
        }
        groups.appendTail(drawn);
        boolean marked = !looks.isEmpty();
        // room around the coin for arrows
        String box = marked ? "-110 -110 1220 1220" : "0 0 1000 1000";
        return "<svg class=\"coin-drawing\" viewBox=\"" + box + "\" fill=\"none\" stroke=\"currentColor\""
                + " stroke-width=\"9\" stroke-linecap=\"round\" stroke-linejoin=\"round\" aria-hidden=\"true\">"
                + drawn.toString().strip()
                + (marked ? marking(looks, ink(drawn.toString(), looks)) : "")
                + "</svg>";
    }

    /// A face as a file of its own, of which pages draw any number of coins: its group has the id `face`, its slots
    /// are filled by the custom properties `--coin-field` and `--coin-relief` of the page.
    ///
    /// @param svg the text of the face's drawing, blank when there is none
    /// @param small whether it is for coins of less than about 72 pixels: without fine lines, the others stronger
    /// @param without zones whose lines are left out
    public static String face(String svg, boolean small, Set<String> without) {
        String body = body(svg);
        StringBuilder drawn = new StringBuilder();
        Matcher groups = IDS.matcher(body);
        while (groups.find()) {
            String hidden = without.contains(groups.group(2)) ? " visibility=\"hidden\"" : "";
            groups.appendReplacement(
                    drawn, Matcher.quoteReplacement("<" + groups.group(1) + hidden + groups.group(3) + ">"));
        }
        groups.appendTail(drawn);
        String plain = drawn.toString().strip();
        if (small) {
            plain = FINE.matcher(plain).replaceAll("");
            plain = STROKE.matcher(plain)
                    .replaceAll(found -> "stroke-width=\"" + Math.round(Double.parseDouble(found.group(1)) * 2) + "\"");
        }
        return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1000 1000\"><g id=\"face\" fill=\"none\""
                + " stroke=\"currentColor\" stroke-width=\"" + (small ? 18 : 9)
                + "\" stroke-linecap=\"round\" stroke-linejoin=\"round\">"
                + plain.replace("class=\"field\"", "fill=\"var(--coin-field, none)\"")
                        .replace("class=\"relief\"", "fill=\"var(--coin-relief, none)\"")
                + "</g></svg>";
    }

    private static String body(String svg) {
        return svg.isEmpty()
                ? "<circle class=\"field\" cx=\"500\" cy=\"500\" r=\"490\" stroke-width=\"14\"/>"
                : TITLE.matcher(svg.substring(svg.indexOf('>') + 1, svg.lastIndexOf("</svg>")))
                        .replaceFirst("");
    }

    /// Date and mint mark of a side in their places, as paths.
    public String dateAndMint(Zones.Shown shown) {
        return shown.face().marks().stream()
                .map(Mark::zone)
                .distinct()
                .map(zone -> marks(shown, zone))
                .reduce("", String::concat);
    }

    /// A date in the middle of a coin of which there is no drawing.
    public String bare(String date) {
        return letters(date, MIDDLE);
    }

    private String marks(Zones.Shown shown, String zone) {
        StringBuilder text = new StringBuilder();
        boolean date = false;
        boolean mint = false;
        for (Mark mark : shown.face().marks()) {
            if (!mark.zone().equals(zone) || !mark.standsOn(shown.year(), shown.kind())) {
                continue;
            }
            if (mark.what() == Mark.What.DATE && !date && !shown.date().isEmpty()) {
                text.append(letters(shown.date(), mark));
                date = true;
            } else if (mark.what() == Mark.What.MINT && !mint && mark.mints().contains(shown.mint())) {
                text.append(letters(shown.mint(), mark));
                mint = true;
            }
        }
        return text.toString();
    }

    private String letters(String text, Mark mark) {
        double scale = mark.size() / 100.0;
        List<Zones.Letter> all = new ArrayList<>();
        text.chars().forEach(one -> zones.letter(Character.toString(one)).ifPresent(all::add));
        double width = all.stream().mapToInt(Zones.Letter::width).sum() + GAP * Math.max(0, all.size() - 1);
        StringBuilder drawn = new StringBuilder();
        double at = -width / 2;
        for (Zones.Letter letter : all) {
            drawn.append("<path transform=\"")
                    .append(place(mark, scale, at, letter.width()))
                    .append("\" stroke-width=\"17\" d=\"")
                    .append(letter.strokes())
                    .append("\"/>");
            at += letter.width() + GAP;
        }
        return drawn.toString();
    }

    private static String place(Mark mark, double scale, double at, int width) {
        if (mark.bend() == 0) {
            return "translate(" + mark.x() + " " + mark.y() + ") rotate(" + mark.turn() + ") scale(" + plain(scale)
                    + ") translate(" + plain(at) + " -100)";
        }
        double radius = Math.abs(mark.bend());
        double off = Math.toDegrees((at + width / 2.0) * scale / radius);
        boolean inward = mark.bend() < 0;
        double angle = mark.x() + (inward ? -off : off);
        return "translate(500 500) rotate(" + plain(inward ? angle + 180 : angle) + ") translate(0 "
                + plain(inward ? radius : -radius) + ") scale(" + plain(scale) + ") translate(" + plain(-width / 2.0)
                + " -100)";
    }

    /// The lines of the zones shown, once more: they stand above the dimmed rest even where a sector does not follow
    /// their shape.
    private static String ink(String drawn, List<Zone> looks) {
        StringBuilder ink = new StringBuilder();
        for (Zone zone : looks) {
            int from = drawn.indexOf("<g data-zone=\"" + zone.id() + "\" data-shown>");
            if (from >= 0) {
                ink.append(drawn, from, drawn.indexOf("</g>", from) + 4);
            }
        }
        return "<g class=\"zone-ink\">" + ink + "</g>";
    }

    private static String marking(List<Zone> looks, String ink) {
        StringBuilder outlines = new StringBuilder();
        StringBuilder arrows = new StringBuilder();
        for (Zone zone : looks) {
            outlines.append(outline(zone));
            if (!zone.isRound()) {
                arrows.append(arrow(zone));
            }
        }
        return "<path class=\"zone-shade\" stroke=\"none\" fill-rule=\"evenodd\" d=\"" + ring(RADIUS) + outlines
                + "\"/>"
                + ink
                + "<path class=\"zone-halo\" stroke-width=\"30\" d=\"" + outlines + "\"/>"
                + "<path class=\"zone-line\" stroke-width=\"14\" stroke-dasharray=\"44 22\" d=\"" + outlines + "\"/>"
                + "<path class=\"zone-arrow\" stroke-width=\"10\" fill=\"currentColor\" d=\"" + arrows + "\"/>";
    }

    private static String outline(Zone zone) {
        double inner = zone.inner() * RADIUS / 100.0;
        double outer = zone.outer() * RADIUS / 100.0;
        if (zone.isRound()) {
            return ring(outer) + (inner > 0 ? ring(inner) : "");
        }
        String large = zone.sweep() > 180 ? "1" : "0";
        return "M" + point(inner, zone.from()) + "L" + point(outer, zone.from()) + "A" + plain(outer) + " "
                + plain(outer) + " 0 " + large + " 1 " + point(outer, zone.to()) + "L" + point(inner, zone.to())
                + (inner > 0
                        ? "A" + plain(inner) + " " + plain(inner) + " 0 " + large + " 0 " + point(inner, zone.from())
                        : "")
                + "Z";
    }

    private static String ring(double radius) {
        return "M500 " + plain(500 - radius) + "a" + plain(radius) + " " + plain(radius) + " 0 1 1 -.1 0Z";
    }

    /// From outside the coin towards the zone, as long as the way allows, so that it points at small zones near the
    /// centre, too, without lying on them.
    private static String arrow(Zone zone) {
        double tip = zone.outer() * RADIUS / 100.0 + 24;
        double turn = zone.middleAngle();
        double tail = Math.max(tip + 120, RADIUS + 90);
        double head = tip + 52;
        double spread = Math.toDegrees(Math.atan(24 / head));
        return "M" + point(tail, turn) + "L" + point(head, turn) + "M" + point(tip, turn) + "L"
                + point(head, turn - spread) + "L" + point(head, turn + spread) + "Z";
    }

    private static String point(double radius, double angle) {
        double turn = Math.toRadians(angle);
        return plain(500 + radius * Math.sin(turn)) + " " + plain(500 - radius * Math.cos(turn));
    }

    private static String plain(double value) {
        double rounded = Math.round(value * 100) / 100.0;
        return rounded == Math.rint(rounded) ? Long.toString((long) rounded) : String.format(ROOT, "%s", rounded);
    }
}
