package org.rollwright.web;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Function;
import org.rollwright.cabinet.OwnedCoin;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Hunt;
import org.rollwright.scope.PhotoNote;
import org.rollwright.scope.Variety;
import org.rollwright.scope.VarietyBook;
import org.rollwright.till.Branch;
import org.rollwright.till.Order;

/// What a hunter might post next, mostly right and now and then wrong, drawn from the state as it is.
final class WalkMoves {
    /// One post.
    ///
    /// @param place the room of the tool it belongs to, for counting
    /// @param file name of the field that carries a file; blank when none does
    @SuppressWarnings("ArrayRecordComponent")
    record Post(String place, String path, List<String[]> fields, String file, byte[] content) {
        static Post of(String place, String path, String... namesAndValues) {
            List<String[]> fields = new ArrayList<>();
            for (int i = 0; i < namesAndValues.length; i += 2) {
                fields.add(new String[] {namesAndValues[i], namesAndValues[i + 1]});
            }
            return new Post(place, path, fields, "", new byte[0]);
        }

        Post with(String name, String value) {
            fields.add(new String[] {name, value});
            return this;
        }
    }

    private static final String[] WRONG = {
        "",
        " ",
        "-1",
        "0",
        "99999999999",
        "abc",
        "1e309",
        "NaN",
        "2026-02-30",
        "<b>x</b>",
        "½",
        "f99999",
        "x".repeat(300)
    };
    private static final String[] DATES = {
        "44d",
        "39s",
        "36",
        "57d",
        "19s",
        "09s vdb",
        "82d copper large",
        "82 zinc small",
        "31s",
        "55",
        "43",
        "nd",
        "ca 67",
        "gb 1p 1988",
        "dime 64",
        "36?",
        "60d",
        "70s",
        "14d",
        "22"
    };
    private static final String[] STATES = {
        "",
        "",
        "",
        "vf20",
        "vf30 bn",
        "xf40",
        "ms64rd",
        "g6",
        "cleaned",
        "rpm",
        "\"notch\"",
        "ender",
        "keep",
        "album",
        "clip",
        "photo:ab12",
        "f12"
    };
    private static final String[] RULES = {
        "series wheat",
        "series memorial; metal copper; kinds apart",
        "series wheat; list 1909-S vdb, 1914-D, 1931-S; kinds apart; sound only",
        "series wheat; years 1930-1939",
        "series lincoln"
    };
    private static final String[] ALLOYS = {"us-cent-brass", "us-cent-zinc", "us-nickel"};
    private static final String[] KINDS = {
        "DRAW", "DRAW", "DEPOSIT", "FEE", "RETURNED", "CASHED", "COUNT_SHORT", "COUNT_OVER", "BOUGHT", "KEPT", "ASIDE"
    };

    private final Random random;
    private final TestBench bench;
    private final byte[][] pictures;

    WalkMoves(Random random, TestBench bench, byte[][] pictures) {
        this.random = random;
        this.bench = bench;
        this.pictures = pictures;
    }

    private String one(String... of) {
        return of[random.nextInt(of.length)];
    }

    private <T> T one(List<T> of) {
        return of.get(random.nextInt(of.size()));
    }

    private <T> String some(Function<State, Collection<T>> all, Function<T, String> name, String otherwise) {
        List<String> names = bench.bench
                .desk()
                .read(book -> all.apply(book).stream().map(name).toList());
        return names.isEmpty() ? otherwise : one(names);
    }

    private String number(int most) {
        return Integer.toString(random.nextInt(most + 1));
    }

    private String day() {
        LocalDate today = LocalDate.ofInstant(bench.bench.clock().instant(), ZoneOffset.UTC);
        return random.nextInt(4) == 0 ? "" : today.minusDays(random.nextInt(20)).toString();
    }

    private String hunt() {
        // the last hunts are worked on, older ones looked into now and then
        List<String> all = bench.bench
                .desk()
                .read(book -> book.hunt().hunts().stream()
                        .map(hunt -> Long.toString(hunt.id().number()))
                        .toList());
        if (all.isEmpty()) {
            return "1";
        }
        return random.nextInt(5) == 0 ? one(all) : all.get(all.size() - 1 - random.nextInt(Math.min(2, all.size())));
    }

