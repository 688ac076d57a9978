package org.rollwright.entry.narration;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.rollwright.catalog.Issue;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.entry.Command;
import org.rollwright.entry.EntryContext;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Reading;

/// Finds the sequence of finds that best explains a recording.
///
/// Every mention of a coin is a new find, the last find named again, or an aside; every running count, roll and
/// box number must fit the finds and rolls so far, or be a slip of the tongue at a price. All paths are scored;
/// the best one is proposed, and every find carries the share of all paths that agree with it
/// (docs/narration.md). The same captions give the same answer to the last digit. Thread-safe.
public final class Decoder {
    static final int FRESH = 1;
    static final int SAME = 2;
    static final int ASIDE = 3;
    static final int TOTAL_FITS = 4;
    static final int TOTAL_SLIPS = 5;
    static final int TOTAL_NOISE = 6;
    static final int MOVES = 7;
    static final int PASSES = 8;

    private static final int BEAM = 160;
    private static final int NO_BASE = 1023;
    private static final int BASE_ZERO = 100;
    private static final int NEAR_WORDS = 14;
    private static final int LATER_WORDS = 60;
    private static final int MOST_ROLLS = 511;
    private static final int FEW_WORDS = 25;

    private static final Set<String> ENGLISH = Set.of(
            "the", "a", "an", "and", "it", "it's", "is", "that", "that's", "i", "we", "of", "in", "no", "this", "to",
            "here", "there", "there's", "one", "roll", "mint", "mark", "on", "for", "have", "with", "you", "are", "was",
            "not", "but", "so", "okay", "ok", "nothing", "next", "box", "d", "s", "at", "my", "from", "all", "wheat");

    private final Phrases phrases;
    private final Weights weights;

    public Decoder(Phrases phrases, Weights weights) {
        this.phrases = phrases;
        this.weights = weights;
    }

    /// Decodes captions.
    ///
    /// @param context denomination and watch list of the hunt
    /// @param rollsPerBox rolls in a full box, 1 or more
    public Narration decode(Captions captions, EntryContext context, int rollsPerBox) {
        List<String> remarks = new ArrayList<>(captions.remarks());
        Listening heard = listen(captions.cues(), context);
        if (!soundsEnglish(heard.words())) {
            remarks.add(t("narration.the-captions-do-not-seem"));
            return new Narration(List.of(), List.of(), List.of(), null, 0, List.of(), remarks);
        }
        return new Path(heard, context, rollsPerBox).narration(remarks);
    }

    Listening listen(List<Cue> cues, EntryContext context) {
        List<Word> words = phrases.understood(Word.of(cues));
        return new Listening(cues, words, new Grammar(words, context, phrases).mentions());
    }

    private boolean soundsEnglish(List<Word> words) {
        int letters = 0;
        int known = 0;
        for (Word word : words) {
            if (!word.isNumber()) {
                letters++;
                boolean number = Numbers.count(List.of(word), 0).isPresent();
                known += number || ENGLISH.contains(word.text()) || phrases.knows(word.text()) ? 1 : 0;
            }
        }
        return letters < FEW_WORDS || known * 5 >= letters;
    }

    // a state, packed: counted finds, the last find's mention, the base of the speaker's count, coins announced, roll

    private static long pack(int counted, int last, int base, int announced, int roll) {
        return ((long) Math.min(counted, 4095) << 40)
                | ((long) last << 24)
                | ((long) base << 14)
                | ((long) Math.min(announced, 15) << 10)
                | Math.min(roll, MOST_ROLLS);
    }

    private static int counted(long state) {
        return (int) (state >>> 40);
    }

    private static int last(long state) {
        return (int) (state >>> 24) & 0xFFFF;
    }

    private static int base(long state) {
        return (int) (state >>> 14) & 1023;
    }

    private static int announced(long state) {
        return (int) (state >>> 10) & 15;
    }

    private static int roll(long state) {
        return (int) state & 1023 & MOST_ROLLS;
    }

