package org.rollwright.web.till;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.Map;
import org.rollwright.web.shell.Bench;

/// What the Till's forms share.
final class TillForm {
    private TillForm() {}

    static LocalDate today(Bench bench) {
        return LocalDate.ofInstant(bench.clock().instant(), ZoneId.systemDefault());
    }

    /// Everything typed, so that a refused form comes back as it was.
    static Map<String, String> typed(Context context) {
        Map<String, String> typed = new LinkedHashMap<>();
        context.queryParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        context.formParamMap().forEach((name, values) -> typed.put(name, String.join(",", values)));
        return typed;
    }
}
