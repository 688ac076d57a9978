package org.rollwright.web.scope;

import static org.rollwright.text.Texts.t;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.State;
import org.rollwright.scope.Marker;
import org.rollwright.scope.PhotoNote;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.scope.Variety;
import org.rollwright.scope.VarietyBook;
import org.rollwright.scope.VarietyShelf;
import org.rollwright.text.Figures;
import org.rollwright.web.shell.Choice;
import org.rollwright.web.shell.CoinPictures;

/// What the pages of the variety catalogue show.
public final class VarietyViews {
    private static final int LISTED = 150;

    private VarietyViews() {}

    /// The list.
    ///
    /// @param found how many fit what was asked
    public record Listing(
            String query,
            String denomination,
            List<Choice> denominations,
            int found,
            int all,
            List<Row> rows,
            List<String> problems,
            List<Thumb> photos,
            long undoAsOf) {}

    /// One variety in the list.
    public record Row(
            String key, String name, String coin, String type, String where, String rarity, int checked, boolean own) {}

    /// A photograph in a list.
    ///
    /// @param about what it shows, for a person

    public record Thumb(String id, String caption, String about) {}

    /// One variety.
    ///
    /// @param look where to look, drawn
    /// @param cells its row, for the form
    public record Page(
            String key,
            String name,
            String coin,
            String side,
            String type,
            String where,
            String direction,
            CoinPictures.Look look,
            List<MarkerLine> markers,
            String rarity,
            int oneIn,
            List<String> lookalikes,
            String note,
            String source,
            List<String> certainty,
            String crossReferences,
            int checked,
            boolean ours,
            boolean own,
            Map<String, String> cells,
            String seen,
            List<Thumb> photos,
            List<String> problems) {}

    /// One marker in words.
    public record MarkerLine(int number, String text, String told, List<Thumb> photos) {}

    static Listing listing(
            State book, Catalog catalog, VarietyShelf shelf, String query, String denomination, List<String> problems) {
        VarietyBook varieties = shelf.book(book.scope());
        List<Variety> fits = varieties.varieties().stream()
                .filter(one -> denomination.isEmpty()
                        || (one.denomination().country() + "-"
                                        + one.denomination().key())
                                .equals(denomination))
                .filter(one -> fits(one, query))
                .toList();
        List<Choice> denominations = varieties.varieties().stream()
                .map(Variety::denomination)
                .distinct()
                .map(one -> new Choice(one.country() + "-" + one.key(), name(catalog, one)))
                .toList();
        return new Listing(
                query,
                denomination,
                denominations,
                fits.size(),
                varieties.varieties().size(),
                fits.stream().limit(LISTED).map(one -> row(book, catalog, one)).toList(),
                problems,
                book.scope().photos().stream()
                        .sorted(java.util.Comparator.comparing(PhotoNote::at).reversed())
                        .limit(12)
                        .map(note -> thumb(book, catalog, note))
                        .toList(),
                book.undoAsOf(0));
    }

    /// Every word must occur; a date such as `1972-D` asks for that mint as well.
    private static boolean fits(Variety variety, String query) {
        String all = String.join(
                        " ",
                        variety.name(),
                        variety.key(),
                        variety.type(),
                        variety.where(),
                        variety.note(),
                        variety.crossReferences(),
                        variety.side())
                .toLowerCase(Locale.ROOT);
        for (String word : query.toLowerCase(Locale.ROOT).split("\\s+")) {
            java.util.regex.Matcher date =
                    java.util.regex.Pattern.compile("([0-9]{4})-?([a-z]?)").matcher(word);
            if (date.matches()) {
                int year = Integer.parseInt(date.group(1));
                String mint = date.group(2).toUpperCase(Locale.ROOT);
                boolean inYears = variety.years().first() <= year
                        && year <= variety.years().last();
                boolean ofMint = mint.isEmpty()
                        || variety.mints().stream().anyMatch(one -> one.code().equals(mint));
                if (!inYears || !ofMint) {
                    return false;
                }
            } else if (!all.contains(word)) {
                return false;
            }
        }
        return true;
    }

