package org.rollwright.web.shell;

import gg.jte.Content;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.rollwright.text.Texts;
import tools.jackson.databind.json.JsonMapper;

/// Texts with marks for pages, and texts for their scripts.
public final class Marks {
    private Marks() {}

    /// A text that holds marks such as `<b>`; the values in it are escaped.
    public static Content h(String key, @Nullable Object... values) {
        String text = Texts.fill(Texts.text(key, values), values, Marks::escape);
        return output -> output.writeContent(text);
    }

    /// The texts of the pages' scripts, as a script that hands them over.
    public static String script() {
        return "window.texts = "
                + JsonMapper.shared().writeValueAsString(new TreeMap<>(Texts.under("script.")))
                + ";\n";
    }

    /// Fit for the text and for quoted attributes of a page.
    private static String escape(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;")
                .replace("'", "&#39;");
    }
}
