package org.rollwright.catalog;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.rollwright.coin.Identity;

/// Reads the tables of catalog/zones. A table with a bad row is refused whole; the others load.
final class ZoneLoader {
    private static final Pattern YEARS = Pattern.compile("([0-9]{4})-([0-9]{4})?");
    private static final Pattern STROKES = Pattern.compile("[MLQ0-9 .-]+");

    private record Years(int first, int last) {}

    private record On<T>(String face, T thing) {}

    private final List<RowProblem> problems = new ArrayList<>();
    private final Map<String, String> faces = new LinkedHashMap<>();
    private final List<On<Zone>> zones = new ArrayList<>();
    private final List<On<Mark>> marks = new ArrayList<>();
    private final List<Zones.Design> designs = new ArrayList<>();
    private final Map<String, Zones.Letter> letters = new HashMap<>();

    private interface Reader<T> {
        Optional<T> read(Table.Row row);
    }

    /// How many tables there are.
    static final int TABLES = 5;

    /// Whether a file is one of the tables of zones.
    static boolean isOfZones(NamedText file) {
        return file.name().startsWith("zones/") || file.name().contains("/zones/");
    }

    /// What came of reading.
    record Loaded(Zones zones, List<RowProblem> problems) {}

    static Loaded load(List<NamedText> files) {
        ZoneLoader loader = new ZoneLoader();
        loader.each(files, "faces.csv", List.of("face", "description", "source"), ZoneLoader::face)
                .forEach(face -> loader.faces.put(face.face, face.thing));
        loader.zones.addAll(loader.each(
                files,
                "zones.csv",
                List.of("face", "zone", "name", "inner", "outer", "from", "to", "source"),
                loader::zone));
        loader.marks.addAll(loader.each(
                files,
                "marks.csv",
                List.of("face", "mark", "zone", "years", "mints", "kind", "x", "y", "size", "bend", "turn", "source"),
                loader::mark));
        loader.designs.addAll(loader.each(
                files,
                "designs.csv",
                List.of(
                        "country",
                        "denomination",
                        "series",
                        "design",
                        "kind",
                        "years",
                        "obverse",
                        "reverse",
                        "without",
                        "source"),
                loader::design));
        loader.each(files, "letters.csv", List.of("letter", "width", "strokes", "source"), ZoneLoader::letter)
                .forEach(letter -> loader.letters.put(letter.face, letter.thing));
        return new Loaded(loader.zones(), loader.problems);
    }

    private Zones zones() {
        Map<String, Face> all = new HashMap<>();
        Map<String, List<Zone>> zonesOf = byFace(zones);
        Map<String, List<Mark>> marksOf = byFace(marks);
        faces.forEach((name, description) -> all.put(
                name,
                new Face(
                        name,
                        description,
                        zonesOf.getOrDefault(name, List.of()),
                        marksOf.getOrDefault(name, List.of()))));
        return new Zones(designs, all, letters);
    }

    private static <T> Map<String, List<T>> byFace(List<On<T>> things) {
        return things.stream()
                .collect(Collectors.groupingBy(On::face, Collectors.mapping(On::thing, Collectors.toList())));
    }

    private <T> List<T> each(List<NamedText> files, String name, List<String> columns, Reader<T> reader) {
        List<T> all = new ArrayList<>();
        for (NamedText file : files) {
            if (file.name().equals("zones/" + name) || file.name().endsWith("/zones/" + name)) {
                Table table = new Table(file, columns);
                List<T> read = new ArrayList<>();
                table.rows().forEach(row -> reader.read(row).ifPresent(read::add));
                problems.addAll(table.problems());
                if (table.problems().isEmpty()) {
                    all.addAll(read);
                }
            }
        }
        return all;
    }

    private static Optional<On<String>> face(Table.Row row) {
        Optional<String> name = row.required("face", t("catalog.a-name-for-the-face"));
        Optional<String> description = row.required("description", t("catalog.what-the-face-shows"));
        return name.flatMap(one -> description.map(text -> new On<>(one, text)));
    }

    private Optional<String> known(Table.Row row, String column) {
        String name = row.text(column);
        if (faces.containsKey(name)) {
            return Optional.of(name);
        }
        row.refuse(column, t("catalog.face-unknown", name), t("catalog.face-known-form"));
        return Optional.empty();
    }

