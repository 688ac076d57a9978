package org.rollwright.entry.sheet.take;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.DenominationFacts;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Denomination;

/// Whether there is a coin as it was read, and only one. Used by one thread.
final class CoinCheck {
    /// Dates of which so few exist that a slip of the pen is likelier (common practice).
    private static final Set<String> RARE = Set.of(
            "United Kingdom|1 penny|1933",
            "United Kingdom|1 penny|1954",
            "United States|1 dollar|1804",
            "United States|5 cents|1913|Liberty head (V)",
            "United States|1 dollar|1964",
            "Canada|50 cents|1921",
            "Canada|5 cents|1921");

    private final Map<Denomination, Integer> firsts = new HashMap<>();
    private final Catalog catalog;
    private final Rolls rolls;

    CoinCheck(Catalog catalog) {
        this.catalog = catalog;
        this.rolls = new Rolls(catalog);
    }

    /// Whether a metal tells two coins of this date apart.
    boolean tellsApart(Draft draft, String metal) {
        String mint = draft.get("mint");
        List<Issue> issues = issues(draft).stream()
                .filter(issue -> mint.isEmpty()
                        || mint.equals("none")
                        || issue.mint().code().equals(mint))
                .toList();
        boolean some = issues.stream().anyMatch(issue -> issue.identity().kind().contains(metal));
        boolean all = issues.stream().allMatch(issue -> issue.identity().kind().contains(metal));
        boolean silver = metal.equals("silver") && !draft.get("year").equals("1976");
        return (some && !all && !silver)
                || (metal.equals("copper")
                        && draft.get("denomination").equals("1 cent")
                        && draft.get("year").equals("1982"))
                || (metal.equals("steel") && draft.get("year").equals("1943"));
    }

    private List<Issue> issues(Draft draft) {
        String year = draft.get("year");
        return year.isEmpty()
                ? List.of()
                : facts(draft).map(facts -> all(facts, Integer.parseInt(year))).orElse(List.of());
    }

    /// Issues of a year, dollars of both sizes.
    private List<Issue> all(DenominationFacts facts, int year) {
        List<Issue> issues = new ArrayList<>(catalog.ofYear(facts.denomination(), year));
        if (facts.denomination().key().equals("dollar")) {
            issues.addAll(catalog.ofYear(new Denomination(facts.denomination().country(), "large-dollar"), year));
        }
        return issues;
    }

    private Optional<DenominationFacts> facts(Draft draft) {
        String code =
                switch (draft.get("country")) {
                    case "United States" -> "US";
                    case "Canada" -> "CA";
                    default -> "";
                };
        return code.isEmpty() ? Optional.empty() : rolls.facts(code + " " + draft.get("denomination"));
    }

    /// The first year a denomination is listed with.
    private int first(Denomination denomination) {
        return catalog.issues().stream()
                .filter(issue -> issue.identity().denomination().country().equals(denomination.country()))
                .filter(issue -> issue.identity().denomination().equals(denomination)
                        || issue.identity().denomination().key().equals("large-" + denomination.key()))
                .mapToInt(Issue::year)
                .min()
                .orElse(0);
    }

    /// Whether there is such a coin, and only one.
    void check(Draft draft, String name) {
        String year = draft.get("year");
        if (!year.isEmpty() && (Integer.parseInt(year) < 1500 || Integer.parseInt(year) > 2030)) {
            draft.ask("year", t("take.ask-year-word", name, year));
            return;
        }
        String key = draft.get("country") + "|" + draft.get("denomination") + "|" + year;
        if (RARE.contains(key) || RARE.contains(key + "|" + draft.get("kind"))) {
            draft.ask("year", t("take.ask-rare", name, year, draft.get("denomination")));
            return;
        }
        Optional<DenominationFacts> facts = facts(draft);
        if (facts.isEmpty() || !catalog.covers(facts.get().denomination())) {
            if (draft.get("denomination").isEmpty() && draft.has("country")) {
                draft.ask("denomination", t("take.ask-coin-denomination", name));
            }
            return;
        }
        if (year.isEmpty()) {
            return;
        }
        List<Issue> issues = issues(draft);
        String mint = draft.get("mint");
        int first = firsts.computeIfAbsent(facts.get().denomination(), this::first);
        if (draft.get("country").equals("United States")
                && draft.get("denomination").equals("1 cent")
                && year.equals("1857")
                && draft.get("kind").isEmpty()) {
            draft.ask("kind", t("take.ask-large-or-small", name, year));
            return;
        }
        if (issues.isEmpty()) {
            boolean listed = Integer.parseInt(year) >= first;
            boolean american = draft.get("country").equals("United States");
            if (listed && american) {
                draft.ask("year", t("take.ask-no-such-year", name, draft.get("denomination"), year));
            }
            return;
        }
        // struck in two metals for collectors (laws of 1973 and 1974, as in the catalogue's notes)
        boolean twoMetals = year.equals("1976")
                && mint.equals("S")
                && draft.get("country").equals("United States")
                && draft.get("denomination").matches("25 cents|50 cents|1 dollar")
                && !Words.plain(draft.get("variety") + draft.get("kind") + draft.get("note"))
                        .matches(".*(silver|clad|40 ?%).*");
        if (twoMetals) {
            draft.ask("variety", t("take.ask-silver-or-clad", name, draft.get("denomination")));
            return;
        }
        boolean marked = !mint.isEmpty() && !mint.equals("none");
        if (marked
                && draft.get("country").equals("United States")
                && issues.stream().noneMatch(issue -> issue.mint().code().equals(mint))) {
            draft.ask("mint", t("take.ask-no-such-mint", name, draft.get("denomination"), year, mint));
            return;
        }
        if (!draft.get("kind").isEmpty() || !draft.get("country").equals("United States")) {
            return;
        }
        List<String> series = issues.stream()
                .filter(issue -> marked
                        ? issue.mint().code().equals(mint)
                        : issue.mint().code().equals("P") || issue.mint().code().equals("-"))
                .filter(issue -> !draft.get("variety").contains("VDB")
                        || issue.identity().kind().contains("vdb"))
                .filter(issue -> !issue.collectorOnly())
                .map(issue -> issue.series().name())
                .distinct()
                .toList();
        if (series.size() > 1) {
            draft.ask(
                    "kind",
                    t("take.ask-which-series", name, year, draft.get("denomination"), String.join(", ", series)));
        }
    }
}
