package org.rollwright.calc;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/// What a calculator found.
///
/// @param values for scripts, by key in a fixed order: numbers, words, lists of them; null where there is none
/// @param sentences for a person
public record Answer(Map<String, @Nullable Object> values, List<String> sentences) {
    public Answer {
        values = Collections.unmodifiableMap(new LinkedHashMap<>(values));
        sentences = List.copyOf(sentences);
    }

    /// Values by their keys. JSON has no infinity, so a number that is not finite becomes null.
    ///
    /// @param keysAndValues in turn
    static Map<String, @Nullable Object> values(@Nullable Object... keysAndValues) {
        Map<String, @Nullable Object> map = new LinkedHashMap<>();
        for (int i = 0; i < keysAndValues.length; i += 2) {
            map.put(String.valueOf(keysAndValues[i]), finite(keysAndValues[i + 1]));
        }
        return map;
    }

    private static @Nullable Object finite(@Nullable Object value) {
        if (value instanceof List<?> list) {
            List<@Nullable Object> all = new ArrayList<>();
            list.forEach(one -> all.add(finite(one)));
            return all;
        }
        return value instanceof Double number && !Double.isFinite(number) ? null : value;
    }
}
