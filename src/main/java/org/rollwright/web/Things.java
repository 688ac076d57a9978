package org.rollwright.web;

import static org.rollwright.text.Texts.t;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.rollwright.album.AlbumEvent;
import org.rollwright.album.AlbumId;
import org.rollwright.cabinet.CabinetEvent;
import org.rollwright.cabinet.CabinetNote;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.PricePoint;
import org.rollwright.catalog.Catalog;
import org.rollwright.coin.Identity;
import org.rollwright.desk.State;
import org.rollwright.entry.FindText;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.scope.ScopeEvent;
import org.rollwright.scope.VarietyBook;
import org.rollwright.till.Branch;
import org.rollwright.till.TillEvent;
import org.rollwright.web.Shown.Field;
import org.rollwright.web.Shown.Kind;
import org.rollwright.web.Shown.Thing;

/// Everything a form can change, with its fields as the form holds them. See [Shown].
public final class Things {
    private Things() {}

    private static String day(@Nullable LocalDate day) {
        return day == null ? "" : day.toString();
    }

    private static Field tick(String name, String label, boolean yes) {
        return new Field(name, label, yes ? "yes" : "", Kind.TICK);
    }

    /// What is known of a box.
    public static Thing box(BoxId id, BoxDetails details) {
        return new Thing(
                "box " + id.number(),
                details.label(),
                "/boxes/" + id.number(),
                event -> event instanceof HuntEvent.BoxChanged changed
                        && changed.box().equals(id),
                List.of(
                        Field.line("label", t("box.name"), details.label()),
                        Field.line("rolls", t("box.rolls"), details.rolls()),
                        Field.line("bank", t("box.bank"), details.bank()),
                        Field.line("branch", t("box.branch"), details.branch()),
                        Field.line("wrap", t("box.wrapped-by"), details.wrap()),
                        Field.line("stamp", t("box.stamp-or-seal"), details.stamp()),
                        Field.line("sisters", t("box.sister-boxes-share-a-word"), details.sisters()),
                        Field.line("ordered", t("box.ordered"), day(details.ordered())),
                        Field.line("pickedUp", t("box.picked-up"), day(details.pickedUp())),
                        Field.line("returned", t("box.returned"), day(details.returned())),
                        Field.line("returnedTo", t("box.returned-to"), details.returnedTo()),
                        Field.line("note", t("box.note"), details.note())));
    }

    /// A find in its row on the Mat; absent when it was struck out.
    static Thing find(State book, Hunt hunt, int ordinal, Catalog catalog) {
        Optional<Find> known = book.hunt().find(hunt.id(), ordinal);
        @Nullable FindId id = known.map(Find::id).orElse(null);
        List<Field> fields = known.map(find -> row(
                        FindText.print(
                                find,
                                catalog,
                                hunt.box()
                                        .flatMap(book.hunt()::box)
                                        .orElseThrow()
                                        .denomination()),
                        hunt.boxes().indexOf(find.box()) + 1,
                        find.roll()))
                .orElse(List.of());
        return find(hunt.id().number(), ordinal, id, fields);
    }

    private static Thing find(long hunt, int ordinal, @Nullable FindId id, List<Field> fields) {
        return new Thing(
                "find " + hunt + "/" + ordinal,
                "f" + ordinal,
                "/mat/" + hunt + "#f" + ordinal,
                event -> switch (event) {
                    case HuntEvent.FindCorrected one -> one.find().equals(id);
                    case HuntEvent.FindMoved one -> one.find().equals(id);
                    case HuntEvent.FindSplit one -> one.find().equals(id);
                    case HuntEvent.FindDisposed one -> one.find().equals(id);
                    case HuntEvent.FindDeleted one -> id == null;
                    default -> false;
                },
                fields);
    }

    private static List<Field> row(String line, int box, int roll) {
        return List.of(
                Field.line("what", t("board.what-it-is"), line),
                Field.line("box", t("board.box-field"), box),
                Field.line("roll", t("board.roll"), roll));
    }

