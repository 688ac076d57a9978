package org.rollwright.web.shell;

import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.util.Optional;

/// Fields of a form as they were sent.
public final class Forms {
    private Forms() {}

    /// What stands in a field, without blanks around it; empty when it was not sent.
    public static String text(Context context, String field) {
        return Optional.ofNullable(context.formParam(field)).orElse("").strip();
    }

    /// A number in the address, such as that of a box.
    ///
    /// @return 1 or more
    /// @throws NotFoundResponse when it is none: no page has such an address
    public static long number(Context context, String part) {
        String text = context.pathParam(part);
        if (!text.matches("[1-9][0-9]{0,17}")) {
            throw new NotFoundResponse();
        }
        return Long.parseLong(text);
    }

    /// The position of the journal that the page with an undo button showed; without one, whatever is last.
    public static long asOf(Context context) {
        String text = text(context, "asof");
        return text.matches("[0-9]{1,18}") ? Long.parseLong(text) : Long.MAX_VALUE;
    }
}
