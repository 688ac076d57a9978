package org.rollwright.entry.sheet.take;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/// What words in sheets mean: headings, countries, units, grades, kinds, in five languages. Immutable.
public final class Lexicon {
    /// @param role what sort of meaning it is: `heading`, `country`, `grade`
    /// @param means the meaning in the tool's own word
    record Term(String role, String means, List<String> tokens) {}

    /// A term found in a text.
    ///
    /// @param first first token of it in [Words#of]
    /// @param behind the token behind it
    record Hit(Term term, int first, int behind, int from, int to) {
        String means() {
            return term.means();
        }
    }

    private final Map<String, List<Term>> byRoleAndWord = new HashMap<>();

    private Lexicon(List<Term> terms) {
        terms.forEach(term -> byRoleAndWord
                .computeIfAbsent(term.role() + " " + term.tokens().getFirst(), key -> new ArrayList<>())
                .add(term));
        byRoleAndWord
                .values()
                .forEach(list -> list.sort(
                        Comparator.comparingInt((Term term) -> -term.tokens().size())));
    }

    /// Reads the table of words.
    ///
    /// @param csv columns role, canonical, words (parted by semicolons), source
    public static Lexicon parse(String csv) {
        List<Term> terms = new ArrayList<>();
        try (CsvReader<NamedCsvRecord> reader = CsvReader.builder().ofNamedCsvRecord(csv)) {
            for (NamedCsvRecord row : reader) {
                for (String word : row.getField("words").split(";", -1)) {
                    List<String> tokens =
                            Words.of(word).stream().map(Words.Token::text).toList();
                    if (!tokens.isEmpty()) {
                        terms.add(new Term(row.getField("role"), row.getField("canonical"), tokens));
                    }
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return new Lexicon(terms);
    }

    private Optional<Term> at(List<Words.Token> tokens, int at, String role) {
        for (Term term : byRoleAndWord.getOrDefault(role + " " + tokens.get(at).text(), List.of())) {
            if (at + term.tokens().size() > tokens.size()) {
                continue;
            }
            boolean same = true;
            for (int i = 0; i < term.tokens().size() && same; i++) {
                same = tokens.get(at + i).text().equals(term.tokens().get(i));
            }
            if (same) {
                return Optional.of(term);
            }
        }
        return Optional.empty();
    }

    /// What a whole text means in a role.
    Optional<String> exact(String role, String text) {
        List<Words.Token> tokens = Words.of(text);
        return tokens.isEmpty()
                ? Optional.empty()
                : byRoleAndWord.getOrDefault(role + " " + tokens.getFirst().text(), List.of()).stream()
                        .filter(term -> term.tokens().size() == tokens.size())
                        .filter(term -> term.tokens()
                                .equals(tokens.stream().map(Words.Token::text).toList()))
                        .map(Term::means)
                        .findFirst();
    }

    /// All meanings of a whole text in a role, in the order of the table.
    List<String> all(String role, String text) {
        List<String> tokens = Words.of(text).stream().map(Words.Token::text).toList();
        return tokens.isEmpty()
                ? List.of()
                : byRoleAndWord.getOrDefault(role + " " + tokens.getFirst(), List.of()).stream()
                        .filter(term -> term.tokens().equals(tokens))
                        .map(Term::means)
                        .toList();
    }

    /// Terms of some roles in a text, the longest first where several begin at one word; none overlaps another.
    List<Hit> find(String text, String... roles) {
        return find(Words.of(text), roles);
    }

    List<Hit> find(List<Words.Token> tokens, String... roles) {
        List<Hit> hits = new ArrayList<>();
        int i = 0;
        while (i < tokens.size()) {
            Term best = null;
            for (String role : roles) {
                Optional<Term> term = at(tokens, i, role);
                if (term.isPresent()
                        && (best == null
                                || term.get().tokens().size() > best.tokens().size())) {
                    best = term.get();
                }
            }
            if (best == null) {
                i++;
            } else {
                int behind = i + best.tokens().size();
                hits.add(new Hit(
                        best,
                        i,
                        behind,
                        tokens.get(i).from(),
                        tokens.get(behind - 1).to()));
                i = behind;
            }
        }
        return hits;
    }

    boolean has(String text, String role) {
        return !find(text, role).isEmpty();
    }
}
