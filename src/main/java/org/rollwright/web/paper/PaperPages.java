package org.rollwright.web.paper;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.labelled;
import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.rollwright.album.AlbumId;
import org.rollwright.cabinet.CabinetIndex;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.CoinSheet;
import org.rollwright.cabinet.LabelSheet;
import org.rollwright.coin.Limits;
import org.rollwright.hunt.BoxId;
import org.rollwright.scope.PhotoNote;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.web.albums.AlbumShelf;
import org.rollwright.web.albums.AlbumViews;
import org.rollwright.web.boxes.BoxView;
import org.rollwright.web.cabinet.CabinetShelf;
import org.rollwright.web.cabinet.CabinetView;
import org.rollwright.web.cabinet.Search;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Manner;

/// Everything for printing and for other programs: labels, lists, reports, tables.
public final class PaperPages {
    private static final int MOST_LABELS = 2_000;
    private static final int MOST_PRINTED = 20_000;

    private final Bench bench;
    private final CabinetShelf shelf;
    private final AlbumShelf albums;

    public PaperPages(Bench bench, CabinetShelf shelf, AlbumShelf albums) {
        this.bench = bench;
        this.shelf = shelf;
        this.albums = albums;
    }

    public void register(RoutesConfig routes) {
        routes.post("/cabinet/labels.pdf", this::labels);
        routes.get("/cabinet/insurance.pdf", this::insurance);
        routes.get("/cabinet/coins.csv", this::csv);
        routes.get("/albums/{id}/wants.pdf", context -> album(context, true));
        routes.get("/albums/{id}/page.pdf", context -> album(context, false));
        routes.get("/boxes/{id}/report.pdf", this::box);
    }

    private static String field(Context context, String name, String otherwise) {
        String text = Optional.ofNullable(context.formParam(name)).orElse("").strip();
        return text.isEmpty() ? otherwise : text;
    }

    private static double number(Context context, String name, double otherwise) {
        String text = Limits.pointed(field(context, name, ""));
        return text.matches("[0-9]{1,4}(\\.[0-9]{1,3})?") ? Double.parseDouble(text) : text.isEmpty() ? otherwise : -1;
    }

    private void sorry(Context context, String sentence) {
        context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        context.html(PAGES.shellSorry(bench.frame(t("paper.not-printed"), "cabinet"), sentence)
                .render());
    }

    private void labels(Context context) {
        LabelSheet usual = LabelSheet.usual();
        LabelSheet sheet = new LabelSheet(
                field(context, "paper", "A4").equals("Letter") ? LabelSheet.Paper.LETTER : LabelSheet.Paper.A4,
                (int) number(context, "columns", usual.columns()),
                (int) number(context, "rows", usual.rows()),
                number(context, "width", usual.width()),
                number(context, "height", usual.height()),
                number(context, "left", usual.left()),
                number(context, "top", usual.top()),
                number(context, "gapx", usual.gapAcross()),
                number(context, "gapy", usual.gapDown()),
                (int) number(context, "first", 1));
        String problem = sheet.problem();
        List<CoinRef> coins = context.formParams("coin").stream()
                .map(CoinRef::parse)
                .flatMap(Optional::stream)
                .distinct()
                .toList();
        if (problem.isEmpty() && coins.isEmpty()) {
            problem = t("paper.no-coin-ticked");
        }
        if (problem.isEmpty() && coins.size() > MOST_LABELS) {
            problem = t("paper.too-many-labels", coins.size(), MOST_LABELS);
        }
        if (!problem.isEmpty()) {
            sorry(context, problem);
            return;
        }
        String address = "http://" + Optional.ofNullable(context.header("Host")).orElse("127.0.0.1:7300");
        List<CabinetIndex.Entry> entries = bench.desk().read(book -> {
            CabinetIndex index = shelf.contents(book).index();
            return coins.stream().map(index::entry).flatMap(Optional::stream).toList();
        });
        List<Paper.LabelPage> pages = new ArrayList<>();
        for (int n = 0; n < entries.size(); n++) {
            while (pages.size() <= sheet.page(n)) {
                pages.add(new Paper.LabelPage(new ArrayList<>()));
            }
            CabinetIndex.Entry entry = entries.get(n);
            List<String> lines = new ArrayList<>();
            lines.add(Paper.plain(entry.from()));
            lines.add(entry.ref().toString());
            pages.get(sheet.page(n))
                    .labels()
                    .add(new Paper.Label(
                            sheet.x(n),
                            sheet.y(n),
                            Paper.plain(entry.name()),
                            Paper.plain(entry.description().state()),
                            lines,
                            Paper.qr(address + "/cabinet/coin/" + entry.ref())));
        }
        Paper.send(context, "labels.pdf", Paper.pdf(PAGES.paperLabels(sheet, pages)));
    }

    private List<CabinetIndex.Entry> asked(Context context) {
        Search search = Search.of(context);
        return bench.desk().read(book -> {
            CabinetShelf.Contents state = shelf.contents(book);
            return search.found(bench, state);
        });
    }

