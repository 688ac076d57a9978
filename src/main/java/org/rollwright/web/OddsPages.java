package org.rollwright.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.catalog.WatchName;
import org.rollwright.coin.Denomination;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.Logbook;
import org.rollwright.hunt.Watch;
import org.rollwright.odds.OddsReport;

/// The Odds page.
final class OddsPages {
    private final Bench bench;
    private final Render render;
    private final OddsShelf shelf;

    OddsPages(Bench bench, Render render, OddsShelf shelf) {
        this.bench = bench;
        this.render = render;
        this.shelf = shelf;
    }

    void register(RoutesConfig routes) {
        routes.get("/odds", this::odds);
    }

    private void odds(Context context) {
        String coin = Optional.ofNullable(context.queryParam("denomination")).orElse("");
        String watch = Optional.ofNullable(context.queryParam("watch")).orElse("");
        OddsView view = bench.desk().read(book -> view(book, coin, watch));
        render.page(context, "odds", Map.of("frame", new Frame("Odds", "odds", bench.demo()), "view", view));
    }

    private OddsView view(Logbook book, String coin, String wanted) {
        Map<String, Denomination> denominations = new LinkedHashMap<>();
        for (Box box : book.boxes()) {
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
        for (Hunt hunt : book.hunts()) {
            String ofHunt = hunt.boxes().stream()
                    .findFirst()
                    .flatMap(book::box)
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
        List<OddsView.Choice> coins = new ArrayList<>();
        denominations.keySet().forEach(one -> coins.add(new OddsView.Choice(one, one, one.equals(chosenCoin))));
        List<OddsView.Choice> targets = new ArrayList<>();
        watches.keySet().forEach(one -> targets.add(new OddsView.Choice(one, one, one.equals(chosenWatch))));
        return new OddsView(coins, targets, report, OddsView.charts(report), List.of());
    }
}
