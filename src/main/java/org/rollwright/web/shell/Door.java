package org.rollwright.web.shell;

import io.javalin.http.Context;
import java.time.ZoneId;
import java.util.List;
import java.util.function.BiConsumer;
import org.rollwright.action.Action;
import org.rollwright.action.Fields;
import org.rollwright.action.Setting;
import org.rollwright.album.AlbumShelves;
import org.rollwright.coin.Country;
import org.rollwright.coin.Refusal;
import org.rollwright.desk.State;
import org.rollwright.journal.Event;

/// The pages' door to actions: the fields of a form go in.
public final class Door {
    private final Bench bench;
    private final AlbumShelves albums;

    public Door(Bench bench) {
        this(bench, new AlbumShelves(bench.catalog(), Country.US));
    }

    public Door(Bench bench, AlbumShelves albums) {
        this.bench = bench;
        this.albums = albums;
    }

    /// Does what a form asks for.
    public Action.Answer perform(Context context, Action action) {
        return perform(context, action, (known, event) -> {});
    }

    /// Does what a form asks for, unless a look at the state and at what would be recorded ends it.
    public Action.Answer perform(Context context, Action action, BiConsumer<State, Event> look) {
        return perform(new Fields(context.formParamMap()), action, look);
    }

    /// Does what fields ask for.
    public Action.Answer perform(Fields fields, Action action, BiConsumer<State, Event> look) {
        return action.perform(bench.desk(), setting(), fields, "", look);
    }

    /// With what, where and when it is done.
    public Setting setting() {
        return new Setting(
                bench.catalog(),
                bench.varieties(),
                albums,
                bench.clock().instant(),
                ZoneId.systemDefault(),
                Manner.now().milesMeant());
    }

    /// Why it was refused, a sentence for each reason.
    public static List<String> sentences(Action.Answer.Refused refused) {
        return refused.why().stream().map(Refusal::toString).toList();
    }
}
