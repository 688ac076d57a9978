package org.rollwright.web.mat;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.entry.Command;
import org.rollwright.entry.LookFor;
import org.rollwright.entry.Reading;
import org.rollwright.entry.Sentence;
import org.rollwright.scope.Prompt;
import org.rollwright.web.albums.AlbumShelf;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Coins;

/// What stands below the entry line: what it will record, what to choose from, or what is wrong.
///
/// @param kind empty, clear, choose or problem
/// @param line what was typed, so that it is never lost
public record Answer(
        String kind, String line, String text, String right, List<Reading.Option> options, List<Said> lines) {

    /// Commands of one line said in words; a line may name hundreds of finds.
    private static final int SAID = 8;

    /// One command in words.
    ///
    /// @param coin the coin it would record, null for what is no find
    public record Said(String text, String check, List<MatView.Alert> alerts, Coins.@Nullable Coin coin) {}

    static Answer empty() {
        return new Answer("empty", "", "", "", List.of(), List.of());
    }

    public static Answer problem(String line, String wrong, String right) {
        return new Answer("problem", line, wrong, right, List.of(), List.of());
    }

    /// @param warning what is to be said of a find unless the line opens a roll before it; mostly blank
    static Answer of(String line, Reading reading, Bench bench, Denomination box, String warning, AlbumShelf shelf) {
        Catalog catalog = bench.catalog();
        return switch (reading) {
            case Reading.Empty empty -> empty();
            case Reading.Problem problem -> problem(line, problem.wrong(), problem.right());
            case Reading.Choose choose ->
                new Answer("choose", line, choose.question(), "", choose.options(), List.of());
            case Reading.Clear clear -> {
                List<Said> said = new ArrayList<>();
                boolean opened = warning.isEmpty();
                List<Command> commands = clear.commands();
                for (Command command : commands.subList(0, Math.min(SAID, commands.size()))) {
                    opened |= command instanceof Command.NextRoll
                            || command instanceof Command.GoToBox
                            || (command instanceof Command.GoToRoll go && go.roll() > 0);
                    if (command instanceof Command.Found found) {
                        List<MatView.Alert> alerts = new ArrayList<>();
                        if (!opened && !found.draft().ender()) {
                            alerts.add(new MatView.Alert("may", warning));
                        }
                        shelf.alerts(found.draft().facts()).forEach(alert -> alerts.add(MatView.alert(alert)));
                        said.add(new Said(
                                Sentence.of(command, catalog, box),
                                look(bench, found.draft().facts().identity()),
                                alerts,
                                Coins.of(catalog, found.draft().facts())));
                    } else {
                        said.add(new Said(Sentence.of(command, catalog, box), "", List.of(), null));
                    }
                }
                if (commands.size() > SAID) {
                    said.add(new Said(t("answer.more-of-the-line", commands.size() - SAID), "", List.of(), null));
                }
                yield new Answer("clear", line, "", "", List.of(), said);
            }
        };
    }

    /// What to look for on a coin: the two most worthwhile varieties, or the catalogue's own words.
    private static String look(Bench bench, Identity coin) {
        List<Prompt> prompts = bench.desk().read(book -> bench.varieties().prompts(book.scope(), book.hunt(), coin));
        if (prompts.isEmpty()) {
            return LookFor.on(bench.catalog(), coin);
        }
        String words = String.join(
                "; ", prompts.stream().limit(2).map(Prompt::sentence).toList());
        return prompts.size() > 2 ? t("answer.and-more", words, prompts.size() - 2) : words;
    }
}
