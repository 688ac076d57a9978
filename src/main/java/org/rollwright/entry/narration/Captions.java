package org.rollwright.entry.narration;

import static org.rollwright.text.Texts.t;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/// The captions of a recording.
///
/// Three forms are read: WebVTT (W3C, "WebVTT: The Web Video Text Tracks Format"), SubRip text (common
/// practice), and plain text with `[m:ss]` or `h:mm:ss` in front of its paragraphs.
///
/// @param cues in order of time
/// @param form `WebVTT`, `SRT` or `text with times`
/// @param encoding by name, and "assumed" where the file does not say
/// @param remarks what was put right on the way in, for a person
public record Captions(List<Cue> cues, String form, String encoding, List<String> remarks) {
    /// The outcome of reading.
    public sealed interface Read {
        record Good(Captions captions) implements Read {}

        /// The file cannot be used; the sentence says why and what would do.
        record Unusable(String sentence) implements Read {}
    }

    /// A day of captions is less; anything longer is no recording of a hunt.
    static final long LONGEST = 24L * 3600 * 1000;

    private static final int MOST_BYTES = 30_000_000;
    private static final int MOST_CUES = 200_000;
    private static final long PARAGRAPH_MILLIS = 6_000;

    public Captions {
        cues = List.copyOf(cues);
        remarks = List.copyOf(remarks);
    }

    /// Reads a caption file.
    public static Read read(byte[] bytes) {
        if (bytes.length > MOST_BYTES) {
            return new Read.Unusable(t("narration.file-too-large"));
        }
        Decoded decoded = decode(bytes);
        if (decoded.text.indexOf('\0') >= 0) {
            return new Read.Unusable(t("narration.file-no-text"));
        }
        List<String> lines = decoded.text.lines().toList();
        List<String> remarks = new ArrayList<>();
        if (decoded.assumed) {
            remarks.add(t("narration.encoding-assumed", decoded.encoding));
        }
        String first =
                lines.stream().filter(line -> !line.isBlank()).findFirst().orElse("");
        List<Cue> cues;
        String form;
        if (lines.stream().anyMatch(line -> line.contains("-->"))) {
            form = first.startsWith("WEBVTT") ? "WebVTT" : "SRT";
            cues = timed(lines, remarks);
        } else {
            form = t("narration.text-with-times");
            cues = stamped(lines);
        }
        if (cues.isEmpty()) {
            return new Read.Unusable(t("narration.no-captions"));
        }
        if (cues.size() > MOST_CUES) {
            return new Read.Unusable(t("narration.too-many-captions", MOST_CUES));
        }
        List<Cue> ordered = new ArrayList<>(cues);
        ordered.sort(Comparator.comparingLong(Cue::start));
        if (!ordered.equals(cues)) {
            remarks.add(t("narration.captions-sorted"));
        }
        String encoding = decoded.assumed ? t("narration.assumed", decoded.encoding) : decoded.encoding;
        return new Read.Good(new Captions(withoutRepeats(ordered), form, encoding, remarks));
    }

    private record Decoded(String text, String encoding, boolean assumed) {}