    /// The features of a mention in relation to the last find, behind its own.
    ///
    /// @param told the mint told since the last find
    static List<Feature> related(
            Mention.Coin coin, Mention.@Nullable Coin last, Mention.@Nullable MintOnly told, boolean rollChanged) {
        if (last == null) {
            return with(coin.features(), Feature.NO_FIND_YET);
        }
        boolean sameYear =
                coin.year() == null ? last.year() == null : coin.year().equals(last.year());
        Mention.Said lastSaid = told == null ? last.said() : told.said();
        String lastCode = told == null ? last.code() : told.code();
        boolean mintFits = coin.said() == Mention.Said.NOTHING
                || lastSaid == Mention.Said.NOTHING
                || (coin.said() == lastSaid && coin.code().equals(lastCode));
        int gap = coin.word() - last.end();
        Feature relation = !sameYear || !coin.denomination().equals(last.denomination())
                ? Feature.OTHER_DATE
                : !mintFits
                        ? Feature.SAME_YEAR_OTHER_MINT
                        : gap <= NEAR_WORDS
                                ? Feature.SAME_DATE_NEAR
                                : gap <= LATER_WORDS ? Feature.SAME_DATE_LATER : Feature.SAME_DATE_FAR;
        List<Feature> all = with(coin.features(), relation);
        if (rollChanged) {
            all = with(all, Feature.ROLL_CHANGED_SINCE);
        }
        boolean adds = sameYear && lastSaid == Mention.Said.NOTHING && coin.said() != Mention.Said.NOTHING;
        return adds ? with(all, Feature.ADDS_MINT) : all;
    }

    /// The mint told between two mentions, the last one.
    static Mention.@Nullable MintOnly told(List<Mention> mentions, int from, int to) {
        for (int m = to - 1; m >= Math.max(from, to - 6); m--) {
            if (mentions.get(m) instanceof Mention.MintOnly mint) {
                return mint;
            }
        }
        return null;
    }

    private static List<Feature> with(List<Feature> features, Feature one) {
        List<Feature> more = new ArrayList<>(features);
        more.add(one);
        return more;
    }

    /// Logarithms of the probabilities of a new find, the same coin, an aside.
    double[] verdict(List<Feature> features, boolean mayBeSame) {
        double fresh = 0;
        double same = 0;
        for (Feature feature : features) {
            fresh += weights.fresh[feature.index()];
            same += weights.same[feature.index()];
        }
        if (!mayBeSame) {
            same = Double.NEGATIVE_INFINITY;
        }
        double high = Math.max(0, Math.max(fresh, same));
        double all = high + Math.log(Math.exp(-high) + Math.exp(fresh - high) + Math.exp(same - high));
        return new double[] {fresh - all, same - all, -all};
    }

    /// One recording being decoded. Used by one thread.
    private final class Path {
        private final Listening heard;
        private final EntryContext context;
        private final int rollsPerBox;
        private final List<Mention> mentions;
        private final Mention.@Nullable Coin[] coins;
        private final int[] lastRollMention;
        private final double bareDate;
        private final boolean abroadMentioned;

        Path(Listening heard, EntryContext context, int rollsPerBox) {
            this.heard = heard;
            this.context = context;
            this.rollsPerBox = rollsPerBox;
            this.mentions =
                    heard.mentions().subList(0, Math.min(heard.mentions().size(), 65_000));
            this.coins = new Mention.Coin[mentions.size()];
            this.lastRollMention = new int[mentions.size()];
            int bare = 0;
            int dated = 0;
            boolean abroad = false;
            int lastRoll = -1;
            for (int m = 0; m < mentions.size(); m++) {
                Mention mention = mentions.get(m);
                coins[m] = mention instanceof Mention.Coin coin
                        ? coin
                        : mention instanceof Mention.Bare number ? number.coin() : null;
                Mention.Coin spoken = coins[m];
                bare += spoken != null && spoken.features().contains(Feature.BARE_HALF) ? 1 : 0;
                boolean plain = spoken != null
                        && spoken.features().contains(Feature.WATCHED)
                        && !spoken.features().contains(Feature.PLURAL_WITHOUT_COUNT)
                        && !spoken.features().contains(Feature.BARE_HALF);
                dated += plain ? 1 : 0;
                abroad |= mention instanceof Mention.Coin coin && coin.abroad();
                lastRoll = mention instanceof Mention.RollTo || mention instanceof Mention.RollNext ? m : lastRoll;
                lastRollMention[m] = lastRoll;
            }
            this.bareDate = weights.of(
                    bare > 2 * dated ? "bare_date_usual" : dated > 0 ? "bare_date_rare" : "bare_date_possible");
            this.abroadMentioned = abroad;
        }

