package org.rollwright.cli;

/// Counts in the sentences of commands: `1 coin`, `2 coins`.
final class Count {
    private Count() {}

    static String of(long count, String one, String many) {
        return count + " " + (count == 1 ? one : many);
    }
}
