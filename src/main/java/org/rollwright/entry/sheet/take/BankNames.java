package org.rollwright.entry.sheet.take;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

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
            Map.entry("st", "state"),
            Map.entry("tr", "trust"),
            Map.entry("co", "company"),
            Map.entry("assn", "association"),
            Map.entry("ctr", "center"),
            Map.entry("comm", "community"),
            Map.entry("1st", "first"),
            Map.entry("mt", "mount"));

    private static final int MOST = 500;

    private final Map<String, String> names = new LinkedHashMap<>();
    private final List<String> written = new ArrayList<>();

    /// Takes note of a name in the order of the file.
    void add(String name) {
        if (!name.isBlank() && written.size() < MOST && !written.contains(name)) {
            written.add(name);
        }
    }

    /// The full name as first written.
    String full(String name) {
        return names.computeIfAbsent(name, wanted -> {
            String best = wanted;
            for (String other : written) {
                if (same(wanted, other) && (tokens(other).size() > tokens(best).size())) {
                    best = other;
                }
            }
            String longest = best;
            return written.stream()
                    .filter(other -> tokens(other).size() == tokens(longest).size() && same(longest, other))
                    .findFirst()
                    .orElse(longest);
        });
    }

    private static List<String> tokens(String name) {
        String key = Words.plain(name)
                .replaceAll("\\([^)]*\\)", " ")
                .replace("&", " and ")
                .replaceAll("\\bc\\.?\\s?u\\.?(?![a-z])", "cu")
                .replaceAll("['.]", "")
                .replaceAll("[^a-z0-9]+", " ")
                .strip();
        List<String> tokens = new ArrayList<>();
        for (String word : key.split(" ", -1)) {
            if (!word.isEmpty() && !word.equals("and") && !word.equals("the")) {
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
        boolean prefix = true;
        for (int i = 0; i < shorter.size() && prefix; i++) {
            String s = shorter.get(i);
            String l = longer.get(i);
            prefix = s.equals(l)
                    || (Math.min(s.length(), l.length()) >= 4 && (l.startsWith(s) || s.startsWith(l)))
                    || (s.length() >= 5 && distance(s, l) == 1);
        }
        if (prefix) {
            return true;
        }
        String initials = String.join(
                "", longer.stream().map(word -> word.substring(0, 1)).toList());
        return shorter.size() == 1 && shorter.getFirst().length() >= 3 && initials.equals(shorter.getFirst());
    }

    /// 1 when one letter differs, is missing or too many, or two neighbours changed places.
    private static int distance(String a, String b) {
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
