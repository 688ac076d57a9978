package org.rollwright.entry;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.rollwright.catalog.Catalog;
import org.rollwright.catalog.Issue;
import org.rollwright.catalog.TradeWord;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Strike;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Find;

/// Writes a find as an entry line that reads back as the same find, whatever is being watched for.
public final class FindText {
    private FindText() {}

    /// The line for a find, in the context of its box.
    public static String print(Find find, Catalog catalog, Denomination box) {
        return print(new Command.FindDraft(find.facts(), find.count(), find.ender(), find.disposition()), catalog, box);
    }

    /// The line for a draft.
    ///
    /// @param box denomination of the box it will be read in; another denomination is written out
    public static String print(Command.FindDraft draft, Catalog catalog, Denomination box) {
        List<String> words = new ArrayList<>();
        CoinDescription facts = draft.facts();
        Identity identity = facts.identity();
        if (draft.count() > 1) {
            words.add("x" + draft.count());
        }
        place(identity.denomination(), catalog, box, words);
        date(identity, catalog, words);
        if (facts.strike() == Strike.PROOF) {
            words.add("proof");
        } else if (facts.strike() == Strike.SPECIMEN) {
            words.add("specimen");
        }
        Grade grade = facts.grade();
        if (grade != null) {
            words.add(grade.toString().toLowerCase(Locale.ROOT));
        }
        if (facts.colour() != null) {
            words.add(facts.colour().name().toLowerCase(Locale.ROOT));
        }
        if (facts.details() != null) {
            words.add(word(catalog, TradeWord.Role.DETAILS, "details", facts.details()));
        }
        facts.varieties().forEach(said -> words.add(word(catalog, TradeWord.Role.VARIETY, "var", said)));
        facts.errors().forEach(said -> words.add(word(catalog, TradeWord.Role.ERROR, "err", said)));
        facts.photos().forEach(photo -> words.add("photo:" + quote(photo)));
        if (draft.ender()) {
            words.add("ender");
        }
        if (draft.disposition() != Disposition.OPEN) {
            words.add(draft.disposition().word());
        }
        if (!facts.note().isEmpty()) {
            words.add(quote(facts.note()));
        }
        return String.join(" ", words);
    }

    private static void place(Denomination denomination, Catalog catalog, Denomination box, List<String> words) {
        Country country = denomination.country();
        boolean abroad = !country.equals(box.country());
        if (abroad) {
            words.add(catalog.country(country)
                    .flatMap(facts -> facts.words().stream().findFirst())
                    .orElse(country.code().toLowerCase(Locale.ROOT)));
        }
        if (!denomination.key().equals(box.key()) && !denomination.key().equals("coin")) {
            words.add(denomination.key());
        }
    }

    private static void date(Identity identity, Catalog catalog, List<String> words) {
        Integer year = identity.year();
        Mint mint = identity.mint();
        if (year == null) {
            words.add("nd");
            if (mint != null && !mint.equals(Mint.NONE)) {
                words.add(mint.code().toLowerCase(Locale.ROOT));
            }
            if (!identity.design().isEmpty()) {
                words.add(Slug.of(identity.design()));
            }
            return;
        }
        words.add(year
                + (mint == null
                        ? "?"
                        : DateResolver.letters(identity.denomination().country(), mint)));
        List<Issue> sameDate = catalog.ofYear(identity.denomination(), year, mint);
        Set<String> designs = new HashSet<>();
        sameDate.forEach(issue -> designs.add(issue.identity().design()));
        if (!identity.design().isEmpty() && designs.size() > 1) {
            words.add(Slug.of(identity.design()));
        }
        if (!identity.kind().isEmpty()) {
            words.add(Slug.of(identity.kind()));
        }
    }

    /// A trade word that is recorded as this text, or the text in quotes behind a tag.
    private static String word(Catalog catalog, TradeWord.Role role, String tag, String text) {
        return catalog.tradeWords().stream()
                .filter(trade -> trade.role() == role && trade.canonical().equals(text))
                .map(TradeWord::word)
                .findFirst()
                .orElse(tag + ":" + quote(text));
    }

    private static String quote(String text) {
        return "\"" + text.replace("\"", "\"\"") + "\"";
    }
}