        Narration narration(List<String> remarks) {
            Lattice lattice = new Lattice(mentions.size(), BEAM, pack(0, 0, NO_BASE, 0, 0));
            Map<Integer, double[]> verdicts = new HashMap<>();
            for (int m = 0; m < mentions.size(); m++) {
                lattice.begin();
                verdicts.clear();
                long[] states = lattice.states();
                for (int s = 0; s < states.length; s++) {
                    steps(lattice, m, s, states[s], verdicts);
                }
                lattice.end();
            }
            double[] finals = new double[lattice.finalStates()];
            for (int i = 0; i < finals.length; i++) {
                finals[i] = announced(lattice.finalState(i)) * weights.of("announced_missing");
            }
            if (mentions.isEmpty()) {
                return new Narration(List.of(), List.of(), List.of(), null, 0, List.of(), remarks);
            }
            return assemble(lattice.bestPath(finals), lattice.posterior(FRESH, finals), remarks);
        }

        private void steps(Lattice lattice, int m, int s, long state, Map<Integer, double[]> verdicts) {
            switch (mentions.get(m)) {
                case Mention.Coin coin -> coinSteps(lattice, m, s, state, coin, 0, verdicts);
                case Mention.Bare bare -> bareSteps(lattice, m, s, state, bare, verdicts);
                case Mention.Total total -> totalSteps(lattice, s, state, total.value(), 0, true);
                case Mention.Promise promise -> {
                    long announced = pack(counted(state), last(state), base(state), promise.value(), roll(state));
                    lattice.step(s, announced, PASSES, weights.of("promise_ahead"));
                    lattice.step(s, state, PASSES, weights.of("promise_behind"));
                }
                case Mention.RollTo to -> rollSteps(lattice, s, state, to.value(), 0);
                case Mention.RollNext next -> {
                    double go = weights.of(next.sure() ? "next_roll_moves" : "next_one_moves");
                    double stay = weights.of(next.sure() ? "next_roll_stays" : "next_one_stays");
                    move(lattice, s, state, roll(state) + 1, go);
                    lattice.step(s, state, PASSES, stay);
                }
                case Mention.BoxTo box -> {
                    int first = (box.value() - 1) * rollsPerBox;
                    boolean there = roll(state) > first && roll(state) <= first + rollsPerBox;
                    move(
                            lattice,
                            s,
                            state,
                            there ? roll(state) : first + (rollsPerBox > 1 ? 0 : 1),
                            weights.of("box_moves"));
                    lattice.step(s, state, PASSES, weights.of("box_stays"));
                }
                case Mention.MintOnly mint -> lattice.step(s, state, PASSES, 0);
                case Mention.Weight weight -> lattice.step(s, state, PASSES, 0);
            }
        }

        private void coinSteps(
                Lattice lattice,
                int m,
                int s,
                long state,
                Mention.Coin coin,
                double extra,
                Map<Integer, double[]> verdicts) {
            int lastIndex = last(state);
            double[] verdict = verdicts.computeIfAbsent(lastIndex, key -> {
                Mention.Coin last = lastIndex == 0 ? null : coins[lastIndex - 1];
                boolean changed = lastIndex > 0 && lastRollMention[m] > lastIndex - 1;
                return verdict(related(coin, last, Decoder.told(mentions, lastIndex, m), changed), last != null);
            });
            int announced = announced(state);
            boolean counts = coin.denomination().equals(context.denomination());
            int counted = counted(state) + (counts ? coin.count() : 0);
            long found = pack(counted, m + 1, base(state), Math.max(0, announced - coin.count()), roll(state));
            lattice.step(s, found, FRESH, extra + verdict[0] + (announced > 0 ? weights.of("announced_find") : 0));
            boolean corrects = coin.features().contains(Feature.CORRECTING);
            long again = corrects ? pack(counted(state), m + 1, base(state), announced, roll(state)) : state;
            lattice.step(s, again, SAME, extra + verdict[1]);
            lattice.step(s, state, ASIDE, extra + verdict[2] + (announced > 0 ? weights.of("announced_aside") : 0));
        }

        private void bareSteps(
                Lattice lattice, int m, int s, long state, Mention.Bare bare, Map<Integer, double[]> verdicts) {
            Mention.Coin coin = bare.coin();
            if (coin != null) {
                coinSteps(lattice, m, s, state, coin, bareDate, verdicts);
            }
            lattice.step(s, state, PASSES, weights.of("bare_nothing"));
            if (bare.alone()) {
                totalSteps(lattice, s, state, bare.value(), weights.of("bare_total"), false);
                int here = roll(state);
                int ahead = bare.value() - (here - (here == 0 ? 0 : (here - 1) / rollsPerBox * rollsPerBox));
                if (here > 0 && ahead >= 1 && ahead <= 3) {
                    rollSteps(lattice, s, state, bare.value(), weights.of("bare_roll"));
                }
            }
        }

