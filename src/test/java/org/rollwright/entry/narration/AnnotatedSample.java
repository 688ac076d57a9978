package org.rollwright.entry.narration;

import java.util.List;

/// Examples of what mentions of coins are, from narrations whose truth is written into them.
final class AnnotatedSample {
    private AnnotatedSample() {}

    /// What the mentions of a narration are, whose truth is written into it.
    static Taught of(Annotated narration, double weight) {
        Listening heard = Decoding.DECODER.listen(
                Captions.read(narration.vtt().getBytes(java.nio.charset.StandardCharsets.UTF_8))
                                instanceof Captions.Read.Good good
                        ? good.captions().cues()
                        : List.of(),
                narration.context(),
                List.of(narration.context().denomination()),
                50);
        List<Mention> mentions = heard.mentions();
        int[] labels = new int[mentions.size()];
        for (int m = 0; m < labels.length; m++) {
            Mention.Coin coin = Cues.coin(mentions.get(m));
            labels[m] = coin == null ? -1 : label(narration, heard, coin, next(mentions, m, heard));
        }
        return Taught.of(heard, labels, weight);
    }

    private static Word next(List<Mention> mentions, int m, Listening heard) {
        for (int n = m + 1; n < mentions.size(); n++) {
            Mention mention = mentions.get(n);
            if (mention instanceof Mention.Coin || (mention instanceof Mention.Bare bare && bare.coin() != null)) {
                return heard.words().get(mention.word());
            }
        }
        return heard.words().getLast();
    }

    /// 0 a new find, 1 the same coin, 2 an aside.
    private static int label(Annotated narration, Listening heard, Mention.Coin coin, Word next) {
        Word first = heard.words().get(coin.word());
        for (Annotated.Note note : narration.notes()) {
            boolean behind = note.cue() > first.cue() || (note.cue() == first.cue() && note.at() > first.from());
            boolean before = next.equals(heard.words().getLast())
                    || note.cue() < next.cue()
                    || (note.cue() == next.cue() && note.at() <= next.from());
            if (behind && before) {
                if (note.text().equals("=")) {
                    return 1;
                }
                if (narration.isFind(note)) {
                    return 0;
                }
            }
        }
        return 2;
    }
}
