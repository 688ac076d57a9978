package org.rollwright.store;

import static org.rollwright.text.Texts.t;

import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Journal;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.cfg.JsonNodeFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/// The whole journal as text, one entry a line in JSON: the exchange form of a store, from which the same store
/// is made again.
public final class JournalFile {
    /// Amounts stay as they were written, to the last digit.
    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
            .build();
    private static final String HEAD = "rollwright-journal";

    private JournalFile() {}

    /// A file that cannot be read. The message is for a person.
    public static final class Unusable extends Exception {
        private static final long serialVersionUID = 1L;

        Unusable(String sentence) {
            super(sentence, null, false, false);
        }
    }

    static void write(Journal journal, Path file) throws IOException {
        Path part = file.resolveSibling(file.getFileName() + ".part");
        try {
            fill(journal, part);
            Disk.move(part, file);
        } finally {
            Files.deleteIfExists(part);
        }
    }

    private static void fill(Journal journal, Path part) throws IOException {
        try (FileChannel channel = Disk.create(part);
                BufferedWriter writer = new BufferedWriter(Channels.newWriter(channel, StandardCharsets.UTF_8))) {
            ObjectNode head = MAPPER.createObjectNode();
            head.put(HEAD, Store.SCHEMA);
            head.put("entries", journal.last());
            writer.write(MAPPER.writeValueAsString(head));
            writer.newLine();
            IOException[] failed = new IOException[1];
            journal.read(0, entry -> {
                try {
                    ObjectNode line = MAPPER.createObjectNode();
                    line.put("seq", entry.seq());
                    line.put("at", entry.at().toString());
                    line.put("scope", entry.scope());
                    line.put("raw", entry.raw());
                    line.set("event", MAPPER.readTree(EventJson.write(entry.event())));
                    writer.write(MAPPER.writeValueAsString(line));
                    writer.newLine();
                } catch (IOException e) {
                    failed[0] = e;
                }
            });
            if (failed[0] != null) {
                throw failed[0];
            }
            writer.flush();
            channel.force(true);
        }
    }

    /// Reads a file whole before anything is done with it.
    static List<Entry> read(Path file) throws IOException, Unusable {
        List<Entry> entries = new ArrayList<>();
        try (BufferedReader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
            String first = reader.readLine();
            JsonNode head = first == null ? null : tree(first, 1);
            long version = head == null ? -1 : head.path(HEAD).asLong(-1);
            long promised = head == null ? -1 : head.path("entries").asLong(-1);
            if (version < 1 || promised < 0) {
                throw new Unusable(t("store.no-journal", file));
            }
            if (version > Store.SCHEMA) {
                throw new Unusable(t("store.backup-newer-named", file));
            }
            int number = 1;
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                number++;
                JsonNode node = tree(line, number);
                try {
                    Entry entry = new Entry(
                            node.get("seq").asLong(),
                            Instant.parse(node.get("at").asString()),
                            node.get("scope").asLong(),
                            node.get("raw").asString(),
                            EventJson.read(node.get("event").toString()));
                    if (entry.seq() != entries.size() + 1) {
                        throw new Unusable(t("store.line-out-of-order", number, entry.seq(), entries.size()));
                    }
                    entries.add(entry);
                } catch (JacksonException | NullPointerException | java.time.DateTimeException e) {
                    throw new Unusable(t("store.line-unknown", number));
                }
            }
            if (promised != entries.size()) {
                throw new Unusable(t("store.cut-short", entries.size(), promised));
            }
        } catch (java.nio.charset.CharacterCodingException e) {
            throw new Unusable(t("store.not-utf8-named", file));
        }
        return entries;
    }

    private static JsonNode tree(String line, int number) throws Unusable {
        try {
            return MAPPER.readTree(line);
        } catch (JacksonException e) {
            throw new Unusable(t("store.line-no-json", number));
        }
    }
}
