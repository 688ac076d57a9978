package org.rollwright.web.till;

import java.util.List;
import java.util.Map;
import org.rollwright.web.shell.Choice;

/// What the Till's pages show.
public final class TillView {
    private TillView() {}

    /// The books.
    ///
    /// @param currencies to choose from, one when there is no choice
    /// @param returnable boxes searched and still here
    public record Books(
            List<Balance> balances,
            List<Line> lines,
            int all,
            List<Choice> kinds,
            List<String> warnings,
            List<String> problems,
            Map<String, String> typed,
            List<String> currencies,
            String currency,
            List<Returnable> returnable,
            List<String> branches,
            List<Uneven> shorts,
            String shortSum,
            List<OwnLine> own,
            String prior,
            String today,
            long undoAsOf) {}

    /// One place and what is there.
    public record Balance(String words, String amount) {}

    /// One line of the statement.
    public record Line(String day, String what, String amount, String where) {}

    /// A box that can go back.
    public record Returnable(long id, String label, String source, String amount) {}

    /// Rolls short or over.
    public record Uneven(long box, String label, String source, String rolls, String coins, String amount) {}

    /// A box that showed nothing.
    public record OwnLine(long box, String sentence) {}

    /// Branches.
    public record Branches(List<BranchRow> branches, Map<String, String> typed, List<String> problems, long undoAsOf) {}

    /// One branch.
    public record BranchRow(
            String name,
            String days,
            String does,
            String fees,
            String road,
            String note,
            boolean closed,
            String seen) {}

    /// Where the time went.
    public record Time(
            List<Balance> phases,
            String road,
            String fuel,
            String measured,
            List<YieldRow> yields,
            String cost,
            List<Choice> hunts,
            List<Choice> kinds,
            List<String> branches,
            List<Line> noted,
            Map<String, String> typed,
            List<String> problems,
            String today,
            long undoAsOf) {}

    /// What a source yields.
    public record YieldRow(
            String coins, String target, String source, String boxes, String hours, String perBox, String perHour) {}

    /// Rounds of the coming days.
    ///
    /// @param best the day with most worth, blank when there is nothing to do
    public record Trip(
            List<WishRow> wishes,
            List<Day> days,
            String best,
            Map<String, String> typed,
            List<String> problems,
            String first) {}

    /// A branch that could be visited.
    public record WishRow(int number, String name, String days, String why, String worth) {}

    /// The round of a day.
    ///
    /// @param day as the calendar file is asked for
    /// @param shown as a person reads it
    public record Day(
            String day, String shown, String name, List<String> calls, String road, String worth, boolean best) {}
}
