package org.rollwright.web.mat;

import io.javalin.http.Context;
import java.util.List;
import org.rollwright.web.shell.Forms;
import org.rollwright.web.shell.Usual;

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

    static HuntForm blank(Usual usual) {
        return new HuntForm(
                "",
                usual.denomination(),
                "box",
                "1",
                "",
                "",
                "",
                usual.bank(),
                usual.branch(),
                "machine",
                "",
                "",
                "",
                usual.watches(),
                "",
                List.of(),
                List.of());
    }

    static HuntForm from(Context context) {
        return new HuntForm(
                Forms.text(context, "name"),
                Forms.text(context, "denomination"),
                Forms.text(context, "form"),
                Forms.text(context, "count"),
                Forms.text(context, "label"),
                Forms.text(context, "rolls"),
                Forms.text(context, "coins"),
                Forms.text(context, "bank"),
                Forms.text(context, "branch"),
                Forms.text(context, "wrap"),
                Forms.text(context, "stamp"),
                Forms.text(context, "sisters"),
                Forms.text(context, "pickedUp"),
                context.formParams("watch"),
                Forms.text(context, "rule"),
                context.formParams("box"),
                List.of());
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