        /// @param slips whether the number may be a slip: a number by itself must fit to be a count at all
        private void totalSteps(Lattice lattice, int s, long state, int spoken, double extra, boolean slips) {
            int counted = counted(state);
            int base = base(state);
            int announced = announced(state);
            if (base == NO_BASE) {
                if (spoken < counted) {
                    lattice.step(s, state, TOTAL_NOISE, extra + weights.of("total_noise"));
                    return;
                }
                based(lattice, s, state, spoken - counted, announced, extra + weights.of("total_now"));
                if (spoken > counted) {
                    based(
                            lattice,
                            s,
                            state,
                            spoken - counted - 1,
                            Math.max(1, announced),
                            extra + weights.of("total_next"));
                }
                if (announced > 1 && spoken >= counted + announced) {
                    based(
                            lattice,
                            s,
                            state,
                            spoken - counted - announced,
                            announced,
                            extra + weights.of("total_announced"));
                }
                if (slips) {
                    lattice.step(s, state, TOTAL_NOISE, extra + weights.of("total_noise"));
                }
                return;
            }
            int now = counted + base - BASE_ZERO;
            if (spoken == now) {
                lattice.step(s, state, TOTAL_FITS, extra + weights.of("total_now"));
            }
            if (spoken == now + 1) {
                long next = pack(counted, last(state), base, Math.max(1, announced), roll(state));
                lattice.step(s, next, TOTAL_FITS, extra + weights.of("total_next"));
            }
            if (announced > 1 && spoken == now + announced) {
                lattice.step(s, state, TOTAL_FITS, extra + weights.of("total_announced"));
            }
            if (!slips) {
                return;
            }
            if (spoken > now + 1 && spoken <= now + 6) {
                // several announced at once, to be named after
                long ahead = pack(counted, last(state), base, spoken - now, roll(state));
                lattice.step(s, ahead, TOTAL_FITS, extra + weights.of("total_ahead"));
            }
            lattice.step(s, state, TOTAL_NOISE, extra + weights.of("total_noise"));
            int slip = spoken - counted + BASE_ZERO;
            int by = Math.abs(spoken - now);
            if (by > 0 && by <= 12 && slip >= 0 && slip < NO_BASE) {
                double price = weights.of(abroadMentioned && by <= 3 ? "total_slip_abroad" : "total_slip") - 0.4 * by;
                lattice.step(s, pack(counted, last(state), slip, announced, roll(state)), TOTAL_SLIPS, extra + price);
            }
        }

        private void based(Lattice lattice, int s, long state, int base, int announced, double weight) {
            if (base + BASE_ZERO >= NO_BASE) {
                return;
            }
            double price = base == 0 ? weights.of("count_from_zero") : weights.of("count_from_elsewhere");
            long next = pack(counted(state), last(state), base + BASE_ZERO, announced, roll(state));
            lattice.step(s, next, TOTAL_FITS, weight + price);
        }

        private void rollSteps(Lattice lattice, int s, long state, int said, double extra) {
            int here = roll(state);
            int boxStart = here == 0 ? 0 : (here - 1) / rollsPerBox * rollsPerBox;
            int within = boxStart + said;
            int target = said > rollsPerBox ? said : within;
            int ahead = target - here;
            double price = here == 0
                    ? 0
                    : ahead == 1
                            ? weights.of("roll_next")
                            : ahead == 0
                                    ? weights.of("roll_same")
                                    : ahead > 0 && ahead <= 12
                                            ? weights.of("roll_skips") - 0.1 * ahead
                                            : weights.of("roll_jumps");
            move(lattice, s, state, target, extra + price);
            if (said <= rollsPerBox && ahead < -rollsPerBox / 2) {
                move(lattice, s, state, within + rollsPerBox, extra + weights.of("roll_of_next_box"));
            }
            lattice.step(s, state, PASSES, extra + weights.of("roll_misheard"));
        }

        private void move(Lattice lattice, int s, long state, int roll, double price) {
            int left = announced(state);
            long next = pack(counted(state), last(state), base(state), 0, roll);
            lattice.step(s, next, MOVES, price + (roll == roll(state) ? 0 : left * weights.of("announced_missing")));
        }

