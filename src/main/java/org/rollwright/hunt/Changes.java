package org.rollwright.hunt;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/// How each kind of event changes a [Logbook], and how to take the change back.
final class Changes {
    private Changes() {}

    /// Applies an event and answers its inverse. Inverses are run in the opposite order of their events, within
    /// a hunt.
    static Runnable apply(Logbook book, Event event, Entry entry) {
        noteNumbers(book, event, entry.scope());
        Runnable change = change(book, event, entry);
        if (entry.scope() == 0) {
            return change;
        }
        Hunt hunt = book.hunts.get(new HuntId(entry.scope()));
        if (hunt == null) {
            return change;
        }
        Instant before = hunt.touched;
        hunt.touched = entry.at();
        return () -> {
            hunt.touched = before;
            change.run();
        };
    }

    /// Takes note of numbers used, so that none is given twice, not even that of something undone.
    static void noteNumbers(Logbook book, Event event, long scope) {
        switch (event) {
            case Event.BoxAdded added ->
                book.lastBox = Math.max(book.lastBox, added.box().number());
            case Event.HuntStarted started ->
                book.lastHunt = Math.max(book.lastHunt, started.hunt().number());
            case Event.FindLogged logged -> {
                book.lastFind = Math.max(book.lastFind, logged.find().id().number());
                noteOrdinal(book, logged.find().hunt(), logged.find().ordinal());
            }
            case Event.FindSplit split -> {
                book.lastFind = Math.max(book.lastFind, split.part().number());
                if (scope > 0) {
                    // the find it was split from may be taken back at present
                    noteOrdinal(book, new HuntId(scope), split.ordinal());
                }
            }
            case Event.AlbumDefined defined ->
                book.lastAlbum = Math.max(book.lastAlbum, defined.album().number());
            case Event.CoinAdded added ->
                book.lastAdded = Math.max(book.lastAdded, added.coin().piece());
            case Event.CoinAcquired acquired ->
                book.lastAdded = Math.max(book.lastAdded, acquired.coin().piece());
            case Event.PlaceMade made ->
                book.lastPlace = Math.max(book.lastPlace, made.place().id().number());
            case Event.OrderPlaced placed ->
                book.lastOrder = Math.max(book.lastOrder, placed.order().number());
            case Event.Batch batch -> batch.events().forEach(part -> noteNumbers(book, part, scope));
            default -> {
                // no other event brings a number into the world
            }
        }
    }

    /// Also of a hunt that is taken back at present: it may come again.
    private static void noteOrdinal(Logbook book, HuntId hunt, int ordinal) {
        book.ordinal(hunt, Math.max(ordinal, book.ordinals.getOrDefault(hunt, 0)));
    }

