package org.rollwright.cli.mat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.Action;
import org.rollwright.action.Actions;
import org.rollwright.action.Field;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.coin.Refusal;
import org.rollwright.store.Store;
import picocli.CommandLine;

/// Does one thing that a page would do, with the same bounds and the same words.
@CommandLine.Command(
        name = "do",
        description = "Do one thing that a form of a page does.",
        footer = {
            "",
            "Example: ./run do                                        what can be done, with its fields",
            "         ./run do cash kind=DRAW amount=25.00 where='Hill Bank'",
            "         ./run do coin line='1936d vf20' how=bought price=2.50 to=1",
            "",
            "Exit status: 0 done, 2 refused, with the reason; 4 the store is in use, 5 not saved."
        })
public final class DoCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Parameters(
            index = "0",
            arity = "0..1",
            paramLabel = "ACTION",
            description = "What to do; without it, what there is.")
    private @Nullable String name;

    @CommandLine.Parameters(
            index = "1..*",
            arity = "0..*",
            paramLabel = "FIELD=VALUE",
            description = "What to say; a field may come again where a form has several.")
    private List<String> said = new ArrayList<>();

    @CommandLine.Option(names = "--json", description = "Print what came of it as JSON.")
    private boolean json;

    /// What is printed.
    ///
    /// @param seq position in the journal, 0 when nothing was recorded
    record Result(String action, long seq, List<Refusal> refused) {}

    @Override
    public Integer call() throws IOException {
        String wanted = name;
        if (wanted == null) {
            list();
            return ExitCode.OK.number();
        }
        Action action = Actions.named(wanted)
                .orElseThrow(() -> new Open.Stop(
                        ExitCode.INPUT,
                        "'" + Refusal.quote(wanted) + "' is nothing that can be done. ./run do tells what can be."));
        Directive directive = Directive.known(action, values());
        if (!directive.wrong().isEmpty()) {
            throw new Open.Stop(ExitCode.INPUT, directive.wrong() + " " + directive.right());
        }
        try (Open.Bench bench = open.open(Store.Mode.WRITE, System.err)) {
            String raw = "do " + wanted + " " + String.join(" ", said);
            Action.Answer answer = action.perform(bench.desk(), bench.setting(), directive.fields(), raw);
            switch (answer) {
                case Action.Answer.Done done ->
                    System.out.println(
                            json
                                    ? Json.of(new Result(wanted, done.entry().seq(), List.of()))
                                    : "ok " + done.entry().seq());
                case Action.Answer.Refused refused -> {
                    if (json) {
                        System.out.println(Json.of(new Result(wanted, 0, refused.why())));
                    }
                    refused.why().forEach(System.err::println);
                    return ExitCode.INPUT.number();
                }
            }
            return ExitCode.OK.number();
        }
    }

    private Map<String, List<String>> values() {
        Map<String, List<String>> values = new LinkedHashMap<>();
        for (String one : said) {
            int equals = one.indexOf('=');
            if (equals < 1) {
                throw new Open.Stop(
                        ExitCode.INPUT,
                        "'" + Refusal.quote(one) + "' says nothing. Write FIELD=VALUE, such as amount=25.00.");
            }
            values.computeIfAbsent(one.substring(0, equals), field -> new ArrayList<>())
                    .add(one.substring(equals + 1));
        }
        return values;
    }

    private void list() {
        if (json) {
            System.out.println(Json.of(Actions.ALL.stream()
                    .map(action -> Map.of("action", action.name(), "fields", action.fields()))
                    .toList()));
            return;
        }
        for (Action action : Actions.ALL) {
            StringBuilder line = new StringBuilder(action.name());
            for (Field field : action.fields()) {
                String one = field.name() + "="
                        + (field.example().contains(" ") ? "'" + field.example() + "'" : field.example());
                line.append(' ').append(field.needed() ? one : "[" + one + "]");
            }
            System.out.println(line);
        }
    }
}
