package org.rollwright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.rollwright.action.Action;
import org.rollwright.action.Actions;
import org.rollwright.action.Fields;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.Desk;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Event;
import org.rollwright.journal.Word;
import org.rollwright.scope.ScopeEvent;
import org.rollwright.scope.VerdictWord;
import org.rollwright.web.shell.Door;

/// What pages answer about worth, rank, wants, owned coins and returns, each against a sum or an order worked out by
/// hand beside it.
class RightAnswersTest {
    private final TestBench bench = new TestBench();
    private final HttpClient client = HttpClient.newHttpClient();

    @AfterEach
    void close() {
        client.close();
        bench.close();
    }

    private String page(String path) {
        try {
            HttpResponse<String> answer = client.send(
                    HttpRequest.newBuilder(URI.create(bench.address + path)).build(),
                    HttpResponse.BodyHandlers.ofString());
            assertThat(answer.statusCode()).as(path).isEqualTo(200);
            return answer.body().replace("&#34;", "\"").replace("&#39;", "'");
        } catch (IOException | InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    /// Items of the first list with a class.
    private static List<String> items(String page, String list) {
        Matcher found = Pattern.compile("<(ol|ul) class=\"" + list + "\">(.*?)</\\1>", Pattern.DOTALL)
                .matcher(page);
        assertThat(found.find()).as(list).isTrue();
        List<String> items = new ArrayList<>();
        Matcher item = Pattern.compile("<li[^>]*>(.*?)</li>", Pattern.DOTALL).matcher(found.group(2));
        while (item.find()) {
            items.add(item.group(1).replaceAll("<[^>]*>", "").strip());
        }
        return items;
    }

    /// First cells of the body of the last table on a page that has this word in its head.
    private static List<String> column(String page, String head) {
        List<String> cells = new ArrayList<>();
        Matcher table = Pattern.compile("<thead>(.*?)</thead><tbody>(.*?)</tbody>", Pattern.DOTALL)
                .matcher(page);
        while (table.find()) {
            if (table.group(1).contains(head)) {
                cells.clear();
                Matcher row = Pattern.compile("<tr><td[^>]*>(.*?)</td>", Pattern.DOTALL)
                        .matcher(table.group(2));
                while (row.find()) {
                    cells.add(row.group(1).replaceAll("<[^>]*>", "").strip());
                }
            }
        }
        return cells;
    }

    private void act(String action, Map<String, List<String>> fields) {
        Action wanted = Actions.ALL.stream()
                .filter(one -> one.name().equals(action))
                .findFirst()
                .orElseThrow();
        Action.Answer answer =
                wanted.perform(bench.bench.desk(), new Door(bench.bench).setting(), new Fields(fields), "");
        assertThat(answer).as(action + " " + fields).isInstanceOf(Action.Answer.Done.class);
    }

    /// A box searched to its end before the one in hand.
    private void searched(String label, String watchName, String watch, String... finds) {
        bench.bench.desk().recordAt(bench.bench.clock().instant(), "", book -> {
            HuntId hunt = book.hunt().nextHunt();
            return new Desk.Step(
                    hunt.number(),
                    new Event.Batch(List.of(
                            new HuntEvent.BoxAdded(
                                    book.hunt().nextBox(), Denomination.US_CENT, BoxDetails.plain(label, 50, 50)),
                            new HuntEvent.HuntStarted(
                                    hunt,
                                    label,
                                    List.of(book.hunt().nextBox()),
                                    List.of(new Watch(watchName, watch))))));
        });
        HuntId hunt = bench.bench
                .desk()
                .read(book -> new HuntId(book.hunt().nextHunt().number() - 1));
        for (int roll = 1; roll <= 50; roll++) {
            bench.bench.recorder().record(hunt, roll <= finds.length ? "+ " + finds[roll - 1] : "+");
        }
        bench.bench.recorder().record(hunt, "finish");
    }

    /// Ten old cents of no great worth, a doubled die worth thousands, one worth a hundred or two, a silver dime: by
    /// the rough worths in catalog/varieties/us-cent.csv (1969-S 5000, 1972 150) and 2.25 g of silver in a dime
    /// (90 % of 2.5 g) the order is plain, and all three stand before a worn 1919.
    @Test
    void the_best_finds_are_those_worth_most_varieties_and_other_coins_among_them() {
        bench.type("+");
        for (int year = 1916; year <= 1927; year++) {
            bench.type(year == 1922 ? "1922d g6" : year + " g6");
        }
        bench.type("1972 ddo au55", "dime 1964 vf30", "1969s ddo xf40");
        List<String> best = items(page("/recap/1"), "path");
        assertThat(best.get(0)).contains("1969-S");
        assertThat(best.get(1)).contains("1972").contains("ddo");
        assertThat(best.subList(0, 4)).anyMatch(one -> one.contains("dime") && one.contains("1964"));
        assertThat(items(page("/recap/series"), "path").get(0)).contains("1969-S");
    }

    /// A price typed by the hunter goes before every rough worth.
    @Test
    void a_typed_price_puts_its_coin_first() {
        bench.type("+ 1916 g6", "1943s ms66", "1914d g4");
        act("prices", Map.of("coin", List.of("f2.1"), "price", List.of("ms66 900")));
        assertThat(items(page("/recap/1"), "path").get(0)).contains("1943-S");
    }

    /// The better coin by grade is the doubled die, but the plain hole wants a plain coin.
    @Test
    void a_doubled_die_is_not_proposed_for_a_plain_hole_filled_or_empty() {
        bench.type("+ 1955 vf20");
        bench.album("Plain", "series wheat; years 1955; one per date and mint");
        act("accept", Map.of("do", List.of("all")));
        bench.type("1955 ddo ms63", "1955d rpm au50");
        String compare = page("/albums/compare");
        assertThat(compare).doesNotContain("1 upgrade").doesNotContain("1 addition");
        assertThat(compare).contains("Nothing to move");
        assertThat(page("/mat/1")).doesNotContain("Upgrade: Plain");
        // what the microscope found counts as much as a word on the line, which says nothing here
        bench.album("War", "series wheat; years 1943; one per date and mint");
        bench.type("1943d au55");
        assertThat(page("/albums/compare")).contains("War, 1943-D: addition");
        FindId found = bench.bench
                .desk()
                .read(book ->
                        book.hunt().hunt(new HuntId(1)).orElseThrow().finds().getLast());
        bench.bench
                .desk()
                .record(
                        1,
                        "",
                        book -> new ScopeEvent.Attributed(
                                found, "cent-1943-d-boldly-doubled-d", Word.of(VerdictWord.MATCHED), List.of(), ""));
        assertThat(page("/albums/compare"))
                .doesNotContain("War, 1943-D: addition")
                .contains("<b>War, 1943-D</b> still wants a plain one");
        // a rule may let them in
        bench.album("Any", "series wheat; years 1955; one per date and mint; varieties too");
        assertThat(page("/albums/compare")).contains("MS63");
    }

    /// Two boxes searched to the end with 3 and 1 finds; the one in hand has 5 after one roll of fifty.
    @Test
    void a_box_has_a_rank_only_once_it_is_searched_to_the_end() {
        searched("Old 1", "wheat", "series wheat", "1944", "1945", "1946");
        searched("Old 2", "wheat", "series wheat", "1944");
        bench.type("+ 44", "45", "46", "47", "48");
        assertThat(page("/recap/1")).contains("Box 12: 5 finds").doesNotContain("number 1 of");
        assertThat(page("/boxes/1")).doesNotContain("#1").doesNotContain("best of");
        assertThat(page("/boxes/3")).contains("<b>#1</b> of 2");
        assertThat(page("/boxes/4")).contains("<b>#2</b> of 2");
        assertThat(page("/mat/1")).doesNotContain("now number");
    }

    /// Six boxes gave 1919 cents twenty a box, 1944-D once, 1944 from Philadelphia and 1931-S never. By what was found
    /// 1919 is the easiest hole, although three times as many were struck in 1944: an even chance of one of twenty
    /// a box takes ln 2 / 20 = 0.03 of a box. Of 1945-D, found twice a box, the catalogue may have no mintage: it
    /// stands before 1944-D all the same.
    @Test
    void wants_stand_by_the_hunter_s_own_odds() {
        String[] many = new String[23];
        Arrays.fill(many, "1919");
        many[20] = "1944d";
        many[21] = "1945d";
        many[22] = "1945d";
        for (int i = 1; i <= 6; i++) {
            searched("Old " + i, "wheat", "series wheat", many);
        }
        bench.album("Mixed", "series wheat; list 1919, 1944, 1944-D, 1945-D, 1931-S; also 1944-D rpm");
        List<String> wants = column(page("/albums/1"), "how hard");
        assertThat(wants).startsWith("1919-P", "1945-D", "1944-D", "1944-P");
        assertThat(page("/albums/1"))
                .contains("boxes for an even chance")
                .containsPattern("1919-P</td>.*<td>less than 1</td>");
    }

    private List<String> owned(String query) {
        String page = page("/cabinet?q=" + query.replace(" ", "+"));
        List<String> names = new ArrayList<>();
        Matcher link = Pattern.compile(
                        "href=\"/cabinet/coin/[^\"]*\"><svg.*?</svg>\\s*<span>([^<]+)</span></a>", Pattern.DOTALL)
                .matcher(page);
        while (link.find()) {
            names.add(link.group(1).strip());
        }
        return names;
    }

    @Test
    void the_cabinet_finds_silver_ungraded_coins_and_a_mint() {
        bench.type("+ 44d", "09s f12", "dime 1964 vf30", "dime 1963d", "nickel 1943p vf20", "nickel 1959 vf20");
        assertThat(owned("silver")).hasSize(3).allMatch(name -> name.matches(".*(1964|1963|1943).*"));
        assertThat(owned("ungraded")).hasSize(2).allMatch(name -> name.matches(".*(1944-D|1963-D).*"));
        assertThat(owned("S mint")).singleElement().asString().contains("1909-S");
        assertThat(owned("mint D")).hasSize(2);
        assertThat(owned("silver ungraded")).singleElement().asString().contains("1963-D");
        assertThat(owned("d mint silver")).singleElement().asString().contains("1963-D");
    }

    /// An evening leaves 5.40 to go back (TillPageTest works it out): it can be carried to one branch only, the
    /// nearest of the three that take it.
    @Test
    void what_goes_back_is_told_to_one_branch() {
        bench.typeAnEvening();
        bench.type("finish");
        for (String name : List.of("Hill Bank", "Mill Bank", "Dale Bank")) {
            act(
                    "branch",
                    Map.of(
                            "bank", List.of(name),
                            "takes", List.of("yes"),
                            "open", List.of("mon", "tue", "wed", "thu", "fri"),
                            "road", List.of(name.startsWith("Mill") ? "3 km" : "9 km")));
        }
        String round = page("/till/round");
        String wishes = round.substring(round.indexOf("<tbody>"), round.indexOf("</tbody>"));
        assertThat(Pattern.compile("5\\.40").matcher(wishes).results().count()).isEqualTo(1);
        assertThat(wishes).containsPattern("Mill Bank</td>.*5\\.40");
        for (String day : round.split("<h3>")) {
            assertThat(Pattern.compile("return up to")
                            .matcher(day.split("</ol>")[0])
                            .results()
                            .count())
                    .isLessThanOrEqualTo(1);
        }
    }

    /// What a page shows before anything is unfolded, without its tags.
    private String unfolded(String path) {
        return page(path)
                .replaceAll("(?s)<details(?![^>]*\\bopen\\b)[^>]*>.*?</details>", "")
                .replaceAll("(?s)<script.*?</script>|<[^>]*>", "");
    }

    @Test
    void what_nobody_asked_for_is_behind_a_fold() {
        bench.type("+ 1955 vf20");
        assertThat(unfolded("/scale")).doesNotContain("31 CFR");
        assertThat(page("/scale")).contains("31 CFR");
        assertThat(unfolded("/till")).doesNotContain("is always the sum");
        assertThat(page("/till")).contains("is always the sum");
        assertThat(unfolded("/cabinet/coin/f1.1")).doesNotContain("f1.1");
        assertThat(unfolded("/scope/find/1/1")).doesNotContain("bits");
        assertThat(page("/scope/find/1/1")).contains("bits");
        assertThat(unfolded("/odds")).doesNotContain("negative binomial");
    }

    /// The Mat lists the last thirty; the recap of the hunt has all forty, the last one first.
    @Test
    void every_find_of_a_hunt_can_be_reached() {
        for (int n = 0; n < 40; n++) {
            bench.type("+ " + (1934 + n % 24) + " f12");
        }
        String page = page("/recap/1");
        assertThat(column(page, ">find<")).hasSize(40).startsWith("f40", "f39").endsWith("f1");
        assertThat(page).contains("href=\"/scope/find/1/1\"");
    }

    private void opening(String watch, String boxes, String coins, String found) {
        act(
                "opening",
                Map.of(
                        "denomination", List.of("cent"),
                        "watch", List.of(watch),
                        "boxes", List.of(boxes),
                        "coins", List.of(coins),
                        "found", List.of(found)));
    }

    /// 282 boxes of a notebook as one sum: with the two of the record the next is the 285th wherever boxes are counted.
    @Test
    void boxes_before_this_journal_count_in_names_boxes_and_recap() {
        opening("wheat", "282", "705000", "9012");
        // a second watch over the same boxes does not make them more
        opening("canadian", "120", "300000", "700");
        act("hunt", Map.of("denomination", List.of("cent"), "watch", List.of("wheat"), "label", List.of("")));
        assertThat(page("/boxes"))
                .contains("<b>285</b> boxes and lots")
                .contains("282 before this journal")
                .contains("before: 9012 wheat, 700 canadian")
                .contains(">Cent box 285<");
        act("box", Map.of("denomination", List.of("cent")));
        assertThat(page("/boxes")).contains(">Box 286<");
        // another denomination has none before
        act("box", Map.of("denomination", List.of("dime")));
        assertThat(page("/boxes")).contains(">Box 5<");
    }

    /// Two rolls of 50 searched, with 9 and 6 coppers, and one in hand with 4: 15 of 100 are 15.0 %, whatever the roll
    /// in hand holds.
    @Test
    void the_share_of_copper_is_that_of_the_rolls_searched() {
        act(
                "hunt",
                Map.of("denomination", List.of("cent"), "watch", List.of("copper"), "label", List.of("Copper box")));
        HuntId hunt = bench.bench
                .desk()
                .read(book -> new HuntId(book.hunt().nextHunt().number() - 1));
        for (String line : List.of("+ x9 1979", "+ x6 1980d", "+ x4 1981")) {
            bench.bench.recorder().record(hunt, line);
        }
        assertThat(page("/mat/" + hunt.number())).contains("<td>19 <span class=\"of\">15.0 %</span></td>");
        // rolls searched before a watch began say nothing of its share: 3 Canadian of the one roll of 50 are 6.0 %
        for (String line : List.of("watch canadian", "+ x3 ca 1981", "+")) {
            bench.bench.recorder().record(hunt, line);
        }
        assertThat(page("/mat/" + hunt.number())).contains("<td>3 <span class=\"of\">6.0 %</span></td>");
    }
}
