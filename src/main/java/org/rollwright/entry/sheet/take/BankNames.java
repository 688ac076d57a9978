package org.rollwright.entry.sheet.take;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/// Banks of a file by their full names, whichever shorter or odder form a row has.
final class BankNames {
    private static final Map<String, String> FULL = Map.ofEntries(
            Map.entry("cu", "credit union"),
            Map.entry("c u", "credit union"),
            Map.entry("fcu", "federal credit union"),
            Map.entry("natl", "national"),
            Map.entry("nat", "national"),
            Map.entry("natl.", "national"),
            Map.entry("bk", "bank"),
            Map.entry("bnk", "bank"),
            Map.entry("svgs", "savings"),
            Map.entry("sav", "savings"),
            Map.entry("fed", "federal"),
            Map.entry("tr", "trust"),
            Map.entry("co", "company"),
            Map.entry("assn", "association"),
            Map.entry("ctr", "center"),
            Map.entry("comm", "community"),
            Map.entry("1st", "first"),
            Map.entry("mt", "mount"));

    /// Words so many banks have in their names that none of them tells which bank it is.
    private static final Set<String> COMMON = Set.of(
            "bank",
            "credit",
            "union",
            "first",
            "national",
            "savings",
            "trust",
            "federal",
            "community",
            "state",
            "company",
            "second",
            "banco",
            "banque",
            "caja",
            "sparkasse",
            "association",
            "county",
            "city");

    private static final Set<String> STREETS = Set.of("st street", "st state", "st saint", "ave avenue", "rd road");

    private static final Set<String> LINKS = Set.of(
            "and", "the", "of", "de", "del", "la", "el", "los", "las", "du", "des", "der", "von", "van", "y", "et",
            "und", "en");

    private static final int MOST = 500;

    private final Map<String, List<String>> names = new LinkedHashMap<>();
    private final List<String> written = new ArrayList<>();

    /// Takes note of a name in the order of the file.
    void add(String name) {
        if (!name.isBlank() && written.size() < MOST && !written.contains(name)) {
            written.add(name);
        }
    }

    /// Banks a name may mean, as first written: one when it is plain, several when it is short for several of them.
    List<String> banks(String name) {
        return names.computeIfAbsent(name, wanted -> {
            List<String> longest = new ArrayList<>();
            for (String other : written) {
                if (!other.equals(wanted)
                        && tokens(other).size() >= tokens(wanted).size()
                        && same(wanted, other)) {
                    longest.removeIf(one -> same(one, other)
                            && tokens(one).size() < tokens(other).size());
                    if (longest.stream().noneMatch(one -> same(one, other))) {
                        longest.add(other);
                    }
                }
            }
            List<String> further = longest.size() == 1
                            && tokens(longest.getFirst()).size()
                                    == tokens(wanted).size()
                    ? written.stream()
                            .filter(other ->
                                    tokens(other).size() > tokens(wanted).size() && same(longest.getFirst(), other))
                            .toList()
                    : List.of();
            if (further.size() == 1) {
                return further;
            }
            boolean equal = longest.stream()
                    .allMatch(one -> tokens(one).size() == tokens(wanted).size());
            if (!equal || initials(wanted)) {
                return List.copyOf(longest.isEmpty() ? List.of(wanted) : longest);
            }
            return List.of(written.stream()
                    .filter(other -> tokens(other).size() == tokens(wanted).size() && same(wanted, other))
                    .findFirst()
                    .orElse(wanted));
        });
    }

    private static boolean initials(String name) {
        List<String> tokens = tokens(name);
        return tokens.size() == 1 && name.replace(".", "").matches("[A-Z&]{2,6}");
    }

    private static List<String> tokens(String name) {
        String key = Words.plain(name)
                .replaceAll("[,(-][^,(]*\\b(drive|thru|branch|lobby|window|teller)\\b.*", " ")
                .replaceAll("\\([^)]*\\)", " ")
                .replace("&", " and ")
                .replaceAll("\\bc\\.?\\s?u\\.?(?![a-z])", "cu")
                .replaceAll("['.]", "")
                .replaceAll("[^a-z0-9]+", " ")
                .strip();
        List<String> tokens = new ArrayList<>();
        for (String word : key.split(" ", -1)) {
            if (!word.isEmpty() && !LINKS.contains(word)) {
                tokens.addAll(Arrays.asList(FULL.getOrDefault(word, word).split(" ", -1)));
            }
        }
        return tokens;
    }

