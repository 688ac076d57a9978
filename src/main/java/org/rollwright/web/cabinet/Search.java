package org.rollwright.web.cabinet;

import static org.rollwright.text.Texts.t;

import io.javalin.http.Context;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.rollwright.cabinet.CabinetIndex;
import org.rollwright.cabinet.PlaceId;
import org.rollwright.catalog.MintFacts;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Metal;
import org.rollwright.coin.Mint;
import org.rollwright.entry.Command;
import org.rollwright.entry.EntryParser;
import org.rollwright.entry.Reading;
import org.rollwright.web.shell.Bench;

/// What the Cabinet's page was asked for, as its address says it; lists on paper and files go by the same.
///
/// @param fields by name, those left blank not among them
public record Search(Map<String, String> fields) {
    private static final List<String> NAMES = List.of("q", "place", "dup", "coins", "mint", "metal", "graded", "order");
    private static final String MINT = "mint";
    private static final String MARK = "mark";

    public Search {
        fields = Map.copyOf(fields);
    }

    public static Search of(Context context) {
        Map<String, String> fields = new LinkedHashMap<>();
        for (String name : NAMES) {
            String text =
                    Optional.ofNullable(context.queryParam(name)).orElse("").strip();
            if (!text.isEmpty()) {
                fields.put(name, text);
            }
        }
        return new Search(fields);
    }

    /// What a field says, blank for nothing.
    public String field(String name) {
        return fields.getOrDefault(name, "");
    }

    /// Whether a filter beside the words is set.
    public boolean isNarrowed() {
        return fields.keySet().stream().anyMatch(name -> !name.equals("q") && !name.equals("order"));
    }

    /// The part of an address behind the question mark.
    public String address() {
        return NAMES.stream()
                .filter(fields::containsKey)
                .map(name -> name + "=" + URLEncoder.encode(field(name), StandardCharsets.UTF_8))
                .collect(Collectors.joining("&"));
    }

    /// The coins that fit, in the order asked for.
    public List<CabinetIndex.Entry> found(Bench bench, CabinetShelf.Contents state) {
        return CabinetIndex.ordered(
                state.index().search(asked(bench, state.index()).query()), order(), state.values());
    }

    CabinetIndex.Order order() {
        return word(CabinetIndex.Order.values(), field("order")).orElse(CabinetIndex.Order.CAME);
    }

    private static <E extends Enum<E>> Optional<E> word(E[] words, String said) {
        return Arrays.stream(words)
                .filter(word -> word.name().toLowerCase(Locale.ROOT).equals(said))
                .findFirst();
    }

    /// What is asked for, and how it was understood.
    public record Asked(CabinetIndex.Query query, String understood) {}

    /// A search that understands the entry line's words: what reads as a coin asks for such coins, `S mint` for a
    /// mint, `graded` for coins with a grade; other words must occur, the metal and `ungraded` among them.
    Asked asked(Bench bench, CabinetIndex index) {
        List<String> said = new ArrayList<>(Arrays.stream(field("q").split("\\s+"))
                .filter(word -> !word.isBlank())
                .toList());
        @Nullable Mint mint = mintIn(said, bench);
        boolean graded = said.removeIf(word -> word.equalsIgnoreCase("graded"));
        List<String> words = new ArrayList<>();
        List<String> coinWords = new ArrayList<>();
        @Nullable CoinDescription like = null;
        for (String word : said) {
            List<String> tried = new ArrayList<>(coinWords);
            tried.add(word);
            Optional<CoinDescription> read = read(bench, String.join(" ", tried), Denomination.US_CENT);
            if (read.isPresent() && read.get().note().isEmpty()) {
                coinWords = tried;
                like = read.get();
            } else if (coinWords.isEmpty() && isCoinWord(bench, word)) {
                coinWords.add(word);
            } else {
                words.add(word);
            }
        }
        if (like == null) {
            words.addAll(coinWords);
        }
        String place = field("place");
        CabinetIndex.Only only = new CabinetIndex.Only(
                index.denominations().stream()
                        .filter(one -> one.toString().equals(field("coins")))
                        .findFirst()
                        .orElse(null),
                mint != null
                        ? mint
                        : index.mints().stream()
                                .filter(one -> one.code().equals(field(MINT)))
                                .findFirst()
                                .orElse(null),
                word(Metal.values(), field("metal")).orElse(null),
                graded
                        ? CabinetIndex.Graded.GRADED
                        : word(CabinetIndex.Graded.values(), field("graded")).orElse(CabinetIndex.Graded.ANY));
        return new Asked(
                new CabinetIndex.Query(
                        like,
                        words,
                        place.matches("[1-9][0-9]{0,8}") ? new PlaceId(Long.parseLong(place)) : null,
                        field("dup").equals("yes"),
                        only),
                understood(like, mint));
    }

    private static String understood(@Nullable CoinDescription like, @Nullable Mint mint) {
        List<String> parts = new ArrayList<>();
        if (like != null) {
            parts.add(t(
                    "cabinet.coins-like",
                    like.identity(),
                    like.state().isEmpty()
                            ? ""
                            : " " + (like.grade() == null ? like.state() : t("cabinet.or-better", like.state()))));
        }
        if (mint != null) {
            parts.add(t("cabinet.of-the-mint", mint.code()));
        }
        return String.join("; ", parts);
    }

    /// Takes `S mint`, `mint S` or `mint mark S` out of the words; null when they are not among them.
    private static @Nullable Mint mintIn(List<String> said, Bench bench) {
        for (int at = 0; at < said.size(); at++) {
            if (!said.get(at).equalsIgnoreCase(MINT)) {
                continue;
            }
            boolean mark = at + 1 < said.size() && said.get(at + 1).equalsIgnoreCase(MARK);
            int after = at + (mark ? 2 : 1);
            Optional<Mint> behind = after < said.size() ? mint(said.get(after), bench) : Optional.empty();
            Optional<Mint> before = at > 0 ? mint(said.get(at - 1), bench) : Optional.empty();
            if (behind.isPresent() || before.isPresent()) {
                List<String> taken =
                        said.subList(behind.isPresent() ? at : at - 1, behind.isPresent() ? after + 1 : after);
                taken.clear();
                return behind.or(() -> before).orElse(null);
            }
        }
        return null;
    }

    private static Optional<Mint> mint(String word, Bench bench) {
        return bench.catalog().mints().stream()
                .filter(facts -> facts.mint().code().equalsIgnoreCase(word)
                        || facts.words().contains(word.toLowerCase(Locale.ROOT)))
                .map(MintFacts::mint)
                .findFirst();
    }

    /// A denomination or a country may come before the date it belongs to.
    private static boolean isCoinWord(Bench bench, String word) {
        return bench.catalog().countryByWord(word.toLowerCase(Locale.ROOT)).isPresent()
                || bench.catalog()
                        .denominationByWord(Country.US, word.toLowerCase(Locale.ROOT))
                        .isPresent();
    }

    private static Optional<CoinDescription> read(Bench bench, String line, Denomination denomination) {
        Reading reading = EntryParser.parse(line, bench.recorder().context(denomination, List.of()));
        return reading instanceof Reading.Clear clear
                        && clear.commands().size() == 1
                        && clear.commands().getFirst() instanceof Command.Found found
                        && found.draft().count() == 1
                ? Optional.of(found.draft().facts())
                : Optional.empty();
    }
}
