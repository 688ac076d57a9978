package org.rollwright.desk;

import java.util.Comparator;
import java.util.stream.Collectors;
import org.rollwright.hunt.FindId;

/// The whole state as text, so that tests can compare two states and a failure shows the difference.
public final class StateText {
    private StateText() {}

    /// As [#of], with what only shows later: coins owned, times, and the numbers given next.
    public static String whole(State book) {
        StringBuilder text = new StringBuilder(of(book)).append('\n');
        text.append(book.holdings().coins()).append('\n');
        book.holdings().coins().forEach(coin -> text.append(book.cabinet().acquisition(coin.ref())));
        text.append('\n');
        book.hunt()
                .hunts()
                .forEach(hunt -> text.append(hunt.id())
                        .append(" touched ")
                        .append(hunt.touched())
                        .append(" next ")
                        .append(book.hunt().nextOrdinal(hunt.id()))
                        .append('\n'));
        book.hunt()
                .boxes()
                .forEach(box -> text.append(box.id()).append(box.finds()).append(box.earlier()));
        text.append("next ")
                .append(book.hunt().nextBox())
                .append(book.hunt().nextHunt())
                .append(book.hunt().nextFind())
                .append(book.album().nextAlbum())
                .append(book.cabinet().nextAdded())
                .append(book.cabinet().nextPlace())
                .append(book.till().nextOrder())
                .append(" last ")
                .append(book.last());
        return text.toString();
    }

    public static String of(State book) {
        StringBuilder text = new StringBuilder();
        book.hunt()
                .hunts()
                .forEach(hunt -> text.append(hunt.id())
                        .append(' ')
                        .append(hunt.name())
                        .append(' ')
                        .append(hunt.boxes())
                        .append(' ')
                        .append(hunt.watches())
                        .append(" at ")
                        .append(hunt.box())
                        .append('/')
                        .append(hunt.roll())
                        .append(" finds ")
                        .append(hunt.finds())
                        .append(" coins ")
                        .append(hunt.foundCoins())
                        .append(" trials ")
                        .append(hunt.trials())
                        .append(" marks ")
                        .append(hunt.marks())
                        .append(" notes ")
                        .append(hunt.notes())
                        .append(" over ")
                        .append(hunt.finished())
                        .append('\n'));
        book.hunt().boxes().stream()
                .sorted(Comparator.comparing(box -> box.id().number()))
                .forEach(box -> text.append(box.id())
                        .append(' ')
                        .append(box.details())
                        .append(' ')
                        .append(box.hunt())
                        .append(' ')
                        .append(box.rolls())
                        .append(" enders ")
                        .append(box.enders())
                        .append(" weights ")
                        .append(box.weights())
                        .append(" finds ")
                        .append(box.finds().stream()
                                .sorted(Comparator.comparing(FindId::number))
                                .toList())
                        .append(" coins ")
                        .append(box.foundCoins())
                        .append('\n'));
        book.hunt().finds().stream()
                .sorted(Comparator.comparing(find -> find.id().number()))
                .forEach(find -> text.append(find).append('\n'));
        book.album()
                .albums()
                .forEach(album -> text.append(album.id())
                        .append(' ')
                        .append(album.name())
                        .append(' ')
                        .append(album.rule())
                        .append(' ')
                        .append(album.holes().entrySet().stream()
                                .map(Object::toString)
                                .sorted()
                                .collect(Collectors.joining(",")))
                        .append('\n'));
        text.append(book.hunt().balances())
                .append('\n')
                .append(book.album().policy())
                .append('\n');
        text.append(book.hunt().coinsByIdentity().entrySet().stream()
                .map(Object::toString)
                .sorted()
                .collect(Collectors.joining("\n")));
        book.hunt()
                .hunts()
                .forEach(hunt -> text.append("\nundecided ").append(book.hunt().undecided(hunt.id())));
        text.append('\n')
                .append(book.scope().attributions())
                .append(book.scope().varieties().entrySet().stream()
                        .map(entry -> entry.getKey() + new java.util.TreeMap<>(entry.getValue()))
                        .toList())
                .append(book.scope().photos())
                .append(new java.util.TreeMap<>(book.hunt().checks()))
                .append(book.cabinet().places())
                .append(book.cabinet().notes().stream()
                        .map(Object::toString)
                        .sorted()
                        .toList())
                .append(book.cabinet().prices().entrySet().stream()
                        .map(Object::toString)
                        .sorted()
                        .toList())
                .append(book.scale().cups())
                .append(book.till().cashMoves())
                .append(book.till().branches())
                .append(book.till().orders())
                .append(book.till().efforts())
                .append(book.scale().piles())
                .append(book.scale().metalPrices());
        return text.toString();
    }
}
