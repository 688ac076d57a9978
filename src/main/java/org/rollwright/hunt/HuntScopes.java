package org.rollwright.hunt;

import java.util.OptionalLong;

/// Which hunt an event must be recorded in: undo works within a hunt, so nothing may reach into another.
final class HuntScopes {
    private HuntScopes() {}

    static OptionalLong of(HuntBook book, HuntEvent event) {
        return switch (event) {
            case HuntEvent.FindLogged logged ->
                OptionalLong.of(logged.find().hunt().number());
            case HuntEvent.OfHunt told -> OptionalLong.of(told.hunt().number());
            case HuntEvent.OfBox told -> boxOwner(book, told.box());
            case HuntEvent.OfFind told -> of(book, told.find());
            case HuntEvent.Outside told -> OptionalLong.of(0);
            default -> OptionalLong.empty();
        };
    }

    private static OptionalLong boxOwner(HuntBook book, BoxId box) {
        return book.box(box)
                .flatMap(Box::hunt)
                .map(hunt -> OptionalLong.of(hunt.number()))
                .orElse(OptionalLong.empty());
    }

    static OptionalLong of(HuntBook book, FindId find) {
        return book.find(find)
                .map(known -> OptionalLong.of(known.hunt().number()))
                .orElse(OptionalLong.empty());
    }
}
