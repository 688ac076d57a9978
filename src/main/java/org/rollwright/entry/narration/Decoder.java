package org.rollwright.entry.narration;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.entry.EntryContext;

/// Finds the sequence of finds that best explains a recording.
///
/// Every mention of a coin is a new find, the last find named again, or an aside; every running count, roll and
/// box number must fit the finds and rolls so far, or be a slip of the tongue at a price. All paths are scored;
/// the best one is proposed, and every find carries the share of all paths that agree with it
/// (docs/narration.md). The same captions give the same answer to the last digit. Thread-safe.
public final class Decoder {
    private static final int FEW_WORDS = 25;

    private static final Set<String> ENGLISH = Set.of(
            "the", "a", "an", "and", "it", "it's", "is", "that", "that's", "i", "we", "of", "in", "no", "this", "to",
            "here", "there", "there's", "one", "roll", "mint", "mark", "on", "for", "have", "with", "you", "are", "was",
            "not", "but", "so", "okay", "ok", "nothing", "next", "box", "d", "s", "at", "my", "from", "all", "wheat");

    private final Supplier<Phrases> phrases;
    private final Supplier<Attuned> source;
    private @Nullable Attuned loaded;

    /// What is read when the first recording comes: thousands of rows that a start has no use for.
    ///
    /// @param phrases the same ones whenever it is asked
    public Decoder(Supplier<Phrases> phrases, Supplier<Weights> weights) {
        this(phrases, weights, List.of());
    }

    private Decoder(Supplier<Phrases> phrases, Supplier<Weights> weights, List<Taught> recordings) {
        this.phrases = phrases;
        this.source = () ->
                recordings.isEmpty() ? new Attuned(weights.get(), Habits.NONE) : Attuned.to(weights.get(), recordings);
    }

    private synchronized Attuned own() {
        Attuned known = loaded;
        if (known == null) {
            known = source.get();
            loaded = known;
        }
        return known;
    }

    /// What it knows of the voice it is attuned to; nothing as shipped.
    Habits habits() {
        return own().habits();
    }

    private Weights weights() {
        return own().weights();
    }

    /// A decoder attuned to one voice, which it learns when it is first used.
    ///
    /// @param recordings of the voice; none gives the same decoder
    Decoder taught(List<Taught> recordings) {
        return recordings.isEmpty() ? this : new Decoder(phrases, this::weights, recordings);
    }

    /// Decodes captions.
    ///
    /// @param context denomination and watch list of the hunt
    /// @param rollsPerBox rolls in a full box, 1 or more
    public Narration decode(Captions captions, EntryContext context, int rollsPerBox) {
        return decode(captions, context, List.of(context.denomination()), rollsPerBox);
    }

    /// Decodes captions of boxes of several denominations.
    ///
    /// @param context denomination and watch list that the lines proposed are read against
    /// @param boxes denominations of the boxes in order, at least one; the last one goes on
    /// @param rollsPerBox rolls in a full box, 1 or more
    public Narration decode(Captions captions, EntryContext context, List<Denomination> boxes, int rollsPerBox) {
        List<String> remarks = new ArrayList<>(captions.remarks());
        Listening heard = listen(captions.cues(), context, boxes, rollsPerBox);
        if (!soundsEnglish(heard.words())) {
            remarks.add(t("narration.not-english"));
            return nothing(remarks);
        }
        return new PathSearch(heard, context, weights(), habits()).narration(remarks);
    }

    static Narration nothing(List<String> remarks) {
        return new Narration(List.of(), List.of(), List.of(), List.of(), List.of(), null, 0, List.of(), remarks);
    }

    Listening listen(List<Cue> cues, EntryContext context, List<Denomination> boxes, int rollsPerBox) {
        Phrases phrases = this.phrases.get();
        List<Word> words = Numbers.joined(Numbers.singular(phrases.understood(Word.of(cues))));
        List<Denomination> homes = boxes.stream().map(box -> home(words, box)).toList();
        Rolls rolls = new Rolls(words, cues, rollsPerBox, phrases, weights());
        List<Mention> mentions = new Grammar(words, context, homes, rolls, phrases).mentions();
        Chains chains = Cues.chains(words, mentions);
        Qualities qualities = new Qualities(words, phrases);
        return new Listening(
                cues,
                words,
                homes,
                mentions,
                rolls,
                chains,
                qualities,
                Cues.of(words, mentions, rolls, chains, qualities));
    }

    private static final Set<String> OF_CANADA =
            Set.of("king", "kings", "queen", "queens", "george", "georges", "elizabeth", "maple", "canadian", "canada");
    private static final Set<String> OF_THE_STATES = Set.of(
            "wheat",
            "lincoln",
            "indian",
            "memorial",
            "memorials",
            "buffalo",
            "jefferson",
            "kennedy",
            "denver",
            "philadelphia");

    /// Whose coins the recording is about: a hunter in Canada has a box of cents like everybody, and speaks of
    /// kings and queens all the time: ten such words and twice as many as those of the States.
    private static Denomination home(List<Word> words, Denomination said) {
        long canada =
                words.stream().filter(word -> OF_CANADA.contains(word.text())).count();
        long states = words.stream()
                .filter(word -> OF_THE_STATES.contains(word.text()))
                .count();
        boolean abroad = said.country().equals(Country.US) && canada >= 10 && canada > 2 * states;
        return abroad ? new Denomination(Country.CANADA, said.key()) : said;
    }

    /// For each mention the probability of a find after the first listening; below zero for what is no coin.
    static double[] first(Listening heard, Weights weights) {
        double[] first = new double[heard.mentions().size()];
        for (int m = 0; m < first.length; m++) {
            Mention.Coin coin = Cues.coin(heard.mentions().get(m));
            first[m] = coin == null ? -1 : weights.first(heard.around().get(m), coin.features());
        }
        return first;
    }

    private boolean soundsEnglish(List<Word> words) {
        int letters = 0;
        int known = 0;
        for (Word word : words) {
            if (!word.isNumber()) {
                letters++;
                boolean number = Numbers.count(List.of(word), 0).isPresent();
                known +=
                        number || ENGLISH.contains(word.text()) || phrases.get().knows(word.text()) ? 1 : 0;
            }
        }
        return letters < FEW_WORDS || known * 5 >= letters;
    }

    /// The denomination a report shows: what the coin itself says where the catalogue lists none, `5 centavos`.
    public static String denomination(Identity identity) {
        String key = identity.denomination().key();
        return Strays.isListed(identity.denomination().country()) ? key : key.replace('-', ' ');
    }

    /// The letter a report shows: P where the coin shows none.
    public static @Nullable String letter(Identity identity) {
        Mint mint = identity.mint();
        return mint == null ? null : mint.equals(Mint.NONE) ? Mint.P.code() : mint.code();
    }
}
