package org.rollwright.web;

import io.javalin.http.Context;
import java.util.List;
import java.util.Optional;

/// The form that starts a hunt, with what was typed, so that a refused form comes back as it was.
///
/// @param problems why it was refused, empty at first
public record HuntForm(
        String name,
        String denomination,
        String form,
        String count,
        String label,
        String rolls,
        String coins,
        String bank,
        String branch,
        String wrap,
        String stamp,
        String sisters,
        String pickedUp,
        List<String> watches,
        String rule,
        List<String> boxes,
        List<String> problems) {

    static HuntForm blank() {
        return new HuntForm(
                "", "US cent", "box", "1", "", "", "", "", "", "machine", "", "", "", List.of(), "", List.of(),
                List.of());
    }

    static HuntForm from(Context context) {
        return new HuntForm(
                text(context, "name"),
                text(context, "denomination"),
                text(context, "form"),
                text(context, "count"),
                text(context, "label"),
                text(context, "rolls"),
                text(context, "coins"),
                text(context, "bank"),
                text(context, "branch"),
                text(context, "wrap"),
                text(context, "stamp"),
                text(context, "sisters"),
                text(context, "pickedUp"),
                context.formParams("watch"),
                text(context, "rule"),
                context.formParams("box"),
                List.of());
    }

    static String text(Context context, String field) {
        return Optional.ofNullable(context.formParam(field)).orElse("").strip();
    }

    /// The position of the journal that the page with an undo button showed; without one, whatever is last.
    static long asOf(Context context) {
        String text = text(context, "asof");
        return text.matches("[0-9]{1,18}") ? Long.parseLong(text) : Long.MAX_VALUE;
    }

    HuntForm withProblems(List<String> why) {
        return new HuntForm(
                name,
                denomination,
                form,
                count,
                label,
                rolls,
                coins,
                bank,
                branch,
                wrap,
                stamp,
                sisters,
                pickedUp,
                watches,
                rule,
                boxes,
                why);
    }
}
