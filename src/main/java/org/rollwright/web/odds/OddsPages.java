package org.rollwright.web.odds;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.catalog.WatchName;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Limits;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.Watch;
import org.rollwright.odds.OddsReport;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Choice;

/// The Odds page.
public final class OddsPages {
    private final Bench bench;
    private final OddsShelf shelf;

    public OddsPages(Bench bench, OddsShelf shelf) {
        this.bench = bench;
        this.shelf = shelf;
    }

    public void register(RoutesConfig routes) {
        routes.get("/odds", this::odds);
    }

    private void odds(Context context) {
        String coin = Optional.ofNullable(context.queryParam("denomination")).orElse("");
        String watch = Optional.ofNullable(context.queryParam("watch")).orElse("");
        String cost = Optional.ofNullable(context.queryParam("cost")).orElse("");
        String prices = Optional.ofNullable(context.queryParam("prices")).orElse("");
        OddsView view = bench.desk().read(book -> view(book, coin, watch, cost, prices));
        if (!view.problems().isEmpty()) {
            context.status(io.javalin.http.HttpStatus.UNPROCESSABLE_CONTENT);
        }
        context.html(PAGES.oddsOdds(bench.frame(t("page.odds"), "odds"), view).render());
    }

    private OddsView view(State book, String coin, String wanted, String cost, String prices) {
        Map<String, Denomination> denominations = new LinkedHashMap<>();
        for (Box box : book.hunt().boxes()) {
            if (box.touched()) {
                denominations.putIfAbsent(box.denomination().toString(), box.denomination());
            }
        }
        if (denominations.isEmpty()) {
            denominations.put(Denomination.US_CENT.toString(), Denomination.US_CENT);
        }
        Map<String, Watch> watches = new LinkedHashMap<>();
        String lastCoin = "";
        String lastWatch = "";
        for (Hunt hunt : book.hunt().hunts()) {
            String ofHunt = hunt.boxes().stream()
                    .findFirst()
                    .flatMap(book.hunt()::box)
                    .map(box -> box.denomination().toString())
                    .orElse("");
            for (Watch watch : hunt.watches()) {
                watches.putIfAbsent(watch.name(), watch);
            }
            if (!hunt.watches().isEmpty() && denominations.containsKey(ofHunt)) {
                lastCoin = ofHunt;
                lastWatch = hunt.watches().getFirst().name();
            }
        }
        if (watches.isEmpty()) {
            WatchName first = bench.catalog().watches().getFirst();
            watches.put(first.name(), new Watch(first.name(), first.rule()));
        }
        String chosenCoin = denominations.containsKey(coin)
                ? coin
                : lastCoin.isEmpty() ? denominations.keySet().iterator().next() : lastCoin;
        String chosenWatch = watches.containsKey(wanted)
                ? wanted
                : lastWatch.isEmpty() ? watches.keySet().iterator().next() : lastWatch;
        Watch watch =
                watches.getOrDefault(chosenWatch, watches.values().iterator().next());
        OddsReport report = shelf.report(book, denominations.getOrDefault(chosenCoin, Denomination.US_CENT), watch);
        List<Choice> coins = new ArrayList<>();
        denominations.keySet().forEach(one -> coins.add(new Choice(one, one, one.equals(chosenCoin))));
        List<Choice> targets = new ArrayList<>();
        watches.keySet().forEach(one -> targets.add(new Choice(one, one, one.equals(chosenWatch))));
        List<String> problems = new ArrayList<>();
        double perBox = 0;
        if (!cost.isBlank()) {
            try {
                perBox = Double.parseDouble(Limits.typed(cost.strip()));
            } catch (NumberFormatException e) {
                perBox = -1;
            }
            if (!(perBox >= 0) || perBox > 1e7) {
                problems.add(t("odds.cost-wrong", cost));
            }
        }
        Map<String, Double> known = OddsView.prices(prices, problems);
        List<OddsView.Buy> buys = problems.isEmpty() ? OddsView.huntOrBuy(report, perBox, known) : List.of();
        if (problems.isEmpty() && !known.isEmpty() && buys.isEmpty()) {
            problems.add(t("odds.hole-unknown"));
        }
        return new OddsView(coins, targets, report, OddsView.charts(report), cost, prices, buys, problems);
    }
}