    private String find(String hunt) {
        return bench.bench
                .desk()
                .read(book -> book.hunt().hunts().stream()
                        .filter(one -> Long.toString(one.id().number()).equals(hunt))
                        .findFirst()
                        .filter(one -> !one.finds().isEmpty())
                        .map(one -> one.finds().get(random.nextInt(one.finds().size())))
                        .flatMap(book.hunt()::find)
                        .map(one -> Integer.toString(one.ordinal()))
                        .orElse("1"));
    }

    private String box() {
        return some(known -> known.hunt().boxes(), box -> Long.toString(box.id().number()), "1");
    }

    private String branch() {
        return random.nextInt(6) == 0
                ? one("First of Elm", "Quarry", "North Dock")
                : some(known -> known.till().branches(), Branch::name, "Quarry, Main");
    }

    private String place() {
        return some(
                known -> known.cabinet().places(),
                place -> Long.toString(place.id().number()),
                "0");
    }

    private String coin() {
        List<String> refs = bench.bench.desk().read(book -> {
            List<OwnedCoin> owned = book.holdings().coins();
            return owned.isEmpty()
                    ? List.<String>of()
                    : List.of(owned.get(random.nextInt(owned.size())).ref().toString());
        });
        return refs.isEmpty() ? "a1" : refs.getFirst();
    }

    private String date() {
        return one(DATES) + " " + one(STATES);
    }

    private String line(String hunt) {
        String find = "f" + find(hunt);
        return switch (random.nextInt(34)) {
            case 0, 1, 2, 3 -> "+";
            case 4 -> "r" + (1 + random.nextInt(52));
            case 5 -> "r" + (1 + random.nextInt(50)) + " 4" + random.nextInt(10);
            case 6 -> "b" + (1 + random.nextInt(3));
            case 7 -> "skip";
            case 8 -> "e " + random.nextInt(5) + "/" + (20 + random.nextInt(70));
            case 9 -> "w " + random.nextInt(3000) + "g \"copper\"";
            case 10 -> "! moment " + random.nextInt(9);
            case 11 -> "\"note " + random.nextInt(9) + "\"";
            case 12 -> one("-", find + " -", find + " - ddo");
            case 13 -> "fix " + find + " " + date();
            case 14 -> "fix " + find + " x" + (1 + random.nextInt(5)) + " " + date();
            case 15 -> "move " + find + " r" + random.nextInt(51);
            case 16 -> "move " + find + " b" + (1 + random.nextInt(2)) + " r" + (1 + random.nextInt(50));
            case 17 -> "split " + find + " " + (1 + random.nextInt(2));
            case 18, 19 -> "drop " + find;
            case 20, 21 -> "put " + find + " " + one("keep", "album", "sell", "give", "return");
            case 22 -> one("watch copper", "watch \"years 1940-1949; mints S\"", "watch canadian");
            case 23 -> one("unwatch copper", "unwatch canadian", "unwatch wheat");
            case 24 -> one("finish", "resume", "+", "+");
            case 25 -> "+, " + date() + ", x2 " + one(DATES);
            case 26 -> one("q", "44 45 46 zz", "drop f9999", "x0 44", "r99", "b9", "") + one("", " ");
            default -> (random.nextInt(4) == 0 ? "x" + (2 + random.nextInt(4)) + " " : "") + date();
        };
    }

    /// The next post; `<` and `>` of every scope are the walk's own.
    Post next() {
        Post post = valid();
        if (random.nextInt(12) == 0 && !post.fields.isEmpty()) {
            post.fields.get(random.nextInt(post.fields.size()))[1] = one(WRONG);
        }
        return post;
    }