    private static Runnable change(Logbook book, Event event, Entry entry) {
        return switch (event) {
            case Event.BoxAdded added -> {
                Box box = new Box(added.box(), added.denomination(), added.details());
                box.scope = entry.scope();
                book.boxes.put(added.box(), box);
                yield () -> book.boxes.remove(added.box());
            }
            case Event.BoxChanged changed -> {
                Box box = book.known(changed.box());
                BoxDetails before = box.details;
                box.details = changed.details();
                yield elsewhere(box, entry, () -> box.details = before);
            }
            case Event.HuntStarted started -> huntStarted(book, started, entry.at());
            case Event.BoxJoined joined -> boxJoined(book, joined);
            case Event.WatchBegan began -> {
                Hunt hunt = book.known(began.hunt());
                List<Watch> before = hunt.watches;
                List<Watch> after = new ArrayList<>(before);
                after.removeIf(watch -> watch.name().equals(began.watch().name()));
                after.add(began.watch());
                hunt.watches = List.copyOf(after);
                yield () -> hunt.watches = before;
            }
            case Event.WatchEnded ended -> {
                Hunt hunt = book.known(ended.hunt());
                List<Watch> before = hunt.watches;
                hunt.watches = before.stream()
                        .filter(watch -> !watch.name().equals(ended.watch()))
                        .toList();
                yield () -> hunt.watches = before;
            }
            case Event.RollOpened opened -> rollOpened(book, opened, entry.at());
            case Event.RollCounted counted -> {
                Box box = book.known(counted.box());
                Roll before = box.rolls.get(counted.roll());
                Roll base = before == null ? Roll.untouched(counted.roll()) : before;
                box.rolls.put(counted.roll(), base.withCount(counted.coins()));
                yield () -> restore(box, counted.roll(), before);
            }
            case Event.RollLeft left -> {
                Box box = book.known(left.box());
                Roll before = box.rolls.get(left.roll());
                Roll base = before == null ? Roll.untouched(left.roll()) : before;
                box.rolls.put(left.roll(), base.leftUnsearched());
                yield () -> restore(box, left.roll(), before);
            }
            case Event.FindLogged logged -> findLogged(book, logged.find());
            case Event.FindCorrected corrected -> {
                Find before = book.known(corrected.find());
                yield replace(book, before, before.corrected(corrected.facts(), corrected.count(), corrected.ender()));
            }
            case Event.FindMoved moved -> findMoved(book, moved);
            case Event.FindSplit split -> findSplit(book, split);
            case Event.FindDeleted deleted -> findDeleted(book, book.known(deleted.find()));
            case Event.FindDisposed disposed -> {
                Find before = book.known(disposed.find());
                yield replace(book, before, before.disposed(disposed.disposition()));
            }
            case Event.EndersSeen seen -> {
                Box box = book.known(seen.box());
                // Enders may be seen before a hunt begins, so another scope may have added some since.
                Box.Enders enders = new Box.Enders(seen.matching(), seen.visible());
                box.enders.add(enders);
                yield elsewhere(box, entry, () -> box.enders.remove(box.enders.lastIndexOf(enders)));
            }
            case Event.Weighed weighed -> {
                Box box = book.known(weighed.box());
                box.weights.add(new Box.Weight(entry.at(), weighed.mass(), weighed.what()));
                yield () -> box.weights.removeLast();
            }
            case Event.Checked checked -> {
                Hunt hunt = book.known(checked.hunt());
                hunt.trials.add(new Hunt.Trial(checked.find(), checked.variety()));
                book.countCheck(checked.variety(), 1);
                yield () -> {
                    hunt.trials.removeLast();
                    book.countCheck(checked.variety(), -1);
                };
            }
            case Event.Attributed attributed -> {
                AttributionNote note = new AttributionNote(
                        attributed.find(),
                        attributed.variety(),
                        attributed.verdict(),
                        attributed.path(),
                        attributed.note(),
                        entry.at());
                AttributionNote before = book.attributions.put(attributed.find(), note);
                yield () -> back(book.attributions, attributed.find(), before);
            }
            case Event.VarietyWritten written -> {
                Map<String, String> before = book.varieties.put(written.variety(), written.cells());
                yield () -> back(book.varieties, written.variety(), before);
            }
            case Event.VarietyRemoved removed -> {
                Map<String, String> before = book.varieties.remove(removed.variety());
                yield () -> back(book.varieties, removed.variety(), before);
            }
            case Event.PhotoKept kept -> {
                PhotoNote note = new PhotoNote(
                        kept.photo(), kept.width(), kept.height(), kept.about(), kept.caption(), entry.at());
                boolean fresh = book.photos.add(note);
                yield fresh ? () -> book.photos.remove(note) : Changes::nothing;
            }
            case Event.PhotoTaken taken -> {
                List<PhotoNote> gone = book.photos.stream()
                        .filter(note -> note.photo().equals(taken.photo())
                                && note.about().equals(taken.about()))
                        .toList();
                gone.forEach(book.photos::remove);
                yield () -> book.photos.addAll(gone);
            }
            case Event.Marked marked -> {
                Hunt hunt = book.known(marked.hunt());
                hunt.marks.add(new Hunt.Remark(entry.at(), marked.text()));
                yield () -> hunt.marks.removeLast();
            }
            case Event.Noted noted -> {
                Hunt hunt = book.known(noted.hunt());
                hunt.notes.add(new Hunt.Remark(entry.at(), noted.text()));
                yield () -> hunt.notes.removeLast();
            }
            case Event.HuntFinished over -> finished(book.known(over.hunt()), entry.at());
            case Event.HuntResumed resumed -> finished(book.known(resumed.hunt()), null);
            case Event.OpeningBalance opening -> {
                book.balances.add(new Logbook.Balance(
                        opening.denomination(), opening.watch(), opening.boxes(), opening.coins(), opening.found()));
                yield () -> book.balances.removeLast();
            }
            case Event.BoxTallied tallied -> {
                Box box = book.known(tallied.box());
                Event.BoxTallied before = box.earlier;
                int coins = tallied.counts().stream()
                                .mapToInt(Event.WatchCount::found)
                                .sum()
                        - (before == null
                                ? 0
                                : before.counts().stream()
                                        .mapToInt(Event.WatchCount::found)
                                        .sum());
                box.earlier = tallied;
                box.foundCoins += coins;
                yield elsewhere(box, entry, () -> {
                    box.earlier = before;
                    box.foundCoins -= coins;
                });
            }
            case Event.CoinAdded added -> {
                book.added.put(added.coin(), new OwnedCoin(added.coin(), added.facts(), added.provenance()));
                yield () -> book.added.remove(added.coin());
            }
            case Event.CoinAcquired acquired -> {
                book.added.put(
                        acquired.coin(),
                        new OwnedCoin(
                                acquired.coin(),
                                acquired.facts(),
                                acquired.acquisition().sentence()));
                book.acquisitions.put(acquired.coin(), acquired.acquisition());
                yield () -> {
                    book.added.remove(acquired.coin());
                    book.acquisitions.remove(acquired.coin());
                };
            }
            case Event.CoinDescribed described ->
                noted(book, described.coin(), note -> note.described(described.facts(), described.gradeUpTo()));
            case Event.PlaceMade made -> {
                Place before = book.places.put(made.place().id(), made.place());
                yield () -> back(book.places, made.place().id(), before);
            }
            case Event.PlaceRemoved removed -> {
                Place before = book.places.remove(removed.place());
                yield () -> back(book.places, removed.place(), before);
            }
            case Event.CoinsPut put ->
                all(put.coins().stream()
                        .map(coin -> noted(book, coin, note -> note.put(put.place(), entry.at())))
                        .toList());
            case Event.CoinsLeft left ->
                all(left.coins().stream()
                        .map(coin -> noted(book, coin, note -> note.left(left.gone())))
                        .toList());
            case Event.CoinSubmitted submitted ->
                noted(book, submitted.coin(), note -> note.submitted(submitted.submission()));
            case Event.PriceNoted noted -> prices(book, noted.price(), true);
            case Event.PriceForgotten forgotten -> prices(book, forgotten.price(), false);
            case Event.CupBegun begun -> {
                Cup before = book.cups.put(begun.cup().name(), begun.cup());
                yield () -> back(book.cups, begun.cup().name(), before);
            }
            case Event.CupRead read -> {
                Cup before = java.util.Objects.requireNonNull(book.cups.get(read.cup()));
                List<Cup.Reading> readings = new ArrayList<>(before.readings());
                readings.add(new Cup.Reading(read.what(), read.mass(), entry.at()));
                book.cups.put(
                        before.name(),
                        new Cup(
                                before.name(),
                                before.alloy(),
                                before.tare(),
                                before.resolution(),
                                before.since(),
                                readings));
                yield () -> book.cups.put(before.name(), before);
            }
            case Event.PileCounted counted -> {
                CountedPile before = book.piles.put(counted.pile().alloy(), counted.pile());
                yield () -> back(book.piles, counted.pile().alloy(), before);
            }
            case Event.CashMoved moved -> {
                book.cashMoves.add(moved.move());
                yield () -> book.cashMoves.removeLast();
            }
            case Event.BranchWritten written -> {
                Branch before = book.branches.put(written.branch().name(), written.branch());
                yield () -> back(book.branches, written.branch().name(), before);
            }
            case Event.BranchRemoved removed -> {
                Branch before = book.branches.remove(removed.branch());
                yield () -> back(book.branches, removed.branch(), before);
            }
            case Event.OrderPlaced placed -> {
                book.orders.put(placed.order().number(), placed.order());
                yield () -> book.orders.remove(placed.order().number());
            }
            case Event.OrderEnded ended -> {
                Order before = java.util.Objects.requireNonNull(book.orders.get(ended.order()));
                book.orders.put(before.number(), before.endedOn(ended.day(), ended.arrived()));
                yield () -> book.orders.put(before.number(), before);
            }
            case Event.EffortNoted noted -> {
                book.efforts.add(noted.effort());
                yield () -> book.efforts.removeLast();
            }
            case Event.MetalPriced priced -> {
                MetalPrice before = book.metalPrices.put(priced.price().metal(), priced.price());
                yield () -> back(book.metalPrices, priced.price().metal(), before);
            }
            case Event.AlbumDefined defined -> albumDefined(book, defined);
            case Event.AlbumRemoved removed -> {
                Album album = book.known(removed.album());
                book.albums.remove(removed.album());
                yield () -> book.albums.put(removed.album(), album);
            }
            case Event.HolesFilled filled -> holesFilled(book, filled);
            case Event.PolicyChanged changed -> {
                String before = book.policy;
                book.policy = changed.policy();
                yield () -> book.policy = before;
            }
            case Event.Batch batch -> {
                List<Runnable> inverses = new ArrayList<>();
                for (Event part : batch.events()) {
                    inverses.add(change(book, part, entry));
                }
                yield () -> inverses.reversed().forEach(Runnable::run);
            }
            case Event.Undone undone -> Changes::nothing;
            case Event.Redone redone -> Changes::nothing;
        };
    }