    private void insurance(Context context) {
        List<CabinetIndex.Entry> coins = asked(context);
        if (coins.size() > MOST_PRINTED) {
            sorry(context, t("paper.too-many-coins", coins.size()));
            return;
        }
        List<List<String>> rows = new ArrayList<>();
        List<String> pictures = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        bench.desk().read(book -> {
            CabinetShelf.Contents state = shelf.contents(book);
            for (CabinetIndex.Entry entry : coins) {
                rows.add(List.of(
                        Paper.plain(entry.ref().toString()),
                        Paper.plain(entry.name()),
                        Paper.plain(entry.description().state()),
                        Paper.plain(entry.album().isEmpty() ? entry.place() : entry.album()),
                        Paper.plain(CabinetIndex.value(entry, state.values())
                                .map(CabinetView::value)
                                .orElse(""))));
                pictures.add(entry.ref()
                        .findId()
                        .flatMap(id -> book.scope().photos(PhotoSubject.find(id)).stream()
                                .findFirst())
                        .map(PhotoNote::photo)
                        .flatMap(bench.photos()::thumbnail)
                        .map(bytes -> Paper.data("image/jpeg", bytes))
                        .orElse(""));
            }
            notes.add(t("paper.coins-face-value", coins.size(), CabinetIndex.face(coins, bench.catalog())));
            notes.add(t("paper.owner-value", Paper.plain(CabinetView.sum(CabinetIndex.sum(coins, state.values())))));
            return Boolean.TRUE;
        });
        notes.add(t("paper.printed", Manner.day(bench.clock().instant())));
        Paper.send(
                context,
                "insurance.pdf",
                Paper.pdf(PAGES.paperList(new Paper.Sheet(
                        t("paper.coins-owned"),
                        Paper.paper(context),
                        notes,
                        List.of("no.", "coin", "state", "where", "value"),
                        rows,
                        pictures.stream().allMatch(String::isEmpty) ? List.of() : pictures))));
    }

    private void csv(Context context) {
        List<CabinetIndex.Entry> coins = asked(context);
        String text = bench.desk().read(book -> CoinSheet.csv(CoinSheet.rows(book.holdings(), coins)));
        context.contentType("text/csv; charset=utf-8");
        context.header("Content-Disposition", "attachment; filename=\"coins.csv\"");
        context.result(text);
    }

    private static long id(Context context) {
        String text = context.pathParam("id");
        if (!text.matches("[1-9][0-9]{0,8}")) {
            throw new NotFoundResponse();
        }
        return Long.parseLong(text);
    }

    private void album(Context context, boolean wantsOnly) {
        AlbumId id = new AlbumId(id(context));
        AlbumViews.Page page = bench.desk()
                .read(book -> book.album()
                        .album(id)
                        .map(album -> AlbumViews.page(
                                book,
                                bench.catalog(),
                                albums.shelves().state(album, book.holdings()),
                                album.rule(),
                                "",
                                albums.rates(book),
                                bench.clock().instant(),
                                List.of())))
                .orElseThrow(NotFoundResponse::new);
        List<List<String>> rows = new ArrayList<>();
        if (wantsOnly) {
            page.wants()
                    .forEach(wish -> rows.add(List.of(
                            Paper.plain(wish.hole()),
                            Paper.plain(wish.mark()),
                            Paper.plain(wish.mintage()),
                            Paper.plain(wish.has()))));
        } else {
            page.cells()
                    .forEach(cell -> rows.add(List.of(
                            Paper.plain(cell.key()),
                            cell.filled() ? "x" : "",
                            Paper.plain(cell.state()),
                            Paper.plain(cell.from()),
                            Paper.plain(cell.note()))));
        }
        Paper.Sheet sheet = new Paper.Sheet(
                wantsOnly ? t("paper.wanted", Paper.plain(page.name())) : Paper.plain(page.name()),
                Paper.paper(context),
                List.of(t("paper.of-holes-filled", page.filled(), page.holes())),
                wantsOnly
                        ? List.of(
                                t("paper.column-hole"),
                                t("paper.column-rarity"),
                                t("paper.column-mintage"),
                                t("paper.column-has"))
                        : List.of(
                                t("paper.column-hole"),
                                t("paper.column-filled"),
                                t("paper.column-state"),
                                t("paper.column-from"),
                                t("paper.column-note")),
                rows,
                List.of());
        Paper.send(context, wantsOnly ? "wants.pdf" : "album.pdf", Paper.pdf(PAGES.paperList(sheet)));
    }

    private void box(Context context) {
        BoxId id = new BoxId(id(context));
        BoxView view = bench.desk()
                .read(book -> book.hunt().box(id).map(box -> BoxView.of(book, box, bench.catalog(), List.of())))
                .orElseThrow(NotFoundResponse::new);
        List<String> notes = new ArrayList<>();
        notes.add(f(
                "paper.box-line",
                view.denomination(),
                view.state(),
                view.report().foundCoins(),
                view.report().searchedCoins(),
                view.report().nominalCoins()));
        if (view.report().rank() > 0) {
            notes.add(t("paper.box-rank", view.report().rank(), view.report().ranked()));
        }
        view.report().remarks().forEach(remark -> notes.add(Paper.plain(remark)));
        view.breakdowns()
                .forEach(breakdown -> notes.add(Paper.plain(labelled(
                        breakdown.title(),
                        String.join(
                                ", ",
                                breakdown.lines().stream()
                                        .map(line -> line.label() + " " + line.coins())
                                        .toList())))));
        List<List<String>> rows = view.byRoll().stream()
                .map(roll -> List.of(roll.roll(), Paper.plain(String.join(", ", roll.finds()))))
                .toList();
        Paper.send(
                context,
                "box.pdf",
                Paper.pdf(PAGES.paperList(new Paper.Sheet(
                        Paper.plain(view.label()),
                        Paper.paper(context),
                        notes,
                        List.of(t("paper.column-roll"), t("paper.finds-in-the-order-logged")),
                        rows,
                        List.of()))));
    }
}
