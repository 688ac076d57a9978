package org.rollwright.action;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/// What was typed, by the names of fields. A field that is not there was left blank.
public record Fields(Map<String, List<String>> typed) {
    public Fields {
        Map<String, List<String>> copy = new LinkedHashMap<>();
        typed.forEach((name, values) -> copy.put(name, List.copyOf(values)));
        typed = Map.copyOf(copy);
    }

    /// One value for each field.
    public static Fields of(Map<String, String> typed) {
        Map<String, List<String>> all = new LinkedHashMap<>();
        typed.forEach((name, value) -> all.put(name, List.of(value)));
        return new Fields(all);
    }

    List<String> all(String name) {
        return typed.getOrDefault(name, List.of());
    }
}
