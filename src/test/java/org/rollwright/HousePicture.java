package org.rollwright;

import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/// The picture of the rooms and their arrows, drawn from the code: docs/pictures/house.svg and the table in
/// docs/architecture.md. A test compares them with the code; the main method writes them anew.
final class HousePicture {
    static final Path SVG = Path.of("docs/pictures/house.svg");
    static final Path PAGE = Path.of("docs/architecture.md");

    private static final String ROOT = "org.rollwright";
    private static final List<List<String>> FLOORS = List.of(
            List.of("cli", "web", "store"),
            List.of("action", "recap", "calc"),
            List.of("entry"),
            List.of("desk"),
            List.of("album", "till", "odds"),
            List.of("cabinet", "scope", "scale"),
            List.of("hunt"),
            List.of("catalog", "journal"),
            List.of("coin"),
            List.of("text"));
    private static final int WIDTH = 980;
    private static final int BOX = 116;
    private static final int FLOOR = 92;

    private final Map<String, Set<String>> arrows = new TreeMap<>();
    private final Map<String, Integer> classes = new TreeMap<>();

    HousePicture() {
        JavaClasses house = new ClassFileImporter()
                .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
                .importPackages(ROOT);
        for (JavaClass one : house) {
            String room = room(one);
            if (room.isEmpty()) {
                continue;
            }
            classes.merge(room, one.isTopLevelClass() ? 1 : 0, Integer::sum);
            Set<String> known = arrows.computeIfAbsent(room, key -> new TreeSet<>());
            for (Dependency dependency : one.getDirectDependenciesFromSelf()) {
                String other = room(dependency.getTargetClass());
                if (!other.isEmpty() && !other.equals(room)) {
                    known.add(other);
                }
            }
        }
    }

    /// The first part of a package's name below the root; the generated pages belong to the web.
    private static String room(JavaClass one) {
        String name = one.getPackageName();
        if (!name.startsWith(ROOT + ".")) {
            return "";
        }
        String room = name.substring(ROOT.length() + 1).split("\\.")[0];
        return room.equals("pages") ? "" : room;
    }

    /// The rooms that each room knows.
    Map<String, Set<String>> arrows() {
        return arrows;
    }

    /// Arrows that follow from no others.
    private Set<String> direct(String room) {
        Set<String> direct = new TreeSet<>(arrows.getOrDefault(room, Set.of()));
        for (String other : arrows.getOrDefault(room, Set.of())) {
            direct.removeAll(reached(other));
        }
        return direct;
    }

    private Set<String> reached(String room) {
        Set<String> all = new TreeSet<>();
        for (String other : arrows.getOrDefault(room, Set.of())) {
            if (all.add(other)) {
                all.addAll(reached(other));
            }
        }
        return all;
    }

    String svg() {
        Map<String, int[]> places = new HashMap<>();
        StringBuilder boxes = new StringBuilder();
        for (int floor = 0; floor < FLOORS.size(); floor++) {
            List<String> rooms = FLOORS.get(floor);
            for (int i = 0; i < rooms.size(); i++) {
                int x = WIDTH * (2 * i + 1) / (2 * rooms.size());
                int y = 50 + FLOOR * floor;
                places.put(rooms.get(i), new int[] {x, y});
                boxes.append(String.format(
                        Locale.ROOT,
                        "<rect x=\"%d\" y=\"%d\" width=\"%d\" height=\"44\" rx=\"9\" fill=\"#fffdf8\" stroke=\"#27584a\"/>"
                                + "<text x=\"%d\" y=\"%d\" text-anchor=\"middle\" font-size=\"17\" fill=\"#23211c\">%s</text>%n",
                        x - BOX / 2,
                        y - 22,
                        BOX,
                        x,
                        y + 6,
                        rooms.get(i)));
            }
        }
        StringBuilder lines = new StringBuilder();
        for (String room : arrows.keySet()) {
            for (String other : direct(room)) {
                int[] from = places.get(room);
                int[] to = places.get(other);
                if (from != null && to != null) {
                    lines.append(String.format(
                            Locale.ROOT,
                            "<line x1=\"%d\" y1=\"%d\" x2=\"%d\" y2=\"%d\" stroke=\"#96501f\" stroke-width=\"1.6\" marker-end=\"url(#tip)\"/>%n",
                            from[0],
                            from[1] + 22,
                            to[0],
                            to[1] - 25));
                }
            }
        }
        return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + WIDTH + " " + (FLOOR * FLOORS.size() + 10)
                + "\" font-family=\"system-ui, 'DejaVu Sans', sans-serif\" role=\"img\" aria-label=\"Rooms of the house; every arrow points down\">\n"
                + "<defs><marker id=\"tip\" viewBox=\"0 0 10 10\" refX=\"9\" refY=\"5\" markerWidth=\"7\" markerHeight=\"7\" orient=\"auto\"><path d=\"M0 0L10 5L0 10z\" fill=\"#96501f\"/></marker></defs>\n"
                + "<rect width=\"100%\" height=\"100%\" fill=\"#f3f1ea\"/>\n" + lines + boxes + "</svg>\n";
    }

    /// The table of rooms with the first sentence of their name plates.
    String table() throws IOException {
        StringBuilder table = new StringBuilder("| room | what for | knows |\n|---|---|---|\n");
        for (List<String> floor : FLOORS) {
            for (String room : floor) {
                table.append("| ")
                        .append(room)
                        .append(" | ")
                        .append(plate(room))
                        .append(" | ")
                        .append(String.join(", ", arrows.getOrDefault(room, Set.of())))
                        .append(" |\n");
            }
        }
        return table.toString();
    }

    private static String plate(String room) throws IOException {
        String text = Files.readString(Path.of("src/main/java/org/rollwright", room, "package-info.java"));
        StringBuilder words = new StringBuilder();
        Matcher comment = Pattern.compile("^/// ?(.*)$", Pattern.MULTILINE).matcher(text);
        while (comment.find()) {
            words.append(comment.group(1)).append(' ');
        }
        String all = words.toString().strip();
        int end = all.indexOf(". ");
        return (end < 0 ? all : all.substring(0, end + 1)).replace("|", "\\|");
    }

    static String inPage(String page, String table) {
        return page.replaceFirst(
                "(?s)<!-- rooms -->\n.*?<!-- end -->",
                Matcher.quoteReplacement("<!-- rooms -->\n" + table + "<!-- end -->"));
    }

    public static void main(String[] args) throws IOException {
        HousePicture picture = new HousePicture();
        Files.writeString(SVG, picture.svg());
        Files.writeString(PAGE, inPage(Files.readString(PAGE), picture.table()));
    }
}