    private Optional<On<Zone>> zone(Table.Row row) {
        Optional<String> face = known(row, "face");
        Optional<String> id = row.required("zone", t("catalog.zone-id"));
        Optional<String> name = row.required("name", t("catalog.zone-name"));
        OptionalInt inner = row.wholeNumber("inner", 0, 99);
        OptionalInt outer = row.wholeNumber("outer", 1, 100);
        OptionalInt from = row.wholeNumber("from", 0, 360);
        OptionalInt to = row.wholeNumber("to", 0, 360);
        if (face.isEmpty()
                || id.isEmpty()
                || name.isEmpty()
                || inner.isEmpty()
                || outer.isEmpty()
                || from.isEmpty()
                || to.isEmpty()) {
            return Optional.empty();
        }
        if (outer.getAsInt() <= inner.getAsInt()) {
            row.refuse("outer", t("catalog.not-allowed", row.text("outer")), t("catalog.outer-form"));
            return Optional.empty();
        }
        return Optional.of(new On<>(
                face.get(),
                new Zone(id.get(), name.get(), inner.getAsInt(), outer.getAsInt(), from.getAsInt(), to.getAsInt())));
    }

    private Optional<On<Mark>> mark(Table.Row row) {
        Optional<String> face = known(row, "face");
        Optional<Years> years = years(row);
        OptionalInt x = row.wholeNumber("x", 0, 1000);
        OptionalInt y = row.wholeNumber("y", 0, 1000);
        OptionalInt size = row.wholeNumber("size", 10, 300);
        OptionalInt bend = row.wholeNumber("bend", -500, 500);
        OptionalInt turn = row.wholeNumber("turn", -360, 360);
        String word = row.text("mark");
        if (!word.equals("date") && !word.equals("mint")) {
            row.refuse("mark", t("catalog.not-allowed", word), t("catalog.mark-form"));
            return Optional.empty();
        }
        if (face.isEmpty()
                || years.isEmpty()
                || x.isEmpty()
                || y.isEmpty()
                || size.isEmpty()
                || bend.isEmpty()
                || turn.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new On<>(
                face.get(),
                new Mark(
                        word.equals("date") ? Mark.What.DATE : Mark.What.MINT,
                        row.text("zone"),
                        years.get().first,
                        years.get().last,
                        row.words("mints"),
                        row.text("kind"),
                        x.getAsInt(),
                        y.getAsInt(),
                        size.getAsInt(),
                        bend.getAsInt(),
                        turn.getAsInt())));
    }

    private static Optional<Years> years(Table.Row row) {
        String text = row.text("years");
        if (text.isEmpty()) {
            return Optional.of(new Years(0, Identity.LAST_YEAR));
        }
        Matcher matcher = YEARS.matcher(text);
        if (!matcher.matches()) {
            row.refuse("years", t("catalog.not-allowed", text), t("catalog.zone-years-form"));
            return Optional.empty();
        }
        String last = matcher.group(2);
        return Optional.of(new Years(
                Integer.parseInt(matcher.group(1)), last == null ? Identity.LAST_YEAR : Integer.parseInt(last)));
    }

    private Optional<Zones.Design> design(Table.Row row) {
        Optional<String> country = row.required("country", t("catalog.country-form"));
        Optional<Years> years = years(row);
        for (String side : List.of("obverse", "reverse")) {
            if (!row.text(side).isEmpty() && known(row, side).isEmpty()) {
                return Optional.empty();
            }
        }
        return country.flatMap(code -> years.map(told -> new Zones.Design(
                code,
                row.text("denomination"),
                row.text("series"),
                row.text("design"),
                row.text("kind"),
                told.first,
                told.last,
                row.text("obverse"),
                row.text("reverse"),
                Set.copyOf(row.words("without")))));
    }

    private static Optional<On<Zones.Letter>> letter(Table.Row row) {
        Optional<String> letter = row.required("letter", t("catalog.one-letter"));
        OptionalInt width = row.wholeNumber("width", 1, 200);
        String strokes = row.text("strokes");
        if (!STROKES.matcher(strokes).matches()) {
            row.refuse("strokes", t("catalog.not-allowed", strokes), t("catalog.strokes-form"));
            return Optional.empty();
        }
        return letter.isEmpty() || width.isEmpty()
                ? Optional.empty()
                : Optional.of(new On<>(letter.get(), new Zones.Letter(width.getAsInt(), strokes)));
    }
}
