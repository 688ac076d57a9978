package org.rollwright.album;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Refusal;

/// Holes of an album in words, as one reads them off it: `10`, `09s vdb`, `1940-1958`, `all of 1940 to 1958`. Inside
/// an album two digits mean the only year of its own that ends so.
public final class HoleList {
    /// What came of it.
    public sealed interface Read {
        /// @param holes in the order named, each once
        record Good(List<Hole> holes) implements Read {}

        record Bad(Refusal why) implements Read {}
    }

    private static final Pattern RANGE =
            Pattern.compile("(?:all(?: of)? )?([0-9]{2}|[0-9]{4}) ?(?:-|–|to|through|till) ?([0-9]{2}|[0-9]{4})");
    private static final Pattern COIN = Pattern.compile("'?([0-9]{4}|[0-9]{2})(?: ?-? ?(cc|[pdsow]))?(?: (.+))?");
    /// Holes named where several are meant.
    private static final int NAMED = 6;

    private final List<Hole> holes;

    private HoleList(List<Hole> holes) {
        this.holes = holes;
    }

    /// Reads a list.
    ///
    /// @param holes of the album
    /// @param text items between commas, semicolons or line ends
    public static Read read(List<Hole> holes, String text) {
        HoleList list = new HoleList(holes);
        Set<Hole> named = new LinkedHashSet<>();
        for (String item : text.split("[,;\\n]", -1)) {
            String word = item.strip().replaceAll("\\s+", " ").toLowerCase(Locale.ROOT);
            if (word.isEmpty()) {
                continue;
            }
            List<Hole> found = list.find(word);
            if (found.isEmpty()) {
                return new Read.Bad(new Refusal(
                        t("album.hole-unknown", Refusal.quote(item.strip())), t("album.hole-form", list.examples())));
            }
            if (found.size() > 1 && !RANGE.matcher(word).matches()) {
                return new Read.Bad(new Refusal(
                        t("album.hole-of-several", Refusal.quote(item.strip())), t("album.hole-one-of", keys(found))));
            }
            named.addAll(found);
        }
        return new Read.Good(List.copyOf(named));
    }

    /// The coin of a hole, as far as the hole tells: what its issues have in common.
    public static Identity coin(Hole hole) {
        Identity first = hole.issues().getFirst().identity();
        Set<Integer> years = hole.issues().stream().map(Issue::year).collect(Collectors.toSet());
        Set<Mint> mints = hole.issues().stream().map(Issue::mint).collect(Collectors.toSet());
        Set<String> kinds =
                hole.issues().stream().map(issue -> issue.identity().kind()).collect(Collectors.toSet());
        Set<String> designs =
                hole.issues().stream().map(issue -> issue.identity().design()).collect(Collectors.toSet());
        @Nullable Integer year = years.size() == 1 ? first.year() : null;
        return new Identity(
                first.denomination(),
                year,
                mints.size() == 1 ? first.mint() : null,
                kinds.size() == 1 && year != null ? first.kind() : "",
                designs.size() == 1 ? first.design() : "");
    }

    private List<Hole> find(String word) {
        List<Hole> exact =
                holes.stream().filter(hole -> hole.key().equalsIgnoreCase(word)).toList();
        if (!exact.isEmpty()) {
            return exact;
        }
        Matcher range = RANGE.matcher(word);
        if (range.matches()) {
            OptionalInt first = year(range.group(1));
            OptionalInt last = year(range.group(2));
            if (first.isEmpty() || last.isEmpty()) {
                return List.of();
            }
            int from = first.getAsInt();
            int to = last.getAsInt();
            return holes.stream()
                    .filter(hole -> hole.variety().isEmpty())
                    .filter(hole ->
                            hole.issues().stream().anyMatch(issue -> issue.year() >= from && issue.year() <= to))
                    .toList();
        }
        Matcher coin = COIN.matcher(word);
        return coin.matches() ? coins(coin.group(1), coin.group(2), coin.group(3)) : List.of();
    }

    /// The year meant inside this album; empty when two digits could be several of its years, or none.
    private OptionalInt year(String digits) {
        int number = Integer.parseInt(digits);
        if (digits.length() == 4) {
            return OptionalInt.of(number);
        }
        List<Integer> years = holes.stream()
                .flatMap(hole -> hole.issues().stream().map(Issue::year))
                .filter(year -> year % 100 == number)
                .distinct()
                .toList();
        return years.size() == 1 ? OptionalInt.of(years.getFirst()) : OptionalInt.empty();
    }

    private List<Hole> coins(String digits, @Nullable String letters, @Nullable String words) {
        int number = Integer.parseInt(digits);
        List<Hole> ofYear = holes.stream()
                .filter(hole -> hole.issues().stream()
                        .anyMatch(
                                issue -> digits.length() == 4 ? issue.year() == number : issue.year() % 100 == number))
                .toList();
        List<Hole> ofMint = new ArrayList<>();
        for (Hole hole : ofYear) {
            boolean bears = hole.issues().stream()
                    .anyMatch(issue -> letters == null
                            ? issue.mint().equals(Mint.P) || issue.mint().equals(Mint.NONE)
                            : issue.mint().code().equalsIgnoreCase(letters));
            if (bears) {
                ofMint.add(hole);
            }
        }
        if (words != null) {
            return ofMint.stream()
                    .filter(hole -> List.of(words.split(" ")).stream()
                            .allMatch(
                                    word -> hole.key().toLowerCase(Locale.ROOT).contains(word)))
                    .toList();
        }
        List<Hole> plain = ofMint.stream()
                .filter(hole -> hole.variety().isEmpty()
                        && hole.issues().stream()
                                .anyMatch(issue -> issue.identity().kind().isEmpty()))
                .toList();
        return plain.isEmpty() ? ofMint : plain;
    }

    private String examples() {
        return keys(holes);
    }

    private static String keys(List<Hole> some) {
        return some.stream().limit(NAMED).map(Hole::key).collect(Collectors.joining(", "));
    }
}