    /// Whether one name may be a shorter form of the other.
    private static boolean same(String a, String b) {
        List<String> first = tokens(a);
        List<String> second = tokens(b);
        List<String> shorter = first.size() <= second.size() ? first : second;
        List<String> longer = first.size() <= second.size() ? second : first;
        if (shorter.isEmpty()) {
            return false;
        }
        for (int from = 0; from + shorter.size() <= longer.size(); from++) {
            boolean telling = from == 0;
            boolean all = true;
            for (int i = 0; i < shorter.size() && all; i++) {
                String word = shorter.get(i);
                String other = longer.get(from + i);
                all = from == 0
                        ? alike(word, other)
                        : word.equals(other) || (word.length() >= 4 && other.startsWith(word));
                telling |= !COMMON.contains(shorter.get(i));
            }
            if (all && telling) {
                return true;
            }
        }
        if (shorter.size() != 1) {
            boolean equal = shorter.size() == longer.size();
            return abbreviated(shorter, longer) || (equal && abbreviated(longer, shorter));
        }
        String brief = first.size() <= second.size() ? a : b;
        String letters = Words.plain(brief).replaceAll("[^a-z0-9]", "");
        return letters.length() >= 2
                && (initials(longer).equals(letters)
                        || initials(unfolded(a, b, longer)).equals(letters));
    }

    private static boolean alike(String s, String l) {
        return s.equals(l)
                || STREETS.contains(s + " " + l)
                || STREETS.contains(l + " " + s)
                || (Math.min(s.length(), l.length()) >= 4 && (l.startsWith(s) || s.startsWith(l)))
                || (s.length() == 3 && l.length() > 5 && l.startsWith(s))
                || (s.length() >= 5 && distance(s, l) == 1);
    }

    /// `B. del Valle` for Banco del Valle: one word in full that tells the bank, the others by letters of theirs.
    private static boolean abbreviated(List<String> shorter, List<String> longer) {
        boolean telling = false;
        for (int i = 0; i < shorter.size(); i++) {
            String s = shorter.get(i);
            String l = longer.get(i);
            boolean same = alike(s, l);
            if (!same && !(s.length() <= 3 && inOrder(s, l))) {
                return false;
            }
            telling |= same && !COMMON.contains(s);
        }
        return telling;
    }

    /// Whether the letters of one word stand in another in the same order, the first at its beginning.
    private static boolean inOrder(String letters, String word) {
        int at = 0;
        for (int i = 0; i < word.length() && at < letters.length(); i++) {
            if (word.charAt(i) == letters.charAt(at)) {
                at++;
            } else if (i == 0) {
                return false;
            }
        }
        return at == letters.length();
    }

    private static String initials(List<String> words) {
        return String.join("", words.stream().map(word -> word.substring(0, 1)).toList());
    }

    /// The words of the longer name as they stand, with `and` and `the`, for initials that count them.
    private static List<String> unfolded(String a, String b, List<String> longer) {
        String name = tokens(a).equals(longer) ? a : b;
        return Arrays.stream(Words.plain(name).replace("&", " ").split("[^a-z0-9]+", -1))
                .filter(word -> !word.isEmpty())
                .toList();
    }

    /// 1 when one letter differs, is missing or too many, or two neighbours changed places.
    static int distance(String a, String b) {
        if (a.equals(b)) {
            return 0;
        }
        int i = 0;
        while (i < Math.min(a.length(), b.length()) && a.charAt(i) == b.charAt(i)) {
            i++;
        }
        String x = a.substring(i);
        String y = b.substring(i);
        boolean one = (x.length() == y.length() && x.substring(1).equals(y.substring(1)))
                || (x.length() == y.length() + 1 && x.substring(1).equals(y))
                || (y.length() == x.length() + 1 && y.substring(1).equals(x))
                || (x.length() == y.length()
                        && x.length() >= 2
                        && x.charAt(0) == y.charAt(1)
                        && x.charAt(1) == y.charAt(0)
                        && x.substring(2).equals(y.substring(2)));
        return one ? 1 : 2;
    }
}
