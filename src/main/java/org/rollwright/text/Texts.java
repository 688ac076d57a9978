package org.rollwright.text;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.text.CompactNumberFormat;
import java.text.DecimalFormatSymbols;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Properties;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/// What the tool says, from `texts/pages.properties`, `texts/sentences.properties` and their translations.
///
/// One language for the whole process: the tool has one user. It is chosen when the pages start and on the page of
/// settings, and is English before and without that; thread-safe. A text may have forms for counts: `box.coins` is
/// said of many, `box.coins.one` of one, and a translation may add `.zero`, `.two`, `.few` and `.many`, chosen by
/// the first value and by the translation's own rule under the key `plural`, in the notation of Unicode's CLDR (Unicode
/// Technical Standard 35, part 3, "Language Plural Rules"). What a translation lacks is said in English, by
/// English's rule.
public final class Texts {
    /// The languages the tool comes with.
    public static final List<Locale> OFFERED = List.of(Locale.ENGLISH, Locale.CANADA_FRENCH);

    private static final List<String> FILES = List.of("pages", "sentences");
    private static final String PLURAL = "plural";
    private static final String ENGLISH_PLURAL = "one:i = 1 and v = 0";
    private static final String FORMS =
            "{zero:0'.zero' one:0'.one' two:0'.two' few:0'.few' many:0'.many' other:0'.other'}";
    private static final String ONE = ".one";
    private static final Pattern COUNT = Pattern.compile("\\d{1,18}");

    /// How the tool is called on a command line, as texts name it.
    private static final String WRITTEN_COMMAND = "./run";

    private static volatile String command = WRITTEN_COMMAND;
    /// Read when something is said for the first time: a start counts every file.
    private static volatile @Nullable Spoken spoken;

    private Texts() {}

    /// What is spoken: the language in use, before it the dialect when there is one, and English behind it for what
    /// they lack.
    ///
    /// @param locale as it was chosen, with its country if it names one
    private record Spoken(Locale locale, List<Language> languages) {}

    /// The texts of one language, with its own rule for counts.
    ///
    /// @param counted keys that have a form for a count of one
    private record Language(Map<String, String> texts, Set<String> counted, CompactNumberFormat plural) {
        /// @param ending of the files' names, such as `_fr`
        static Optional<Language> read(String ending) {
            Map<String, String> texts = new HashMap<>();
            for (String file : FILES) {
                try (InputStream in = Texts.class.getResourceAsStream("/texts/" + file + ending + ".properties")) {
                    if (in != null) {
                        Properties read = new Properties();
                        read.load(new InputStreamReader(in, StandardCharsets.UTF_8));
                        read.stringPropertyNames().forEach(key -> texts.put(key, named(read.getProperty(key))));
                    }
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            }
            return texts.isEmpty()
                    ? Optional.empty()
                    : Optional.of(new Language(
                            Map.copyOf(texts),
                            texts.keySet().stream()
                                    .filter(key -> key.endsWith(ONE))
                                    .map(key -> key.substring(0, key.length() - ONE.length()))
                                    .collect(Collectors.toUnmodifiableSet()),
                            new CompactNumberFormat(
                                    "0",
                                    DecimalFormatSymbols.getInstance(Locale.ROOT),
                                    new String[] {FORMS},
                                    texts.getOrDefault(PLURAL, ENGLISH_PLURAL))));
        }

        /// The text in the form for a first value, when that is a count.
        String text(String key, @Nullable Object... values) {
            String text = texts.getOrDefault(key, key);
            if (values.length == 0 || !counted.contains(key)) {
                return text;
            }
            String first = String.valueOf(values[0]);
            return COUNT.matcher(first).matches() ? texts.getOrDefault(key + form(Long.parseLong(first)), text) : text;
        }

        /// The ending of the key for so many, such as `.few`.
        private String form(long count) {
            String said;
            synchronized (plural) {
                said = plural.format(count);
            }
            return said.substring(said.indexOf('.'));
        }
    }

