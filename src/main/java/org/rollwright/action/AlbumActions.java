package org.rollwright.action;

import static org.rollwright.action.Field.maybe;
import static org.rollwright.action.Field.needed;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.rollwright.album.Album;
import org.rollwright.album.AlbumEvent;
import org.rollwright.album.AlbumId;
import org.rollwright.album.AlbumRule;
import org.rollwright.album.AlbumShelves;
import org.rollwright.album.AlbumState;
import org.rollwright.album.Comparison;
import org.rollwright.album.Hole;
import org.rollwright.album.HoleList;
import org.rollwright.album.Policy;
import org.rollwright.album.Proposal;
import org.rollwright.cabinet.Acquisition;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Refusal;
import org.rollwright.coin.Strike;
import org.rollwright.desk.Desk;
import org.rollwright.desk.State;
import org.rollwright.journal.Declined;
import org.rollwright.journal.Event;

/// What is done with albums, beside the comparison.
public final class AlbumActions {
    private static final long MOST_NUMBER = 999_999_999;

    /// An album is made, or its name and rule told anew.
    public static final Action ALBUM = new Action(
            "album",
            List.of(maybe("album", "1"), needed("name", "Wheat cents"), needed("rule", "series wheat")),
            AlbumActions::album);

    /// An album is given up.
    public static final Action ALBUM_OFF =
            new Action("album-off", List.of(needed("album", "1")), AlbumActions::albumOff);

    /// A coin is taken out of a hole.
    public static final Action TAKE_OUT =
            new Action("take-out", List.of(needed("album", "1"), needed("hole", "1944-D")), AlbumActions::takeOut);

    /// The order in which coins are compared is changed.
    public static final Action POLICY =
            new Action("policy", List.of(needed("policy", "grade, sound")), AlbumActions::policy);

    /// What comparing coins with the albums suggests is accepted: some groups of moves as a page showed them, or all.
    public static final Action ACCEPT = new Action(
            "accept",
            List.of(maybe("do", "all"), maybe("group", "1/1944-D=f12.1"), maybe("shown", "1/1944-D=f12.1")),
            AlbumActions::accept);

    /// Coins that are in an album already come with it: one for each hole named that is empty.
    public static final Action OWNED = new Action(
            "owned",
            List.of(
                    needed("album", "1"),
                    maybe("hole", "1910-P"),
                    maybe("holes", "10, 11s, 1940-1958"),
                    maybe("grade", "f12")),
            AlbumActions::owned);

    static final List<Action> ALL = List.of(ALBUM, ALBUM_OFF, TAKE_OUT, POLICY, ACCEPT, OWNED);

    private AlbumActions() {}

    private static Desk.Step step(AlbumEvent event) {
        return new Desk.Step(0, event);
    }

    private static AlbumId id(Typed typed) {
        return new AlbumId(typed.whole("album", t("typed.album"), 1, MOST_NUMBER, null));
    }

    private static AlbumId known(State known, AlbumId id) {
        if (known.album().album(id).isEmpty()) {
            throw new Declined(t("hunt.album-unknown", id), t("hunt.album-list"));
        }
        return id;
    }

    private static Function<State, Desk.Step> album(Typed typed, Setting setting) {
        @Nullable AlbumId said = typed.has("album") ? id(typed) : null;
        String name = typed.text("name");
        String rule = typed.text("rule");
        if (name.isEmpty()) {
            typed.wrong(t("hunt.album-name-missing"), t("hunt.give-it-one"));
        }
        switch (AlbumRule.parse(rule)) {
            case AlbumRule.Parsed.Bad bad -> typed.wrong(bad.wrong(), bad.right());
            case AlbumRule.Parsed.Good good -> {
                if (good.rule().holes(setting.catalog(), Country.US).isEmpty()) {
                    typed.wrong(t("typed.rule-makes-no-hole"), t("typed.write-another-rule"));
                }
            }
        }
        return known -> step(
                new AlbumEvent.AlbumDefined(said == null ? known.album().nextAlbum() : known(known, said), name, rule));
    }

    private static Function<State, Desk.Step> albumOff(Typed typed, Setting setting) {
        AlbumId id = id(typed);
        return known -> step(new AlbumEvent.AlbumRemoved(id));
    }

