package org.rollwright.cli.shell;

import com.fasterxml.jackson.annotation.JsonInclude;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/// JSON as commands print it: indented, in the order of the records' components.
public final class Json {
    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(SerializationFeature.INDENT_OUTPUT)
            .changeDefaultPropertyInclusion(
                    inclusion -> JsonInclude.Value.construct(JsonInclude.Include.ALWAYS, JsonInclude.Include.ALWAYS))
            .build();

    private Json() {}

    public static String of(Object value) {
        return MAPPER.writeValueAsString(value);
    }
}
