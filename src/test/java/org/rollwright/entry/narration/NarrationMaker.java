package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/// Composes invented narrations with a known truth: a voice with habits, a box, its finds, and what people say
/// around them. The same seed gives the same narration.
final class NarrationMaker {
    /// How dates are said.
    private enum Dates {
        DIGITS,
        WORDS,
        HALF,
        HALF_WORDS,
        BARE
    }

    private static final String[] UNITS = {
        "",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
        "thirteen",
        "fourteen",
        "fifteen",
        "sixteen",
        "seventeen",
        "eighteen",
        "nineteen"
    };
    private static final String[] TENS = {
        "", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"
    };
    private static final String[] ORDINALS = {
        "",
        "first",
        "second",
        "third",
        "fourth",
        "fifth",
        "sixth",
        "seventh",
        "eighth",
        "ninth",
        "tenth",
        "eleventh",
        "twelfth",
        "thirteenth",
        "fourteenth",
        "fifteenth",
        "sixteenth",
        "seventeenth",
        "eighteenth",
        "nineteenth",
        "twentieth"
    };

    private final SplittableRandom random;
    private final boolean errors;
    private final double share;
    private final Dates dates;
    private final boolean punctuated;
    private final boolean omitsPlain;
    private final boolean cities;
    private final String plainWords;
    private final double counting;
    private final double talking;
    private final int rollHabit;
    private final boolean numbersInWords;
    private final String slip;
    private final StringBuilder text = new StringBuilder();
    private long clock = 1;
    private int count;
    private int shift;

    /// @param share of every list of phrasings that this narration may use: the fit sees the first part only
    private NarrationMaker(long seed, boolean errors, double share) {
        this.random = new SplittableRandom(seed);
        this.errors = errors;
        this.share = share;
        this.dates = Dates.values()[random.nextInt(5)];
        this.punctuated = dates == Dates.BARE || random.nextInt(3) > 0;
        this.omitsPlain = dates == Dates.BARE || random.nextInt(3) == 0;
        this.cities = random.nextInt(4) == 0;
        this.plainWords = pick("no mint mark", "no mint mark", "philadelphia", "no mint", "plain");
        this.counting = random.nextInt(3) * 0.4;
        this.talking = dates == Dates.BARE ? 0.03 : random.nextInt(3) * 0.25;
        this.rollHabit = random.nextInt(3);
        this.numbersInWords = random.nextBoolean();
        this.slip = pick("weed", "scent", "role", "");
    }

    static Annotated make(long seed, boolean errors, double share) {
        return new NarrationMaker(seed, errors, share).narration(seed);
    }

    /// The habits of the voice that a seed gives.
    static List<String> habits(long seed) {
        NarrationMaker maker = new NarrationMaker(seed, true, 1);
        List<String> habits = new ArrayList<>();
        habits.add("dates as "
                + switch (maker.dates) {
                    case DIGITS -> "1936, $19.36, 19 36";
                    case WORDS -> "nineteen thirty-six";
                    case HALF -> "a 36";
                    case HALF_WORDS -> "a thirty-six";
                    case BARE -> "36 alone";
                });
        habits.add(maker.punctuated ? "captions with punctuation" : "captions without punctuation");
        habits.add(maker.omitsPlain ? "mint left out for Philadelphia" : "mint always said");
        habits.add(maker.counting == 0 ? "no running counts" : "running counts, some of them slips");
        habits.add(maker.talking == 0 ? "no asides" : "hopes, denials, coins at home, prices, history");
        habits.add(maker.rollHabit == 2 ? "rolls mostly as next roll" : "rolls mostly by number");
        habits.add(maker.slip.isEmpty() ? "no slip" : "one word misheard throughout (weed, scent, role)");
        return habits;
    }

    private Annotated narration(long seed) {
        int rolls = 8 + random.nextInt(25);
        int first = 1 + random.nextInt(50 - Math.min(49, rolls));
        say(pick(
                "okay let's get going",
                "hello everybody welcome back",
                "all right here we are again with a box of pennies",
                "good evening"));
        for (int roll = first; roll < first + rolls; roll++) {
            roll(roll, roll == first);
            int finds = Math.max(0, (int) (random.nextDouble() * 3.2) - 1) + (random.nextInt(25) == 0 ? 2 : 0);
            if (finds == 0) {
                say(pick(
                        "nothing",
                        "nothing in here",
                        "",
                        "",
                        "nothing at all",
                        "skunk",
                        "that one is empty",
                        "lots of 2016s in here"));
            } else {
                finds(finds);
            }
            if (random.nextDouble() < talking) {
                aside();
            }
        }
        if (random.nextBoolean()) {
            say(pick(
                    "so that makes " + number(count + shift),
                    "that's " + number(count + shift) + " wheats so far",
                    "we're at " + number(count + shift)));
        }
        return Annotated.parse("generated " + seed, text.toString());
    }

