package org.rollwright.store;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/// What a run acknowledged, and when: read from what it said on its standard output.
final class PowerCutClaims {
    /// A part of the day, from its first call of the log to before the next one's.
    record Phase(String name, String store, int from, int to) {}

    /// So many entries of a store had been acknowledged at this place of the log.
    record Entries(int position, String store, long entries) {}

    /// A backup had been acknowledged.
    record Backup(int position, String name, long entries, int photographs) {}

    /// Something else had been acknowledged: where backups go, or a file written.
    record Other(int position, String what) {}

    private static final Pattern OK = Pattern.compile("ok \\d+ (\\d+) .*");
    private static final Pattern HAD = Pattern.compile("had (\\S+) (\\d+)");
    private static final Pattern BATCH = Pattern.compile(
            ".*( recorded as one step\\.|Accepted\\.|Imported as one step.*| taken from .*| made from .*)");
    private static final Pattern BACKUP =
            Pattern.compile("(.*): (\\d+) entries and (\\d+) photographs, proved by reading every one back\\.");

    final List<Phase> phases = new ArrayList<>();
    final List<Entries> entries = new ArrayList<>();
    final List<Backup> backups = new ArrayList<>();
    final List<Other> others = new ArrayList<>();

    private String phase = "start";
    private String store = "data";
    private int from;
    private final List<Integer> batches = new ArrayList<>();
    private final List<Integer> lines = new ArrayList<>();

    PowerCutClaims(List<PowerCutLog.Call> log) {
        StringBuilder text = new StringBuilder();
        for (int position = 0; position < log.size(); position++) {
            if (log.get(position) instanceof PowerCutLog.Said said) {
                text.append(said.text());
                for (int end = text.indexOf("\n"); end >= 0; end = text.indexOf("\n")) {
                    line(text.substring(0, end), position);
                    text.delete(0, end + 1);
                }
            }
        }
    }

    private void line(String line, int position) {
        Matcher ok = OK.matcher(line);
        Matcher had = HAD.matcher(line);
        Matcher backup = BACKUP.matcher(line);
        if (line.startsWith("phase ")) {
            begin(line.split(" ")[1], line.split(" ")[2], position);
        } else if (ok.matches()) {
            if (phase.equals("upgrade") || phase.equals("making")) {
                // the first entry is recorded: the store is upgraded, or made
                begin("hunt", store, position);
            }
            lines.add(position);
            entries.add(new Entries(position, store, Long.parseLong(ok.group(1))));
        } else if (had.matches()) {
            long count = Long.parseLong(had.group(2));
            // the batch had been acknowledged by then already
            batches.forEach(at -> entries.add(new Entries(at, had.group(1), count)));
            lines.addAll(batches);
            batches.clear();
            entries.add(new Entries(position, had.group(1), count));
        } else if (backup.matches()) {
            lines.add(position);
            if (others.stream().noneMatch(other -> other.what.equals("settings"))) {
                others.add(new Other(position, "settings"));
            }
            backups.add(new Backup(
                    position,
                    Path.of(backup.group(1)).getFileName().toString(),
                    Long.parseLong(backup.group(2)),
                    Integer.parseInt(backup.group(3))));
        } else if (line.contains(" written to ")) {
            lines.add(position);
            others.add(new Other(position, line.substring(line.lastIndexOf('/') + 1)));
        } else if (BATCH.matcher(line).matches()) {
            batches.add(position);
        }
    }

    private void begin(String name, String into, int position) {
        if (position > from) {
            phases.add(new Phase(phase, store, from, position));
        }
        from = position;
        phase = name;
        store = into;
    }

    /// How many lines had acknowledged something before a place of the log.
    int lines(int before) {
        return (int) lines.stream().filter(position -> position < before).count();
    }

    /// Entries of a store that had been acknowledged before a place of the log.
    long entries(String name, int before) {
        return entries.stream()
                .filter(claim -> claim.store.equals(name) && claim.position < before)
                .mapToLong(Entries::entries)
                .max()
                .orElse(0);
    }

    boolean had(String what, int before) {
        return others.stream().anyMatch(other -> other.what.equals(what) && other.position < before);
    }
}