    private Post valid() {
        String hunt = hunt();
        int kind = random.nextInt(100);
        if (kind < 42) {
            return Post.of("mat", "/mat/" + hunt + "/line", "line", line(hunt));
        }
        return switch (kind) {
            case 42, 43, 44 -> change(hunt);
            case 45 -> random.nextInt(3) == 0 ? start() : Post.of("mat", "/mat/" + hunt + "/line", "line", "+");
            case 46 -> Post.of("mat", "/mat/" + hunt + "/finish");
            case 47, 48 -> narration(hunt);
            case 49, 50, 51 -> boxChange();
            case 52 -> boxAdd();
            case 53 ->
                Post.of(
                        "boxes",
                        "/boxes/opening",
                        "denomination",
                        "US cent",
                        "watch",
                        one("wheat", "canadian"),
                        "boxes",
                        number(9),
                        "coins",
                        "" + random.nextInt(20_000),
                        "found",
                        number(90));
            case 54 -> Post.of("albums", "/albums", "name", "Album " + random.nextInt(9), "rule", one(RULES));
            case 55, 56 -> albumChange();
            case 57 ->
                Post.of("albums", "/albums/policy", "policy", one("sound, grade, colour, eye", "grade, sound", "eye"));
            case 58, 59, 60, 61 -> compare();
            case 62, 63, 64 ->
                Post.of(
                        "scope",
                        "/scope/find/" + hunt + "/" + find(hunt),
                        "a",
                        "0" + one("y", "n", "c") + ".1" + one("y", "n", "c"),
                        "stage",
                        "",
                        "note",
                        "look " + random.nextInt(9),
                        random.nextBoolean() ? "compared" : "other",
                        "yes");
            case 65, 66 -> variety();
            case 67 -> Post.of("scope", "/scope/variety/" + ownVariety() + "/remove");
            case 68 -> varietyFile();
            case 69 -> photo(hunt);
            case 70 -> takeOut();
            case 71 ->
                Post.of(
                        "scale",
                        "/scale/cup",
                        "name",
                        one("copper", "zinc", "odd"),
                        "alloy",
                        one(ALLOYS),
                        "tare",
                        number(200) + "g",
                        "step",
                        "1g");
            case 72, 73 ->
                Post.of(
                        "scale",
                        "/scale/reading",
                        "cup",
                        one("copper", "zinc", "odd"),
                        "what",
                        "Box " + box(),
                        "weight",
                        (500 + random.nextInt(5000)) + "g");
            case 74 ->
                Post.of(
                        "scale",
                        "/scale/pile",
                        "alloy",
                        one(ALLOYS),
                        "coins",
                        "" + (1 + random.nextInt(900)),
                        "weight",
                        (100 + random.nextInt(3000)) + "g",
                        "step",
                        "1g");
            case 75 ->
                Post.of(
                        "scale",
                        "/scale/price",
                        "metal",
                        one("copper", "zinc", "nickel", "silver"),
                        "amount",
                        random.nextInt(30) + ".25",
                        "unit",
                        one("lb", "kg", "oz t"));
            case 76, 77, 78 -> move();
            case 79, 80 ->
                Post.of(
                        "cabinet",
                        "/cabinet/add",
                        "line",
                        one("x2 ", "", "") + date(),
                        "how",
                        one("bought", "given", "traded", "owned"),
                        "from",
                        "a club",
                        "day",
                        day(),
                        "price",
                        one("", "12.50", "3"),
                        "to",
                        place());
            case 81 ->
                Post.of(
                        "cabinet",
                        "/cabinet/place",
                        "name",
                        "tube " + random.nextInt(20),
                        "parent",
                        random.nextBoolean() ? "" : place(),
                        "capacity",
                        one("", "50", "3"));
            case 82 -> Post.of("cabinet", "/cabinet/place/remove", "place", place());
            case 83 ->
                Post.of(
                        "cabinet",
                        "/cabinet/coin/" + coin(),
                        "line",
                        one(DATES) + " " + one("vf20", "xf40", "g6"),
                        "upTo",
                        one("", "", "ms60"));
            case 84, 85 -> prices();
            case 86 ->
                Post.of(
                        "cabinet",
                        "/cabinet/coin/" + coin() + "/submission",
                        "estimate",
                        one("64.2", "55", "12"),
                        "outcome",
                        one("", "64", "58"),
                        "cost",
                        "30.00");
            case 87, 88, 89, 90 ->
                Post.of(
                        "till",
                        "/till",
                        "currency",
                        one("USD", "USD", ""),
                        "kind",
                        one(KINDS),
                        "amount",
                        (1 + random.nextInt(200)) + ".00",
                        "where",
                        branch(),
                        "what",
                        "roll",
                        "day",
                        day());
            case 91, 92 -> goBack();
            case 93, 94 -> branchWrite();
            case 95 -> Post.of("till", "/till/branches/remove", "name", branch());
            case 96 ->
                Post.of(
                        "till",
                        "/boxes/orders",
                        "boxes",
                        "" + (1 + random.nextInt(3)),
                        "denomination",
                        "US cent",
                        "where",
                        branch(),
                        "placed",
                        day(),
                        "due",
                        "",
                        "ordernote",
                        "");
            case 97 ->
                Post.of(
                        "till",
                        "/boxes/orders/end",
                        "order",
                        some(
                                known -> known.till().orders(),
                                (Order order) -> order.number().toString(),
                                "1"),
                        "came",
                        one("", "0", "1"),
                        "day",
                        "");
            case 98 ->
                Post.of(
                        "till",
                        "/till/time",
                        "day",
                        day(),
                        "minutes",
                        number(200),
                        "phase",
                        one("SEARCH", "BANK", "ROLL"),
                        "hunt",
                        one("0", hunt),
                        "road",
                        one("", "7.5 mi", "12 km"),
                        "fuel",
                        one("", "3.50"),
                        "where",
                        branch(),
                        "what",
                        "");
            default ->
                Post.of(
                        "settings",
                        "/settings",
                        "region",
                        one("", "US", "GB", "CA"),
                        "weights",
                        one("both", "grams", "ounces"),
                        "roads",
                        one("both", "miles", "kilometres"));
        };
    }