    private void roll(int roll, boolean first) {
        String mark = "{roll " + roll + "}";
        if (dates == Dates.BARE) {
            say("roll " + number(roll) + " " + mark);
            return;
        }
        boolean absolute =
                first || rollHabit == 0 || (rollHabit == 1 && random.nextInt(3) > 0) || random.nextInt(6) == 0;
        if (absolute) {
            say(pick(
                            "roll " + number(roll),
                            "on to roll " + number(roll),
                            "roll number " + number(roll),
                            "here comes roll " + number(roll),
                            "next roll that's roll " + number(roll),
                            "opening roll " + number(roll) + " now")
                    + " " + mark);
        } else {
            say(pick("next roll", "okay next roll", "next roll", "on to the next roll", "and the next roll") + " "
                    + mark);
        }
    }

    private void finds(int finds) {
        boolean announced = finds > 1 && random.nextInt(4) == 0;
        if (announced) {
            if (random.nextBoolean() && count > 0) {
                say(number(finds) + " more in this roll taking us to " + number(count + shift + finds));
            } else {
                say(pick(
                        number(finds) + " in this roll",
                        "there's " + number(finds) + " in this one",
                        "wow " + number(finds) + " in one roll"));
            }
        }
        for (int i = 0; i < finds; i++) {
            if (random.nextInt(14) == 0 && dates != Dates.BARE) {
                int year = 1940 + random.nextInt(57);
                say(pick("a canadian ", "there's a canadian cent ", "canadian penny ") + date(year) + " {ca " + year
                        + "}");
            } else {
                find(announced || i > 0);
            }
        }
    }

    private void find(boolean following) {
        int year = year();
        String mint = mint(year);
        count++;
        String coin = date(year) + mark(mint, year);
        String truth = " {" + year + "-" + mint + "}";
        double r = random.nextDouble();
        if (dates == Dates.BARE) {
            say(coin + truth);
            return;
        }
        if (random.nextInt(40) == 0) {
            shift += random.nextBoolean() ? 1 : -1;
        }
        boolean counts = random.nextDouble() < counting;
        if (counts && r < 0.3) {
            say(pick(
                    "there's our " + ordinal(count + shift),
                    "number " + number(count + shift),
                    "our " + ordinal(count + shift) + " wheat"));
        }
        if (random.nextInt(18) == 0) {
            correction(year, mint, truth);
        } else {
            String lead = following
                    ? pick("and a ", "then a ", "another one a ", "and also a ", "followed by a ", "along with a ")
                    : pick(
                            "here's a ",
                            "there's a ",
                            "we have a ",
                            "it's a ",
                            "we've got a ",
                            "that's a ",
                            "got a wheat here it's a ",
                            "look at that a ",
                            "boom a ",
                            "this one is a ",
                            "oh nice a ",
                            "what do we have a ",
                            "and here we go a ",
                            "first one a ",
                            "a ",
                            "i see a ",
                            "hey ",
                            "so ",
                            "uh ",
                            "uh so a ",
                            "oh ",
                            "well ",
                            "ooh that's an older one a ");
            String said = lead.replace(" a ", article());
            if (random.nextInt(8) == 0) {
                say(said + date(year) + truth);
                say(coin + " {=}");
            } else {
                say(said + coin + truth);
            }
        }
        if (random.nextInt(7) == 0) {
            say(pick(
                            "yep " + date(year) + mark(mint, year),
                            "look at that " + date(year),
                            "so a " + date(year) + " there",
                            "love it " + date(year),
                            "that " + date(year) + " is in nice shape",
                            "a " + date(year) + " in very fine i'd say")
                    + " {=}");
        }
        if (counts && r >= 0.3) {
            say(pick(
                    "that makes " + number(count + shift),
                    "that's " + number(count + shift),
                    "so we're at " + number(count + shift),
                    "number " + number(count + shift)));
        }
    }

    private void correction(int year, String mint, String truth) {
        int wrong = Math.min(1958, year + 1 + random.nextInt(3));
        say(pick("it's a ", "that's a ", "here's a ") + date(wrong) + " {" + year + "-" + mint + "}");
        say(pick("no wait that's a ", "sorry i mean a ", "no it's a ", "hang on it's a ", "actually it's a ")
                + date(year) + mark(mint, year) + " {=}");
        if (truth.isEmpty()) {
            throw new IllegalStateException("a correction has a truth");
        }
    }

