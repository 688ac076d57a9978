package org.rollwright.hunt;

import static org.rollwright.text.Texts.t;

import java.util.HashSet;
import java.util.Optional;
import org.rollwright.coin.Limits;
import org.rollwright.coin.Refusal;

/// Keeps contradictions about hunts, boxes and finds out of the journal.
final class HuntChecks {
    static final int MOST_ROLLS = 10_000;
    private static final int MOST_COINS = 1_000_000;
    private static final int MOST_COINS_IN_A_ROLL = 10_000;
    private static final int MOST_EARLIER_BOXES = 1_000_000;

    private HuntChecks() {}

    static Optional<Refusal> refuse(HuntBook book, HuntEvent event) {
        return switch (event) {
            case HuntEvent.BoxAdded added ->
                book.box(added.box()).isPresent()
                        ? refusal(t("hunt.box-taken", added.box()), t("hunt.take-the-next-number"))
                        : size(added.details());
            case HuntEvent.BoxChanged changed -> first(box(book, changed.box()), () -> size(changed.details()));
            case HuntEvent.HuntStarted started -> huntStarted(book, started);
            case HuntEvent.BoxJoined joined -> first(hunt(book, joined.hunt()), () -> freeBox(book, joined.box()));
            case HuntEvent.WatchBegan began -> hunt(book, began.hunt());
            case HuntEvent.WatchEnded ended -> first(hunt(book, ended.hunt()), () -> watched(book, ended));
            case HuntEvent.RollOpened opened ->
                first(
                        hunt(book, opened.hunt()),
                        () -> first(
                                boxOf(book, opened.hunt(), opened.box()),
                                () -> roll(book, opened.box(), opened.roll())));
            case HuntEvent.RollCounted counted ->
                first(
                        box(book, counted.box()),
                        () -> first(roll(book, counted.box(), counted.roll()), () -> inRoll(counted.coins())));
            case HuntEvent.RollLeft left ->
                first(searched(book, left.box()), () -> roll(book, left.box(), left.roll()));
            case HuntEvent.FindLogged logged -> find(book, logged.find());
            case HuntEvent.FindCorrected corrected ->
                first(find(book, corrected.find()), () -> inFind(corrected.count()));
            case HuntEvent.FindMoved moved -> moved(book, moved);
            case HuntEvent.FindSplit split -> split(book, split);
            case HuntEvent.FindDeleted deleted -> find(book, deleted.find());
            case HuntEvent.FindDisposed disposed -> find(book, disposed.find());
            case HuntEvent.EndersSeen seen -> enders(book, seen);
            case HuntEvent.Weighed weighed -> boxOf(book, weighed.hunt(), weighed.box());
            case HuntEvent.Checked checked -> checked(book, checked);
            case HuntEvent.Marked marked -> hunt(book, marked.hunt());
            case HuntEvent.Noted noted -> hunt(book, noted.hunt());
            case HuntEvent.HuntFinished over -> first(hunt(book, over.hunt()), () -> running(book, over.hunt()));
            case HuntEvent.HuntResumed resumed ->
                first(hunt(book, resumed.hunt()), () -> notRunning(book, resumed.hunt()));
            case HuntEvent.OpeningBalance opening -> balance(opening);
            case HuntEvent.BoxTallied tallied -> first(box(book, tallied.box()), () -> tallied(book, tallied));
        };
    }

    private interface Check {
        Optional<Refusal> run();
    }

    private static Optional<Refusal> first(Optional<Refusal> refusal, Check next) {
        return refusal.isPresent() ? refusal : next.run();
    }

    private static Optional<Refusal> refusal(String wrong, String right) {
        return Refusal.of(wrong, right);
    }

    private static Optional<Refusal> hunt(HuntBook book, HuntId id) {
        return book.hunt(id).isPresent() ? Optional.empty() : refusal(t("hunt.hunt-unknown", id), t("hunt.hunt-list"));
    }

    private static Optional<Refusal> running(HuntBook book, HuntId id) {
        return book.known(id).finished().isEmpty()
                ? Optional.empty()
                : refusal(t("hunt.hunt-is-already-finished", id), t("hunt.hunt-resume"));
    }

