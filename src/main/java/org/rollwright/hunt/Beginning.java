package org.rollwright.hunt;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.rollwright.coin.Denomination;
import org.rollwright.journal.Event;

/// How a hunt begins: on boxes that wait already, or on new ones.
///
/// @param name of the hunt, blank to be called after its boxes
/// @param watches what is watched for
public record Beginning(String name, List<Watch> watches) {
    /// A name that ends with a number; not the day of a date.
    private static final Pattern NUMBERED = Pattern.compile("(.*?(?<![0-9][-./]))(?<![0-9])([0-9]{1,6})");

    /// The event and the hunt it begins.
    public record Begun(HuntId hunt, Event event) {}

    /// On boxes that wait.
    ///
    /// @param unnamed what a hunt is called whose first box is not there; it will be refused
    public Begun onWaiting(HuntBook book, List<BoxId> boxes, String unnamed) {
        HuntId hunt = book.nextHunt();
        String called =
                book.box(boxes.getFirst()).map(box -> box.details().label()).orElse(unnamed);
        return new Begun(hunt, new HuntEvent.HuntStarted(hunt, nameOr(called), boxes, watches));
    }

    /// On new boxes, each with a label.
    public Begun onNew(HuntBook book, Denomination coin, BoxDetails details, List<String> labels) {
        HuntId hunt = book.nextHunt();
        List<Event> events = new ArrayList<>();
        List<BoxId> boxes = new ArrayList<>();
        long next = book.nextBox().number();
        for (String label : labels) {
            BoxId box = new BoxId(next++);
            events.add(new HuntEvent.BoxAdded(box, coin, details.withLabel(label)));
            boxes.add(box);
        }
        events.add(new HuntEvent.HuntStarted(hunt, nameOr(base(labels)), boxes, watches));
        return new Begun(hunt, new Event.Batch(events));
    }

    private static String base(List<String> labels) {
        String first = labels.getFirst();
        return labels.size() > 1 && first.endsWith(" / 1") ? first.substring(0, first.length() - 4) : first;
    }

    private String nameOr(String otherwise) {
        return name.isBlank() ? otherwise : name;
    }

    /// Labels of several boxes named by one word, or by what is in them and a number that is free.
    public static List<String> labels(HuntBook book, Denomination coin, String label, int count) {
        String base = label.isBlank() ? word(coin) + " box " + book.nextNumber(coin) : label;
        if (count == 1) {
            return List.of(base);
        }
        List<String> labels = new ArrayList<>();
        for (int i = 1; i <= count; i++) {
            labels.add(base + " / " + i);
        }
        return labels;
    }

    /// The next name in a row of names such as `Box 12`, `Box 009`; blank when the last one does not end with a
    /// number, or with a date.
    public static String nextLabel(HuntBook book, Box last) {
        Matcher numbered = NUMBERED.matcher(last.details().label());
        if (!numbered.matches()) {
            return "";
        }
        String front = numbered.group(1);
        int most = book.boxes().stream()
                .map(box -> NUMBERED.matcher(box.details().label()))
                .filter(other -> other.matches() && other.group(1).equals(front))
                .mapToInt(other -> Integer.parseInt(other.group(2)))
                .max()
                .orElse(0);
        return front + String.format(Locale.ROOT, "%0" + numbered.group(2).length() + "d", most + 1);
    }

    private static String word(Denomination coin) {
        return coin.key().substring(0, 1).toUpperCase(Locale.ROOT) + coin.key().substring(1);
    }
}
