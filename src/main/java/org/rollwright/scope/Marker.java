package org.rollwright.scope;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/// One thing to look for on a coin, and how much seeing it says.
///
/// Written as `text [90/2 10s]`: 90 of 100 coins of the variety show it, 2 of 100 ordinary ones, and looking
/// takes 10 seconds. `fine` behind the seconds says that wear takes it away soon, `stage` that it belongs to a
/// part of the die's life and may be missing on a true coin.
///
/// @param text what is seen, so that yes or no answers it
/// @param onVariety probability in per cent that a coin of the variety shows it, above 0 and below 100
/// @param onOthers probability in per cent that another coin of the date shows it, above 0 and below 100
/// @param seconds a look takes, 1 to 600
public record Marker(String text, double onVariety, double onOthers, int seconds, boolean fine, boolean stage) {
    private static final Pattern SHAPE = Pattern.compile(
            "(.+?)\\s*\\[\\s*([0-9.]+)\\s*/\\s*([0-9.]+)\\s+([0-9]+)\\s*s((?:\\s+(?:fine|stage))*)\\s*]");

    static final String EXAMPLE = "a second D shows below the first [90/2 10s fine]";

    /// Reads markers separated by `;`.
    ///
    /// @return empty when one cannot be read or its numbers make no sense
    static Optional<List<Marker>> parse(String cell) {
        List<Marker> markers = new ArrayList<>();
        for (String part : cell.split(";")) {
            if (part.isBlank()) {
                continue;
            }
            Matcher matcher = SHAPE.matcher(part.strip());
            if (!matcher.matches()) {
                return Optional.empty();
            }
            try {
                double yes = Double.parseDouble(matcher.group(2));
                double no = Double.parseDouble(matcher.group(3));
                int seconds = Integer.parseInt(matcher.group(4));
                if (!(yes > 0 && yes < 100 && no > 0 && no < 100) || seconds < 1 || seconds > 600) {
                    return Optional.empty();
                }
                String words = matcher.group(5);
                markers.add(new Marker(
                        matcher.group(1).strip(), yes, no, seconds, words.contains("fine"), words.contains("stage")));
            } catch (NumberFormatException e) {
                return Optional.empty();
            }
        }
        return Optional.of(List.copyOf(markers));
    }

    /// As it is written in the catalogue.
    public String written() {
        return text + " [" + number(onVariety) + "/" + number(onOthers) + " " + seconds + "s" + (fine ? " fine" : "")
                + (stage ? " stage" : "") + "]";
    }

    private static String number(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : String.format(Locale.ROOT, "%s", value);
    }
}
