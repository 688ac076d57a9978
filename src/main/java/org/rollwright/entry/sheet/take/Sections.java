package org.rollwright.entry.sheet.take;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/// Titles and lines that head a section: what they say of the rows below. Used by one thread.
final class Sections {
    private static final Pattern YEAR_SECTION =
            Pattern.compile("[^\\p{L}0-9]*(?:year|yr|jahr|jaar|annee|ano|season|saison)?[ :]*((?:19|20)[0-9]{2})\\b.*");
    private static final Pattern YEAR = Pattern.compile("(?<![0-9])((?:19|20)[0-9]{2})(?![0-9])");

    /// What a line with one text in it is.
    enum Line {
        /// it heads the rows below
        HEADING,
        /// it sums up rows above in words
        TOTAL,
        /// it is a remark
        NOTE,
        /// it is a row
        ROW
    }

    private final As as;
    private final Lexicon words;
    private final Context context;

    Sections(As as, Lexicon words, Context context) {
        this.as = as;
        this.words = words;
        this.context = context;
    }

    /// What a title, the name of a sheet or of a file says of all rows.
    ///
    /// @param name whether it is a name, not a line of the sheet
    void title(String text, boolean name) {
        String plain = Words.plain(text);
        for (Lexicon.Hit hit : words.find(text, "country")) {
            if (hit.to() - hit.from() >= 4
                    || text.substring(hit.from(), hit.to()).matches("USA|US|UK|(?i:cdn)")) {
                context.sheetCountry = context.sheetCountry.isEmpty() ? hit.means() : context.sheetCountry;
            }
        }
        if (context.sheetDenomination.isEmpty()) {
            context.sheetDenomination = denomination(text);
        }
        List<String> years = YEAR.matcher(text)
                .results()
                .map(found -> found.group(1))
                .distinct()
                .toList();
        if (years.size() == 1 && context.sheetYear == 0) {
            context.sheetYear = Integer.parseInt(years.getFirst());
        }
        context.boxes |= plain.matches("(?s).*\\b(box(es)?|cajas?|kisten?|boites?|doos|dozen)\\b.*");
        boolean blank = plain.matches("(?s).*\\b(blank|empty|nothing|leer|vide|leeg)\\b.*") && plain.contains("box");
        context.blankRollsAreBoxes |= blank || plain.matches("(?s).*\\ball (are )?(full )?box(es)?\\b.*");
        if (!name && plain.matches("(?s).*\\b(prices?|paid|prijzen|preise|prix|precios)\\b.*")) {
            if (plain.matches(
                    "(?s).*\\b(each|per coin|apiece|per stuk|pro stuck|par piece|unitaires?|por unidad)\\b.*")) {
                context.priceNote = Money.Per.EACH;
            } else if (plain.matches(
                    "(?s).*\\b(for the lot|for all|whole row|total|for the row|alle zusammen|pour le lot|pour tout|samen)\\b.*")) {
                context.priceNote = Money.Per.ALL;
            }
        }
    }

    /// The one denomination a text names, blank when none or several.
    private String denomination(String text) {
        List<String> named = (as == As.BOXES ? words.find(text, "named", "boxed") : words.find(text, "named"))
                .stream()
                        .map(hit -> hit.means().replaceAll("\\|.*", ""))
                        .distinct()
                        .toList();
        return named.size() == 1 ? named.getFirst() : "";
    }

