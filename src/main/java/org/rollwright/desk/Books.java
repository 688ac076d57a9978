package org.rollwright.desk;

import static org.rollwright.text.Texts.t;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.rollwright.album.AlbumBook;
import org.rollwright.album.AlbumEvent;
import org.rollwright.cabinet.CabinetBook;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.Holdings;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.HuntBook;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.journal.Contradiction;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;
import org.rollwright.scale.ScaleBook;
import org.rollwright.scale.ScaleEvent;
import org.rollwright.scope.ScopeBook;
import org.rollwright.scope.ScopeEvent;
import org.rollwright.till.TillBook;
import org.rollwright.till.TillEvent;

/// The books of all areas at one moment. Immutable: an event makes the next books, and the earlier ones stay what they
/// were, so that a step is taken back by going on from them.
public record Books(
        HuntBook hunt, AlbumBook album, CabinetBook cabinet, TillBook till, ScopeBook scope, ScaleBook scale) {
    /// Books in which nothing is written.
    public static final Books EMPTY = new Books(
            HuntBook.EMPTY, AlbumBook.EMPTY, CabinetBook.EMPTY, TillBook.EMPTY, ScopeBook.EMPTY, ScaleBook.EMPTY);

    /// The kinds of events of each area, which a book of its own answers for.
    public static final List<Class<? extends Event>> AREAS = List.of(
            HuntEvent.class, AlbumEvent.class, CabinetEvent.class, TillEvent.class, ScopeEvent.class, ScaleEvent.class);

    /// What came of trying an entry.
    public sealed interface Tried {
        /// It can be taken; these are the books after it.
        record Taken(Books books) implements Tried {}

        /// It contradicts the books.
        record Refused(Refusal refusal) implements Tried {}
    }

    /// The coins in the hunter's hands.
    public Holdings holdings() {
        return new Holdings(hunt, cabinet);
    }

    /// Tries an entry part by part, so that later parts may build on earlier ones; what is refused leaves no trace.
    public Tried take(Entry entry) {
        boolean batch = entry.event() instanceof Event.Batch;
        Books now = this;
        for (Event part : Event.parts(entry.event())) {
            Books before = now;
            Optional<Refusal> refusal = before.refuse(part, batch).or(() -> before.elsewhere(part, entry.scope()));
            if (refusal.isPresent()) {
                return new Tried.Refused(refusal.get());
            }
            now = before.changed(part, entry);
        }
        return new Tried.Taken(now.touched(entry));
    }

    /// The books after an entry that was taken before.
    ///
    /// @throws Contradiction when it speaks of what is not there
    public Books apply(Entry entry) {
        Books now = this;
        for (Event part : Event.parts(entry.event())) {
            now = now.changed(part, entry);
        }
        return now.touched(entry);
    }

    /// The books with the numbers an entry gave that does not count at present: none is given twice.
    Books passOver(Entry entry) {
        Books now = this;
        for (Event part : Event.parts(entry.event())) {
            now = switch (part) {
                case HuntEvent event -> now.with(now.hunt.noted(event, entry.scope()));
                case AlbumEvent event -> now.with(now.album.noted(event));
                case CabinetEvent event -> now.with(now.cabinet.noted(event));
                case TillEvent event -> now.with(now.till.noted(event));
                default -> now;
            };
        }
        return now;
    }

    private Books touched(Entry entry) {
        return with(hunt.touched(entry.scope(), entry.at()));
    }

    private Books changed(Event part, Entry entry) {
        return switch (part) {
            case HuntEvent event -> with(hunt.apply(event, entry));
            case AlbumEvent event -> with(album.apply(event));
            case CabinetEvent event -> with(cabinet.apply(event, entry));
            case TillEvent event -> with(till.apply(event));
            case ScopeEvent event -> new Books(hunt, album, cabinet, till, scope.apply(event, entry), scale);
            case ScaleEvent event -> new Books(hunt, album, cabinet, till, scope, scale.apply(event, entry));
            default -> throw new Contradiction("a step is no part of another: " + part);
        };
    }

    private Optional<Refusal> refuse(Event part, boolean inBatch) {
        return switch (part) {
            case HuntEvent.BoxAdded event -> hunt.refuse(event).or(() -> till.refuse(event));
            case HuntEvent.BoxChanged event -> hunt.refuse(event).or(() -> till.refuse(event, hunt));
            case HuntEvent event -> hunt.refuse(event);
            case AlbumEvent event -> album.refuse(event, holdings());
            case CabinetEvent event -> cabinet.refuse(event, hunt);
            case TillEvent event -> till.refuse(event, hunt);
            case ScopeEvent event -> scope.refuse(event, hunt);
            case ScaleEvent event -> scale.refuse(event);
            default -> inBatch ? Refusal.of(t("hunt.a-batch-cannot-hold"), t("hunt.record-it-alone")) : throwing(part);
        };
    }

    private static Optional<Refusal> throwing(Event part) {
        throw new IllegalArgumentException("undo and redo are steps of the desk: " + part);
    }

    /// Undo works within a scope, so nothing may reach into another.
    private Optional<Refusal> elsewhere(Event part, long scope) {
        OptionalLong owner =
                switch (part) {
                    case HuntEvent event -> hunt.scope(event);
                    case ScopeEvent event -> this.scope.scope(event, hunt);
                    default -> OptionalLong.of(0);
                };
        return owner.isEmpty() || owner.getAsLong() == scope
                ? Optional.empty()
                : Refusal.of(
                        owner.getAsLong() == 0
                                ? t("hunt.undo-no-hunt")
                                : t("hunt.this-belongs-to-hunt", new HuntId(owner.getAsLong())),
                        t("hunt.record-it-there"));
    }

    private Books with(HuntBook now) {
        return now == hunt ? this : new Books(now, album, cabinet, till, scope, scale);
    }

    private Books with(AlbumBook now) {
        return now == album ? this : new Books(hunt, now, cabinet, till, scope, scale);
    }

    private Books with(CabinetBook now) {
        return now == cabinet ? this : new Books(hunt, album, now, till, scope, scale);
    }

    private Books with(TillBook now) {
        return now == till ? this : new Books(hunt, album, cabinet, now, scope, scale);
    }
}
