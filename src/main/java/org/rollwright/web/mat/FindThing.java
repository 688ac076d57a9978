package org.rollwright.web.mat;

import static org.rollwright.text.Texts.t;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.desk.State;
import org.rollwright.entry.FindText;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.web.shell.Shown.Field;
import org.rollwright.web.shell.Shown.Thing;

/// A find in its row on the Mat, with the fields of its form. See [Shown].
public final class FindThing {
    private FindThing() {}

    /// A find in its row on the Mat; absent when it was struck out.
    static Thing find(State book, Hunt hunt, int ordinal, Catalog catalog) {
        Optional<Find> known = book.hunt().find(hunt.id(), ordinal);
        @Nullable FindId id = known.map(Find::id).orElse(null);
        List<Field> fields = known.map(find -> row(
                        FindText.print(
                                find,
                                catalog,
                                hunt.box()
                                        .flatMap(book.hunt()::box)
                                        .orElseThrow()
                                        .denomination()),
                        hunt.boxes().indexOf(find.box()) + 1,
                        find.roll()))
                .orElse(List.of());
        return find(hunt.id().number(), ordinal, id, fields);
    }

    private static Thing find(long hunt, int ordinal, @Nullable FindId id, List<Field> fields) {
        return new Thing(
                "find " + hunt + "/" + ordinal,
                "f" + ordinal,
                "/mat/" + hunt + "#f" + ordinal,
                event -> switch (event) {
                    case HuntEvent.FindCorrected one -> one.find().equals(id);
                    case HuntEvent.FindMoved one -> one.find().equals(id);
                    case HuntEvent.FindSplit one -> one.find().equals(id);
                    case HuntEvent.FindDisposed one -> one.find().equals(id);
                    case HuntEvent.FindDeleted one -> id == null;
                    default -> false;
                },
                fields);
    }

    /// The row as its form wants it; a field the form does not have stays as it is.
    static Thing find(Thing now, io.javalin.http.Context context) {
        List<Field> fields = now.fields().stream()
                .map(field -> {
                    String typed = context.formParam(field.name());
                    return typed == null ? field : new Field(field.name(), field.label(), typed.strip(), field.kind());
                })
                .toList();
        return new Thing(now.key(), now.title(), now.back(), now.touched(), fields);
    }

    /// A find as the Mat's board prints it.
    public static Thing find(long hunt, MatView.FindRow row) {
        return find(hunt, row.ordinal(), null, row(row.line(), row.box(), row.roll()));
    }

    private static List<Field> row(String line, int box, int roll) {
        return List.of(
                Field.line("what", t("board.what-it-is"), line),
                Field.line("box", t("board.box-field"), box),
                Field.line("roll", t("board.roll"), roll));
    }
}
