package org.rollwright.web;

import gg.jte.Content;
import java.util.Locale;
import java.util.MissingResourceException;
import java.util.ResourceBundle;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.json.JsonMapper;

/// What the pages say, from `texts/pages.properties` and its translations.
///
/// One language for the whole process: the tool has one user. Thread-safe.
public final class Texts {
    private static final String BUNDLE = "texts.pages";
    private static final String SCRIPT = "script.";
    private static final String ONE = ".one";
    private static final Pattern VALUE = Pattern.compile("\\{(\\d)\\}");

    private static volatile ResourceBundle bundle = load(Locale.ENGLISH);

    private Texts() {}

    /// Changes the language; pages printed from now on use it. Without a translation it stays English.
    static void use(Locale language) {
        bundle = load(language);
    }

    /// The texts of the pages' scripts, as a script that hands them over.
    static String script() {
        ResourceBundle texts = bundle;
        TreeMap<String, String> said = new TreeMap<>();
        for (String key : texts.keySet()) {
            if (key.startsWith(SCRIPT)) {
                said.put(key.substring(SCRIPT.length()), texts.getString(key));
            }
        }
        return "window.texts = " + JsonMapper.shared().writeValueAsString(said) + ";\n";
    }

    private static ResourceBundle load(Locale language) {
        return ResourceBundle.getBundle(
                BUNDLE,
                language,
                Texts.class.getClassLoader(),
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    /// The language in use, as a tag for `lang`.
    public static String language() {
        String tag = bundle.getLocale().toLanguageTag();
        return tag.equals("und") ? "en" : tag;
    }

    /// A text without marks; the template escapes it.
    ///
    /// @param values what stands for `{0}`, `{1}` … up to `{9}`
    /// @return the key itself when there is no such text, which TextsTest rules out
    public static String t(String key, @Nullable Object... values) {
        return fill(text(key, values), values, false);
    }

    /// A text that holds marks such as `<b>`; the values in it are escaped.
    public static Content h(String key, @Nullable Object... values) {
        String text = fill(text(key, values), values, true);
        return output -> output.writeContent(text);
    }

    /// A text whose first value is a count may have a second one for a count of one, under the key and `.one`.
    private static String text(String key, @Nullable Object[] values) {
        ResourceBundle texts = bundle;
        boolean one = values.length > 0 && "1".equals(String.valueOf(values[0])) && texts.containsKey(key + ONE);
        try {
            return texts.getString(one ? key + ONE : key);
        } catch (MissingResourceException e) {
            return key;
        }
    }

    private static String fill(String text, @Nullable Object[] values, boolean escaped) {
        if (text.indexOf('{') < 0) {
            return text;
        }
        Matcher matcher = VALUE.matcher(text);
        StringBuilder filled = new StringBuilder();
        while (matcher.find()) {
            int number = Integer.parseInt(matcher.group(1));
            Object value = number < values.length ? values[number] : matcher.group();
            String shown = value == null ? "" : value.toString();
            matcher.appendReplacement(filled, Matcher.quoteReplacement(escaped ? escape(shown) : shown));
        }
        return matcher.appendTail(filled).toString();
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
