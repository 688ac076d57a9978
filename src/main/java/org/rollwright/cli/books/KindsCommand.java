package org.rollwright.cli.books;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.CountryFacts;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Kinds;
import org.rollwright.catalog.Spot;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Mint;
import org.rollwright.scale.SingleCoin;
import picocli.CommandLine;

/// Which kind of its date a coin is.
@CommandLine.Command(
        name = "kinds",
        description = "Say which kind of its date a coin is, or what to look at next to tell.",
        footer = {
            "",
            "Example: ./run kinds 1982                       what to look at first",
            "         ./run kinds 1982 weight=2.51 date=small mint=D",
            "         ./run kinds 1982-D weight=2.51         with the mint mark told",
            "         ./run kinds --country canada 2006 magnet=yes",
            "",
            "An answer may be begun; ? is for who cannot tell. Exit status: 0 settled, or the next question printed,",
            "2 an answer or the date cannot be read, 3 no coin fits."
        })
public final class KindsCommand implements Callable<Integer> {
    private static final Pattern DATE = Pattern.compile("([0-9]{4})(?:-([A-Za-z]{1,2}))?");
    private static final double STEP = 0.01;

    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Parameters(index = "0", paramLabel = "DATE", description = "A year, with a mint if it was looked at.")
    private String date = "";

    @CommandLine.Parameters(index = "1..*", paramLabel = "LOOK=ANSWER", description = "What was seen.")
    private List<String> answers = List.of();

    @CommandLine.Option(
            names = "--denomination",
            paramLabel = "WORD",
            description = "What the coin is (default: ${DEFAULT-VALUE}).",
            defaultValue = "cent")
    private String denomination = "cent";

    @CommandLine.Option(
            names = "--country",
            paramLabel = "WORD",
            description = "Whose it is (default: ${DEFAULT-VALUE}).",
            defaultValue = "us")
    private String country = "us";

    @CommandLine.Option(names = "--json", description = "Print JSON.")
    private boolean json;

    /// One answer that may be given.
    record AnswerJson(String answer, String seen) {}

    /// What to look at next.
    record QuestionJson(String look, String question, String where, List<AnswerJson> answers) {}

    /// Where it stands.
    record KindsJson(
            boolean settled,
            Map<String, String> seen,
            List<String> coins,
            @org.jspecify.annotations.Nullable QuestionJson next) {}

    @Override
    public Integer call() {
        Catalog catalog = open.catalog(System.err);
        Country of = catalog.countryByWord(country)
                .map(CountryFacts::country)
                .orElseThrow(() ->
                        new Open.Stop(ExitCode.INPUT, "'" + country + "' is no country. Write us, canada and so on."));
        Denomination what = catalog.denominationByWord(of, denomination)
                .map(DenominationFacts::denomination)
                .orElseThrow(() -> new Open.Stop(
                        ExitCode.INPUT,
                        "'" + denomination + "' is no denomination. Write cent, nickel, dime and so on."));
        Matcher told = DATE.matcher(date);
        if (!told.matches()) {
            throw new Open.Stop(ExitCode.INPUT, "'" + date + "' is no date. Write for example 1982 or 1982-D.");
        }
        String mark = told.group(2);
        Kinds begun = Kinds.of(
                catalog,
                what,
                Integer.parseInt(told.group(1)),
                mark == null ? null : new Mint(mark.toUpperCase(java.util.Locale.ROOT)));
        if (begun.left().isEmpty()) {
            throw new Open.Stop(ExitCode.NOTHING, "The catalogue has no such coin of '" + date + "'.");
        }
        Map<String, String> said = answers();
        Kinds now = begun.following(
                said, (grams, alloys) -> SingleCoin.of(grams, STEP, alloys).fits());
        Optional<Kinds.Question> next = now.next();
        next.filter(question -> said.containsKey(question.id())).ifPresent(KindsCommand::refuse);
        print(catalog, now, next);
        return now.left().isEmpty() ? ExitCode.NOTHING.number() : ExitCode.OK.number();
    }

    private Map<String, String> answers() {
        Map<String, String> said = new LinkedHashMap<>();
        for (String answer : answers) {
            int at = answer.indexOf('=');
            if (at < 1) {
                throw new Open.Stop(
                        ExitCode.INPUT, "'" + answer + "' is no answer. Write look and answer, such as: weight=2.51");
            }
            said.put(answer.substring(0, at), answer.substring(at + 1));
        }
        return said;
    }

    private static void refuse(Kinds.Question question) {
        String right = String.join(
                ", ",
                question.choices().stream()
                        .map(choice -> question.id() + "=" + choice.key())
                        .toList());
        throw new Open.Stop(
                ExitCode.INPUT,
                "The answer to '" + question.text() + "' is none of the choices. Write one of: " + right + ", "
                        + question.id() + "=?");
    }

    private void print(Catalog catalog, Kinds now, Optional<Kinds.Question> next) {
        List<String> coins = now.left().stream()
                .map(Issue::identity)
                .map(identity -> catalog.name(identity, identity.denomination()))
                .toList();
        boolean settled = next.isEmpty() && coins.size() == 1;
        if (json) {
            System.out.println(Json.of(new KindsJson(
                    settled,
                    now.said(),
                    coins,
                    next.map(question -> new QuestionJson(
                                    question.id(),
                                    question.text(),
                                    where(catalog, now, question),
                                    question.choices().stream()
                                            .map(choice -> new AnswerJson(choice.key(), choice.words()))
                                            .toList()))
                            .orElse(null))));
            return;
        }
        if (settled) {
            System.out.println(coins.getFirst());
        } else if (coins.isEmpty()) {
            System.out.println(
                    "No coin of the catalogue is that. Look again; ./run catalog has the coins of the date.");
        } else if (next.isEmpty()) {
            System.out.println("Eye and scale tell no further: " + String.join("; ", coins));
        } else {
            Kinds.Question question = next.get();
            String where = where(catalog, now, question);
            System.out.println(question.text() + (where.isEmpty() ? "" : " Look at: " + where + "."));
            question.choices()
                    .forEach(choice -> System.out.println(
                            "  " + question.id() + "=" + quoted(choice.key()) + "   " + choice.words()));
            System.out.println("It may be: " + String.join("; ", coins));
        }
    }

    private static String quoted(String key) {
        return key.contains(" ") ? "'" + key + "'" : key;
    }

    private static String where(Catalog catalog, Kinds now, Kinds.Question question) {
        List<String> zones = new ArrayList<>();
        for (Spot spot : question.looks()) {
            if (spot instanceof Spot.On on) {
                now.left().stream()
                        .flatMap(issue -> catalog.zones().zone(issue, spot).stream())
                        .findFirst()
                        .ifPresent(
                                zone -> zones.add(zone.name() + " (" + on.side().word() + ")"));
            }
        }
        return String.join("; ", zones);
    }
}