    private Post change(String hunt) {
        return Post.of(
                "mat",
                "/mat/" + hunt + "/change",
                "find",
                find(hunt),
                "what",
                one("x3 ", "", "") + date(),
                "roll",
                number(50),
                "box",
                "" + (1 + random.nextInt(2)),
                "do",
                one("save", "save", "split", "drop"));
    }

    private Post start() {
        List<String> waiting = bench.bench
                .desk()
                .read(book -> book.hunt().boxes().stream()
                        .filter(box -> box.hunt().isEmpty())
                        .map(box -> Long.toString(box.id().number()))
                        .toList());
        Post post = Post.of(
                "mat",
                "/mat",
                "denomination",
                one("US cent", "US cent", "US dime"),
                "form",
                one("box", "box", "rolls", "bag"),
                "count",
                "" + (1 + random.nextInt(2)),
                "label",
                "",
                "rolls",
                one("", "50"),
                "coins",
                one("", "500"),
                "bank",
                one("Quarry", "First of Elm"),
                "branch",
                one("", "Main"),
                "wrap",
                "machine",
                "stamp",
                "",
                "sisters",
                "",
                "pickedUp",
                day(),
                "rule",
                "",
                "name",
                "",
                "watch",
                one("wheat", "canadian"));
        if (!waiting.isEmpty() && random.nextInt(3) > 0) {
            post.with("box", one(waiting));
        }
        return post;
    }

    private Post narration(String hunt) {
        int rows = 1 + random.nextInt(4);
        Post post = Post.of(
                "narration",
                "/mat/" + hunt + "/narration/accept",
                "do",
                "accept",
                "rows",
                "" + rows,
                "file",
                "evening.srt");
        for (int i = 0; i < rows; i++) {
            post.with("r" + i + "-keep", "yes")
                    .with("r" + i + "-at", "00:0" + i)
                    .with("r" + i + "-box", "1")
                    .with("r" + i + "-roll", "" + (1 + random.nextInt(50)))
                    .with("r" + i + "-line", random.nextInt(5) == 0 ? "w 900g" : date());
        }
        return random.nextBoolean() ? post.with("rolls-1", "1-" + (2 + random.nextInt(20))) : post;
    }

    private Post boxChange() {
        return Post.of(
                "boxes",
                "/boxes/" + box(),
                "label",
                "Box " + random.nextInt(30),
                "rolls",
                one("50", "50", "25", "60"),
                "bank",
                one("Quarry", "First of Elm", ""),
                "branch",
                one("", "Main"),
                "wrap",
                one("machine", "customer"),
                "stamp",
                "",
                "sisters",
                one("", "same day"),
                "ordered",
                day(),
                "pickedUp",
                day(),
                "returned",
                random.nextInt(4) == 0 ? day() : "",
                "returnedTo",
                random.nextInt(4) == 0 ? branch() : "",
                "note",
                "n" + random.nextInt(9));
    }