    /// The row as its form wants it; a field the form does not have stays as it is.
    static Thing find(Thing now, io.javalin.http.Context context) {
        List<Field> fields = now.fields().stream()
                .map(field -> {
                    String typed = context.formParam(field.name());
                    return typed == null ? field : new Field(field.name(), field.label(), typed.strip(), field.kind());
                })
                .toList();
        return new Thing(now.key(), now.title(), now.back(), now.touched(), fields);
    }

    /// A find as the Mat's board prints it.
    public static Thing find(long hunt, MatView.FindRow row) {
        return find(hunt, row.ordinal(), null, row(row.line(), row.box(), row.roll()));
    }

    /// An album's name and rule.
    public static Thing album(long id, String name, String rule) {
        return new Thing(
                "album " + id,
                name,
                "/albums/" + id,
                event -> switch (event) {
                    case AlbumEvent.AlbumDefined one -> one.album().equals(new AlbumId(id));
                    case AlbumEvent.AlbumRemoved one -> one.album().equals(new AlbumId(id));
                    default -> false;
                },
                List.of(
                        Field.line("name", t("album.name"), name),
                        new Field("rule", t("album.rule"), rule, Kind.LONG)));
    }

    /// The order in which coins are compared.
    public static Thing policy(String text) {
        return new Thing(
                "policy",
                t("albums.in-this-order"),
                "/albums",
                event -> event instanceof AlbumEvent.PolicyChanged,
                List.of(Field.line("policy", t("albums.in-this-order"), text)));
    }

    /// What one coin is.
    public static Thing coin(String ref, String line, String upTo) {
        return new Thing(
                "coin " + ref,
                line,
                "/cabinet/coin/" + ref,
                event -> switch (event) {
                    case CabinetEvent.CoinDescribed one -> one.coin().toString().equals(ref);
                    case HuntEvent.FindCorrected fixed ->
                        CoinRef.parse(ref)
                                .flatMap(CoinRef::findId)
                                .filter(fixed.find()::equals)
                                .isPresent();
                    default -> false;
                },
                List.of(
                        Field.line("line", t("coin.as-on-the-entry-line"), line),
                        Field.line("upTo", t("coin.grade-up-to"), upTo)));
    }

    /// The prices of an issue, in the cells of the grid.
    static Thing prices(String ref, Identity issue, List<PricePoint> points) {
        List<Field> fields = points.stream()
                .map(point -> Field.line(
                        "p" + point.grade().points() + (point.colour() == null ? "" : "-" + point.colour()),
                        t("cabinet.price-at", point.grade(), point.colour() == null ? "" : " " + point.colour()),
                        point.amount().toPlainString()))
                .sorted(java.util.Comparator.comparing(Field::name))
                .toList();
        return new Thing(
                "prices " + issue,
                issue.toString(),
                "/cabinet/coin/" + ref + "#prices",
                event -> switch (event) {
                    case CabinetEvent.PriceNoted noted -> noted.price().issue().equals(issue);
                    case CabinetEvent.PriceForgotten gone ->
                        gone.price().issue().equals(issue);
                    default -> false;
                },
                fields);
    }

    /// A coin at grading.
    static Thing submission(CoinRef ref, CabinetNote.@Nullable Submission sent) {
        List<Field> fields = sent == null
                ? List.of()
                : List.of(
                        Field.line("estimate", t("coin.sent-as"), CabinetView.number(sent.estimate())),
                        Field.line(
                                "outcome",
                                t("coin.came-back-as"),
                                sent.outcome() == 0 ? "" : CabinetView.number(sent.outcome())),
                        Field.line("cost", t("coin.cost"), sent.cost().toPlainString()));
        return new Thing(
                "submission " + ref,
                ref.toString(),
                "/cabinet/coin/" + ref + "#grading",
                event -> event instanceof CabinetEvent.CoinSubmitted one
                        && one.coin().equals(ref),
                fields);
    }

