package org.rollwright.action;

import java.util.List;
import java.util.function.BiConsumer;
import java.util.function.Function;
import org.rollwright.coin.Refusal;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.journal.Declined;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;
import org.rollwright.journal.JournalException;

/// One thing a hunter can have done.
///
/// @param name by which scripts and commands call it
/// @param fields what can be said
/// @param reader makes a step of what was typed
public record Action(String name, List<Field> fields, Reader reader) {
    /// Makes a step of what was typed: first by itself, then against the state.
    interface Reader {
        /// Reads what was typed.
        ///
        /// @return looks at the state, under the desk's lock, and says what to record; may throw [Declined]
        Function<State, Desk.Step> read(Typed typed, Setting setting);
    }

    /// What came of it.
    public sealed interface Answer {
        /// It is on disk and in the state.
        record Done(Entry entry) implements Answer {}

        /// It cannot be; nothing was recorded.
        ///
        /// @param why at least one reason
        record Refused(List<Refusal> why) implements Answer {
            public Refused {
                why = List.copyOf(why);
            }
        }
    }

    public Action {
        fields = List.copyOf(fields);
    }

    /// Does it.
    ///
    /// @param raw what was typed word for word, blank for a form
    /// @throws JournalException when it could not be made durable; then nothing changed
    public Answer perform(Desk desk, Setting setting, Fields typed, String raw) {
        return perform(desk, setting, typed, raw, (known, event) -> {});
    }

    /// As above, for a page that shows the state at some moment: a look at the state and at what would be recorded
    /// comes first, under the desk's lock.
    ///
    /// @param look may throw; then nothing is recorded
    public Answer perform(Desk desk, Setting setting, Fields typed, String raw, BiConsumer<State, Event> look) {
        Typed reading = new Typed(typed, setting);
        try {
            Function<State, Desk.Step> maker = reader.read(reading, setting);
            reading.done();
            return switch (desk.recordAt(setting.now(), raw, known -> {
                Desk.Step step = maker.apply(known);
                look.accept(known, step.event());
                return step;
            })) {
                case Desk.Outcome.Kept kept -> new Answer.Done(kept.entry());
                case Desk.Outcome.Refused refused -> new Answer.Refused(List.of(refused.refusal()));
            };
        } catch (Declined e) {
            return new Answer.Refused(e.why());
        }
    }
}
