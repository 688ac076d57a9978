package org.rollwright.web.albums;

import static org.rollwright.text.Texts.t;

import java.util.List;
import org.rollwright.album.AlbumEvent;
import org.rollwright.album.AlbumId;
import org.rollwright.web.shell.Shown.Field;
import org.rollwright.web.shell.Shown.Kind;
import org.rollwright.web.shell.Shown.Thing;

/// An album, and the order in which coins are compared, with the fields of their forms. See [Shown].
public final class AlbumThing {
    private AlbumThing() {}

    /// An album's name and rule.
    public static Thing album(long id, String name, String rule) {
        return new Thing(
                "album " + id,
                name,
                "/albums/" + id,
                event -> switch (event) {
                    case AlbumEvent.AlbumDefined one -> one.album().equals(new AlbumId(id));
                    case AlbumEvent.AlbumRemoved one -> one.album().equals(new AlbumId(id));
                    default -> false;
                },
                List.of(
                        Field.line("name", t("album.name"), name),
                        new Field("rule", t("album.rule"), rule, Kind.LONG)));
    }

    /// The order in which coins are compared.
    public static Thing policy(String text) {
        return new Thing(
                "policy",
                t("albums.in-this-order"),
                "/albums",
                event -> event instanceof AlbumEvent.PolicyChanged,
                List.of(Field.line("policy", t("albums.in-this-order"), text)));
    }
}
