package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.rollwright.album.AlbumEvent;
import org.rollwright.album.AlbumId;
import org.rollwright.cabinet.Acquisition;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.Place;
import org.rollwright.cabinet.PlaceId;
import org.rollwright.catalog.NamedText;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;
import org.rollwright.journal.Word;
import org.rollwright.scale.Element;
import org.rollwright.scale.MetalPrice;
import org.rollwright.scale.ScaleEvent;
import org.rollwright.scope.ScopeEvent;
import org.rollwright.scope.Variety;
import org.rollwright.scope.VarietyBook;
import org.rollwright.till.Account;
import org.rollwright.till.Bearing;
import org.rollwright.till.Branch;
import org.rollwright.till.CashMove;
import org.rollwright.till.Effort;
import org.rollwright.till.Order;
import org.rollwright.till.OrderId;
import org.rollwright.till.TillEvent;

/// Texts, days and numbers out of proportion: refused by every page, and shown by every page when an older record
/// holds them.
class BoundsPageTest {
    private static final String LONG = "x".repeat(5_000);
    private static final String TURNED = "a\u202Eb";
    private static final String FAR = "+999999999-12-31";

    private final HttpClient client = HttpClient.newHttpClient();

    private HttpResponse<String> post(TestBench bench, String path, Map<String, String> fields)
            throws IOException, InterruptedException {
        String body = fields.entrySet().stream()
                .map(one -> one.getKey() + "=" + URLEncoder.encode(one.getValue(), StandardCharsets.UTF_8))
                .collect(Collectors.joining("&"));
        return client.send(
                HttpRequest.newBuilder(URI.create(bench.address + path))
                        .header("Content-Type", "application/x-www-form-urlencoded")
                        .POST(HttpRequest.BodyPublishers.ofString(body))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    /// Forms that record something, each with the fields it needs and, as `?`, the one that is out of proportion.
    private record Form(String path, Map<String, String> fields) {}

    private static final List<Form> TEXTS = List.of(
            new Form("/boxes", Map.of("denomination", "US cent", "form", "BOX", "label", "?")),
            new Form("/boxes", Map.of("denomination", "US cent", "form", "BOX", "label", "Box 1", "note", "?")),
            new Form("/boxes", Map.of("denomination", "US cent", "form", "BOX", "label", "Box 1", "bank", "?")),
            new Form("/boxes/2", Map.of("label", "?", "rolls", "50")),
            new Form("/albums", Map.of("name", "?", "rule", "series wheat")),
            new Form("/till", Map.of("kind", "DRAW", "amount", "1", "what", "?")),
            new Form("/till/branches", Map.of("bank", "?", "open", "MONDAY")),
            new Form("/till/branches", Map.of("bank", "Hill Bank", "open", "MONDAY", "note", "?")),
            new Form("/till/time", Map.of("phase", "BANK", "minutes", "5", "what", "?")),
            new Form("/scale/cup", Map.of("name", "?", "tare", "100g", "step", "1g", "alloy", "bronze")),
            new Form("/cabinet/add", Map.of("line", "36d", "from", "?")),
            new Form("/cabinet/place", Map.of("name", "?")),
            new Form("/mat", Map.of("denomination", "US cent", "form", "BOX", "count", "1", "label", "?")),
            new Form("/mat/1/line", Map.of("line", "?")));

    private static final List<Form> DAYS = List.of(
            new Form("/boxes", Map.of("denomination", "US cent", "form", "BOX", "label", "Box 1", "pickedUp", "?")),
            new Form("/boxes/2", Map.of("label", "Box 13", "rolls", "50", "returned", "?")),
            new Form("/till", Map.of("kind", "DRAW", "amount", "1", "day", "?")),
            new Form(
                    "/boxes/orders",
                    Map.of("boxes", "1", "where", "Hill Bank", "denomination", "US cent", "placed", "?")),
            new Form(
                    "/boxes/orders", Map.of("boxes", "1", "where", "Hill Bank", "denomination", "US cent", "due", "?")),
            new Form("/till/time", Map.of("phase", "BANK", "minutes", "5", "day", "?")),
            new Form("/cabinet/add", Map.of("line", "36d", "day", "?")));

    @Test
    void no_page_records_what_is_out_of_proportion() throws IOException, InterruptedException {
        List<String> wrong = new ArrayList<>();
        try (TestBench bench = new TestBench();
                client) {
            long before = bench.journal.last();
            for (String odd : List.of(LONG, TURNED, FAR)) {
                for (Form form : odd.equals(FAR) ? DAYS : TEXTS) {
                    Map<String, String> fields = form.fields.entrySet().stream()
                            .collect(Collectors.toMap(
                                    Map.Entry::getKey, one -> one.getValue().equals("?") ? odd : one.getValue()));
                    HttpResponse<String> answer = post(bench, form.path, fields);
                    if (bench.journal.last() != before || answer.statusCode() >= 500) {
                        wrong.add(answer.statusCode() + " " + form + " took " + odd.substring(0, 3));
                        before = bench.journal.last();
                    }
                }
            }
            assertThat(wrong).isEmpty();
            // and the same forms record what is in proportion, so that it was this that was refused
            int taken = 0;
            for (Form form : TEXTS) {
                Map<String, String> fields = form.fields.entrySet().stream()
                        .collect(Collectors.toMap(
                                Map.Entry::getKey, one -> one.getValue().equals("?") ? "36d" : one.getValue()));
                post(bench, form.path, fields);
                taken += bench.journal.last() > before ? 1 : 0;
                before = bench.journal.last();
            }
            assertThat(taken).as("forms that record").isGreaterThanOrEqualTo(10);
        }
    }

    @Test
    void what_was_typed_stays_in_the_field_and_the_sentence_says_how_long_it_may_be()
            throws IOException, InterruptedException {
        try (TestBench bench = new TestBench();
                client) {
            HttpResponse<String> answer =
                    post(bench, "/till/branches", Map.of("bank", "Hill Bank", "open", "MONDAY", "note", LONG));
            assertThat(answer.statusCode()).isEqualTo(422);
            assertThat(answer.body())
                    .contains("The note has 5,000 characters.")
                    .contains("Write at most 4,096.")
                    .contains("value=\"" + LONG + "\"");
        }
    }

    /// What earlier versions took.
    private static Entry[] absurd() {
        LocalDate far = LocalDate.MAX;
        LocalDate early = LocalDate.MIN;
        String text = "y".repeat(100_000);
        BoxDetails box = new BoxDetails(
                text, BoxDetails.Form.BOX, 50, 50, 0, text, text, text, text, text, early, far, far, text, text);
        List<Event> events = List.of(
                new HuntEvent.BoxAdded(new BoxId(3), Denomination.US_CENT, box),
                new HuntEvent.BoxAdded(
                        new BoxId(4),
                        Denomination.US_CENT,
                        new BoxDetails(
                                "z",
                                BoxDetails.Form.BOX,
                                Integer.MAX_VALUE,
                                Integer.MAX_VALUE,
                                Integer.MAX_VALUE,
                                "",
                                "",
                                "",
                                "",
                                "",
                                far,
                                early,
                                null,
                                "",
                                "")),
                new HuntEvent.OpeningBalance(
                        Denomination.US_CENT, "wheat", Integer.MAX_VALUE, Long.MAX_VALUE, Long.MAX_VALUE),
                new TillEvent.BranchWritten(new Branch(
                        "Hill Bank",
                        "",
                        true,
                        true,
                        Set.of(DayOfWeek.MONDAY),
                        60,
                        new BigDecimal("1e20"),
                        BigDecimal.ZERO,
                        2_000,
                        Word.of(Bearing.N),
                        false,
                        text)),
                new TillEvent.CashMoved(new CashMove(
                        far,
                        Word.of(Account.OUTSIDE),
                        Word.of(Account.CASH),
                        new BigDecimal("1e20"),
                        text,
                        text,
                        "USD")),
                new TillEvent.CashMoved(new CashMove(
                        early,
                        Word.of(Account.OUTSIDE),
                        Word.of(Account.CASH),
                        new BigDecimal("0.00001"),
                        "",
                        "",
                        "USD")),
                new TillEvent.OrderPlaced(new Order(
                        new OrderId(1),
                        "Hill Bank",
                        Denomination.US_CENT,
                        1_000,
                        early,
                        far,
                        true,
                        text,
                        null,
                        List.of())),
                new TillEvent.OrderPlaced(new Order(
                        new OrderId(2),
                        "Hill Bank",
                        Denomination.US_CENT,
                        1_000,
                        far,
                        far,
                        false,
                        text,
                        null,
                        List.of())),
                new TillEvent.EffortNoted(new Effort(
                        far, null, Effort.Phase.BANK, 1_440, 2_000, new BigDecimal("1e20"), "Hill Bank", text)),
                new CabinetEvent.CoinAcquired(
                        new CoinRef(0, 1),
                        CoinDescription.plain(Identity.of(Denomination.US_CENT, 1936, Mint.D)),
                        new Acquisition("bought", text, far, new BigDecimal("1e20"))),
                new CabinetEvent.PlaceMade(new Place(new PlaceId(1), null, text, 0)),
                new ScaleEvent.MetalPriced(
                        new MetalPrice(Word.of(Element.COPPER), new BigDecimal("1e20"), text, early)),
                new AlbumEvent.AlbumDefined(new AlbumId(1), text, "series wheat"));
        Entry[] entries = new Entry[events.size()];
        for (int i = 0; i < entries.length; i++) {
            entries[i] = new Entry(i + 1, Instant.parse("2025-01-01T00:00:00Z"), 0, text, events.get(i));
        }
        return entries;
    }

    @Test
    void every_page_shows_an_older_record_that_holds_more() throws IOException, InterruptedException {
        List<String> faults = new ArrayList<>();
        try (TestBench bench = new TestBench(absurd());
                client) {
            List<String> pages = new ArrayList<>(AllPages.PAGES);
            pages.addAll(List.of(
                    "/boxes/3",
                    "/boxes/4",
                    "/albums/1",
                    "/albums/1/want.pdf",
                    "/till/statement.pdf",
                    "/boxes/orders.ics",
                    "/cabinet/coins.csv",
                    "/cabinet/coin/own.1",
                    "/scope/varieties.csv"));
            for (String page : pages) {
                HttpResponse<String> answer = client.send(
                        HttpRequest.newBuilder(URI.create(bench.address + page.replace(" ", "%20")))
                                .build(),
                        HttpResponse.BodyHandlers.ofString());
                if (answer.statusCode() >= 500) {
                    faults.add(answer.statusCode() + " " + page);
                }
            }
            assertThat(faults).isEmpty();
        }
    }

    @Test
    void the_table_of_varieties_runs_nothing_and_comes_back_the_same() throws IOException, InterruptedException {
        try (TestBench bench = new TestBench();
                client) {
            Variety one = bench.bench
                    .desk()
                    .read(book -> bench.bench
                            .varieties()
                            .book(book.scope())
                            .varieties()
                            .iterator()
                            .next());
            Map<String, String> cells = new java.util.LinkedHashMap<>(one.cells());
            cells.put("note", "＝1+1");
            cells.put("source", "=cmd|' /C calc'!A0");
            cells.put("cross_references", "@sum");
            bench.bench.desk().record(0, "", book -> new ScopeEvent.VarietyWritten(one.key(), cells));
            String csv = client.send(
                            HttpRequest.newBuilder(URI.create(bench.address + "/scope/varieties.csv"))
                                    .build(),
                            HttpResponse.BodyHandlers.ofString())
                    .body();
            assertThat(csv).contains("'＝1+1").contains("'=cmd|").contains("'@sum");
            assertThat(VarietyBook.rows(new NamedText("back.csv", csv), bench.bench.catalog())
                            .varieties())
                    .filteredOn(back -> back.key().equals(one.key()))
                    .singleElement()
                    .satisfies(back -> assertThat(back.cells()).isEqualTo(cells));
        }
    }
}
