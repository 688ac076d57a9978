package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.StringReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.DateFormatSymbols;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Grade;
import org.rollwright.text.Texts;

/// Pages and refusals in a language made up by brackets: what then stands outside brackets was not taken from
/// the files of texts, and must be a value of the catalogue or the record, whole, or a word that is typed.
class TranslatedPagesTest {
    /// Beside this class, wherever it was compiled to.
    private static final Path MADE = Path.of(URI.create(TranslatedPagesTest.class
                    .getProtectionDomain()
                    .getCodeSource()
                    .getLocation()
                    .toString()))
            .resolve("texts");
    private static final List<String> FILES = List.of("pages", "sentences");
    /// ISO 639 keeps the codes qaa to qtz for local use.
    private static final Locale BRACKETS = Locale.of("qaa");

    private static final Pattern INNERMOST = Pattern.compile("⟦[^⟦⟧]*⟧");
    private static final Pattern WORD = Pattern.compile("\\p{L}{2,}");
    private static final Pattern SPOKEN =
            Pattern.compile("\\b(?:title|aria-label|placeholder|alt|aria-description)=\"([^\"]*)\"");

    /// What is typed or is a name, in every language: words of rules and addresses, our own name, what this
    /// test's hunter wrote.
    private static final Set<String> TYPED = Set.of(
            "Rollwright",
            // languages to choose from, each by its own name
            "English",
            "français (Canada)",
            "qaa",
            "Box 12 and 13",
            "Box 12",
            "Box 13",
            "copper pile",
            "notch under the D",
            "Old Mill",
            "a club",
            "tube 1",
            "own.1",
            "own.2",
            "Album One",
            "Space",
            "Tab",
            "finish",
            "vf20",
            "vf35",
            "vf30 12.50",
            "36d vf",
            "36d vf30 bn \"note\"",
            "! text",
            "series wheat",
            "/recap/1/overlay",
            "series wheat; least zz",
            "series wheat; years 1934-1958; one per date and mint");

    /// Units, and directions as the record has them; grades, colours of copper, mints, countries and currencies come
    /// from where they are defined.
    private static final Set<String> LETTERS = Set.of(
            "g", "mm", "km", "mi", "oz", "lb", "oz t", "lb oz", "px", "N", "NE", "E", "SE", "S", "SW", "W", "NW");

    private static final List<String> REFUSED = List.of(
            "/mat/1/line line=zzz",
            "/mat/1/line line=2099",
            "/mat/1/line line=39q",
            "/mat/1/line line=r999",
            "/mat/1/line line=b9",
            "/mat/1/line line=e 3",
            "/mat/1/line line=39s vf99",
            "/mat/1/line line=1943 copper",
            "/mat/1/line line=watch zz",
            "/mat/1/line line=unwatch zz",
            "/mat/1/line line=split f1 9",
            "/mat/1/line line=1",
            "/till kind=DRAW&amount=abc",
            "/till kind=DEPOSIT&amount=999999&day=2026-01-01",
            "/till/branches bank=&lead=2",
            "/till/branches bank=Old Mill&lead=99",
            "/till/orders/end order=99",
            "/till/time phase=BANK&minutes=5000",
            "/albums name=&rule=series wheat",
            "/albums name=One&rule=series wheat; least zz",
            "/scale/price metal=copper&price=-3",
            "/scale/cup name=",
            "/cabinet/place name=",
            "/boxes/opening denomination=US cent&watch=wheat&boxes=1&coins=2&found=9",
            "/settings region=XX");

    /// What the hunter did besides, in English, before the language changes: pages show all of it.
    private static final List<String> BEFORE = List.of(
            "/albums name=Album One&rule=series wheat",
            "/cabinet/place name=tube 1",
            "/cabinet/add line=1936d vf20 rd&how=bought&from=a club&day=2026-02-01&price=12.50&to=1",
            "/cabinet/add line=1910s ms63 rb details&how=traded&day=2026-02-01",
            "/cabinet/coin/own.1/prices p20=10&p40=20&p63-RB=90&p65-RD=300",
            "/cabinet/coin/own.1/submission estimate=20&cost=25&day=2026-02-03",
            "/scale/cup name=copper&alloy=us-cent-brass&tare=10g&step=0.1g",
            "/scale/reading cup=copper&what=Box 12&weight=190g",
            "/scale/pile alloy=us-cent-brass&coins=50&weight=155.5g&step=0.1g",
            "/scale/price metal=copper&amount=4.50&unit=lb",
            "/till kind=DRAW&amount=50&day=2026-02-01",
            "/till/branches bank=Old Mill&lead=2&gives=yes&takes=yes&open=MONDAY&road=12 km&bearing=NE",
            "/till/orders where=Old Mill&denomination=US cent&boxes=2&placed=2026-03-02&due=2026-03-09&prepaid=yes",
            "/till/time phase=BANK&minutes=50&day=2026-02-01&road=3 km&where=Old Mill",
            "/boxes/opening denomination=US cent&watch=wheat&boxes=4&coins=10000&found=41");

