package org.rollwright.web.scope;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.LinkedHashMap;
import java.util.Map;
import org.rollwright.web.shell.Bench;

/// Kinds of a date, one question at a time. All that was answered stands in the page's address, so the browser's back
/// key takes an answer back, and an address can be kept.
public final class KindsPages {
    private final Bench bench;

    public KindsPages(Bench bench) {
        this.bench = bench;
    }

    public void register(RoutesConfig routes) {
        routes.get("/scope/kinds", this::show);
    }

    private void show(Context context) {
        Map<String, String> told = new LinkedHashMap<>();
        context.queryParamMap()
                .forEach((name, values) -> told.put(name, values.getLast().strip()));
        context.html(PAGES.scopeKinds(
                        bench.frame(t("page.kinds"), "scope"),
                        bench.desk()
                                .read(book -> KindsView.of(
                                        bench.catalog(), bench.varieties().book(book.scope()), told)))
                .render());
    }
}