    private static Function<State, Desk.Step> takeOut(Typed typed, Setting setting) {
        AlbumId id = id(typed);
        String hole = typed.text("hole");
        return known -> {
            boolean filled = known.album()
                    .album(id)
                    .filter(album -> album.holes().containsKey(hole))
                    .isPresent();
            if (known.album().album(id).isPresent() && !filled) {
                throw new Declined(t("typed.nothing-in-hole", Refusal.quote(hole)), t("typed.name-a-filled-hole"));
            }
            return step(new AlbumEvent.HolesFilled(List.of(new AlbumEvent.HoleChange(id, hole, null))));
        };
    }

    private static Function<State, Desk.Step> owned(Typed typed, Setting setting) {
        AlbumId id = id(typed);
        List<String> ticked = typed.lines("hole");
        String list = typed.text("holes");
        Optional<Grade> grade = Grade.parse(typed.text("grade").toLowerCase(Locale.ROOT));
        if (typed.has("grade") && grade.isEmpty()) {
            typed.wrong(t("typed.grade-unknown", Refusal.quote(typed.text("grade"))), t("typed.write-a-grade"));
        }
        return known -> {
            Album album = known.album()
                    .album(id)
                    .orElseThrow(() -> new Declined(t("hunt.album-unknown", id), t("hunt.album-list")));
            AlbumState state = setting.albums().state(album, known.holdings());
            String all = String.join("\n", ticked) + "\n" + list;
            return switch (HoleList.read(state.places().holes(), all)) {
                case HoleList.Read.Bad bad -> throw new Declined(bad.why());
                case HoleList.Read.Good good -> {
                    List<Hole> empty = good.holes().stream()
                            .filter(hole -> !state.content().containsKey(hole.key()))
                            .toList();
                    if (empty.isEmpty()) {
                        throw new Declined(t("typed.no-empty-hole"), t("typed.name-empty-holes"));
                    }
                    yield new Desk.Step(0, filled(known, id, empty, grade, setting));
                }
            };
        };
    }

    private static Event filled(State known, AlbumId id, List<Hole> holes, Optional<Grade> grade, Setting setting) {
        Acquisition before = new Acquisition("owned", "", setting.today(), null);
        List<Event> events = new ArrayList<>();
        List<AlbumEvent.HoleChange> changes = new ArrayList<>();
        int next = known.cabinet().nextAdded().piece();
        for (Hole hole : holes) {
            CoinRef coin = new CoinRef(0, next++);
            List<String> varieties = hole.variety().isEmpty() ? List.of() : List.of(hole.variety());
            events.add(new CabinetEvent.CoinAcquired(
                    coin,
                    new CoinDescription(
                            HoleList.coin(hole),
                            grade.orElse(null),
                            null,
                            null,
                            Strike.BUSINESS,
                            varieties,
                            List.of(),
                            "",
                            List.of()),
                    before));
            changes.add(new AlbumEvent.HoleChange(id, hole.key(), coin));
        }
        events.add(new AlbumEvent.HolesFilled(changes));
        return new Event.Batch(events);
    }

    private static Function<State, Desk.Step> policy(Typed typed, Setting setting) {
        return switch (Policy.parse(typed.text("policy"))) {
            case Policy.Parsed.Bad bad -> {
                typed.wrong(bad.flaw().wrong(), bad.flaw().right());
                yield known -> step(new AlbumEvent.PolicyChanged(""));
            }
            case Policy.Parsed.Good good ->
                known -> step(new AlbumEvent.PolicyChanged(good.policy().text()));
        };
    }

    private static Function<State, Desk.Step> accept(Typed typed, Setting setting) {
        boolean all = typed.text("do").equals("all");
        List<String> shown = typed.lines("shown");
        List<String> chosen = typed.lines("group");
        return known -> {
            Proposal proposal = Comparison.propose(
                    setting.albums().states(known.album(), known.holdings()),
                    known.comparable(),
                    AlbumShelves.policy(known.album()));
            Set<Integer> wanted = proposal.groups().stream()
                    .filter(group -> {
                        String mark = proposal.mark(group);
                        return all ? shown.isEmpty() || shown.contains(mark) : chosen.contains(mark);
                    })
                    .collect(Collectors.toSet());
            if (wanted.isEmpty()) {
                throw new Declined(t("typed.nothing-to-accept"), t("typed.compare-again"));
            }
            return step(new AlbumEvent.HolesFilled(proposal.accept(wanted)));
        };
    }
}