    private Post boxAdd() {
        return Post.of(
                "boxes",
                "/boxes",
                "denomination",
                one("US cent", "US cent", "US nickel"),
                "label",
                "",
                "rolls",
                "",
                "bank",
                one("Quarry", ""),
                "branch",
                "",
                "wrap",
                "",
                "stamp",
                "",
                "sisters",
                "",
                "ordered",
                day(),
                "pickedUp",
                day(),
                "note",
                "");
    }

    private Post albumChange() {
        List<String[]> albums = bench.bench
                .desk()
                .read(book -> book.album().albums().stream()
                        .map(album -> new String[] {
                            Long.toString(album.id().number()),
                            album.holes().isEmpty()
                                    ? "1909"
                                    : List.copyOf(album.holes().keySet())
                                            .get(random.nextInt(album.holes().size()))
                        })
                        .toList());
        String[] album = albums.isEmpty() ? new String[] {"1", "1909"} : one(albums);
        return switch (random.nextInt(6)) {
            case 0 -> Post.of("albums", "/albums/" + album[0], "do", "remove");
            case 1, 2 -> Post.of("albums", "/albums/" + album[0], "do", "take", "hole", album[1]);
            default ->
                Post.of(
                        "albums",
                        "/albums/" + album[0],
                        "do",
                        "save",
                        "name",
                        "Album " + random.nextInt(9),
                        "rule",
                        one(RULES));
        };
    }

    private Post compare() {
        // what is shown is asked for first, as the page would
        return Post.of("albums", "/albums/compare", "do", "all");
    }

    private String ownVariety() {
        return some(book -> book.scope().varieties().keySet(), key -> key, "cent-1972-strongly-doubled-obverse");
    }

    private Map<String, String> cells() {
        List<Variety> all = bench.bench
                .desk()
                .read(book ->
                        List.copyOf(bench.bench.varieties().book(book.scope()).varieties()));
        Map<String, String> cells = new LinkedHashMap<>(one(all).cells());
        cells.put("note", "seen " + random.nextInt(99));
        return cells;
    }

    private Post variety() {
        Map<String, String> cells = cells();
        boolean fresh = random.nextBoolean();
        Post post = Post.of("scope", fresh ? "/scope/new" : "/scope/variety/" + cells.getOrDefault("key", ""));
        if (fresh) {
            cells.put("name", "own variety " + random.nextInt(40));
        }
        cells.forEach(post::with);
        return post;
    }

    private Post varietyFile() {
        Map<String, String> cells = cells();
        List<String> columns = new ArrayList<>(VarietyBook.COLUMNS);
        StringBuilder text = new StringBuilder(String.join(",", columns)).append('\n');
        text.append(String.join(
                ",",
                columns.stream()
                        .map(column -> '"' + cells.getOrDefault(column, "").replace("\"", "\"\"") + '"')
                        .toList()));
        return new Post(
                "scope",
                "/scope/varieties.csv",
                new ArrayList<>(),
                "file",
                text.append('\n').toString().getBytes(java.nio.charset.StandardCharsets.UTF_8));
    }

    private Post photo(String hunt) {
        List<String[]> fields = new ArrayList<>();
        boolean ofFind = random.nextInt(3) > 0;
        fields.add(new String[] {"find", ofFind ? hunt + "/" + find(hunt) : ""});
        fields.add(new String[] {"variety", ofFind || random.nextBoolean() ? "" : ownVariety()});
        fields.add(new String[] {"marker", "0"});
        fields.add(new String[] {"caption", one("", "obverse", "mint mark")});
        return new Post("photographs", "/scope/photos", fields, "photo", one(Arrays.asList(pictures)));
    }

