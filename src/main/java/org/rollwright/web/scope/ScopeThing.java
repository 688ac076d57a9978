package org.rollwright.web.scope;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.rollwright.hunt.Find;
import org.rollwright.scope.ScopeEvent;
import org.rollwright.scope.VarietyBook;
import org.rollwright.web.shell.Shown.Field;
import org.rollwright.web.shell.Shown.Kind;
import org.rollwright.web.shell.Shown.Thing;

/// A variety, and an attribution, with the fields of their forms. See [Shown].
public final class ScopeThing {
    private ScopeThing() {}

    /// A variety of the catalogue or of the user's own.
    static Thing variety(String key, Map<String, String> cells) {
        List<String> columns = new ArrayList<>(VarietyBook.COLUMNS);
        columns.add(VarietyBook.CROSS_REFERENCES);
        columns.add(VarietyBook.ZONES);
        columns.remove("key");
        List<Field> fields = cells.isEmpty()
                ? List.of()
                : columns.stream()
                        .map(column -> new Field(
                                column,
                                column.replace('_', ' '),
                                cells.getOrDefault(column, ""),
                                column.equals("markers") ? Kind.LONG : Kind.LINE))
                        .toList();
        return new Thing(
                "variety " + key,
                cells.getOrDefault("name", key),
                "/scope/variety/" + key,
                event -> switch (event) {
                    case ScopeEvent.VarietyWritten one -> one.variety().equals(key);
                    case ScopeEvent.VarietyRemoved gone -> gone.variety().equals(key);
                    default -> false;
                },
                fields);
    }

    /// What an attribution came to.
    static Thing attribution(Find find, Optional<org.rollwright.scope.AttributionNote> note) {
        List<Field> fields = note.map(one -> List.of(
                        new Field("verdict", t("attribution.verdict"), one.verdict() + " " + one.variety(), Kind.FIXED),
                        Field.line("note", t("attribution.note"), one.note()),
                        new Field("a", t("attribution.seen-so-far"), one.path().toString(), Kind.FIXED)))
                .orElse(List.of());
        return new Thing(
                "attribution " + find.id(),
                "f" + find.ordinal(),
                "/scope/find/" + find.hunt().number() + "/" + find.ordinal(),
                event ->
                        event instanceof ScopeEvent.Attributed one && one.find().equals(find.id()),
                fields);
    }
}