    private void aside() {
        int year = 1909 + random.nextInt(50);
        String mint = pick("", "", "", " d", " s");
        String coin = date(year) + mint;
        say(pick(
                "i was hoping for a " + coin,
                "last week i found a " + coin,
                "i have a " + coin + " at home in the album",
                "in " + year + " they made over a billion of these",
                "a " + coin + " sells for about ten dollars",
                "could this be a " + coin + " no it isn't",
                "it's not a " + coin + " i checked",
                "i thought that was a " + coin + " for a second",
                "between 1909 and 1958 they all have wheat ears",
                "if it's a " + coin + " i'm going to scream",
                "somebody asked me about the " + coin + " last week",
                "since 1959 it's the memorial on the back",
                "lots of 2017s and 2018s in here",
                "they only made those in 1943 because of the war",
                "i still need a " + coin + " for the album",
                "my grandfather had a " + coin,
                year + " was the year my mother was born",
                "is that a " + coin + "? no such luck",
                "the " + coin + " is the one everybody wants",
                "back in " + year + " you could buy bread for that",
                "i remember a " + coin + " from years ago",
                "i'd love a " + coin + " today",
                "the mintage of the " + coin + " is low"));
    }

    private String article() {
        return dates == Dates.DIGITS && random.nextBoolean() ? " " : " a ";
    }

    private int year() {
        return random.nextInt(5) == 0 ? 1909 + random.nextInt(25) : 1934 + random.nextInt(25);
    }

    private String mint(int year) {
        int r = random.nextInt(10);
        if (year == 1922) {
            return "D";
        }
        if (r < 3 && year >= 1911 && year != 1921 && year != 1923 && year != 1965) {
            return "D";
        }
        if (r < 5 && year != 1932 && year != 1933 && year != 1934 && year <= 1955) {
            return "S";
        }
        return "P";
    }

    private String mark(String mint, int year) {
        if (mint.equals("P")) {
            return omitsPlain ? "" : " " + plainWords;
        }
        if (cities && random.nextBoolean()) {
            return mint.equals("D") ? " from denver" : " from san francisco";
        }
        return year == 1909 && mint.equals("S")
                ? " s"
                : " " + (punctuated ? mint : mint.toLowerCase(java.util.Locale.ROOT));
    }

    private String date(int year) {
        String full = String.valueOf(year);
        String half = full.substring(2);
        if (errors && dates == Dates.DIGITS && random.nextInt(8) == 0) {
            return pick(
                    "$" + full.substring(0, 2) + "." + half,
                    full.substring(0, 2) + " " + half,
                    full.substring(0, 2) + "-" + half);
        }
        return switch (dates) {
            case DIGITS -> full;
            case WORDS ->
                year % 100 == 0
                        ? full
                        : (year < 2000 ? "nineteen " : "twenty ")
                                + (year % 100 < 10 ? "oh " + UNITS[year % 100] : spelled(year % 100));
            case HALF, BARE -> year < 1910 || year > 1999 ? full : half;
            case HALF_WORDS -> year < 1910 || year > 1999 ? full : spelled(year % 100);
        };
    }

    private static String spelled(int n) {
        return n < 20 ? UNITS[n] : (TENS[n / 10] + " " + UNITS[n % 10]).strip();
    }

    private String number(int n) {
        return numbersInWords && n > 0 && n < 100 ? spelled(n) : String.valueOf(n);
    }

    private static String ordinal(int n) {
        return n > 0 && n <= 20 ? ORDINALS[n] : n + "th";
    }

    private String pick(String... from) {
        return from[random.nextInt(Math.max(1, (int) Math.round(from.length * share)))];
    }

    private void say(String words) {
        if (words.isBlank()) {
            return;
        }
        String said = words;
        if (errors && !slip.isEmpty()) {
            String right = slip.equals("weed") ? "wheat" : slip.equals("scent") ? "cent" : "roll";
            StringBuilder slipped = new StringBuilder();
            boolean inside = false;
            for (String word : said.split(" ")) {
                inside |= word.startsWith("{");
                slipped.append(!inside && word.equals(right) ? slip : word).append(' ');
                inside &= !word.endsWith("}");
            }
            said = slipped.toString().strip();
        }
        if (punctuated) {
            int brace = said.indexOf(" {");
            String plain = brace < 0 ? said : said.substring(0, brace);
            String end = plain.endsWith("?") ? "" : ".";
            said = Character.toUpperCase(plain.charAt(0))
                    + plain.substring(1)
                    + end
                    + (brace < 0 ? "" : said.substring(brace));
        }
        text.append('[')
                .append(clock / 60)
                .append(':')
                .append(String.format(java.util.Locale.ROOT, "%02d", clock % 60))
                .append("] ")
                .append(said)
                .append('\n');
        clock += 2 + random.nextInt(6);
    }

    /// Many narrations, one after another.
    static List<Annotated> many(long from, int howMany, boolean errors, double share) {
        List<Annotated> all = new ArrayList<>();
        for (int i = 0; i < howMany; i++) {
            all.add(make(from + i, errors, share));
        }
        return all;
    }
}
