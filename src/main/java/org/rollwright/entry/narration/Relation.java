package org.rollwright.entry.narration;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/// What a mention is to the find before it: another coin, the same one still in hand, or its twin.
final class Relation {
    private static final int NEAR_WORDS = 14;

    private Relation() {}

    /// The features of a mention in relation to the last find, behind its own.
    ///
    /// @param told the mint told since the last find
    static List<Feature> features(
            Listening heard,
            Mention.Coin coin,
            Mention.@Nullable Coin last,
            Mention.@Nullable MintOnly told,
            boolean rollChanged) {
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
                                : gap <= PathSearch.LATER_WORDS ? Feature.SAME_DATE_LATER : Feature.SAME_DATE_FAR;
        List<Feature> all = with(coin.features(), relation);
        if (rollChanged) {
            all = with(all, Feature.ROLL_CHANGED_SINCE);
        }
        boolean adds = sameYear && lastSaid == Mention.Said.NOTHING && coin.said() != Mention.Said.NOTHING;
        if (adds) {
            all = with(all, Feature.ADDS_MINT);
        }
        if (relation == Feature.SAME_DATE_NEAR
                || relation == Feature.SAME_DATE_LATER
                || relation == Feature.SAME_YEAR_OTHER_MINT) {
            all.addAll(between(heard, last.end(), coin));
        }
        return all;
    }

    private static final Set<String> ANOTHER = Set.of(
            "another",
            "second",
            "also",
            "twin",
            "twins",
            "buddy",
            "brother",
            "sister",
            "other",
            "more",
            "too",
            "third",
            "both",
            "two",
            "pair",
            "matching");

    /// What lies between a date and the same date again: signs of a twin, or of the same coin still in hand.
    private static List<Feature> between(Listening heard, int from, Mention.Coin coin) {
        List<Feature> all = new ArrayList<>();
        List<Word> words = heard.words();
        int to = coin.word();
        if (to - from <= 1) {
            all.add(Feature.SAME_DATE_AT_ONCE);
        }
        boolean another = false;
        boolean stop = from > 0 && words.get(from - 1).stops();
        boolean count = false;
        boolean figure = false;
        for (int i = Math.max(from, to - 9); i < to; i++) {
            another |= ANOTHER.contains(words.get(i).text());
            stop |= words.get(i).stops();
        }
        for (int i = coin.end(); i < Math.min(words.size(), coin.end() + 3); i++) {
            another |=
                    Set.of("too", "also", "both", "again").contains(words.get(i).text());
        }
        for (int i = from; i < to; i++) {
            figure |= heard.chains().end(i) > 0;
            count |= heard.chains().strength(i) > 2;
        }
        boolean and = to > 0
                && (words.get(to - 1).is("and") || (to > 1 && words.get(to - 2).is("and")));
        if (another) {
            all.add(Feature.ANOTHER_SAID);
        }
        if (and && to - 2 >= from - 1) {
            all.add(Feature.AND_BETWEEN);
        }
        if (stop) {
            all.add(Feature.STOP_BETWEEN);
        }
        if (count) {
            all.add(Feature.COUNT_BETWEEN);
        }
        if (figure) {
            all.add(Feature.FIGURE_BETWEEN);
        }
        return all;
    }

    /// What lies between a date and the same date again, as observations with weights of their own: whether it is a
    /// second coin, as `1944. 1944 D`, or one coin named twice.
    static List<String> twin(
            Listening heard, Mention.Coin coin, Mention.@Nullable Coin last, Mention.@Nullable MintOnly told) {
        if (last == null
                || coin.year() == null
                || !coin.year().equals(last.year())
                || !coin.denomination().equals(last.denomination())
                || coin.word() - last.end() > NEAR_WORDS) {
            return List.of();
        }
        List<Word> words = heard.words();
        Mention.Said lastSaid = told == null ? last.said() : told.said();
        String lastCode = told == null ? last.code() : told.code();
        boolean bothMarked = lastSaid == Mention.Said.MARK && coin.said() == Mention.Said.MARK;
        String said = lastSaid + "-" + coin.said() + (bothMarked ? (lastCode.equals(coin.code()) ? "=" : "#") : "");
        int gap = coin.word() - last.end();
        String far = gap <= 1 ? "0" : gap <= 4 ? "1" : gap <= 9 ? "2" : "3";
        String figure = "none";
        boolean stop = words.get(Math.max(0, last.end() - 1)).stops();
        List<String> all = new ArrayList<>();
        for (int i = last.end(); i < coin.word(); i++) {
            stop |= words.get(i).stops();
            if (heard.chains().end(i) > 0) {
                boolean roll = heard.rolls().meant(i) > 0.5;
                figure = roll
                        ? "roll"
                        : heard.chains().strength(i) > 2 ? "count" : figure.equals("none") ? "figure" : figure;
            }
            all.add("twin b " + Cues.shown(words.get(i)));
        }
        all.add("twin " + said);
        all.add("twin " + said + " " + far);
        all.add("twin " + said + " " + figure);
        all.add("twin " + said + " " + far + " " + figure + " " + stop);
        all.add("twin " + figure + " " + far);
        all.add("twin " + stop + " " + said);
        for (int i = coin.end(); i < Math.min(words.size(), coin.end() + 3); i++) {
            all.add("twin > " + Cues.shown(words.get(i)));
        }
        return all;
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
}
