package org.rollwright.scope;

import static org.rollwright.text.Texts.t;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Spot;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;

/// A variety of a date and mint: what sets it apart, where to look, how rare it is.
///
/// @param key our own plain name in lower case with hyphens, unique; never changed once given
/// @param coinKind kind of the issue it is restricted to, blank for any
/// @param side `obverse`, `reverse` or `both`
/// @param type `doubled die`, `repunched mint mark`, … in plain words
/// @param looks where to look, as zones of its design; empty where none was named
/// @param direction how the second image lies against the first, which is the stronger one; blank where not
///     known
/// @param worth rough value of a circulated one in dollars, for the order of prompts and of best finds only
/// @param crossReferences the user's own, free text
/// @param certainty how sure the catalogue is of each of these
public record Variety(
        String key,
        String name,
        Denomination denomination,
        Years years,
        List<Mint> mints,
        String coinKind,
        String side,
        String type,
        String where,
        List<Spot> looks,
        String direction,
        List<Marker> markers,
        RarityClass rarity,
        double worth,
        List<String> lookalikes,
        String note,
        String source,
        String crossReferences,
        Certainty certainty) {

    /// The order of images this catalogue uses throughout, for people.
    public static String orderOfImages() {
        return t("scope.directions");
    }

    /// Years in which a variety is known, first to last.
    public record Years(int first, int last) {
        boolean contains(int year) {
            return first <= year && year <= last;
        }

        @Override
        public String toString() {
            return first == last ? Integer.toString(first) : first + "-" + last;
        }
    }

    /// How many coins of the date and mint are the variety, to the nearest class.
    public enum RarityClass {
        COMMON("common", 20),
        UNCOMMON("uncommon", 300),
        SCARCE("scarce", 3_000),
        RARE("rare", 50_000),
        VERY_RARE("very rare", 1_000_000);

        private final String word;
        private final int oneIn;

        RarityClass(String word, int oneIn) {
            this.word = word;
            this.oneIn = oneIn;
        }

        public String word() {
            return word;
        }

        /// The word a person reads.
        public String said() {
            return switch (this) {
                case COMMON -> t("scope.rarity-common");
                case UNCOMMON -> t("scope.rarity-uncommon");
                case SCARCE -> t("scope.rarity-scarce");
                case RARE -> t("scope.rarity-rare");
                case VERY_RARE -> t("scope.rarity-very-rare");
            };
        }

        /// One coin in about so many of its date and mint; an order of magnitude, from memory.
        public int oneIn() {
            return oneIn;
        }
    }

    public Variety {
        mints = List.copyOf(mints);
        looks = List.copyOf(looks);
        markers = List.copyOf(markers);
        lookalikes = List.copyOf(lookalikes);
    }

    /// Whether a coin read so far may be it. A mint or a kind that was not read excludes nothing.
    public boolean mayBe(Identity coin) {
        Integer year = coin.year();
        return year != null
                && denomination.equals(coin.denomination())
                && years.contains(year)
                && (coin.mint() == null || mints.contains(coin.mint()))
                && (coinKind.isEmpty()
                        || coin.kind().isEmpty()
                        || coin.kind().equals(coinKind)
                        || coin.design().equals(coinKind));
    }

    /// Whether it is told by a mint mark that is not there, so that no drawing of it may show one.
    public boolean lacksMintMark() {
        return type.equals("missing mint mark");
    }

    /// Whether a word of an entry line means this kind of variety: `ddo` a doubled die of the obverse, and so on as
    /// catalog/words.csv has them; otherwise its key, or a part of its name such as `wide am`.
    boolean isMeantBy(String word) {
        String said = word.toLowerCase(Locale.ROOT);
        return switch (said) {
            case "ddo" -> type.equals("doubled die") && !side.equals("reverse");
            case "ddr" -> type.equals("doubled die") && !side.equals("obverse");
            case "rpm" -> type.equals("repunched mint mark");
            case "omm" -> type.equals("over mint mark");
            case "rpd" -> type.equals("repunched date");
            case "overdate" -> type.equals("overdate");
            default -> key.equals(said) || name.toLowerCase(Locale.ROOT).contains(said);
        };
    }

    /// The coins of the catalogue that may be it, year by year.
    public List<Issue> issues(Catalog catalog) {
        return IntStream.rangeClosed(years.first(), years.last())
                .boxed()
                .flatMap(year -> catalog.ofYear(denomination, year).stream())
                .filter(issue -> mints.contains(issue.mint()))
                .filter(issue -> coinKind.isEmpty()
                        || issue.identity().kind().equals(coinKind)
                        || issue.identity().design().equals(coinKind))
                .toList();
    }

    /// Seconds the first look takes; it settles most coins.
    public int firstLookSeconds() {
        return markers.isEmpty() ? 30 : markers.getFirst().seconds();
    }

    /// The cells of its row, by column.
    public Map<String, String> cells() {
        Map<String, String> cells = new LinkedHashMap<>();
        cells.put("key", key);
        cells.put("name", name);
        cells.put("country", denomination.country().code());
        cells.put("denomination", denomination.key());
        cells.put("years", years.toString());
        cells.put("mints", String.join(";", mints.stream().map(Mint::code).toList()));
        cells.put("coin_kind", coinKind);
        cells.put("side", side);
        cells.put("type", type);
        cells.put("where", where);
        cells.put("direction", direction);
        cells.put(
                "markers",
                String.join("; ", markers.stream().map(Marker::written).toList()));
        cells.put("rarity", rarity.word());
        cells.put(
                "worth",
                java.math.BigDecimal.valueOf(worth).stripTrailingZeros().toPlainString());
        cells.put("lookalikes", String.join("; ", lookalikes));
        cells.put("note", note);
        cells.put("source", source);
        cells.put(VarietyBook.CROSS_REFERENCES, crossReferences);
        cells.put(VarietyBook.CERTAINTY, certainty.written());
        cells.put(VarietyBook.ZONES, Spot.written(looks));
        return cells;
    }
}
