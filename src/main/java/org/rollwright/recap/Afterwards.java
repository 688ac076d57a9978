package org.rollwright.recap;

import static org.rollwright.text.Texts.labelled;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.rollwright.album.Album;
import org.rollwright.album.AlbumBook;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.Holdings;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Mass;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.Watch;
import org.rollwright.odds.BoxHistory;
import org.rollwright.odds.History;
import org.rollwright.odds.Interval;
import org.rollwright.odds.Predictive;
import org.rollwright.odds.YieldModel;
import org.rollwright.text.Figures;

/// What can be said of a hunt once one has time: what it did to the albums, what was weighed, and how it
/// compares with what the hunter's own boxes promised. Takes longer than a [Story]; not for an overlay.
///
/// @param albums one sentence for each album that gained
/// @param weights one for each weighing
/// @param odds one for each box that can be compared
public record Afterwards(List<String> albums, List<String> weights, List<String> odds) {
    private static final int FEWEST_OTHERS = 3;
    private static final int NAMED = 8;

    public Afterwards {
        albums = List.copyOf(albums);
        weights = List.copyOf(weights);
        odds = List.copyOf(odds);
    }

    public static Afterwards of(AlbumBook albums, Holdings held, Hunt hunt, Catalog catalog) {
        List<String> weights = new ArrayList<>();
        List<String> odds = new ArrayList<>();
        HuntBook hunts = held.hunts();
        for (Box box :
                hunt.boxes().stream().map(hunts::box).flatMap(Optional::stream).toList()) {
            box.weights()
                    .forEach(weight -> weights.add(labelled(
                            box.details().label() + ", "
                                    + (weight.what().isBlank() ? t("recap.weighed") : weight.what()),
                            words(weight.mass()))));
            odds(hunts, hunt, box, catalog).ifPresent(odds::add);
        }
        return new Afterwards(albums(albums, held, hunt), weights, odds);
    }

    private static List<String> albums(AlbumBook albums, Holdings held, Hunt hunt) {
        List<String> sentences = new ArrayList<>();
        for (Album album : albums.albums()) {
            List<String> holes = new ArrayList<>();
            album.holes().forEach((hole, coin) -> {
                if (isOf(held, hunt, coin)) {
                    holes.add(hole);
                }
            });
            if (!holes.isEmpty()) {
                String named = String.join(", ", holes.subList(0, Math.min(NAMED, holes.size())));
                sentences.add(t(
                        "recap.holes-filled-from-this-hunt",
                        holes.size(),
                        album.name(),
                        named + (holes.size() > NAMED ? " …" : "")));
            }
        }
        return sentences;
    }

    private static boolean isOf(Holdings held, Hunt hunt, CoinRef coin) {
        return coin.find() != 0
                && held.coin(coin).isPresent()
                && held.hunts()
                        .find(new FindId(coin.find()))
                        .map(Find::hunt)
                        .filter(hunt.id()::equals)
                        .isPresent();
    }

    static String words(Mass mass) {
        return Figures.of("%,.0f g (%s)", mass.grams(), mass.poundsAndOunces());
    }

    private static Optional<String> odds(HuntBook book, Hunt hunt, Box box, Catalog catalog) {
        long perBox = box.details().nominalCoins();
        if (hunt.watches().isEmpty() || box.details().rolls() == 0 || perBox == 0) {
            return Optional.empty();
        }
        Watch watch = hunt.watches().getFirst();
        History history = History.of(book, catalog, box.denomination(), watch, perBox);
        Optional<BoxHistory> own = history.boxes().stream()
                .filter(one -> one.id().equals(box.id()))
                .findFirst();
        if (own.isEmpty()
                || history.boxes().size() <= FEWEST_OTHERS
                || own.get().exposedCoins() == 0) {
            return Optional.empty();
        }
        double share = own.get().exposedCoins() / (double) perBox;
        Predictive before =
                YieldModel.fit(history.seen(own.get())).next(own.get().source(), share);
        Interval ninety = before.interval(0.9);
        long found = own.get().found();
        String verdict = found > ninety.high()
                ? t("recap.more-than-usual")
                : found < ninety.low() ? t("recap.fewer-than-usual") : t("recap.nothing-out-of-the-ordinary");
        String label = box.details().label();
        int least = (int) ninety.low();
        int most = (int) ninety.high();
        return Optional.of(
                share < 0.999
                        ? t("recap.box-compared", label, least, most, watch.name(), found, verdict)
                        : t("recap.by-my-other-boxes", label, least, most, watch.name(), found, verdict));
    }
}