        // from the best path to proposals

        private static final class Building {
            final double probability;
            final int roll;
            Mention.Coin coin;
            Mention.Said said;
            String code;
            int end;

            Building(Mention.Coin coin, int roll, double probability) {
                this.coin = coin;
                this.roll = roll;
                this.probability = probability;
                this.said = coin.said();
                this.code = coin.code();
                this.end = coin.end();
            }
        }

        private Narration assemble(long[][] path, double[] fresh, List<String> remarks) {
            List<Building> finds = new ArrayList<>();
            List<Narration.Weighing> weighings = new ArrayList<>();
            Set<Narration.Visit> visits = new LinkedHashSet<>();
            List<Narration.Conflict> conflicts = new ArrayList<>();
            Integer spokenTotal = null;
            int decodedTotal = 0;
            boolean open = false;
            int base = 0;
            for (int m = 0; m < path.length; m++) {
                int action = (int) path[m][0];
                long state = path[m][1];
                Mention mention = mentions.get(m);
                Mention.Coin coin = coins[m];
                base = base(state) == NO_BASE ? base : base(state) - BASE_ZERO;
                if (action == MOVES && roll(state) > 0) {
                    visits.add(new Narration.Visit(
                            (roll(state) - 1) / rollsPerBox + 1, (roll(state) - 1) % rollsPerBox + 1));
                }
                if (coin != null && action == FRESH) {
                    finds.add(new Building(coin, roll(state), fresh[m]));
                    open = true;
                } else if (coin != null && action == SAME && !finds.isEmpty()) {
                    again(finds.getLast(), coin);
                    open = true;
                } else if (coin != null && action == ASIDE) {
                    open &= !finds.isEmpty()
                            && coin.year() != null
                            && coin.year().equals(finds.getLast().coin.year());
                } else if (mention instanceof Mention.MintOnly mint && open && !finds.isEmpty()) {
                    told(finds.getLast(), mint);
                } else if (mention instanceof Mention.Weight weight) {
                    weighings.add(new Narration.Weighing(
                            heard.words().get(weight.word()).at(),
                            weight.mass(),
                            heard.said(weight.word(), weight.end())));
                }
                if (action == TOTAL_FITS || action == TOTAL_SLIPS || action == TOTAL_NOISE) {
                    int spoken =
                            mention instanceof Mention.Total total ? total.value() : ((Mention.Bare) mention).value();
                    spokenTotal = spoken;
                    decodedTotal = counted(state) + base;
                    if (action != TOTAL_FITS) {
                        int before =
                                action == TOTAL_SLIPS && m > 0 ? counted(state) + baseBefore(path, m) : decodedTotal;
                        conflicts.add(new Narration.Conflict(
                                heard.words().get(mention.word()).at(),
                                spoken,
                                before,
                                heard.said(mention.word() - 4, mention.end())));
                    }
                }
            }
            List<Narration.Proposed> proposed = new ArrayList<>();
            double plainByHabit = plainByHabit(finds);
            for (Building find : finds) {
                Narration.Proposed one = propose(find, plainByHabit);
                if (one != null) {
                    proposed.add(one);
                }
            }
            return new Narration(
                    proposed, List.copyOf(visits), weighings, spokenTotal, decodedTotal, conflicts, remarks);
        }

        private int baseBefore(long[][] path, int m) {
            int base = base(path[m - 1][1]);
            return base == NO_BASE ? 0 : base - BASE_ZERO;
        }

        private static void again(Building find, Mention.Coin coin) {
            boolean corrects = coin.features().contains(Feature.CORRECTING);
            boolean sameYear = coin.year() != null && coin.year().equals(find.coin.year());
            if (corrects || find.coin.year() == null) {
                find.coin = coin;
                if (coin.said() != Mention.Said.NOTHING || !sameYear) {
                    find.said = coin.said();
                    find.code = coin.code();
                }
            } else if (find.said == Mention.Said.NOTHING && coin.said() != Mention.Said.NOTHING && sameYear) {
                find.said = coin.said();
                find.code = coin.code();
            }
            find.end = coin.end();
        }

        private static void told(Building find, Mention.MintOnly mint) {
            if (mint.word() - find.end > 16) {
                return;
            }
            if (find.said == Mention.Said.NOTHING || mint.correcting()) {
                find.said = mint.said();
                find.code = mint.code();
            }
        }