    private static void nothing() {}

    /// Counts a change made to a box from another scope than that which added it.
    private static Runnable elsewhere(Box box, Entry entry, Runnable back) {
        if (entry.scope() == box.scope) {
            return back;
        }
        box.changedElsewhere++;
        return () -> {
            box.changedElsewhere--;
            back.run();
        };
    }

    private static Runnable all(List<Runnable> inverses) {
        return () -> inverses.reversed().forEach(Runnable::run);
    }

    private static Runnable noted(Logbook book, CoinRef coin, java.util.function.UnaryOperator<CabinetNote> change) {
        CabinetNote before = book.cabinet.get(coin);
        book.cabinet.put(coin, change.apply(before == null ? CabinetNote.blank(coin) : before));
        return () -> back(book.cabinet, coin, before);
    }

    /// One price for a cell: the latest word holds.
    private static Runnable prices(Logbook book, PricePoint price, boolean kept) {
        List<PricePoint> before = book.prices.getOrDefault(price.issue(), List.of());
        List<PricePoint> after = new ArrayList<>(before);
        after.removeIf(price::sameCell);
        if (kept) {
            after.add(price);
        }
        put(book.prices, price.issue(), after);
        return () -> put(book.prices, price.issue(), before);
    }

    private static void put(
            Map<org.rollwright.coin.Identity, List<PricePoint>> prices,
            org.rollwright.coin.Identity issue,
            List<PricePoint> points) {
        if (points.isEmpty()) {
            prices.remove(issue);
        } else {
            prices.put(issue, List.copyOf(points));
        }
    }

