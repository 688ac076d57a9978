package org.rollwright.web.till;

import io.javalin.http.Context;
import java.util.LinkedHashMap;
import java.util.Map;

/// What the Till's forms share.
final class TillForm {
    private TillForm() {}

    /// Everything typed, so that a refused form comes back as it was.
    static Map<String, String> typed(Context context) {
        Map<String, String> typed = new LinkedHashMap<>();
        context.queryParamMap().forEach((name, values) -> typed.put(name, values.getLast()));
        context.formParamMap().forEach((name, values) -> typed.put(name, String.join(",", values)));
        return typed;
    }
}
