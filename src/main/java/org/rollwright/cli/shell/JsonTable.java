package org.rollwright.cli.shell;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/// A JSON array of flat objects as a table with a header row.
public final class JsonTable {
    private static final long MOST_BYTES = 100_000_000;

    private JsonTable() {}

    public static List<List<String>> read(Path file) {
        try {
            if (Files.size(file) > MOST_BYTES) {
                throw new Open.Stop(ExitCode.INPUT, "The file is larger than 100 MB. Split it.");
            }
            JsonNode tree = JsonMapper.shared().readTree(Files.readString(file));
            if (!tree.isArray()) {
                throw new Open.Stop(ExitCode.INPUT, "The file holds no list of coins. Write a JSON array of objects.");
            }
            Set<String> header = new LinkedHashSet<>();
            tree.forEach(node -> node.propertyNames().forEach(header::add));
            List<List<String>> table = new ArrayList<>();
            table.add(List.copyOf(header));
            tree.forEach(node -> table.add(header.stream()
                    .map(name -> node.has(name) ? node.get(name).asString("") : "")
                    .toList()));
            return table;
        } catch (JacksonException e) {
            throw new Open.Stop(ExitCode.INPUT, file + " is no JSON.");
        } catch (IOException e) {
            throw new Open.Stop(ExitCode.INPUT, "The file " + file + " cannot be read.");
        }
    }
}
