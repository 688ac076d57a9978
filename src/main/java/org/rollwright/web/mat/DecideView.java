package org.rollwright.web.mat;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.rollwright.album.HoleAlert;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.State;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Tally;
import org.rollwright.hunt.Watch;
import org.rollwright.web.albums.AlbumShelf;

/// The finds of a hunt nothing was decided about, in groups of those mostly decided alike: what fills or betters a
/// hole, what was named as a variety or error, then by what was watched for.
///
/// @param coins in all groups
/// @param decided how many coins of the hunt are decided
/// @param next another hunt with undecided coins, 0 when there is none
/// @param last position of the journal the page shows
/// @param canUndo whether undo would take back what was decided here a moment ago, and nothing else
public record DecideView(
        long hunt,
        String name,
        int coins,
        int decided,
        List<Group> groups,
        long next,
        long last,
        boolean canUndo,
        List<String> problems) {

    /// Finds mostly decided alike.
    ///
    /// @param likely the decision that comes first
    public record Group(String key, String title, int coins, String likely, List<Row> rows) {}

    /// A find.
    ///
    /// @param why what an album says of it, blank when nothing
    public record Row(int ordinal, String name, String state, int count, String why) {}

    /// What can be decided, with the key for it.
    public record Choice(String word, String key, String text) {}

    /// The decisions a page offers, in the order of the buttons.
    public static List<Choice> choices() {
        return List.of(
                new Choice("album", "a", t("decide.to-album")),
                new Choice("keep", "k", t("decide.to-keep")),
                new Choice("sell", "s", t("decide.to-sell")),
                new Choice("give", "g", t("decide.to-give")),
                new Choice("return", "r", t("decide.to-return")));
    }

    /// @param step entry of what was decided here last, 0 when nothing was
    static DecideView of(State book, Hunt hunt, Catalog catalog, AlbumShelf shelf, long step, List<String> problems) {
        Denomination denomination = hunt.box()
                .or(() -> hunt.boxes().stream().findFirst())
                .flatMap(book.hunt()::box)
                .orElseThrow()
                .denomination();
        Map<String, List<Row>> rows = new LinkedHashMap<>();
        List.of("fills", "betters", "varieties").forEach(key -> rows.put(key, new ArrayList<>()));
        hunt.watches().forEach(watch -> rows.put("w " + watch.name(), new ArrayList<>()));
        rows.put("others", new ArrayList<>());
        Set<String> holes = new HashSet<>();
        // coins already meant for an album have their holes
        for (var id : hunt.finds()) {
            Find find = book.hunt().find(id).orElseThrow();
            if (find.disposition() == Disposition.ALBUM) {
                best(shelf.alerts(book, find), holes);
            }
        }
        for (var id : hunt.finds()) {
            Find find = book.hunt().find(id).orElseThrow();
            int open = book.undecided(find);
            if (open == 0) {
                continue;
            }
            // of several coins alike one fills a hole: they stay together, and are parted by hand
            Optional<HoleAlert> alert = open > 1 ? Optional.empty() : best(shelf.alerts(book, find), holes);
            String group = alert.map(one -> one.kind() == HoleAlert.Kind.FILLS ? "fills" : "betters")
                    .orElseGet(() -> group(find, hunt, catalog, denomination.country()));
            rows.computeIfAbsent(group, key -> new ArrayList<>())
                    .add(new Row(
                            find.ordinal(),
                            catalog.name(find.facts().identity(), denomination),
                            find.facts().state(),
                            open,
                            alert.map(HoleAlert::sentence).orElse("")));
        }
        List<Group> groups = new ArrayList<>();
        rows.forEach((key, inside) -> {
            if (!inside.isEmpty()) {
                groups.add(new Group(
                        "group" + groups.size(),
                        title(key),
                        inside.stream().mapToInt(Row::count).sum(),
                        key.equals("fills") || key.equals("betters") ? "album" : "keep",
                        List.copyOf(inside)));
            }
        });
        int coins = book.undecided(hunt.id());
        return new DecideView(
                hunt.id().number(),
                hunt.name(),
                coins,
                hunt.foundCoins() - coins,
                List.copyOf(groups),
                next(book, hunt.id()),
                book.last(),
                book.wouldUndo(hunt.id().number(), step),
                problems);
    }

    /// What an album gains most by it; a hole is gained once, by the first of two coins alike.
    private static Optional<HoleAlert> best(List<HoleAlert> alerts, Set<String> holes) {
        for (HoleAlert alert : alerts) {
            boolean gain = alert.kind() == HoleAlert.Kind.FILLS || alert.kind() == HoleAlert.Kind.UPGRADES;
            if (gain && holes.add(alert.album() + " " + alert.hole().key())) {
                return Optional.of(alert);
            }
        }
        return Optional.empty();
    }

    private static String group(Find find, Hunt hunt, Catalog catalog, Country home) {
        if (!find.facts().varieties().isEmpty() || !find.facts().errors().isEmpty()) {
            return "varieties";
        }
        return hunt.watches().stream()
                .filter(watch -> Tally.watched(List.of(find), watch, catalog, home) > 0)
                .map(Watch::name)
                .findFirst()
                .map(name -> "w " + name)
                .orElse("others");
    }

    private static String title(String key) {
        return switch (key) {
            case "fills" -> t("decide.fills");
            case "betters" -> t("decide.betters");
            case "varieties" -> t("decide.varieties");
            case "others" -> t("decide.others");
            default -> key.substring(2);
        };
    }

    private static long next(State book, HuntId but) {
        return book.hunt().hunts().stream()
                .filter(hunt -> hunt.finished().isPresent() && !hunt.id().equals(but) && book.undecided(hunt.id()) > 0)
                .mapToLong(hunt -> hunt.id().number())
                .max()
                .orElse(0);
    }
}