    private static Row row(State book, Catalog catalog, Variety one) {
        return new Row(
                one.key(),
                one.name(),
                name(catalog, one.denomination()),
                one.type(),
                one.where(),
                one.rarity().said(),
                book.hunt().checks().getOrDefault(one.key(), 0),
                book.scope().varieties().containsKey(one.key()));
    }

    static String name(Catalog catalog, Denomination denomination) {
        return denomination.country() + " "
                + catalog.facts(denomination).map(DenominationFacts::name).orElse(denomination.key());
    }

    static Optional<Page> page(State book, Catalog catalog, VarietyShelf shelf, String key) {
        return shelf.book(book.scope())
                .variety(key)
                .map(one -> page(book, catalog, shelf, one, one.cells(), List.of()));
    }

    static Page page(
            State book,
            Catalog catalog,
            VarietyShelf shelf,
            Variety one,
            Map<String, String> cells,
            List<String> problems) {
        List<MarkerLine> markers = new java.util.ArrayList<>();
        for (int i = 0; i < one.markers().size(); i++) {
            Marker marker = one.markers().get(i);
            String told = t(
                    "variety.marker-shares",
                    percent(marker.onVariety()),
                    percent(marker.onOthers()),
                    marker.seconds(),
                    marker.fine() ? t("variety.fine-goes-with-wear") : "",
                    marker.stage() ? t("variety.stage-marker") : "");
            markers.add(new MarkerLine(
                    i + 1, marker.text(), told, thumbs(book, catalog, PhotoSubject.variety(one.key(), i + 1))));
        }
        return new Page(
                one.key(),
                one.name(),
                name(catalog, one.denomination()) + " " + one.years() + " "
                        + String.join(
                                ", ", one.mints().stream().map(Object::toString).toList())
                        + (one.coinKind().isEmpty() ? "" : ", " + one.coinKind()),
                one.side(),
                one.type(),
                one.where(),
                one.direction(),
                one.issues(catalog).stream()
                        .findFirst()
                        .map(coin -> CoinPictures.look(catalog, coin, one.looks(), !one.lacksMintMark()))
                        .orElse(CoinPictures.Look.NONE),
                markers,
                one.rarity().said(),
                one.rarity().oneIn(),
                one.lookalikes(),
                one.note(),
                one.source(),
                one.certainty().told(),
                one.crossReferences(),
                book.hunt().checks().getOrDefault(one.key(), 0),
                shelf.isOurs(one.key()),
                book.scope().varieties().containsKey(one.key()),
                cells,
                ScopeThing.variety(one.key(), one.cells()).mark(),
                thumbs(book, catalog, PhotoSubject.variety(one.key(), 0)),
                problems);
    }

    private static String percent(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Figures.plain(value);
    }

    public static List<Thumb> thumbs(State book, Catalog catalog, PhotoSubject about) {
        return book.scope().photos(about).stream()
                .map(note -> thumb(book, catalog, note))
                .toList();
    }

    public static Thumb thumb(State book, Catalog catalog, PhotoNote note) {
        return new Thumb(note.photo(), note.caption(), about(book, catalog, note.about()));
    }

    public static String about(State book, Catalog catalog, PhotoSubject about) {
        return switch (about.kind().in(PhotoSubject.Kind.class).orElse(PhotoSubject.Kind.BENCH)) {
            case FIND ->
                about.findId()
                        .flatMap(book.hunt()::find)
                        .map(find -> t(
                                "variety.f-of-hunt",
                                find.ordinal(),
                                find.hunt().number(),
                                catalog.name(
                                        find.facts().identity(),
                                        find.facts().identity().denomination())))
                        .orElse(t("variety.a-find-struck-out"));
            case VARIETY -> about.key().replace('-', ' ');
            case BENCH -> "";
        };
    }
}
