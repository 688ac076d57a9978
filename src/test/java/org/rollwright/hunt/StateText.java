package org.rollwright.hunt;

import java.util.Comparator;
import java.util.stream.Collectors;

/// The whole state as text, so that tests can compare two states and a failure shows the difference.
public final class StateText {
    private StateText() {}

    /// As [#of], with what only shows later: coins owned, times, and the numbers given next.
    public static String whole(Logbook book) {
        StringBuilder text = new StringBuilder(of(book)).append('\n');
        text.append(book.ownedCoins()).append('\n');
        book.ownedCoins().forEach(coin -> text.append(book.acquisition(coin.ref())));
        text.append('\n');
        book.hunts()
                .forEach(hunt -> text.append(hunt.id())
                        .append(" touched ")
                        .append(hunt.touched())
                        .append(" next ")
                        .append(hunt.nextOrdinal())
                        .append('\n'));
        book.boxes().forEach(box -> text.append(box.id()).append(box.finds()).append(box.earlier()));
        text.append("next ")
                .append(book.nextBox())
                .append(book.nextHunt())
                .append(book.nextFind())
                .append(book.nextAlbum())
                .append(book.nextAdded())
                .append(book.nextPlace())
                .append(book.nextOrder())
                .append(" last ")
                .append(book.last());
        return text.toString();
    }

    public static String of(Logbook book) {
        StringBuilder text = new StringBuilder();
        book.hunts()
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
        book.boxes().stream()
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
        book.finds().stream()
                .sorted(Comparator.comparing(find -> find.id().number()))
                .forEach(find -> text.append(find).append('\n'));
        book.albums()
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
        text.append(book.balances()).append('\n').append(book.policy()).append('\n');
        text.append(book.coinsByIdentity().entrySet().stream()
                .map(Object::toString)
                .sorted()
                .collect(Collectors.joining("\n")));
        text.append('\n')
                .append(book.attributions())
                .append(book.varieties().entrySet().stream()
                        .map(entry -> entry.getKey() + new java.util.TreeMap<>(entry.getValue()))
                        .toList())
                .append(book.photos())
                .append(new java.util.TreeMap<>(book.checks()))
                .append(book.places())
                .append(book.cabinetNotes().stream()
                        .map(Object::toString)
                        .sorted()
                        .toList())
                .append(book.prices().entrySet().stream()
                        .map(Object::toString)
                        .sorted()
                        .toList())
                .append(book.cups())
                .append(book.cashMoves())
                .append(book.branches())
                .append(book.orders())
                .append(book.efforts())
                .append(book.piles())
                .append(book.metalPrices());
        return text.toString();
    }
}