    private static Spoken spoken() {
        Spoken now = spoken;
        if (now == null) {
            Language english =
                    Language.read("").orElseThrow(() -> new IllegalStateException("missing from the build: texts"));
            now = new Spoken(Locale.ENGLISH, List.of(english));
            spoken = now;
        }
        return now;
    }

    /// Says how the tool is called here: `./run` by those who build it, another name where it was installed.
    public static void calledBy(String name) {
        boolean said = spoken != null;
        Locale now = said ? locale() : Locale.ENGLISH;
        command = name;
        spoken = null;
        if (said) {
            use(now);
        }
    }

    /// How the tool is called on a command line.
    public static String command() {
        return command;
    }

    /// A text that names the command, with the name it has here.
    public static String named(String text) {
        return text.replace(WRITTEN_COMMAND, command);
    }

    /// Changes the language; what is said from now on is said in it. Without a translation it stays English.
    public static void use(Locale language) {
        List<Language> found = new ArrayList<>();
        if (!language.getLanguage().isEmpty()) {
            String tag = language.getLanguage();
            if (!language.getCountry().isEmpty()) {
                String dialect = language.getCountry();
                Language.read("_" + tag + "_" + dialect).ifPresent(found::add);
            }
            Language.read("_" + tag).ifPresent(found::add);
        }
        Locale locale = found.isEmpty() ? Locale.ENGLISH : language;
        found.add(spoken().languages.getLast());
        spoken = new Spoken(locale, List.copyOf(found));
    }

    /// The language in use, as a tag for `lang`.
    public static String language() {
        return locale().toLanguageTag();
    }

    /// The language in use, for names of months and weekdays and for figures.
    public static Locale locale() {
        return spoken().locale;
    }

    /// A sentence.
    ///
    /// @param values what stands for `{0}`, `{1}` … up to `{9}`; a decimal point in a number becomes the language's
    /// @return the key itself when there is no such text, which TextsTest rules out
    public static String t(String key, @Nullable Object... values) {
        return fill(text(key, values), values, UnaryOperator.identity());
    }

    /// A sentence with figures that are rounded or lined up: the text holds the marks of [java.util.Formatter],
    /// such as `%.1f`, and they are written as the language writes them.
    public static String f(String key, @Nullable Object... values) {
        return String.format(locale(), text(key, values), values);
    }

    /// Something and what is to be said of it, with the colon of the language: `copper pile: 1,502 g`.
    public static String labelled(Object what, Object said) {
        return t("text.labelled", what, said);
    }

    /// All texts whose key begins so, by the rest of their key.
    public static Map<String, String> under(String start) {
        Map<String, String> found = new HashMap<>();
        for (Language language : spoken().languages.reversed()) {
            language.texts.forEach((key, text) -> {
                if (key.startsWith(start)) {
                    found.put(key.substring(start.length()), text);
                }
            });
        }
        return found;
    }

    /// A text in the form for its first value, when that is a count, with its places still open.
    public static String text(String key, @Nullable Object... values) {
        for (Language language : spoken().languages) {
            if (language.texts.containsKey(key)) {
                return language.text(key, values);
            }
        }
        return key;
    }

    /// Puts the values into the places of a text.
    ///
    /// @param shown what is done to each value before it is put in
    public static String fill(String text, @Nullable Object[] values, UnaryOperator<String> shown) {
        int open = text.indexOf('{');
        if (open < 0) {
            return text;
        }
        StringBuilder filled = new StringBuilder(text.length() + 24);
        int told = 0;
        for (; open >= 0; open = text.indexOf('{', open + 1)) {
            int number = open + 2 < text.length() && text.charAt(open + 2) == '}' ? text.charAt(open + 1) - '0' : -1;
            if (number >= 0 && number <= 9 && number < values.length) {
                Object value = values[number];
                filled.append(text, told, open).append(value == null ? "" : shown.apply(Figures.said(value)));
                told = open + 3;
            }
        }
        return filled.append(text, told, text.length()).toString();
    }
}
