package org.rollwright.action;

import static org.rollwright.text.Texts.t;

import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Refusal;
import org.rollwright.entry.Command;
import org.rollwright.entry.EntryContext;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Reading;

/// A coin written as on the Mat.
record CoinLine(CoinDescription coin, int count) {
    /// What was made of a line.
    sealed interface Read {
        record Good(CoinLine line) implements Read {}

        record Bad(Refusal why) implements Read {}
    }

    /// Reads a line that says one kind of coin.
    static Read read(String line, Denomination denomination, Setting setting) {
        int year = setting.now().atOffset(ZoneOffset.UTC).getYear();
        EntryContext context = new EntryContext(setting.catalog(), denomination, List.of(), year);
        return switch (EntryParser.parse(line, context)) {
            case Reading.Problem problem -> bad(problem.wrong(), problem.right());
            case Reading.Choose choose ->
                bad(
                        choose.question(),
                        t(
                                "entry.write-one-of",
                                String.join(
                                        ", ",
                                        choose.options().stream()
                                                .map(Reading.Option::line)
                                                .toList())));
            case Reading.Empty empty -> bad(t("typed.no-coin"), t("typed.write-a-coin"));
            case Reading.Clear clear ->
                found(clear)
                        .<Read>map(found -> new Read.Good(new CoinLine(
                                found.draft().facts(), found.draft().count())))
                        .orElseGet(() -> bad(t("typed.only-a-coin"), t("typed.write-a-coin")));
        };
    }

    private static Optional<Command.Found> found(Reading.Clear clear) {
        return clear.commands().size() == 1 && clear.commands().getFirst() instanceof Command.Found found
                ? Optional.of(found)
                : Optional.empty();
    }

    private static Read bad(String wrong, String right) {
        return new Read.Bad(new Refusal(wrong, right));
    }
}
