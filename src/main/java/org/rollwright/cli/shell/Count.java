package org.rollwright.cli.shell;

/// Counts in the sentences of commands: `1 coin`, `2 coins`.
public final class Count {
    private Count() {}

    public static String of(long count, String one, String many) {
        return count + " " + (count == 1 ? one : many);
    }
}