    /// Whether a row heads a section, or is a remark between the rows.
    ///
    /// @param said its cells that say something
    /// @param coin whether what it says is of a coin
    Line line(Grid.Line line, List<Column> said, boolean coin) {
        if (said.size() > 2) {
            return Line.ROW;
        }
        List<Column> texts = said.stream()
                .filter(column -> !SheetReader.numberLike(line.cell(column.index())))
                .toList();
        if (texts.size() != 1 || (said.size() == 2 && as == As.COINS)) {
            return Line.ROW;
        }
        Column only = texts.getFirst();
        String text = line.text(only.index());
        if (text.matches("[?.-]+") || line.cell(only.index()).day() != null) {
            return Line.ROW;
        }
        if (as == As.BOXES
                && said.size() == 2
                && only.is("date")
                && Days.read(line.cell(only.index()), Days.Order.UNKNOWN) instanceof Days.Read.Words) {
            // a word and a figure: a tally
            return Line.TOTAL;
        }
        String plain = Words.plain(text).strip();
        int count = Words.of(text).size();
        Matcher year = YEAR_SECTION.matcher(plain);
        String bare = text.replaceAll("^[-=_*~#:<>. ]+|[-=_*~#:<>. ]+$", " ")
                .replaceAll(":$", "")
                .strip();
        boolean capitals = bare.equals(bare.toUpperCase(Locale.ROOT)) && bare.matches(".*\\p{L}{3,}.*") && count <= 6;
        if (year.matches() && count <= 4 && said.size() == 1) {
            context.year = Integer.parseInt(year.group(1));
            context.month = Days.monthIn(bare).orElse(0);
            return Line.HEADING;
        }
        if (said.size() == 1 && month(bare)) {
            return Line.HEADING;
        }
        if (said.size() == 1 && sumsUp(plain)) {
            return Line.TOTAL;
        }
        List<Lexicon.Hit> known = words.find(bare, "country", "named", "kind", "misc", "sold", "wanted", "metal");
        int covered = known.stream().mapToInt(hit -> hit.behind() - hit.first()).sum();
        boolean brief = count <= 6 && !text.contains("?");
        boolean named = !known.isEmpty() && covered * 2 >= count && brief;
        boolean coinText = as == As.COINS
                && (only.is("coin") || only.is("denomination") || only.is("country"))
                && only.index() > (line.wide() ? 200 : 0);
        boolean decorated = text.matches("^[-=_*~#<>]+ ?.*[-=_*~#<>]+$");
        boolean sentence = count > 6 || text.matches(".*[!?]$|^[*].*") || text.matches("(?s).*[a-z]: .*");
        boolean first = only.index() == 0 || line.wide() || decorated;
        // a few words where the number should be, with a country among them or in capitals: an album, a folder
        boolean album = as == As.COINS
                && only.is("number")
                && brief
                && said.size() == 1
                && (known.stream().anyMatch(hit -> hit.term().role().equals("country") && hit.to() - hit.from() >= 4)
                        || bare.matches("\\p{Lu}{4,}.*"));
        if (!sentence
                && !coinText
                && (album
                        || (named && (first || capitals || (said.size() == 1 && !coin)))
                        || line.wide()
                        || (capitals && first)
                        || (decorated && count <= 3))) {
            open(bare);
            return Line.HEADING;
        }
        boolean remark = (as == As.BOXES && said.size() == 1 && !amount(only, plain))
                || only.is("note")
                || only.is("number")
                || (only.index() == 0 && !SheetReader.isCoin(List.of(only)))
                || (sentence && said.size() == 1);
        return remark ? Line.NOTE : Line.ROW;
    }

    /// Whether a text is a year or a month and nothing else.
    boolean isTime(String text) {
        String plain = Words.plain(text).strip();
        return plain.matches("(19|20)[0-9]{2}:?")
                || Days.MONTH_HEADING.matcher(plain).matches();
    }

    private static boolean amount(Column only, String plain) {
        return (only.is("amount") || only.is("rolls"))
                && plain.matches("[$]?[0-9][0-9.,]*\\s*(box(es)?|bx|rolls?)?\\b.{0,20}");
    }

    /// `JANUARY`, `--- FEB ---`, `Mars 2021`, and nothing beside it.
    private boolean month(String bare) {
        Matcher month = Days.MONTH_HEADING.matcher(Words.plain(bare).strip());
        if (!month.matches()) {
            return false;
        }
        int of = Days.monthIn(bare).orElse(0);
        if (month.group(1) != null) {
            context.year = month.group(1).length() == 4
                    ? Integer.parseInt(month.group(1))
                    : 2000 + Integer.parseInt(month.group(1));
        } else if (context.year > 0 && context.month >= 10 && of <= 3) {
            context.year++;
        } else if (context.year == 0) {
            context.year = context.sheetYear;
        }
        context.month = of;
        return true;
    }

    /// `Jan: 2 boxes, 20 wheats`, `2021: 14 boxes`: what the rows above come to, in words.
    private static boolean sumsUp(String plain) {
        Matcher behind = Pattern.compile(
                        "([\\p{L}.]{3,10}|(?:19|20)[0-9]{2}|[\\p{L}.]{3,10} (?:19|20)[0-9]{2})\\s*[:=]\\s*(.*)")
                .matcher(plain);
        return behind.matches()
                && (behind.group(1).matches(".*[0-9]{4}")
                        || Days.monthIn(behind.group(1)).isPresent())
                && behind.group(2).matches("[$~]?[0-9].*");
    }

    /// Begins a section.
    void open(String text) {
        context.clearSection();
        context.section = text;
        List<String> countries = words.find(text, "country").stream()
                .filter(hit -> hit.to() - hit.from() >= 2)
                .map(Lexicon.Hit::means)
                .distinct()
                .toList();
        if (countries.size() == 1) {
            context.country = countries.getFirst();
        }
        context.denomination = denomination(text);
        List<String> kinds = words.find(text, "kind").stream()
                .filter(hit -> hit.to() - hit.from() >= 4)
                .map(Lexicon.Hit::means)
                .distinct()
                .toList();
        if (kinds.size() == 1 && words.find(text, "named").isEmpty()) {
            context.kind = kinds.getFirst();
        }
        Matcher year = YEAR_SECTION.matcher(Words.plain(text));
        if (year.matches()) {
            context.year = Integer.parseInt(year.group(1));
        } else {
            Optional<String> any =
                    YEAR.matcher(text).results().map(found -> found.group(1)).findFirst();
            any.filter(found -> as == As.BOXES).ifPresent(found -> context.year = Integer.parseInt(found));
        }
        context.sold = words.has(text, "sold") || words.has(text, "wanted");
    }
}