        /// How likely a coin whose mint is never told has no mint mark, by the habit of this voice. About half
        /// of what is found is Philadelphia's (mintages of 1909 to 1958), so a voice that leaves out much more
        /// than half leaves out other mints as well.
        private double plainByHabit(List<Building> finds) {
            long untold = finds.stream()
                    .filter(find -> find.said == Mention.Said.NOTHING
                            && mints(find.coin).size() > 1)
                    .count();
            long told = finds.stream()
                    .filter(find -> find.said == Mention.Said.MARK)
                    .count();
            if (untold == 0) {
                return 1;
            }
            if (told == 0) {
                return untold <= 2 ? 0.6 : 0.3;
            }
            double share = untold / (double) finds.size();
            return share <= 0.65 ? weightsPlain() : Math.max(0.4, Math.min(weightsPlain(), 0.5 / share + 0.1));
        }

        private double weightsPlain() {
            return Math.exp(weights.of("untold_is_plain"));
        }

        private Set<String> mints(Mention.Coin coin) {
            Set<String> mints = new TreeSet<>();
            Integer year = coin.year();
            if (year != null) {
                for (Issue issue : context.catalog().ofYear(coin.denomination(), year)) {
                    if (!issue.collectorOnly()) {
                        mints.add(issue.mint().code());
                    }
                }
            }
            return mints;
        }

        private Narration.@Nullable Proposed propose(Building find, double plainByHabit) {
            Set<String> mints = mints(find.coin);
            double sure = 1;
            String mint;
            if (mints.isEmpty()) {
                mint = "?";
            } else if (find.said == Mention.Said.MARK) {
                boolean exists = mints.contains(find.code);
                mint = exists ? find.code : "?";
                sure = exists ? 1 : 0.5;
            } else if (find.said == Mention.Said.PLAIN) {
                boolean exists = mints.contains("P") || mints.contains("-");
                mint = exists ? "" : "?";
                sure = exists ? 1 : 0.5;
            } else if (mints.size() == 1) {
                String only = mints.iterator().next();
                mint = only.equals("P") || only.equals("-") ? "" : only;
            } else if (plainByHabit >= 0.5 && (mints.contains("P") || mints.contains("-"))) {
                mint = "";
                sure = plainByHabit;
            } else {
                mint = "?";
                sure = 0.9;
            }
            String line = line(find, mint, find.coin.extras());
            Identity identity = identity(line);
            List<String> extras = find.coin.extras();
            if (identity == null) {
                extras = List.of();
                line = line(find, mint, extras);
                identity = identity(line);
            }
            if (identity == null) {
                return null;
            }
            Word first = heard.words().get(find.coin.word());
            int box = find.roll == 0 ? 1 : (find.roll - 1) / rollsPerBox + 1;
            int roll = find.roll == 0 ? 0 : (find.roll - 1) % rollsPerBox + 1;
            return new Narration.Proposed(
                    first.at(),
                    box,
                    roll,
                    identity,
                    find.coin.count(),
                    extras,
                    line,
                    Math.min(0.999, find.probability * sure),
                    heard.said(
                            Math.max(0, find.coin.word() - 4),
                            Math.min(heard.words().size(), Math.max(find.end, find.coin.end()))),
                    first.cue());
        }

        private String line(Building find, String mint, List<String> extras) {
            List<String> words = new ArrayList<>();
            if (find.coin.count() > 1) {
                words.add("x" + find.coin.count());
            }
            if (find.coin.abroad()) {
                words.add(find.coin.denomination().country().code().toLowerCase(Locale.ROOT));
            }
            Integer year = find.coin.year();
            words.add(year == null ? "nd" : year + mint.toLowerCase(Locale.ROOT));
            words.addAll(extras);
            return String.join(" ", words);
        }

        private @Nullable Identity identity(String line) {
            Reading reading = EntryParser.parse(line, context);
            if (reading instanceof Reading.Clear clear
                    && clear.commands().size() == 1
                    && clear.commands().getFirst() instanceof Command.Found found) {
                return found.draft().facts().identity();
            }
            return null;
        }
    }

    /// The letter a report shows: P where the coin shows none.
    public static @Nullable String letter(Identity identity) {
        Mint mint = identity.mint();
        return mint == null ? null : mint.equals(Mint.NONE) ? Mint.P.code() : mint.code();
    }
}
