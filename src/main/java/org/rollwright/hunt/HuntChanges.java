package org.rollwright.hunt;

import java.util.ArrayList;
import java.util.List;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Growing;

/// How each kind of event changes a [HuntBook].
final class HuntChanges {
    private HuntChanges() {}

    static HuntBook apply(HuntBook book, HuntEvent event, Entry entry) {
        return switch (event) {
            case HuntEvent.BoxAdded added -> book.changed(Box.added(added));
            case HuntEvent.BoxChanged changed ->
                book.changed(book.known(changed.box()).changed(changed.details()));
            case HuntEvent.HuntStarted started -> started(book, started, entry);
            case HuntEvent.BoxJoined joined ->
                book.changed(book.known(joined.hunt()).joinedBy(joined.box()))
                        .changed(book.known(joined.box()).searchedIn(joined.hunt()));
            case HuntEvent.WatchBegan began -> {
                Hunt hunt = book.known(began.hunt());
                List<Watch> watches =
                        new ArrayList<>(without(hunt, began.watch().name()));
                watches.add(began.watch());
                yield book.changed(hunt.watching(watches));
            }
            case HuntEvent.WatchEnded ended -> {
                Hunt hunt = book.known(ended.hunt());
                yield book.changed(hunt.watching(without(hunt, ended.watch())));
            }
            case HuntEvent.RollOpened opened -> opened(book, opened, entry);
            case HuntEvent.RollCounted counted -> {
                Box box = book.known(counted.box());
                yield book.changed(box.with(roll(box, counted.roll()).withCount(counted.coins())));
            }
            case HuntEvent.RollLeft left -> {
                Box box = book.known(left.box());
                yield book.changed(box.with(roll(box, left.roll()).leftUnsearched()));
            }
            case HuntEvent.FindLogged logged -> found(book, logged.find());
            case HuntEvent.FindCorrected corrected -> {
                Find before = book.known(corrected.find());
                yield replaced(book, before, before.corrected(corrected.facts(), corrected.count(), corrected.ender()));
            }
            case HuntEvent.FindMoved moved -> {
                Find before = book.known(moved.find());
                yield moved(book, before, before.moved(moved.box(), moved.roll()));
            }
            case HuntEvent.FindSplit split -> {
                Find whole = book.known(split.find());
                Find rest = whole.corrected(whole.facts(), whole.count() - split.coins(), whole.ender());
                yield found(replaced(book, whole, rest), whole.part(split.part(), split.ordinal(), split.coins()));
            }
            case HuntEvent.FindDeleted deleted -> struck(book, book.known(deleted.find()));
            case HuntEvent.FindDisposed disposed -> {
                Find before = book.known(disposed.find());
                yield replaced(book, before, before.disposed(disposed.disposition()));
            }
            case HuntEvent.EndersSeen seen ->
                book.changed(book.known(seen.box()).with(new Box.Enders(seen.matching(), seen.visible())));
            case HuntEvent.Weighed weighed ->
                book.changed(
                        book.known(weighed.box()).with(new Box.Weight(entry.at(), weighed.mass(), weighed.what())));
            case HuntEvent.Checked checked -> {
                Hunt hunt = book.known(checked.hunt());
                yield book.changed(hunt.tried(new Hunt.Trial(checked.find(), checked.variety())))
                        .withChecks(Growing.counted(book.checks, checked.variety(), 1));
            }
            case HuntEvent.Marked marked ->
                book.changed(book.known(marked.hunt()).marked(new Hunt.Remark(entry.at(), marked.text())));
            case HuntEvent.Noted noted ->
                book.changed(book.known(noted.hunt()).noted(new Hunt.Remark(entry.at(), noted.text())));
            case HuntEvent.HuntFinished over -> {
                Hunt hunt = book.known(over.hunt());
                yield goneOn(book, hunt).changed(hunt.over(entry.at()));
            }
            case HuntEvent.HuntResumed resumed ->
                book.changed(book.known(resumed.hunt()).over(null));
            case HuntEvent.OpeningBalance opening ->
                book.with(new HuntBook.Balance(
                        opening.denomination(), opening.watch(), opening.boxes(), opening.coins(), opening.found()));
            case HuntEvent.BoxTallied tallied ->
                book.changed(book.known(tallied.box()).tallied(tallied));
        };
    }

