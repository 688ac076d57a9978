package org.rollwright.album;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.Selection;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Strike;

/// What an album holds: which coins, and what makes a hole. Clauses are separated by `;` or line ends.
///
/// Besides the clauses of [Selection] there are:
///
/// ```
/// one per date and mint      (the usual); also: date, design, design and mint, series, coin
/// kinds apart                a 1960-D small and large date are two holes; without it one
/// also 1955 ddo, 1972 ddo    a further hole for a variety of a date
/// list 1909-S vdb, 1914-D    exactly these, instead of a selection
/// collector issues too       proofs and set-only dates get holes as well
/// proofs too                 a proof may fill a hole
/// varieties too              a coin of a variety may fill the plain hole of its date; without it only its own
/// least vf20                 lowest grade taken; a coin without a grade is taken
/// sound only                 no details coins
/// ```
public final class AlbumRule {
    /// The outcome of reading a rule.
    public sealed interface Parsed {
        record Good(AlbumRule rule) implements Parsed {}

        /// @param position of the clause in the text, from 0
        record Bad(int position, String wrong, String right) implements Parsed {}
    }

    /// What makes a hole.
    public enum Per {
        DATE_AND_MINT("date and mint"),
        DATE("date"),
        DESIGN_AND_MINT("design and mint"),
        DESIGN("design"),
        SERIES("series"),
        COIN("coin");

        private final String words;

        Per(String words) {
            this.words = words;
        }
    }

    private record Wanted(int year, @Nullable String mint, String rest, String text) {
        static Optional<Wanted> parse(String text) {
            String[] words = text.strip().split(" +", 2);
            String head = words[0];
            int dash = head.indexOf('-');
            String digits = dash < 0 ? head : head.substring(0, dash);
            if (digits.length() != 4 || !digits.chars().allMatch(c -> c >= '0' && c <= '9')) {
                return Optional.empty();
            }
            String mint = dash < 0 ? null : head.substring(dash + 1).toUpperCase(Locale.ROOT);
            return Optional.of(new Wanted(
                    Integer.parseInt(digits),
                    mint,
                    words.length > 1 ? words[1].strip().toLowerCase(Locale.ROOT) : "",
                    text.strip()));
        }

        boolean dates(Issue issue) {
            boolean unmarked = issue.mint().equals(Mint.P) || issue.mint().equals(Mint.NONE);
            return issue.year() == year
                    && (mint == null ? unmarked : issue.mint().code().equals(mint));
        }
    }

    private final String text;
    private final @Nullable Selection selection;
    private final List<Wanted> list;
    private final List<Wanted> also;
    private final Per per;
    private final boolean kindsApart;
    private final boolean collectorIssues;
    private final boolean proofs;
    private final boolean varieties;
    private final boolean soundOnly;
    private final @Nullable Grade least;

    private AlbumRule(Reader reader, String text) {
        this.text = text.strip();
        this.selection = reader.selection;
        this.list = List.copyOf(reader.list);
        this.also = List.copyOf(reader.also);
        this.per = reader.per;
        this.kindsApart = reader.kindsApart || reader.per == Per.COIN;
        this.collectorIssues = reader.collectorIssues;
        this.proofs = reader.proofs;
        this.varieties = reader.varieties;
        this.soundOnly = reader.soundOnly;
        this.least = reader.least;
    }

    /// Reads a rule.
    public static Parsed parse(String text) {
        Reader reader = new Reader();
        int position = 0;
        for (String piece : text.split("[;\n]", -1)) {
            String clause = piece.strip();
            if (!clause.isEmpty()) {
                String advice = reader.clause(clause);
                if (!advice.isEmpty()) {
                    return new Parsed.Bad(position, t("album.rule-unknown", clause), advice);
                }
            }
            position += piece.length() + 1;
        }
        String chosen = String.join("; ", reader.selecting);
        if (!chosen.isEmpty()) {
            switch (Selection.parse(chosen)) {
                case Selection.Parsed.Good good -> reader.selection = good.selection();
                case Selection.Parsed.Bad bad -> {
                    return new Parsed.Bad(0, bad.wrong(), bad.right());
                }
            }
        }
        if (reader.selection == null && reader.list.isEmpty()) {
            return new Parsed.Bad(0, t("album.rule-without-coins"), t("album.rule-example"));
        }
        return new Parsed.Good(new AlbumRule(reader, text));
    }

    /// A rule that selects nothing, for an album whose own rule can no longer be read.
    static AlbumRule nothing() {
        return new AlbumRule(new Reader(), "");
    }

    /// Collects the clauses of one rule.
    private static final class Reader {
        private final List<String> selecting = new ArrayList<>();
        private @Nullable Selection selection;
        private final List<Wanted> list = new ArrayList<>();
        private final List<Wanted> also = new ArrayList<>();
        private Per per = Per.DATE_AND_MINT;
        private boolean kindsApart;
        private boolean collectorIssues;
        private boolean proofs;
        private boolean varieties;
        private boolean soundOnly;
        private @Nullable Grade least;

        /// Takes a clause in; answers advice when it cannot, blank when all is well.
        String clause(String clause) {
            String lower = clause.toLowerCase(Locale.ROOT);
            int space = lower.indexOf(' ');
            String keyword = space < 0 ? lower : lower.substring(0, space);
            String rest = space < 0 ? "" : clause.substring(space + 1).strip();
            switch (lower) {
                case "kinds apart" -> kindsApart = true;
                case "kinds together" -> kindsApart = false;
                case "collector issues too" -> collectorIssues = true;
                case "proofs too" -> proofs = true;
                case "varieties too" -> varieties = true;
                case "sound only" -> soundOnly = true;
                default -> {
                    return switch (keyword) {
                        case "one" -> onePer(lower);
                        case "also" -> dates(rest, also, true);
                        case "list" -> dates(rest, list, false);
                        case "least" -> leastGrade(rest);
                        default -> selecting(keyword, clause);
                    };
                }
            }
            return "";
        }

