package org.rollwright.cli.books;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.Action;
import org.rollwright.action.AlbumActions;
import org.rollwright.action.Fields;
import org.rollwright.album.AlbumShelves;
import org.rollwright.album.AlbumState;
import org.rollwright.album.Comparison;
import org.rollwright.album.Hole;
import org.rollwright.album.Proposal;
import org.rollwright.album.WantList;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.OwnedCoin;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.coin.Country;
import org.rollwright.desk.State;
import org.rollwright.odds.OwnRates;
import org.rollwright.store.Store;
import org.rollwright.text.Texts;
import picocli.CommandLine;

/// Albums: their holes, what is wanted, and the comparison with the coins owned.
@CommandLine.Command(
        name = "album",
        description = "List the albums, print one with its holes and wants, or compare all coins with all albums.",
        footer = {
            "",
            "Example: ./run album                      all albums",
            "         ./run album \"Wheat cents\"        its holes and its want list",
            "         ./run album --compare            what would be added or upgraded; nothing changes",
            "         ./run album --compare --accept   accept all of it, as one step",
            "",
            "Exit status: 0 done, 3 no such album, 4 the store is in use, 5 not saved."
        })
public final class AlbumCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Parameters(arity = "0..1", paramLabel = "ALBUM", description = "Name or number of an album.")
    private @Nullable String album;

    @CommandLine.Option(names = "--compare", description = "Compare all coins with all albums.")
    private boolean compare;

    @CommandLine.Option(names = "--accept", description = "With --compare: accept everything proposed.")
    private boolean accept;

    @CommandLine.Option(names = "--json", description = "Print JSON.")
    private boolean json;

    /// One album in the list.
    record Row(long album, String name, String rule, int holes, int filled) {}

    /// One hole.
    ///
    /// @param chance that a year like the last one fills it, 0 to 1; null when it is filled or nobody can say
    record HoleJson(
            String hole,
            @Nullable String coin,
            @Nullable String state,
            @Nullable String from,
            @Nullable Double chance) {}

    /// One album.
    record AlbumJson(
            long album, String name, String rule, int holes, int filled, List<HoleJson> content, List<String> wants) {}

    /// One move of a proposal.
    record MoveJson(
            int group,
            String album,
            String hole,
            String kind,
            String coin,
            String from,
            @Nullable String displaced,
            String displacedTo,
            String reason) {}

    /// The comparison.
    record CompareJson(int additions, int upgrades, boolean accepted, List<MoveJson> moves, List<String> looks) {}

    @Override
    public Integer call() {
        if (accept && !compare) {
            throw new Open.Stop(ExitCode.INPUT, "--accept goes with --compare: it accepts what that proposes.");
        }
        if (compare && album != null) {
            throw new Open.Stop(ExitCode.INPUT, "--compare looks at all albums; leave the name out.");
        }
        Store.Mode mode = compare && accept ? Store.Mode.WRITE : Store.Mode.READ;
        try (Open.Bench bench = open.open(mode, System.err)) {
            AlbumShelves shelves = new AlbumShelves(bench.catalog(), Country.US);
            String wanted = album;
            if (compare) {
                return compare(bench, shelves);
            }
            return wanted == null ? list(bench, shelves) : one(bench, shelves, wanted);
        }
    }

    private int list(Open.Bench bench, AlbumShelves shelves) {
        List<Row> rows = bench.desk()
                .read(book -> shelves.states(book.album(), book.holdings()).stream()
                        .map(state -> new Row(
                                state.id().number(),
                                state.name(),
                                book.album().album(state.id()).orElseThrow().rule(),
                                state.places().holes().size(),
                                filled(state)))
                        .toList());
        if (json) {
            System.out.println(Json.of(rows));
        } else if (rows.isEmpty()) {
            System.err.println("There is no album yet. Make one on the page Albums.");
        } else {
            rows.forEach(row -> System.out.println(
                    row.album + "  " + row.name + ": " + row.filled + " of " + row.holes + "  (" + row.rule + ")"));
        }
        return ExitCode.OK.number();
    }

    private static int filled(AlbumState state) {
        return (int) state.places().holes().stream()
                .filter(hole -> state.content().containsKey(hole.key()))
                .count();
    }

    private int one(Open.Bench bench, AlbumShelves shelves, String wanted) {
        AlbumJson report = bench.desk().read(book -> {
            AlbumState state = find(book, shelves, wanted)
                    .orElseThrow(() -> new Open.Stop(
                            ExitCode.NOTHING,
                            "There is no album '" + wanted + "'. " + Texts.command() + " album lists them."));
            OwnRates rates = new OwnRates(book.hunt(), bench.catalog());
            List<HoleJson> content = new ArrayList<>();
            for (Hole hole : state.places().holes()) {
                CoinRef ref = state.content().get(hole.key());
                OwnedCoin coin = ref == null ? null : book.holdings().coin(ref).orElse(null);
                content.add(
                        coin == null
                                ? new HoleJson(hole.key(), null, null, null, chance(hole, rates))
                                : new HoleJson(
                                        hole.key(),
                                        coin.ref().toString(),
                                        coin.description().state(),
                                        coin.provenance(),
                                        null));
            }
            return new AlbumJson(
                    state.id().number(),
                    state.name(),
                    book.album().album(state.id()).orElseThrow().rule(),
                    state.places().holes().size(),
                    filled(state),
                    content,
                    WantList.of(state, null, ref -> null, rates::boxes).stream()
                            .map(want -> want.hole().key())
                            .toList());
        });
        if (json) {
            System.out.println(Json.of(report));
            return ExitCode.OK.number();
        }
        System.out.println(report.name + ": " + report.filled + " of " + report.holes + "  (" + report.rule + ")");
        report.content.stream()
                .filter(hole -> hole.coin != null)
                .forEach(hole -> System.out.println("  " + hole.hole + "  " + hole.state + "  " + hole.from));
        System.out.println("wanted, easiest first: " + String.join(", ", report.wants));
        return ExitCode.OK.number();
    }

    private static @Nullable Double chance(Hole hole, OwnRates rates) {
        OptionalDouble chance =
                hole.variety().isEmpty() ? rates.ofAYear(hole.issues(), Instant.now()) : OptionalDouble.empty();
        return chance.isPresent() ? chance.getAsDouble() : null;
    }

    private static Optional<AlbumState> find(State book, AlbumShelves shelves, String wanted) {
        return shelves.states(book.album(), book.holdings()).stream()
                .filter(state -> state.name().equalsIgnoreCase(wanted)
                        || Long.toString(state.id().number()).equals(wanted))
                .findFirst();
    }

    private int compare(Open.Bench bench, AlbumShelves shelves) {
        Proposal proposal = bench.desk().read(book -> propose(book, shelves));
        boolean accepted = false;
        if (accept && !proposal.moves().isEmpty()) {
            Action.Answer answer =
                    AlbumActions.ACCEPT.perform(bench.desk(), bench.setting(), Fields.of(Map.of("do", "all")), "");
            if (answer instanceof Action.Answer.Refused refused) {
                throw new Open.Stop(ExitCode.INPUT, refused.why().getFirst().toString());
            }
            accepted = true;
        }
        List<MoveJson> moves = proposal.moves().stream()
                .map(move -> new MoveJson(
                        move.group(),
                        move.albumName(),
                        move.hole().key(),
                        move.isAddition() ? "addition" : "upgrade",
                        name(bench, move.coin()),
                        move.coin().provenance(),
                        displaced(bench, move.displaced()),
                        move.displacedTo(),
                        move.reason()))
                .toList();
        int additions =
                (int) moves.stream().filter(move -> move.displaced == null).count();
        CompareJson report = new CompareJson(
                additions,
                moves.size() - additions,
                accepted,
                moves,
                proposal.looks().stream()
                        .map(look -> look.albumName() + ", " + look.hole().key() + ": "
                                + name(bench, look.coin()) + " against " + name(bench, look.there()) + ", "
                                + look.reason())
                        .toList());
        if (json) {
            System.out.println(Json.of(report));
            return ExitCode.OK.number();
        }
        moves.forEach(
                move -> System.out.println(move.album + ", " + move.hole + ": " + move.kind + ", " + move.coin + " ("
                        + move.from + ")"
                        + (move.displaced == null
                                ? ""
                                : "; " + move.reason + "; the " + move.displaced + " goes to " + move.displacedTo)));
        report.looks.forEach(look -> System.out.println("look: " + look));
        System.out.println(additions + " additions, " + report.upgrades + " upgrades. "
                + (accepted
                        ? "Accepted."
                        : "Nothing was changed" + (moves.isEmpty() ? "." : "; add --accept to accept.")));
        return ExitCode.OK.number();
    }

    private static @Nullable String displaced(Open.Bench bench, @Nullable OwnedCoin coin) {
        return coin == null ? null : name(bench, coin);
    }

    private static String name(Open.Bench bench, OwnedCoin coin) {
        String state = coin.description().state();
        return bench.catalog()
                        .name(
                                coin.description().identity(),
                                coin.description().identity().denomination())
                + (state.isEmpty() ? "" : " " + state);
    }

    private static Proposal propose(State book, AlbumShelves shelves) {
        return Comparison.propose(
                shelves.states(book.album(), book.holdings()), book.comparable(), AlbumShelves.policy(book.album()));
    }
}
