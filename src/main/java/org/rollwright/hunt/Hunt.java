package org.rollwright.hunt;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/// One search over one or more boxes. Part of the [Logbook]: read it only inside [Desk#read].
public final class Hunt {
    /// A moment marked for the recording, or a remark.
    public record Remark(Instant at, String text) {}

    /// A find looked at for a variety and found not to be it.
    public record Trial(FindId find, String variety) {}

    private final HuntId id;
    private final String name;
    private final Instant started;
    final List<BoxId> boxes = new ArrayList<>();
    List<Watch> watches;
    final List<Remark> marks = new ArrayList<>();
    final List<Remark> notes = new ArrayList<>();
    final List<Trial> trials = new ArrayList<>();
    final FindList finds = new FindList();

    @Nullable
    BoxId box;

    int roll;
    int lastOrdinal;
    int foundCoins;

    @Nullable
    Instant finished;

    Instant touched;

    Hunt(HuntId id, String name, Instant started, List<BoxId> boxes, List<Watch> watches) {
        this.id = id;
        this.name = name;
        this.started = started;
        this.touched = started;
        this.boxes.addAll(boxes);
        this.watches = List.copyOf(watches);
        this.box = boxes.isEmpty() ? null : boxes.getFirst();
    }

    public HuntId id() {
        return id;
    }

    public String name() {
        return name;
    }

    public Instant started() {
        return started;
    }

    /// When the last entry was made.
    public Instant touched() {
        return touched;
    }

    public Optional<Instant> finished() {
        return Optional.ofNullable(finished);
    }

    public List<BoxId> boxes() {
        return Collections.unmodifiableList(boxes);
    }

    /// What is watched for now.
    public List<Watch> watches() {
        return watches;
    }

    public List<Remark> marks() {
        return Collections.unmodifiableList(marks);
    }

    public List<Remark> notes() {
        return Collections.unmodifiableList(notes);
    }

    public List<Trial> trials() {
        return Collections.unmodifiableList(trials);
    }

    /// Numbers of its finds in the order logged.
    public List<FindId> finds() {
        return finds.ids();
    }

    /// The box in hand; empty for a hunt without boxes.
    public Optional<BoxId> box() {
        return Optional.ofNullable(box);
    }

    /// The roll in hand, 0 before the first.
    public int roll() {
        return roll;
    }

    /// Coins found, counting each coin of a find.
    public int foundCoins() {
        return foundCoins;
    }

    /// The ordinal the next find will get.
    public int nextOrdinal() {
        return lastOrdinal + 1;
    }
}