    private static Optional<Refusal> notRunning(HuntBook book, HuntId id) {
        return book.known(id).finished().isPresent()
                ? Optional.empty()
                : refusal(t("hunt.hunt-under-way", id), t("hunt.just-go-on"));
    }

    private static Optional<Refusal> box(HuntBook book, BoxId id) {
        return book.box(id).isPresent() ? Optional.empty() : refusal(t("hunt.box-unknown", id), t("hunt.box-list"));
    }

    private static Optional<Refusal> searched(HuntBook book, BoxId id) {
        return first(
                box(book, id),
                () -> book.known(id).hunt().isPresent()
                        ? Optional.empty()
                        : refusal(t("hunt.box-not-searched", id), t("hunt.box-start-hunt")));
    }

    private static Optional<Refusal> freeBox(HuntBook book, BoxId id) {
        return first(
                box(book, id),
                () -> book.known(id).hunt().isEmpty()
                        ? Optional.empty()
                        : refusal(
                                t(
                                        "hunt.box-searched-in",
                                        id,
                                        book.known(id).hunt().orElseThrow()),
                                t("hunt.box-choose-another")));
    }

    private static Optional<Refusal> boxOf(HuntBook book, HuntId hunt, BoxId box) {
        return first(
                hunt(book, hunt),
                () -> book.known(hunt).boxes().contains(box)
                        ? Optional.empty()
                        : refusal(t("hunt.box-other-hunt", box, hunt), t("hunt.box-name-one")));
    }

    private static Optional<Refusal> huntStarted(HuntBook book, HuntEvent.HuntStarted started) {
        if (book.hunt(started.hunt()).isPresent()) {
            return refusal(t("hunt.hunt-taken", started.hunt()), t("hunt.take-the-next-number"));
        }
        if (started.boxes().isEmpty()) {
            return refusal(t("hunt.hunt-empty"), t("hunt.hunt-name-box"));
        }
        if (new HashSet<>(started.boxes()).size() != started.boxes().size()) {
            return refusal(t("hunt.box-twice"), t("hunt.name-each-box-once"));
        }
        for (BoxId box : started.boxes()) {
            Optional<Refusal> refusal = freeBox(book, box);
            if (refusal.isPresent()) {
                return refusal;
            }
        }
        return Optional.empty();
    }

    private static Optional<Refusal> watched(HuntBook book, HuntEvent.WatchEnded ended) {
        return book.known(ended.hunt()).watches().stream()
                        .anyMatch(watch -> watch.name().equals(ended.watch()))
                ? Optional.empty()
                : refusal(t("hunt.watch-not-on", ended.watch()), t("hunt.watch-name-one"));
    }

    private static Optional<Refusal> roll(HuntBook book, BoxId id, int roll) {
        int rolls = book.known(id).details().rolls();
        if (roll < 0 || roll > MOST_ROLLS) {
            return refusal(t("hunt.roll-unknown", roll), t("hunt.rolls-count-from-1"));
        }
        if (roll > rolls) {
            return rolls == 0
                    ? refusal(t("hunt.parcel-without-rolls"), t("hunt.box-no-rolls"))
                    : refusal(t("hunt.roll-over-box", roll, rolls), t("hunt.roll-name-one", rolls));
        }
        return Optional.empty();
    }

    private static Optional<Refusal> size(BoxDetails details) {
        boolean can = details.rolls() <= MOST_ROLLS
                && details.coinsPerRoll() <= MOST_COINS_IN_A_ROLL
                && details.looseCoins() <= MOST_COINS;
        return can
                ? Optional.empty()
                : refusal(
                        t("hunt.box-too-large"),
                        t(
                                "hunt.box-size-form",
                                Limits.thousands(MOST_ROLLS),
                                Limits.thousands(MOST_COINS_IN_A_ROLL),
                                Limits.thousands(MOST_COINS)));
    }