        private String selecting(String keyword, String clause) {
            if (Selection.isKeyword(keyword)) {
                selecting.add(clause);
                return "";
            }
            return t("album.clauses");
        }

        private String onePer(String lower) {
            for (Per known : Per.values()) {
                if (lower.equals("one per " + known.words)) {
                    per = known;
                    return "";
                }
            }
            return t(
                    "album.write-one-per",
                    String.join(
                            ", ",
                            Arrays.stream(Per.values())
                                    .map(known -> known.words)
                                    .toList()));
        }

        private static String dates(String rest, List<Wanted> into, boolean needsWord) {
            for (String piece : rest.split(",")) {
                Optional<Wanted> wanted = Wanted.parse(piece);
                if (wanted.isEmpty() || (needsWord && wanted.get().rest().isEmpty())) {
                    return needsWord ? t("album.also-form") : t("album.list-form");
                }
                into.add(wanted.get());
            }
            return "";
        }

        private String leastGrade(String rest) {
            Optional<Grade> grade = Grade.parse(rest);
            grade.ifPresent(known -> least = known);
            return grade.isPresent() ? "" : t("album.grade-form");
        }
    }

    /// The rule as it was written.
    public String text() {
        return text;
    }

    /// The album's holes in the order of a page: by series, year, mint.
    ///
    /// @param home the hunter's own country
    public List<Hole> holes(Catalog catalog, Country home) {
        Map<String, List<Issue>> groups = new LinkedHashMap<>();
        List<Issue> chosen = catalog.issues().stream()
                .filter(issue -> collectorIssues || !issue.collectorOnly())
                .filter(issue -> chosen(issue, home))
                .sorted(Comparator.comparing(
                                (Issue issue) -> issue.identity().denomination().toString())
                        .thenComparingInt(Issue::year)
                        .thenComparing(issue -> issue.identity().design())
                        .thenComparingInt(issue -> mintOrder(issue.mint()))
                        .thenComparing(issue -> issue.identity().kind()))
                .toList();
        boolean several = chosen.stream()
                        .map(issue -> issue.identity().denomination())
                        .distinct()
                        .count()
                > 1;
        for (Issue issue : chosen) {
            groups.computeIfAbsent(key(issue, several), key -> new ArrayList<>())
                    .add(issue);
        }
        List<Hole> holes = new ArrayList<>();
        groups.forEach((key, issues) -> holes.add(new Hole(key, "", issues)));
        holes.addAll(varietyHoles(catalog, chosen));
        return holes;
    }

    private boolean chosen(Issue issue, Country home) {
        if (selection != null && !selection.selects(issue, home)) {
            return false;
        }
        return list.isEmpty()
                || list.stream()
                        .anyMatch(wanted -> wanted.dates(issue)
                                && (wanted.rest().isEmpty()
                                        ? issue.identity().kind().isEmpty()
                                        : wanted.rest().equals(issue.identity().kind())
                                                || wanted.rest()
                                                        .equals(issue.identity().design())));
    }

    private static int mintOrder(Mint mint) {
        int at = "PDSOCCW".indexOf(mint.code());
        return at < 0 ? 20 : at;
    }

    private String key(Issue issue, boolean several) {
        Identity identity = issue.identity();
        String front = several ? identity.denomination() + " " : "";
        String kind = kindsApart && !identity.kind().isEmpty() ? " " + identity.kind() : "";
        boolean noMint = issue.mint().equals(Mint.NONE);
        String dateAndMint = issue.year() + (noMint ? "" : "-" + issue.mint());
        return front
                + switch (per) {
                    case DATE_AND_MINT -> dateAndMint + kind;
                    case DATE -> issue.year() + kind;
                    case DESIGN_AND_MINT -> dateAndMint + " " + identity.design() + kind;
                    case DESIGN -> (identity.design().isEmpty() ? issue.series().name() : identity.design()) + kind;
                    case SERIES -> issue.series().name();
                    case COIN -> dateAndMint + (identity.design().isEmpty() ? "" : " " + identity.design()) + kind;
                };
    }

    private List<Hole> varietyHoles(Catalog catalog, List<Issue> chosen) {
        List<Hole> holes = new ArrayList<>();
        Set<String> series = new HashSet<>();
        chosen.forEach(issue -> series.add(issue.series().id()));
        for (Wanted wanted : also) {
            List<Issue> dated = catalog.issues().stream()
                    .filter(issue ->
                            (series.isEmpty() || series.contains(issue.series().id())) && wanted.dates(issue))
                    .toList();
            if (!dated.isEmpty()) {
                holes.add(new Hole(wanted.text(), wanted.rest(), dated));
            }
        }
        return holes;
    }

    /// Whether a coin may lie in the plain hole of its date. A coin of a variety is another thing than the plain coin
    /// wanted there, often worth much more, and would be hidden in it.
    boolean takesPlain(CoinDescription facts) {
        return varieties || facts.varieties().isEmpty();
    }

    /// Whether the album takes a coin in this state at all, whichever hole it belongs to.
    boolean takes(CoinDescription facts) {
        Grade grade = facts.grade();
        Grade lowest = least;
        boolean strikeFits = facts.strike() == Strike.BUSINESS || proofs;
        boolean gradeFits = lowest == null || grade == null || grade.compareTo(lowest) >= 0;
        return strikeFits && gradeFits && !(soundOnly && facts.isDetails());
    }
}
