package org.rollwright.calc;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.json.JsonFactory;

/// What was said of each field, before anything is read of it. JSON becomes the words that a form would hold, a number
/// digit by digit as it was written, so that both are read, refused and quoted alike; a text within JSON may hold what
/// the form's field would.
public final class Said {
    /// Something said: words, parts in order, or parts by name.
    private sealed interface Value {
        /// As it was written, for a sentence.
        String text();
    }

    private record Words(String text) implements Value {}

    private record Many(List<Value> parts) implements Value {
        @Override
        public String text() {
            return parts.stream().map(Value::text).collect(Collectors.joining(",", "[", "]"));
        }
    }

    private record Named(Map<String, Value> parts) implements Value {
        @Override
        public String text() {
            return parts.entrySet().stream()
                    .map(one -> one.getKey() + ":" + one.getValue().text())
                    .collect(Collectors.joining(",", "{", "}"));
        }
    }

    /// A number of any length is no number in reach, which is said of it as of any other.
    private static final JsonFactory JSON = JsonFactory.builder()
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxNumberLength(Integer.MAX_VALUE)
                    .build())
            .build();

    private final Map<String, Value> values;

    private Said(Map<String, Value> values) {
        this.values = values;
    }

    /// What the fields of a form hold.
    public static Said form(Map<String, String> fields) {
        Map<String, Value> values = new LinkedHashMap<>();
        fields.forEach((key, text) -> values.put(key, new Words(text)));
        return new Said(values);
    }

    /// What stands in JSON.
    ///
    /// @return empty when it is no object of JSON
    public static Optional<Said> json(byte[] text) {
        try (JsonParser parser = JSON.createParser(ObjectReadContext.empty(), text)) {
            if (parser.nextToken() != JsonToken.START_OBJECT) {
                return Optional.empty();
            }
            Named all = named(parser);
            return parser.nextToken() == null ? Optional.of(new Said(all.parts)) : Optional.empty();
        } catch (JacksonException e) {
            return Optional.empty();
        }
    }

    private static Named named(JsonParser parser) {
        Map<String, Value> parts = new LinkedHashMap<>();
        while (parser.nextToken() != JsonToken.END_OBJECT) {
            String key = parser.currentName();
            parser.nextToken();
            // nothing is what a blank field holds
            parts.put(key, parser.currentToken() == JsonToken.VALUE_NULL ? new Words("") : value(parser));
        }
        return new Named(parts);
    }

    private static Value value(JsonParser parser) {
        return switch (parser.currentToken()) {
            case START_OBJECT -> named(parser);
            case START_ARRAY -> {
                List<Value> parts = new ArrayList<>();
                while (parser.nextToken() != JsonToken.END_ARRAY) {
                    parts.add(value(parser));
                }
                yield new Many(parts);
            }
            default -> new Words(parser.getString());
        };
    }

    /// One thing said in a field; blank when nothing was.
    String one(String key) {
        Value value = value(key);
        return value instanceof Many many && many.parts.isEmpty()
                ? ""
                : value.text().strip();
    }

    /// Things said in a field one after the other.
    ///
    /// @param between what parts them where they are one text
    List<String> many(String key, String between) {
        return many(value(key), between);
    }

    private static List<String> many(Value value, String between) {
        return switch (value) {
            case Words words -> parted(words.text, between);
            case Many many ->
                many.parts.stream().map(part -> part.text().strip()).toList();
            case Named named -> List.of(named.text());
        };
    }

    /// Rows of things said in a field: one a line, or lists within a list.
    ///
    /// @param columns in which order parts by name are taken; one that is missing is blank
    List<List<String>> rows(String key, String between, List<String> columns) {
        return switch (value(key)) {
            case Words words ->
                words.text
                        .lines()
                        .filter(line -> !line.isBlank())
                        .map(line -> parted(line, between))
                        .toList();
            case Many many ->
                many.parts.stream().map(part -> row(part, between, columns)).toList();
            case Named named -> List.of(row(named, between, columns));
        };
    }

    private static List<String> row(Value value, String between, List<String> columns) {
        return value instanceof Named named && !columns.isEmpty()
                ? columns.stream()
                        .map(column -> named.parts
                                .getOrDefault(column, new Words(""))
                                .text()
                                .strip())
                        .toList()
                : many(value, between);
    }

    private static List<String> parted(String text, String between) {
        return Arrays.stream(text.split(between))
                .map(String::strip)
                .filter(part -> !part.isEmpty())
                .toList();
    }

    private Value value(String key) {
        return values.getOrDefault(key, new Words(""));
    }
}
