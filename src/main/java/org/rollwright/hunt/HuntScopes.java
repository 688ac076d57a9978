package org.rollwright.hunt;

import java.util.OptionalLong;

/// Which hunt an event must be recorded in: undo works within a hunt, so nothing may reach into another.
final class HuntScopes {
    private HuntScopes() {}

    static OptionalLong of(HuntBook book, HuntEvent event) {
        return switch (event) {
            case HuntEvent.HuntStarted started -> OptionalLong.of(started.hunt().number());
            case HuntEvent.BoxJoined joined -> OptionalLong.of(joined.hunt().number());
            case HuntEvent.WatchBegan began -> OptionalLong.of(began.hunt().number());
            case HuntEvent.WatchEnded ended -> OptionalLong.of(ended.hunt().number());
            case HuntEvent.RollOpened opened -> OptionalLong.of(opened.hunt().number());
            case HuntEvent.RollCounted counted -> boxOwner(book, counted.box());
            case HuntEvent.RollLeft left -> boxOwner(book, left.box());
            case HuntEvent.FindLogged logged ->
                OptionalLong.of(logged.find().hunt().number());
            case HuntEvent.FindCorrected corrected -> of(book, corrected.find());
            case HuntEvent.FindMoved moved -> of(book, moved.find());
            case HuntEvent.FindSplit split -> of(book, split.find());
            case HuntEvent.FindDeleted deleted -> of(book, deleted.find());
            case HuntEvent.FindDisposed disposed -> of(book, disposed.find());
            case HuntEvent.Weighed weighed -> OptionalLong.of(weighed.hunt().number());
            case HuntEvent.Checked checked -> OptionalLong.of(checked.hunt().number());
            case HuntEvent.Marked marked -> OptionalLong.of(marked.hunt().number());
            case HuntEvent.Noted noted -> OptionalLong.of(noted.hunt().number());
            case HuntEvent.HuntFinished over -> OptionalLong.of(over.hunt().number());
            case HuntEvent.HuntResumed resumed -> OptionalLong.of(resumed.hunt().number());
            case HuntEvent.OpeningBalance opening -> OptionalLong.of(0);
            case HuntEvent.BoxTallied tallied -> OptionalLong.of(0);
            case HuntEvent.BoxChanged changed -> OptionalLong.of(0);
            case HuntEvent.BoxAdded added -> OptionalLong.empty();
            case HuntEvent.EndersSeen seen -> OptionalLong.empty();
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
