package org.rollwright.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/// Help on the page one is looking at, and what the tool is made of.
public final class HelpPages {
    /// Help on one place.
    ///
    /// @param guide name of its page in the guide
    /// @param keys what a key or a word does
    public record Help(String title, String sentence, String guide, List<Key> keys) {}

    /// A key or word and what it does.
    public record Key(String key, String does) {}

    private static final Map<String, Help> PLACES = places();

    private final Bench bench;
    private final Render render;

    HelpPages(Bench bench, Render render) {
        this.bench = bench;
        this.render = render;
    }

    void register(RoutesConfig routes) {
        routes.get("/help/{place}", this::help);
        routes.get("/about", this::about);
        routes.get("/about/notices.txt", context -> file(context, "/META-INF/notices.txt", "text/plain"));
        routes.get(
                "/about/licences.txt",
                context -> context.contentType("text/plain; charset=utf-8").result(LicenceTexts.all()));
        routes.get("/about/sbom.json", context -> file(context, "/META-INF/sbom/bom.json", "application/json"));
    }

    private static Map<String, Help> places() {
        Map<String, Help> places = new LinkedHashMap<>();
        places.put(
                "mat",
                new Help(
                        "The Mat",
                        "Type what you find; the line shows what it will record before you press Enter.",
                        "entry-line",
                        List.of(
                                new Key("39s", "a 1939-S; date and mint are enough"),
                                new Key("x3 48d", "three of them"),
                                new Key("36d vf30 bn \"note\"", "grade, colour, note, variety, error in any order"),
                                new Key("+", "next roll, in an empty line without Enter"),
                                new Key("r17 49", "roll 17, and it held 49 coins"),
                                new Key("<  >", "undo, redo, in an empty line without Enter"),
                                new Key("-", "the last find was looked at for its varieties and is none of them"),
                                new Key("*", "look at the last find step by step"),
                                new Key("! text", "a mark for the recording"),
                                new Key("finish", "the hunt is over"))));
        places.put(
                "boxes",
                new Help(
                        "Boxes",
                        "Every box from order to return, and its report. Earlier boxes come in with ./run import.",
                        "boxes",
                        List.of()));
        places.put(
                "albums",
                new Help(
                        "Albums",
                        "A rule says which holes an album has; comparing proposes additions and upgrades, and nothing moves before you say so.",
                        "albums",
                        List.of(
                                new Key("series wheat; years 1934-1958; one per date and mint", "a rule"),
                                new Key("Space", "tick or untick a proposed move"))));
        places.put(
                "scope",
                new Help(
                        "Scope",
                        "Varieties, what to look for and where, photographs, doubling measured.",
                        "scope",
                        List.of(
                                new Key("y  n  u", "yes, no, cannot tell, in an attribution"),
                                new Key("Arrow keys", "move a point by a pixel, with Shift by ten"),
                                new Key("b  w  d", "blink, wipe, difference of two photographs"))));
        places.put(
                "scale",
                new Help(
                        "Scale",
                        "Weights become counts and metal, with how sure that is.",
                        "scale",
                        List.of(new Key("1899.4g   3lb 4oz", "ways to write a weight"))));
        places.put(
                "cabinet",
                new Help(
                        "Cabinet",
                        "Every coin kept, where it lies and what it may be worth.",
                        "cabinet",
                        List.of(new Key("36d vf", "searches as on the entry line"))));
        places.put(
                "till",
                new Help(
                        "Till",
                        "Where every coin's face value is; boxes and finds enter by themselves.",
                        "till",
                        List.of(new Key("12 km   7.5 mi", "ways to write a road"))));
        places.put(
                "odds",
                new Help(
                        "Odds",
                        "What boxes really yield. Only coins searched while watching for a thing count.",
                        "odds",
                        List.of()));
        places.put(
                "guide",
                new Help(
                        "The guide",
                        "Begin with the first evening.",
                        "first-evening",
                        List.of(
                                new Key("Tab", "from one thing to the next"),
                                new Key("?", "this help, on every page"))));
        return Map.copyOf(places);
    }

    private void help(Context context) {
        Help help = PLACES.get(context.pathParam("place"));
        if (help == null) {
            throw new NotFoundResponse();
        }
        if ("quick".equals(context.header("X-Bench"))) {
            context.html(render.print("parts/helpbody", Map.of("help", help)));
            return;
        }
        render.page(
                context,
                "help",
                Map.of("frame", new Frame("Help: " + help.title, "guide", bench.demo()), "help", help));
    }

    private void about(Context context) {
        String notices = text("/META-INF/notices.txt");
        render.page(
                context,
                "about",
                Map.of(
                        "frame",
                        new Frame("About", "guide", bench.demo()),
                        "version",
                        Version.NUMBER,
                        "jdk",
                        Runtime.version().toString(),
                        "entries",
                        bench.desk().read(book -> book.last()),
                        "notices",
                        notices.lines()
                                .filter(line -> line.startsWith("     ("))
                                .map(String::strip)
                                .toList()));
    }

    private static String text(String resource) {
        try (InputStream in = HelpPages.class.getResourceAsStream(resource)) {
            return in == null ? "" : new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void file(Context context, String resource, String type) {
        String text = text(resource);
        if (text.isEmpty()) {
            throw new NotFoundResponse();
        }
        context.contentType(type + "; charset=utf-8");
        context.result(text);
    }
}