    private static <K, V> void back(Map<K, V> map, K key, @Nullable V before) {
        if (before == null) {
            map.remove(key);
        } else {
            map.put(key, before);
        }
    }

    private static Runnable huntStarted(Logbook book, Event.HuntStarted started, Instant at) {
        Hunt hunt = new Hunt(started.hunt(), started.name(), at, started.boxes(), started.watches());
        hunt.lastOrdinal = book.ordinals.getOrDefault(started.hunt(), 0);
        book.hunts.put(started.hunt(), hunt);
        started.boxes().forEach(id -> book.known(id).hunt = started.hunt());
        return () -> {
            started.boxes().forEach(id -> book.known(id).hunt = null);
            book.hunts.remove(started.hunt());
        };
    }

    private static Runnable boxJoined(Logbook book, Event.BoxJoined joined) {
        Hunt hunt = book.known(joined.hunt());
        Box box = book.known(joined.box());
        @Nullable BoxId beforeBox = hunt.box;
        hunt.boxes.add(joined.box());
        if (hunt.box == null) {
            hunt.box = joined.box();
        }
        box.hunt = joined.hunt();
        return () -> {
            box.hunt = null;
            hunt.boxes.remove(joined.box());
            hunt.box = beforeBox;
        };
    }

    private static Runnable rollOpened(Logbook book, Event.RollOpened opened, Instant at) {
        Hunt hunt = book.known(opened.hunt());
        Box box = book.known(opened.box());
        BoxId boxBefore = hunt.box;
        int rollBefore = hunt.roll;
        Roll before = box.rolls.get(opened.roll());
        hunt.box = opened.box();
        hunt.roll = opened.roll();
        if (opened.roll() > 0) {
            Roll base = before == null ? Roll.untouched(opened.roll()) : before;
            box.rolls.put(opened.roll(), base.openedAt(at, hunt.watches));
        }
        return () -> {
            hunt.box = boxBefore;
            hunt.roll = rollBefore;
            restore(box, opened.roll(), before);
        };
    }