    private Post takeOut() {
        List<String[]> notes = bench.bench
                .desk()
                .read(book -> book.scope().photos().stream()
                        .map((PhotoNote note) -> new String[] {
                            note.photo(),
                            note.about()
                                    .findId()
                                    .flatMap(book.hunt()::find)
                                    .map((Find find) -> find.hunt().number() + "/" + find.ordinal())
                                    .orElse("")
                        })
                        .toList());
        String[] note = notes.isEmpty() ? new String[] {"none", ""} : one(notes);
        return Post.of("photographs", "/scope/photos/take-out", "photo", note[0], "find", note[1], "back", "/scope");
    }

    private Post move() {
        Post post = Post.of(
                "cabinet",
                "/cabinet/move",
                "do",
                one("put", "put", "left"),
                "to",
                one("0", place(), place()),
                "how",
                one("sold", "given"),
                "price",
                one("", "5"),
                "whom",
                "a friend",
                "back",
                "/cabinet");
        for (int i = random.nextInt(3); i >= 0; i--) {
            post.with("coin", coin());
        }
        return post;
    }

    private Post prices() {
        Post post = Post.of(
                "cabinet",
                "/cabinet/coin/" + coin() + "/prices",
                "note",
                "own",
                "pasted",
                random.nextInt(3) == 0 ? "vf30 12.50\nxf40 BN 20" : "");
        for (String grade : List.of("p4-BN", "p12-BN", "p20-BN", "p40-BN", "p65-RD", "p20", "p40")) {
            if (random.nextBoolean()) {
                post.with(grade, random.nextInt(4) == 0 ? "" : random.nextInt(300) + ".50");
            }
        }
        return post;
    }

    private Post goBack() {
        List<String> boxes = bench.bench
                .desk()
                .read(book -> book.hunt().boxes().stream()
                        .filter(box -> box.details().returned() == null
                                && box.hunt()
                                        .flatMap(book.hunt()::hunt)
                                        .map((Hunt one) -> one.finished().isPresent())
                                        .orElse(false))
                        .map((Box box) -> Long.toString(box.id().number()))
                        .toList());
        Post post = Post.of(
                "till",
                "/till/return",
                "currency",
                "USD",
                "where",
                branch(),
                "day",
                day(),
                "counted",
                one("", "", "24.50"),
                "fee",
                one("", "0.50"),
                "paid",
                one("account", "cash"));
        return post.with("box", boxes.isEmpty() ? box() : one(boxes));
    }

    private Post branchWrite() {
        Post post = Post.of(
                "till",
                "/till/branches",
                "bank",
                one("Quarry", "First of Elm", "North Dock", "Bank " + random.nextInt(9)),
                "branch",
                one("", "Main"),
                "gives",
                one("yes", "yes", "no"),
                "takes",
                one("yes", "no"),
                "lead",
                number(5),
                "boxfee",
                one("", "1.50"),
                "percent",
                one("", "5"),
                "road",
                one("", "4 km"),
                "bearing",
                one("", "NE"),
                "closed",
                random.nextInt(8) == 0 ? "yes" : "",
                "note",
                "");
        for (String open : List.of("MONDAY", "TUESDAY", "WEDNESDAY", "THURSDAY", "FRIDAY", "SATURDAY", "SUNDAY")) {
            if (random.nextInt(6) > 0) {
                post.with("open", open);
            }
        }
        return post;
    }

    /// Places that offer undo, each with the address it is posted to; hunts have the entry line.
    static final Map<String, String> UNDO = Map.of(
            "boxes", "/boxes/undo",
            "albums", "/albums/undo",
            "scope", "/scope/undo",
            "scale", "/scale/undo",
            "cabinet", "/cabinet/undo",
            "till", "/till/undo");

    /// Undo or redo somewhere, so often in a row.
    List<Post> backAndForth(int times) {
        List<Post> posts = new ArrayList<>();
        if (random.nextBoolean()) {
            String place = one(List.copyOf(new java.util.TreeSet<>(UNDO.keySet())));
            for (int i = 0; i < times; i++) {
                posts.add(Post.of(place, UNDO.getOrDefault(place, "")));
            }
        } else {
            String path = "/mat/" + hunt() + "/line";
            int back = random.nextInt(times + 1);
            for (int i = 0; i < times; i++) {
                posts.add(Post.of("mat", path, "line", i <= back ? "<" : ">"));
            }
        }
        return posts;
    }
}
