package org.rollwright.web;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import io.javalin.http.Context;
import java.util.Map;

/// Prints templates compiled at build time. Thread-safe.
final class Render {
    private final TemplateEngine engine = TemplateEngine.createPrecompiled(
            null, ContentType.Html, Render.class.getClassLoader(), "org.rollwright.pages");

    String print(String template, Map<String, Object> values) {
        StringOutput output = new StringOutput();
        engine.render(template + ".jte", values, output);
        return output.toString();
    }

    void page(Context context, String template, Map<String, Object> values) {
        context.html(print(template, values));
    }
}
