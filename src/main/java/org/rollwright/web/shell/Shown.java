package org.rollwright.web.shell;

import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import org.rollwright.journal.Event;

/// The one rule for forms that change something: what the form showed must still be so when it is saved, or the
/// person is shown the change of the other window first.
///
/// A form carries the mark of each thing it shows, a fingerprint of the values in its fields, so that entries
/// about anything else never stand in its way. Saves look at the mark inside the function given to
/// [org.rollwright.desk.Desk#record], under the desk's lock, so nothing falls between looking and writing.
public final class Shown {
    /// The field of a form that carries marks.
    public static final String FIELD = "seen";

    private Shown() {}

    /// How a field is shown when its form comes back.
    public enum Kind {
        LINE,
        LONG,
        TICK,
        /// Chosen on the page itself; repeated as it was.
        FIXED
    }

    /// One field of a form, with what it holds at present.
    public record Field(String name, String label, String value, Kind kind) {
        public static Field line(String name, String label, Object value) {
            return new Field(name, label, value.toString(), Kind.LINE);
        }
    }

    /// Something a form can change, as it is at a moment.
    ///
    /// @param key which one, the same at every moment
    /// @param title its name for the person
    /// @param back the page that shows it
    /// @param touched whether an event says something of it
    /// @param fields empty when there is no such thing
    public record Thing(String key, String title, String back, Predicate<Event> touched, List<Field> fields) {
        public Thing {
            fields = List.copyOf(fields);
        }

        public Thing absent() {
            return new Thing(key, title, back, touched, List.of());
        }

        private String start() {
            return hash(key).substring(0, 10) + "-";
        }

        /// What a form that shows this carries.
        public String mark() {
            return start() + hash(String.join("\u0001", values().values()));
        }

        Map<String, String> values() {
            Map<String, String> values = new LinkedHashMap<>();
            fields.forEach(field -> values.put(field.name(), field.value()));
            return values;
        }
    }

    /// Ends a save: it was changed since the form was printed.
    static final class Changed extends RuntimeException {
        private static final long serialVersionUID = 1L;
        private final transient Thing now;
        private final transient List<Field> fields;

        Changed(Thing now, List<Field> fields) {
            super(now.title(), null, false, false);
            this.now = now;
            this.fields = fields;
        }

        Thing now() {
            return now;
        }

        /// The fields of the form.
        List<Field> fields() {
            return fields;
        }
    }

    /// Ends a save: everything is as the form wants it already, so there is nothing to record.
    static final class Already extends RuntimeException {
        private static final long serialVersionUID = 1L;
        private final transient String back;

        Already(String back) {
            super(back, null, false, false);
            this.back = back;
        }

        String back() {
            return back;
        }
    }

    /// Looks at a save before it is recorded.
    ///
    /// @param now the thing in the state
    /// @param mine the thing as the form wants it
    /// @throws Changed when the form shows something older
    /// @throws Already when there is nothing to change
    public static void check(Context context, Thing now, Thing mine) {
        if (now.values().equals(mine.values())) {
            throw new Already(now.back());
        }
        if (stale(context, now)) {
            throw new Changed(now, mine.fields());
        }
    }

    /// As [#check], for what takes a thing away or apart instead of changing its fields.
    public static void check(Context context, Thing now) {
        if (stale(context, now)) {
            throw new Changed(now, now.fields());
        }
    }

    private static boolean stale(Context context, Thing now) {
        List<String> marks = context.formParams(FIELD).stream()
                .filter(mark -> !mark.isBlank())
                .toList();
        Optional<String> shown =
                marks.stream().filter(mark -> mark.startsWith(now.start())).findFirst();
        // a form without any mark is none of these pages': a script says what it wants and means it
        return !marks.isEmpty()
                && !shown.map(now.mark()::equals).orElse(now.fields().isEmpty());
    }

    private static String hash(String text) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(digest, 0, 12);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has it", e);
        }
    }
}