    /// Pages of that record which no list of all pages has.
    private static final List<String> MORE_PAGES = List.of(
            "/cabinet?q=club",
            "/cabinet/coin/own.1",
            "/cabinet/coin/own.2",
            "/scale?form=count&alloy=us-cent-brass&weight=155.5g&step=0.1g",
            "/scale?form=mixed&heavy=us-cent-brass&light=us-cent-zinc&weight=155.5g&step=0.1g&coins=55",
            "/scale?form=single&denomination=cent&year=1982&weight=2.5g&step=0.01g",
            "/mat/1/preview?line=36d vf30 rpm ender",
            "/mat/1/preview?line=1943 copper",
            "/mat/1/preview?line=1972",
            "/odds/calc?form=watch&found=1 2",
            "/settings?region=CA",
            "/voice");

    private static final List<String> TAKEN = List.of(
            "/mat/1/line line=44d, + 36",
            "/mat/1/line line=-",
            "/mat/1/line line=e 3/48",
            "/mat/1/line line=w 100g",
            "/mat/1/line line=! the light changed",
            "/scope/find/1/1 stage=EARLY&a=0y&compared=yes",
            "/albums name=One&rule=series wheat",
            "/cabinet/place name=tube 1",
            "/scale/cup name=copper&alloy=us-cent-brass&tare=10g&step=0.1g",
            "/till kind=DRAW&amount=50&day=2026-02-01",
            "/till kind=FEE&amount=1&day=2026-02-02",
            "/till/time phase=BANK&minutes=50&day=2026-02-01",
            "/till/branches bank=Old Mill&lead=2&gives=yes&open=MONDAY",
            "/boxes/opening denomination=US cent&watch=wheat&boxes=4&coins=10000&found=41",
            "/till/return box=2&where=New Mill&day=2026-03-01&paid=cash&fee=1",
            "/mat denomination=US cent&form=box&count=1&watch=wheat&wrap=machine",
            "/mat/1/finish answer=yes");

    private final List<String> data = new ArrayList<>();

    @AfterEach
    void english_again() throws IOException {
        Texts.use(Locale.ENGLISH);
        for (String file : FILES) {
            Files.deleteIfExists(MADE.resolve(file + "_qaa.properties"));
        }
    }

    /// Writes every text in brackets, so that it can be told from what is no text.
    private static void makeLanguage() throws IOException {
        Files.createDirectories(MADE);
        for (String file : FILES) {
            Properties texts = new Properties();
            texts.load(new StringReader(Files.readString(Path.of("src/main/resources/texts", file + ".properties"))));
            texts.replaceAll((key, text) -> "⟦" + text + "⟧");
            try (var out = Files.newBufferedWriter(MADE.resolve(file + "_qaa.properties"))) {
                texts.store(out, null);
            }
        }
    }

    /// Columns of the catalogue that pages show as they are, by file or folder; of a list in a cell, its parts.
    private static final Map<String, Set<String>> SHOWN = Map.ofEntries(
            Map.entry("series", Set.of("kind", "design", "check", "note", "mint", "rarity")),
            Map.entry("series.csv", Set.of("name")),
            Map.entry("albums.csv", Set.of("album", "rule", "meaning")),
            Map.entry("watches.csv", Set.of("watch", "rule", "meaning")),
            Map.entry("cautions.csv", Set.of("text")),
            Map.entry("denominations.csv", Set.of("denomination", "name", "currency")),
            Map.entry(
                    "varieties",
                    Set.of(
                            "key",
                            "name",
                            "side",
                            "type",
                            "where",
                            "direction",
                            "markers",
                            "rarity",
                            "lookalikes",
                            "coin_kind",
                            "note",
                            "source",
                            "shows",
                            "types")),
            Map.entry("zones", Set.of("name", "description")),
            Map.entry("kinds.csv", Set.of("ask", "answers")),
            Map.entry("mints.csv", Set.of("mint", "name")),
            Map.entry("countries.csv", Set.of("code", "name")),
            Map.entry("alloys.csv", Set.of("alloy", "metal", "composition")),
            Map.entry("words.csv", Set.of("canonical")));