    private static void restore(Box box, int roll, @Nullable Roll before) {
        if (before == null) {
            box.rolls.remove(roll);
        } else {
            box.rolls.put(roll, before);
        }
    }

    private static Runnable findLogged(Logbook book, Find find) {
        put(book, find);
        noteOrdinal(book, find.hunt(), find.ordinal());
        return () -> take(book, find);
    }

    private static void put(Logbook book, Find find) {
        book.finds.put(find.id(), find);
        book.known(find.box()).finds.add(find.id());
        book.known(find.hunt()).finds.add(find.id());
        book.tally(find, 1);
    }

    private static void take(Logbook book, Find find) {
        Find now = book.known(find.id());
        book.tally(now, -1);
        book.known(now.hunt()).finds.remove(now.id());
        book.known(now.box()).finds.remove(now.id());
        book.finds.remove(now.id());
    }

    private static Runnable replace(Logbook book, Find before, Find after) {
        book.tally(before, -1);
        book.finds.put(after.id(), after);
        book.tally(after, 1);
        return () -> {
            book.tally(after, -1);
            book.finds.put(before.id(), before);
            book.tally(before, 1);
        };
    }

    private static Runnable findMoved(Logbook book, Event.FindMoved moved) {
        Find before = book.known(moved.find());
        Find after = before.moved(moved.box(), moved.roll());
        Box from = book.known(before.box());
        Box to = book.known(after.box());
        Runnable back = replace(book, before, after);
        if (from == to) {
            return back;
        }
        int at = from.finds.remove(before.id());
        to.finds.add(after.id());
        return () -> {
            to.finds.remove(after.id());
            from.finds.insert(at, before.id());
            back.run();
        };
    }

    private static Runnable findSplit(Logbook book, Event.FindSplit split) {
        Find whole = book.known(split.find());
        Find part = whole.part(split.part(), split.ordinal(), split.coins());
        Runnable back =
                replace(book, whole, whole.corrected(whole.facts(), whole.count() - split.coins(), whole.ender()));
        Runnable without = findLogged(book, part);
        return () -> {
            without.run();
            back.run();
        };
    }

    private static Runnable findDeleted(Logbook book, Find find) {
        book.tally(find, -1);
        int inHunt = book.known(find.hunt()).finds.remove(find.id());
        int inBox = book.known(find.box()).finds.remove(find.id());
        book.finds.remove(find.id());
        return () -> {
            book.finds.put(find.id(), find);
            book.known(find.box()).finds.insert(inBox, find.id());
            book.known(find.hunt()).finds.insert(inHunt, find.id());
            book.tally(find, 1);
        };
    }

    private static Runnable finished(Hunt hunt, @Nullable Instant at) {
        Instant before = hunt.finished;
        hunt.finished = at;
        return () -> hunt.finished = before;
    }

    private static Runnable albumDefined(Logbook book, Event.AlbumDefined defined) {
        Album known = book.albums.get(defined.album());
        if (known == null) {
            book.albums.put(defined.album(), new Album(defined.album(), defined.name(), defined.rule()));
            return () -> book.albums.remove(defined.album());
        }
        String name = known.name;
        String rule = known.rule;
        known.name = defined.name();
        known.rule = defined.rule();
        return () -> {
            known.name = name;
            known.rule = rule;
        };
    }

    private static Runnable holesFilled(Logbook book, Event.HolesFilled filled) {
        Map<Album, Map<String, CoinRef>> before = new HashMap<>();
        for (Event.HoleChange change : filled.changes()) {
            Album album = book.known(change.album());
            before.computeIfAbsent(album, key -> new java.util.LinkedHashMap<>(key.holes));
            CoinRef coin = change.coin();
            if (coin == null) {
                album.holes.remove(change.hole());
            } else {
                album.holes.put(change.hole(), coin);
            }
        }
        return () -> before.forEach((album, holes) -> {
            album.holes.clear();
            album.holes.putAll(holes);
        });
    }
}
