package org.rollwright.web.shell;

import io.javalin.http.Context;
import java.time.Instant;
import java.time.InstantSource;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/// Notices that a form was sent twice: a double click, a page loaded again, the way back.
///
/// Such a form carries the position of the journal its page showed. The same words from the same printing are the
/// same deed; what is meant a second time is asked for. Forms whose repetition is natural, such as the entry line,
/// carry nothing. Kept in memory, for the latest forms only.
public final class Repeats {
    /// The field that carries the position.
    public static final String FIELD = "once";

    /// The field that says it is meant a second time.
    static final String AGAIN = "again";

    private static final int REMEMBERED = 200;
    private static final String CLAIM = "repeats";

    /// The same form was recorded before.
    static final class Repeated extends RuntimeException {
        private static final long serialVersionUID = 1L;
        private final transient Done done;

        Repeated(Done done) {
            super(done.location, null, false, false);
            this.done = done;
        }

        Instant at() {
            return done.at;
        }

        /// Where the first one led.
        String location() {
            return done.location;
        }
    }

    private record Done(Instant at, String location) {}

    private final InstantSource clock;
    private final Map<String, Done> done = new LinkedHashMap<>();

    Repeats(InstantSource clock) {
        this.clock = clock;
    }

    void before(Context context) {
        boolean form = context.req().getMethod().equals("POST")
                && Optional.ofNullable(context.contentType())
                        .orElse("")
                        .startsWith("application/x-www-form-urlencoded");
        if (!form || context.formParam(FIELD) == null) {
            return;
        }
        Map<String, Object> fields = new TreeMap<>(context.formParamMap());
        boolean again = fields.remove(AGAIN) != null;
        String key = context.path() + fields;
        synchronized (done) {
            Done known = done.get(key);
            if (known != null && !again) {
                throw new Repeated(known);
            }
            done.put(key, new Done(clock.instant(), context.path()));
            if (done.size() > REMEMBERED) {
                done.remove(done.keySet().iterator().next());
            }
        }
        context.attribute(CLAIM, key);
    }

    /// A form that was refused may be sent again as it is.
    void after(Context context) {
        @Nullable String key = context.attribute(CLAIM);
        if (key == null) {
            return;
        }
        @Nullable String location = context.res().getHeader("Location");
        synchronized (done) {
            if (location == null) {
                done.remove(key);
            } else {
                done.computeIfPresent(key, (same, known) -> new Done(known.at, location));
            }
        }
    }
}