    /// Roles of words that tell of a coin; what is to become of it is said in the files of texts.
    private static final Set<String> OF_COINS = Set.of("variety", "error", "details", "colour", "strike");

    /// Whole cells of the catalogue and what a list in a cell holds, the longest first.
    private void readData() throws IOException {
        Set<String> phrases = new HashSet<>(TYPED);
        phrases.addAll(LETTERS);
        Grade.steps().forEach(points -> phrases.add(new Grade(points).toString()));
        List.of(Colour.values()).forEach(colour -> phrases.add(colour.name()));
        // names of months and weekdays are Java's, which has none for a made-up language
        phrases.addAll(List.of(DateFormatSymbols.getInstance(BRACKETS).getShortMonths()));
        phrases.addAll(List.of(DateFormatSymbols.getInstance(BRACKETS).getShortWeekdays()));
        try (Stream<Path> files = Files.walk(Path.of("catalog"))) {
            for (Path file :
                    files.filter(path -> path.toString().endsWith(".csv")).toList()) {
                try (CsvReader<NamedCsvRecord> rows = CsvReader.builder().ofNamedCsvRecord(file)) {
                    for (NamedCsvRecord row : rows) {
                        boolean ofCoins =
                                row.findField("role").map(OF_COINS::contains).orElse(true);
                        for (String column : ofCoins ? shown(file) : Set.<String>of()) {
                            String cell = row.findField(column).orElse("");
                            phrases.add(cell);
                            // an alloy's name is written without its hyphens
                            phrases.add(column.equals("alloy") ? cell.replace('-', ' ') : cell);
                            for (String part : cell.split(";|=|\\[[^\\]]*\\]")) {
                                phrases.add(part.strip());
                            }
                        }
                    }
                }
            }
        }
        phrases.stream()
                .filter(phrase -> phrase.length() > 1)
                .sorted(Comparator.comparingInt(String::length).reversed())
                .forEach(data::add);
    }

    private static Set<String> shown(Path file) {
        Path inside = Path.of("catalog").relativize(file);
        return SHOWN.getOrDefault(inside.getName(0).toString(), Set.of());
    }

    @Test
    void nothing_a_page_says_stands_outside_the_files_of_texts() throws IOException, InterruptedException {
        makeLanguage();
        readData();
        TreeSet<String> left = new TreeSet<>();
        try (TestBench bench = new TestBench();
                HttpClient client = HttpClient.newHttpClient()) {
            bench.typeAnEvening();
            for (String done : BEFORE) {
                HttpResponse<String> answer = post(client, bench.address, done);
                assertThat(answer.statusCode())
                        .as("%s: %s", done, answer.body())
                        .isEqualTo(303);
            }
            Texts.use(BRACKETS);
            assertThat(Texts.language()).isEqualTo("qaa");
            for (String path :
                    Stream.concat(AllPages.PAGES.stream(), MORE_PAGES.stream()).toList()) {
                if (!path.startsWith("/guide") && !path.equals("/about")) {
                    HttpRequest get = HttpRequest.newBuilder(URI.create(bench.address + path.replace(' ', '+')))
                            .build();
                    left.addAll(outside(
                            path,
                            client.send(get, HttpResponse.BodyHandlers.ofString())
                                    .body()));
                }
            }
            for (String refused : REFUSED) {
                HttpResponse<String> answer = post(client, bench.address, refused);
                assertThat(answer.statusCode()).as(refused).isEqualTo(422);
                left.addAll(outside(refused, answer.body()));
            }
        }
        assertThat(left).isEmpty();
    }

