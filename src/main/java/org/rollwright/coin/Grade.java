package org.rollwright.coin;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/// A grade on the trade's scale of 1 to 70.
///
/// The steps are those in use: 1, 2, 3, 4, 6, 8, 10, 12, 15, 20, 25, 30, 35, 40, 45, 50, 53, 55, 58 and every
/// number from 60 to 70 (common practice). A grade outside the steps is refused.
public record Grade(int points) implements Comparable<Grade> {

    private record Band(int from, String letters) {}

    /// The adjectival letters, lowest first; a number belongs to the last band that starts at or below it.
    private static final List<Band> BANDS = List.of(
            new Band(1, "PO"),
            new Band(2, "FR"),
            new Band(3, "AG"),
            new Band(4, "G"),
            new Band(8, "VG"),
            new Band(12, "F"),
            new Band(20, "VF"),
            new Band(40, "XF"),
            new Band(50, "AU"),
            new Band(60, "MS"));

    private static final List<Integer> STEPS = List.of(
            1, 2, 3, 4, 6, 8, 10, 12, 15, 20, 25, 30, 35, 40, 45, 50, 53, 55, 58, 60, 61, 62, 63, 64, 65, 66, 67, 68,
            69, 70);

    public Grade {
        if (!STEPS.contains(points)) {
            throw new IllegalArgumentException("no grade step " + points);
        }
    }

    public static List<Integer> steps() {
        return STEPS;
    }

    /// Reads `vf30`, `VF-30`, `vf` (the band's lowest step), `ef40` or `pf65`.
    ///
    /// @return empty when it is no grade; a number in the wrong band, such as `vf12`, is no grade either
    public static Optional<Grade> parse(String text) {
        String word = text.toUpperCase(Locale.ROOT).replace("-", "");
        int split = 0;
        while (split < word.length() && Character.isLetter(word.charAt(split))) {
            split++;
        }
        String letters = canonicalLetters(word.substring(0, split));
        String digits = word.substring(split);
        int band = -1;
        for (int i = 0; i < BANDS.size(); i++) {
            if (BANDS.get(i).letters.equals(letters)) {
                band = i;
            }
        }
        if (band < 0) {
            return Optional.empty();
        }
        if (digits.isEmpty()) {
            return Optional.of(new Grade(BANDS.get(band).from));
        }
        if (digits.length() > 2 || !digits.chars().allMatch(c -> c >= '0' && c <= '9')) {
            return Optional.empty();
        }
        int points = Integer.parseInt(digits);
        int next = band + 1 < BANDS.size() ? BANDS.get(band + 1).from : 71;
        boolean inBand = points >= BANDS.get(band).from && points < next;
        return inBand && STEPS.contains(points) ? Optional.of(new Grade(points)) : Optional.empty();
    }

    private static String canonicalLetters(String letters) {
        return switch (letters) {
            case "EF" -> "XF";
            case "PF", "PR", "UNC", "BU" -> "MS";
            default -> letters;
        };
    }

    /// `VF30`; a proof's letters are the business of [CoinDescription], which knows the strike.
    @Override
    public String toString() {
        return letters() + points;
    }

    private String letters() {
        String letters = "";
        for (Band band : BANDS) {
            if (band.from <= points) {
                letters = band.letters;
            }
        }
        return letters;
    }

    /// The grades under the same letters, lowest first: VF20, VF25, VF30 and VF35 for each of them.
    public List<Grade> band() {
        return STEPS.stream()
                .map(Grade::new)
                .filter(one -> one.letters().equals(letters()))
                .toList();
    }

    @Override
    public int compareTo(Grade other) {
        return Integer.compare(points, other.points);
    }
}
