package org.rollwright.recap;

import static org.rollwright.text.Texts.f;
import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;

/// A recap picture: what stands where, in pixels. No bank, town or value is on it.
///
/// @param texts in reading order
/// @param bars finds of each roll along the lower edge; -1 for a roll not searched
public record Card(int width, int height, List<Text> texts, List<Integer> bars) {
    /// One line of text.
    ///
    /// @param x where it begins, or ends when it is set from the right
    /// @param y its base line
    /// @param size of the letters
    public record Text(int x, int y, int size, boolean bold, String colour, boolean fromRight, String words) {}

    /// Sizes that sites ask for (common practice): wide, square, upright.
    public static final List<String> SIZES = List.of("1280x720", "1080x1080", "1080x1920");

    /// The panel's ground.
    public static final String PAPER = "#fffdf8";

    private static final String INK = "#23211c";
    private static final String SOFT = "#5f5a4e";
    private static final String COPPER = "#96501f";
    private static final int EDGE = 90;
    /// Letters are at most about this wide, as a share of their size, averaged over a line.
    private static final double LETTER = 0.6;
    private static final int STRIP = 150;
    private static final int TALLEST = 46;
    private static final int LINE = 3;

    public Card {
        texts = List.copyOf(texts);
        bars = List.copyOf(bars);
    }

    /// @param size one of [#SIZES]; another one counts as the first
    public static Card of(Story story, Afterwards after, String size) {
        String known = SIZES.contains(size) ? size : SIZES.getFirst();
        int width = Integer.parseInt(known.substring(0, known.indexOf('x')));
        int height = Integer.parseInt(known.substring(known.indexOf('x') + 1));
        Layout layout = new Layout(width, height);
        layout.head(story);
        layout.best(story);
        layout.notes(story, after);
        return new Card(width, height, layout.texts, story.strip());
    }

    private static final class Layout {
        private final int width;
        private final int height;
        private final List<Text> texts = new ArrayList<>();
        private int y;

        Layout(int width, int height) {
            this.width = width;
            this.height = height;
        }

        private int room() {
            return width - 2 * EDGE;
        }

        private void left(int x, int at, int size, boolean bold, String colour, String words, int space) {
            texts.add(new Text(x, at, size, bold, colour, false, fitted(words, size, space)));
        }

        void head(Story story) {
            left(EDGE, 130, 52, true, INK, story.title(), room());
            left(EDGE, 185, 30, false, SOFT, f("recap.d-s-coins-looked-at", story.searched(), story.coins()), room());
            String found = Integer.toString(story.found());
            left(EDGE, 300, 96, true, INK, found, room());
            int after = EDGE + 24 + (int) (96 * 0.66 * found.length());
            left(after, 300, 36, false, SOFT, t("recap.finds-beside", story.found()), room() / 2);
            int half = room() / 2;
            for (int i = 0; i < Math.min(4, story.tallies().size()); i++) {
                Story.Count count = story.tallies().get(i);
                texts.add(new Text(
                        width - EDGE,
                        245 + 44 * i,
                        34,
                        false,
                        INK,
                        true,
                        fitted(count.hunt() + " " + count.name(), 34, half)));
            }
            rank(story).ifPresent(words -> left(EDGE, 350, 30, false, SOFT, words, room() * 3 / 5));
            y = 420;
        }

        private static java.util.Optional<String> rank(Story story) {
            return story.boxes().stream()
                    .filter(box -> box.rank() > 0 && box.of() > 1)
                    .min(java.util.Comparator.comparingInt(Story.BoxLine::rank))
                    .map(box -> story.boxes().size() > 1
                            ? t("recap.box-number", box.name(), box.rank(), box.of())
                            : t("recap.number-of-boxes", box.rank(), box.of()));
        }

        void best(Story story) {
            if (story.best().isEmpty()) {
                left(EDGE, y, 38, false, INK, t("recap.skunked-this-time"), room());
                y += 60;
                return;
            }
            left(EDGE, y, 32, true, COPPER, t("recap.the-best-finds"), room());
            int most = height > 1_500 ? 10 : height > 1_000 ? 5 : 3;
            for (String one :
                    story.best().subList(0, Math.min(most, story.best().size()))) {
                y += 52;
                left(EDGE, y, 36, false, INK, one, room());
            }
            y += 64;
        }

        void notes(Story story, Afterwards after) {
            List<String> notes = new ArrayList<>();
            if (story.boxes().size() > 1) {
                story.boxes().forEach(box -> notes.add(box.words()));
            }
            notes.addAll(after.albums());
            notes.addAll(after.odds());
            notes.addAll(after.weights());
            for (String note : notes) {
                List<String> lines = wrapped(note, (int) (room() / (28 * LETTER)));
                if (y + 40 * (lines.size() - 1) <= height - STRIP) {
                    for (String line : lines) {
                        left(EDGE, y, 28, false, SOFT, line, room());
                        y += 40;
                    }
                    y += 10;
                }
            }
        }
    }

    private static String fitted(String words, int size, int space) {
        int most = Math.max(2, (int) (space / (size * LETTER)));
        return words.codePointCount(0, words.length()) <= most
                ? words
                : words.substring(0, words.offsetByCodePoints(0, most - 1)).strip() + "…";
    }

    private static List<String> wrapped(String words, int letters) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : words.split(" ")) {
            if (!line.isEmpty() && line.length() + 1 + word.length() > letters) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.isEmpty() ? "" : " ").append(word);
        }
        lines.add(line.toString());
        return lines;
    }

    /// Height of a roll's bar: as long as its finds are many, a line for none.
    ///
    /// @param found -1 for a roll not searched
    public int barHeight(int found) {
        int most = Math.max(1, bars.stream().mapToInt(Integer::intValue).max().orElse(1));
        return found <= 0 ? LINE : Math.max(LINE + 1, Math.round((float) TALLEST * found / most));
    }
}
