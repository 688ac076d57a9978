package org.rollwright.web;

import java.util.List;
import java.util.Map;

/// What the Till shows.
public record TillView(
        List<Balance> balances,
        List<Line> lines,
        List<VarietyViews.Choice> kinds,
        List<String> warnings,
        List<String> problems,
        Map<String, String> typed,
        boolean canUndo) {

    /// One place and what is there.
    public record Balance(String words, String amount) {}

    /// One line of the statement.
    public record Line(String day, String what, String amount, String where) {}
}
