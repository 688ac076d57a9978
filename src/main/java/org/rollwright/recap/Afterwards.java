package org.rollwright.recap;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Mass;
import org.rollwright.hunt.Album;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.CoinRef;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.Logbook;
import org.rollwright.hunt.Watch;
import org.rollwright.odds.BoxHistory;
import org.rollwright.odds.History;
import org.rollwright.odds.Interval;
import org.rollwright.odds.Predictive;
import org.rollwright.odds.YieldModel;

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

    public static Afterwards of(Logbook book, Hunt hunt, Catalog catalog) {
        List<String> weights = new ArrayList<>();
        List<String> odds = new ArrayList<>();
        for (Box box :
                hunt.boxes().stream().map(book::box).flatMap(Optional::stream).toList()) {
            box.weights()
                    .forEach(weight -> weights.add(box.details().label() + ", "
                            + (weight.what().isBlank() ? t("recap.weighed") : weight.what()) + ": "
                            + words(weight.mass())));
            odds(book, hunt, box, catalog).ifPresent(odds::add);
        }
        return new Afterwards(albums(book, hunt), weights, odds);
    }

    private static List<String> albums(Logbook book, Hunt hunt) {
        List<String> sentences = new ArrayList<>();
        for (Album album : book.albums()) {
            List<String> holes = new ArrayList<>();
            album.holes().forEach((hole, coin) -> {
                if (isOf(book, hunt, coin)) {
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

    private static boolean isOf(Logbook book, Hunt hunt, CoinRef coin) {
        return coin.find() != 0
                && book.coin(coin).isPresent()
                && book.find(new FindId(coin.find()))
                        .map(Find::hunt)
                        .filter(hunt.id()::equals)
                        .isPresent();
    }

    static String words(Mass mass) {
        return String.format(Locale.ROOT, "%,.0f g (%s)", mass.grams(), mass.poundsAndOunces());
    }

    private static Optional<String> odds(Logbook book, Hunt hunt, Box box, Catalog catalog) {
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
                        ? t("recap.by-my-other-boxes-part", label, least, most, watch.name(), found, verdict)
                        : t("recap.by-my-other-boxes", label, least, most, watch.name(), found, verdict));
    }
}
