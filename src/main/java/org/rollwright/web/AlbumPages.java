package org.rollwright.web;

final class AlbumPages {
    AlbumPages(Bench b, Render r, AlbumShelf s) {
        java.util.Objects.requireNonNull(b);
        java.util.Objects.requireNonNull(r);
        java.util.Objects.requireNonNull(s);
    }

    void register(io.javalin.config.RoutesConfig r) {
        java.util.Objects.requireNonNull(r);
    }
}