    private static Optional<Refusal> find(HuntBook book, Find find) {
        if (book.find(find.id()).isPresent()) {
            return refusal(t("hunt.find-taken", find.id()), t("hunt.take-the-next-number"));
        }
        return first(
                boxOf(book, find.hunt(), find.box()),
                () -> first(roll(book, find.box(), find.roll()), () -> inFind(find.count())));
    }

    private static Optional<Refusal> find(HuntBook book, FindId id) {
        return book.find(id).isPresent()
                ? Optional.empty()
                : refusal(t("hunt.find-unknown", id), t("hunt.find-struck-perhaps"));
    }

    private static Optional<Refusal> moved(HuntBook book, HuntEvent.FindMoved moved) {
        return first(find(book, moved.find()), () -> {
            HuntId hunt = book.known(moved.find()).hunt();
            return first(boxOf(book, hunt, moved.box()), () -> roll(book, moved.box(), moved.roll()));
        });
    }

    private static Optional<Refusal> split(HuntBook book, HuntEvent.FindSplit split) {
        return first(find(book, split.find()), () -> {
            if (book.find(split.part()).isPresent()) {
                return refusal(t("hunt.find-taken", split.part()), t("hunt.take-the-next-number"));
            }
            int count = book.known(split.find()).count();
            return split.coins() >= 1 && split.coins() < count
                    ? Optional.empty()
                    : refusal(
                            t("hunt.split-wrong", count, split.coins()),
                            count == 1 ? t("hunt.find-single") : t("hunt.number-range", (count - 1)));
        });
    }

    private static Optional<Refusal> checked(HuntBook book, HuntEvent.Checked checked) {
        return first(
                hunt(book, checked.hunt()),
                () -> first(
                        find(book, checked.find()),
                        () -> book.known(checked.find()).hunt().equals(checked.hunt())
                                ? Optional.empty()
                                : refusal(t("hunt.find-other-hunt", checked.find()), t("hunt.record-it-there"))));
    }

    private static Optional<Refusal> enders(HuntBook book, HuntEvent.EndersSeen seen) {
        return first(box(book, seen.box()), () -> {
            int most = 2 * book.known(seen.box()).details().rolls();
            if (seen.matching() < 0 || seen.visible() < 1 || seen.matching() > seen.visible()) {
                return refusal(
                        t("hunt.of-enders-is-impossible", seen.matching(), seen.visible()), t("hunt.enders-form"));
            }
            return most > 0 && seen.visible() > most
                    ? refusal(t("hunt.enders-too-many", seen.visible(), most), t("hunt.enders-two-per-roll"))
                    : Optional.empty();
        });
    }

    private static Optional<Refusal> tallied(HuntBook book, HuntEvent.BoxTallied tallied) {
        if (book.known(tallied.box()).hunt().isPresent()) {
            return refusal(t("hunt.box-searched-here", tallied.box()), t("hunt.log-its-finds-there"));
        }
        boolean possible = tallied.coins() >= 0
                && tallied.counts().stream().allMatch(count -> count.found() >= 0 && count.found() <= tallied.coins());
        return possible
                ? Optional.empty()
                : refusal(t("hunt.box-found-above-searched", tallied.box()), t("hunt.balance-give-counts"));
    }

    private static Optional<Refusal> balance(HuntEvent.OpeningBalance opening) {
        return opening.boxes() >= 0
                        && opening.boxes() <= MOST_EARLIER_BOXES
                        && opening.coins() >= 0
                        && opening.found() >= 0
                        && opening.found() <= opening.coins()
                ? Optional.empty()
                : refusal(t("hunt.balance-impossible", opening.found(), opening.coins()), t("hunt.balance-negative"));
    }

    private static Optional<Refusal> inFind(int coins) {
        return coins >= 1 && coins <= MOST_COINS
                ? Optional.empty()
                : refusal(t("hunt.a-find-cannot-hold", coins), t("hunt.number-between", 1, MOST_COINS));
    }

    private static Optional<Refusal> inRoll(int coins) {
        return coins >= 0 && coins <= MOST_COINS
                ? Optional.empty()
                : refusal(t("hunt.a-roll-cannot-hold", coins), t("hunt.number-between", 0, MOST_COINS));
    }
}
