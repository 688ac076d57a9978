package org.rollwright.web.shell;

import io.javalin.http.Context;
import java.util.Optional;

/// Fields of a form as they were sent.
public final class Forms {
    private Forms() {}

    /// What stands in a field, without blanks around it; empty when it was not sent.
    public static String text(Context context, String field) {
        return Optional.ofNullable(context.formParam(field)).orElse("").strip();
    }

    /// The position of the journal that the page with an undo button showed; without one, whatever is last.
    public static long asOf(Context context) {
        String text = text(context, "asof");
        return text.matches("[0-9]{1,18}") ? Long.parseLong(text) : Long.MAX_VALUE;
    }
}