    private static HuntBook started(HuntBook book, HuntEvent.HuntStarted started, Entry entry) {
        HuntBook now = book;
        for (BoxId id : started.boxes()) {
            now = now.changed(now.known(id).searchedIn(started.hunt()));
        }
        return now.changed(Hunt.started(started, entry.at()));
    }

    private static List<Watch> without(Hunt hunt, String watch) {
        return hunt.watches().stream()
                .filter(other -> !other.name().equals(watch))
                .toList();
    }

    private static Roll roll(Box box, int number) {
        Roll known = box.roll(number);
        return known == null ? Roll.untouched(number) : known;
    }

    private static HuntBook opened(HuntBook book, HuntEvent.RollOpened opened, Entry entry) {
        Hunt hunt = book.known(opened.hunt());
        boolean same = opened.box().equals(hunt.boxInHand()) && opened.roll() == hunt.roll();
        HuntBook turned = (same ? book : goneOn(book, hunt)).changed(hunt.turnedTo(opened.box(), opened.roll()));
        Box box = turned.known(opened.box());
        return opened.roll() == 0
                ? turned
                : turned.changed(box.with(roll(box, opened.roll()).openedAt(entry.at(), hunt.watches())));
    }

    /// The roll in hand was searched.
    private static HuntBook goneOn(HuntBook book, Hunt hunt) {
        BoxId inHand = hunt.boxInHand();
        if (inHand == null) {
            return book;
        }
        Box box = book.known(inHand);
        Roll roll = box.roll(hunt.roll());
        return roll == null || !roll.open() ? book : book.changed(box.with(roll.goneOnFrom()));
    }

    private static HuntBook found(HuntBook book, Find find) {
        Box box = book.known(find.box());
        Hunt hunt = book.known(find.hunt());
        return book.changed(hunt.holding(Growing.plus(hunt.finds(), find.id()), hunt.foundCoins() + find.count()))
                .changed(box.holding(Growing.plus(box.finds(), find.id()), box.foundCoins() + find.count()))
                .withFinds(Growing.with(book.finds, find.id(), find), null, find);
    }

    private static HuntBook struck(HuntBook book, Find find) {
        Box box = book.known(find.box());
        Hunt hunt = book.known(find.hunt());
        return book.changed(hunt.holding(Growing.minusLast(hunt.finds(), find.id()), hunt.foundCoins() - find.count()))
                .changed(box.holding(Growing.minusLast(box.finds(), find.id()), box.foundCoins() - find.count()))
                .withFinds(Growing.without(book.finds, find.id()), find, null);
    }

    /// A find in place of itself: in the same hunt and box, maybe with another number of coins.
    private static HuntBook replaced(HuntBook book, Find before, Find after) {
        HuntBook now = book.withFinds(Growing.with(book.finds, after.id(), after), before, after);
        int more = after.count() - before.count();
        if (more == 0) {
            return now;
        }
        Hunt hunt = book.known(after.hunt());
        Box box = book.known(after.box());
        return now.changed(hunt.holding(hunt.finds(), hunt.foundCoins() + more))
                .changed(box.holding(box.finds(), box.foundCoins() + more));
    }

    private static HuntBook moved(HuntBook book, Find before, Find after) {
        HuntBook now = book.withFinds(Growing.with(book.finds, after.id(), after), before, after);
        if (before.box().equals(after.box())) {
            return now;
        }
        Box from = now.known(before.box());
        Box to = now.known(after.box());
        return now.changed(
                        from.holding(Growing.minusLast(from.finds(), before.id()), from.foundCoins() - before.count()))
                .changed(to.holding(Growing.plus(to.finds(), after.id()), to.foundCoins() + after.count()));
    }
}