    /// A branch, by the name bookings use.
    static Thing branch(String name, Optional<Branch> known) {
        List<Field> fields = known.map(branch -> List.of(
                        Field.line("bank", t("tillbranches.bank"), branch.bank()),
                        Field.line("branch", t("tillbranches.branch"), branch.branch()),
                        tick("gives", t("tillbranches.gives-boxes-or-rolls"), branch.gives()),
                        tick("takes", t("tillbranches.takes-coins-back"), branch.takes()),
                        new Field(
                                "open",
                                t("tillbranches.opens-on"),
                                branch.open().stream().map(DayOfWeek::name).collect(Collectors.joining(",")),
                                Kind.FIXED),
                        Field.line("lead", t("tillbranches.days-to-pick-up"), branch.leadDays()),
                        Field.line(
                                "boxfee",
                                t("tillbranches.fee-for-a-box"),
                                branch.boxFee().toPlainString()),
                        Field.line(
                                "percent",
                                t("tillbranches.percent-kept-for-counting"),
                                branch.countPercent().toPlainString()),
                        Field.line("road", t("tillbranches.road-from-home"), Manner.roadField(branch.kilometres())),
                        Field.line(
                                "bearing",
                                t("tillbranches.which-way"),
                                branch.bearing().word()),
                        Field.line("note", t("tillbranches.note"), branch.note()),
                        tick("closed", t("tillbranches.closed-for-good"), branch.closed())))
                .orElse(List.of());
        return new Thing(
                "branch " + name,
                name,
                "/till/branches",
                event -> switch (event) {
                    case TillEvent.BranchWritten one -> one.branch().name().equals(name);
                    case TillEvent.BranchRemoved gone -> gone.branch().equals(name);
                    default -> false;
                },
                fields);
    }

    /// A variety of the catalogue or of the user's own.
    static Thing variety(String key, Map<String, String> cells) {
        List<String> columns = new ArrayList<>(VarietyBook.COLUMNS);
        columns.add(VarietyBook.CROSS_REFERENCES);
        columns.remove("key");
        List<Field> fields = cells.isEmpty()
                ? List.of()
                : columns.stream()
                        .map(column -> new Field(
                                column,
                                column.replace('_', ' '),
                                cells.getOrDefault(column, ""),
                                column.equals("markers") ? Kind.LONG : Kind.LINE))
                        .toList();
        return new Thing(
                "variety " + key,
                cells.getOrDefault("name", key),
                "/scope/variety/" + key,
                event -> switch (event) {
                    case ScopeEvent.VarietyWritten one -> one.variety().equals(key);
                    case ScopeEvent.VarietyRemoved gone -> gone.variety().equals(key);
                    default -> false;
                },
                fields);
    }

    /// What an attribution came to.
    static Thing attribution(Find find, Optional<org.rollwright.scope.AttributionNote> note) {
        List<Field> fields = note.map(one -> List.of(
                        new Field("verdict", t("attribution.verdict"), one.verdict() + " " + one.variety(), Kind.FIXED),
                        Field.line("note", t("attribution.note"), one.note()),
                        new Field("a", t("attribution.seen-so-far"), one.path().toString(), Kind.FIXED)))
                .orElse(List.of());
        return new Thing(
                "attribution " + find.id(),
                "f" + find.ordinal(),
                "/scope/find/" + find.hunt().number() + "/" + find.ordinal(),
                event ->
                        event instanceof ScopeEvent.Attributed one && one.find().equals(find.id()),
                fields);
    }

    /// How days, money, weights and roads are written.
    static Thing settings(Manner manner) {
        return new Thing(
                "settings",
                t("page.settings"),
                "/settings",
                event -> false,
                List.of(
                        Field.line(
                                Manner.REGION,
                                t("settings.days-and-money-as-in"),
                                manner.region().code()),
                        Field.line(Manner.WEIGHTS, t("settings.weights-in"), manner.weights()),
                        Field.line(Manner.ROADS, t("settings.roads-in"), manner.roads())));
    }
}