    /// The other way round: every word of the pages in French stands in a French text, or is data or typed. A word that
    /// came from an English text or from code is none of these.
    @Test
    void nothing_english_is_left_on_the_pages_in_french() throws IOException, InterruptedException {
        readData();
        Set<String> french = new HashSet<>();
        for (String file : FILES) {
            Properties texts = new Properties();
            texts.load(
                    new StringReader(Files.readString(Path.of("src/main/resources/texts", file + "_fr.properties"))));
            texts.values()
                    .forEach(text -> WORD.matcher(text.toString())
                            .results()
                            .forEach(word -> french.add(word.group().toLowerCase(Locale.ROOT))));
        }
        DateFormatSymbols names = DateFormatSymbols.getInstance(Locale.CANADA_FRENCH);
        for (String[] some :
                List.of(names.getMonths(), names.getShortMonths(), names.getWeekdays(), names.getShortWeekdays())) {
            for (String name : some) {
                french.add(name.replace(".", ""));
            }
        }
        TreeSet<String> left = new TreeSet<>();
        try (TestBench bench = new TestBench();
                HttpClient client = HttpClient.newHttpClient()) {
            bench.typeAnEvening();
            for (String done : BEFORE) {
                assertThat(post(client, bench.address, done).statusCode())
                        .as(done)
                        .isEqualTo(303);
            }
            Texts.use(Locale.CANADA_FRENCH);
            // what was typed wrongly is quoted in the refusals
            french.addAll(List.of("zz", "zzz", "abc"));
            for (String path :
                    Stream.concat(AllPages.PAGES.stream(), MORE_PAGES.stream()).toList()) {
                if (!path.startsWith("/guide") && !path.equals("/about")) {
                    HttpRequest get = HttpRequest.newBuilder(URI.create(bench.address + path.replace(' ', '+')))
                            .build();
                    String page = client.send(get, HttpResponse.BodyHandlers.ofString())
                            .body();
                    if (page.contains("<html")) {
                        assertThat(page).as(path).contains("<html lang=\"fr-CA\"");
                    }
                    left.addAll(words(path, page, french));
                }
            }
            for (String refused : REFUSED) {
                HttpResponse<String> answer = post(client, bench.address, refused);
                assertThat(answer.statusCode()).as(refused).isEqualTo(422);
                left.addAll(words(refused, answer.body(), french));
            }
        }
        assertThat(left).isEmpty();
    }

    @Test
    void the_record_keeps_its_own_words() throws IOException, InterruptedException {
        makeLanguage();
        try (TestBench bench = new TestBench();
                HttpClient client = HttpClient.newHttpClient()) {
            bench.typeAnEvening();
            Texts.use(BRACKETS);
            long before = bench.journal.last();
            for (String taken : TAKEN) {
                assertThat(post(client, bench.address, taken).statusCode())
                        .as(taken)
                        .isEqualTo(303);
            }
            List<String> kept = new ArrayList<>();
            bench.journal.read(before, entry -> kept.add(entry.toString()));
            assertThat(kept).hasSizeGreaterThanOrEqualTo(TAKEN.size()).noneMatch(entry -> entry.contains("⟦"));
        }
    }

    /// Sends a form; in the list its fields stand behind the address, with blanks as they are typed.
    private static HttpResponse<String> post(HttpClient client, String address, String what)
            throws IOException, InterruptedException {
        String path = what.substring(0, what.indexOf(' '));
        HttpRequest post = HttpRequest.newBuilder(URI.create(address + path))
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(
                        what.substring(path.length() + 1).replace("+", "%2B").replace(' ', '+')))
                .build();
        return client.send(post, HttpResponse.BodyHandlers.ofString());
    }

    @Test
    void a_word_in_the_code_would_be_found() {
        data.add("wheat");
        assertThat(outside("x", "<p title=\"Hello ⟦there⟧\">⟦You ⟦have⟧ <b>it</b>⟧ wheat on 5 <i>found</i> wheats</p>"))
                .containsExactlyInAnyOrder(
                        "x: Hello in Hello", "x: on in wheat on 5", "x: found in found", "x: wheats in wheats");
    }

    /// Words of a page that are in no bracket and no data.
    private List<String> outside(String where, String page) {
        return words(where, page, Set.of());
    }

    /// Words of a page that are in no bracket, no data and none of those known, which are written small.
    private List<String> words(String where, String page, Set<String> known) {
        String html = page.replaceAll("(?s)<(style|script)\\b.*?</\\1>|<!--.*?-->", "");
        List<String> pieces = new ArrayList<>();
        SPOKEN.matcher(html).results().forEach(found -> pieces.add(bare(found.group(1))));
        pieces.addAll(bare(html).replaceAll("<[^>]*>", "\n").lines().toList());
        List<String> words = new ArrayList<>();
        for (String piece : pieces) {
            String rest = piece.replace("&#39;", "'").replaceAll("&\\w+;|&#\\d+;", " ");
            for (String phrase : data) {
                if (rest.contains(phrase)) {
                    rest = rest.replaceAll("(?<!\\p{L})" + Pattern.quote(phrase) + "(?!\\p{L})", " ");
                }
            }
            WORD.matcher(rest)
                    .results()
                    .filter(word -> !known.contains(word.group().toLowerCase(Locale.ROOT)))
                    .forEach(word -> words.add(where + ": " + word.group() + " in " + piece.strip()));
        }
        return words;
    }

    private static String bare(String text) {
        String before;
        String after = text;
        do {
            before = after;
            after = INNERMOST.matcher(before).replaceAll("");
        } while (!after.equals(before));
        return after;
    }
}
