package org.rollwright.cli.mat;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Identity;
import org.rollwright.desk.State;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxReport;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.Tally;

/// A box's report as commands print it; its rank is 0 until it is searched to the end.
record BoxJson(
        long box,
        String label,
        String denomination,
        long rollsSearched,
        int rolls,
        long coinsSearched,
        long coinsNominal,
        int found,
        int rank,
        int ranked,
        List<DateCount> byDate,
        List<Tally.Line> byDecade,
        List<Tally.Line> byMint,
        List<Tally.Line> bySeries,
        List<Tally.Line> byMetal,
        List<Tally.Line> byWatch,
        List<RollCount> byRoll,
        List<FindJson> finds,
        List<String> remarks) {

    /// Coins of one identity. Mint is P where none is shown on a US coin, and null where it could not be read.
    record DateCount(
            String country,
            String denomination,
            @Nullable Integer year,
            @Nullable String mint,
            String kind,
            String design,
            int count) {}

    /// Coins found in one roll; roll 0 is no roll.
    record RollCount(int roll, int found) {}

    /// One find.
    record FindJson(int find, int roll, String coin, String state, String note, int count, boolean ender, String at) {}

    static BoxJson of(State book, Box box, Catalog catalog) {
        BoxReport report = BoxReport.of(book.hunt(), box, catalog);
        List<DateCount> dates = new ArrayList<>();
        report.identities().forEach((identity, count) -> dates.add(date(identity, count)));
        List<RollCount> rolls = new ArrayList<>();
        report.finds().stream()
                .collect(java.util.stream.Collectors.groupingBy(
                        Find::roll, java.util.TreeMap::new, java.util.stream.Collectors.summingInt(Find::count)))
                .forEach((roll, count) -> rolls.add(new RollCount(roll, count)));
        return new BoxJson(
                box.id().number(),
                box.details().label(),
                box.denomination().toString(),
                report.searchedRolls(),
                box.details().rolls(),
                report.searchedCoins(),
                report.nominalCoins(),
                report.foundCoins(),
                report.rank(),
                report.ranked(),
                dates,
                report.byDecade(),
                report.byMint(),
                report.bySeries(),
                report.byMetal(),
                report.byWatch(),
                rolls,
                report.finds().stream()
                        .map(find -> new FindJson(
                                find.ordinal(),
                                find.roll(),
                                catalog.name(find.facts().identity(), box.denomination()),
                                find.facts().state(),
                                find.facts().note(),
                                find.count(),
                                find.ender(),
                                find.at().toString()))
                        .toList(),
                report.remarks());
    }

    static DateCount date(Identity identity, int count) {
        org.rollwright.coin.Mint mint = identity.mint();
        return new DateCount(
                identity.denomination().country().code(),
                identity.denomination().key(),
                identity.year(),
                mint == null ? null : mint.code(),
                identity.kind(),
                identity.design(),
                count);
    }
}