    private static Decoded decode(byte[] bytes) {
        if (startsWith(bytes, 0xEF, 0xBB, 0xBF)) {
            return new Decoded(new String(bytes, 3, bytes.length - 3, StandardCharsets.UTF_8), "UTF-8", false);
        }
        if (startsWith(bytes, 0xFF, 0xFE)) {
            return new Decoded(new String(bytes, 2, bytes.length - 2, StandardCharsets.UTF_16LE), "UTF-16", false);
        }
        if (startsWith(bytes, 0xFE, 0xFF)) {
            return new Decoded(new String(bytes, 2, bytes.length - 2, StandardCharsets.UTF_16BE), "UTF-16", false);
        }
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            return new Decoded(text, "UTF-8", false);
        } catch (CharacterCodingException e) {
            return new Decoded(new String(bytes, Charset.forName("windows-1252")), "Windows-1252", true);
        }
    }

    private static boolean startsWith(byte[] bytes, int... head) {
        for (int i = 0; i < head.length; i++) {
            if (i >= bytes.length || (bytes[i] & 0xFF) != head[i]) {
                return false;
            }
        }
        return true;
    }

    private static List<Cue> timed(List<String> lines, List<String> remarks) {
        List<Cue> cues = new ArrayList<>();
        int broken = 0;
        int i = 0;
        while (i < lines.size()) {
            String line = lines.get(i++);
            int arrow = line.indexOf("-->");
            if (arrow < 0) {
                continue;
            }
            Optional<Long> start = time(line.substring(0, arrow).strip());
            String behind = line.substring(arrow + 3).strip();
            int space = behind.indexOf(' ');
            Optional<Long> end = time(space < 0 ? behind : behind.substring(0, space));
            StringBuilder text = new StringBuilder();
            while (i < lines.size() && !lines.get(i).isBlank() && !lines.get(i).contains("-->")) {
                text.append(plain(lines.get(i++))).append('\n');
            }
            if (start.isEmpty() || end.isEmpty() || end.get() < start.get() || end.get() > LONGEST) {
                broken++;
            } else if (!text.toString().isBlank()) {
                cues.add(new Cue(start.get(), end.get(), text.toString().strip()));
            }
        }
        if (broken > 0) {
            remarks.add(t("narration.captions-without-time", broken));
        }
        return cues;
    }

    /// Markup and entities out: `<c.yellow>`, `<00:00:01.000>`, `&amp;`.
    private static String plain(String line) {
        StringBuilder text = new StringBuilder();
        boolean inTag = false;
        for (int i = 0; i < line.length(); i++) {
            char c = line.charAt(i);
            if (c == '<' && line.indexOf('>', i) > 0) {
                inTag = true;
            } else if (c == '>' && inTag) {
                inTag = false;
            } else if (!inTag) {
                text.append(c);
            }
        }
        return text.toString()
                .replace("&nbsp;", " ")
                .replace("&lt;", "<")
                .replace("&gt;", ">")
                .replace("&amp;", "&");
    }

    private static List<Cue> stamped(List<String> lines) {
        List<Cue> cues = new ArrayList<>();
        long start = -1;
        StringBuilder text = new StringBuilder();
        for (String raw : lines) {
            String line = raw.strip();
            int end = stampEnd(line);
            Optional<Long> at = end == 0 ? Optional.empty() : time(bare(line.substring(0, end)));
            if (at.isPresent() && at.get() <= LONGEST) {
                add(cues, start, text);
                start = at.get();
                text.setLength(0);
                line = line.substring(end);
            }
            text.append(line).append('\n');
        }
        add(cues, start, text);
        for (int i = 0; i < cues.size(); i++) {
            Cue cue = cues.get(i);
            long next = i + 1 < cues.size()
                    ? Math.max(cue.start(), cues.get(i + 1).start())
                    : cue.start() + PARAGRAPH_MILLIS;
            cues.set(i, new Cue(cue.start(), next, cue.text()));
        }
        return cues;
    }

    private static void add(List<Cue> cues, long start, StringBuilder text) {
        if (start >= 0 && !text.toString().isBlank()) {
            cues.add(new Cue(start, start, text.toString().strip()));
        }
    }

    private static String bare(String stamp) {
        return stamp.replace("[", "")
                .replace("]", "")
                .replace("(", "")
                .replace(")", "")
                .strip();
    }

    /// How many characters at the head of a line are a time in brackets, or a time alone; 0 for none.
    private static int stampEnd(String line) {
        int i = 0;
        boolean bracket = !line.isEmpty() && (line.charAt(0) == '[' || line.charAt(0) == '(');
        if (bracket) {
            i++;
        }
        int colons = 0;
        int from = i;
        while (i < line.length() && (isDigit(line.charAt(i)) || line.charAt(i) == ':' || line.charAt(i) == '.')) {
            colons += line.charAt(i) == ':' ? 1 : 0;
            i++;
        }
        if (colons == 0 || i == from) {
            return 0;
        }
        if (bracket) {
            return i < line.length() && (line.charAt(i) == ']' || line.charAt(i) == ')') ? i + 1 : 0;
        }
        return i == line.length() || line.charAt(i) == ' ' || line.charAt(i) == '\t' ? i : 0;
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }

    /// Reads `1:02:03.456`, `02:03,456` or `2:03`.
    ///
    /// @return milliseconds; empty when it is no time
    public static Optional<Long> time(String text) {
        String[] parts = text.replace(',', '.').split(":", -1);
        if (parts.length < 2 || parts.length > 3) {
            return Optional.empty();
        }
        double seconds = 0;
        for (int i = 0; i < parts.length; i++) {
            String part = parts[i];
            boolean last = i == parts.length - 1;
            if (part.isEmpty()
                    || part.length() > 9
                    || !part.chars().allMatch(c -> isDigit((char) c) || (last && c == '.'))) {
                return Optional.empty();
            }
            try {
                seconds = seconds * 60 + Double.parseDouble(part);
            } catch (NumberFormatException e) {
                return Optional.empty();
            }
        }
        return Optional.of(Math.round(seconds * 1000));
    }

    /// Captions made by a machine roll: each repeats the line above it. A line said again within a few seconds,
    /// word for word and as the head of the next caption, is the same line.
    private static List<Cue> withoutRepeats(List<Cue> cues) {
        List<Cue> once = new ArrayList<>();
        List<String> before = List.of();
        long beforeEnd = Long.MIN_VALUE;
        for (Cue cue : cues) {
            List<String> lines = cue.text()
                    .lines()
                    .map(String::strip)
                    .filter(line -> !line.isEmpty())
                    .toList();
            int repeated = 0;
            if (cue.start() <= beforeEnd + 500) {
                for (int n = Math.min(lines.size(), before.size()); n > 0 && repeated == 0; n--) {
                    boolean same =
                            before.subList(before.size() - n, before.size()).equals(lines.subList(0, n));
                    repeated = same && String.join("", lines.subList(0, n)).length() > 6 ? n : 0;
                }
            }
            if (repeated < lines.size()) {
                once.add(new Cue(cue.start(), cue.end(), String.join("\n", lines.subList(repeated, lines.size()))));
            }
            before = lines;
            beforeEnd = cue.end();
        }
        return once;
    }

    /// Minutes and seconds for a person: `0:03:06`.
    public static String clock(long millis) {
        long seconds = millis / 1000;
        return String.format(Locale.ROOT, "%d:%02d:%02d", seconds / 3600, seconds / 60 % 60, seconds % 60);
    }
}
