package org.rollwright.web.shell;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.rollwright.coin.Denomination;

/// What a hunt begins with when nothing else is said, and how the Mat's large keys and sounds are.
///
/// @param denomination as forms write it, `US cent`
/// @param bank where boxes mostly come from, blank for none
/// @param branch of it, blank for none
/// @param watches by name
/// @param sounds whether a Mat sounds until its own switch says otherwise
public record Usual(
        String denomination, String bank, String branch, List<String> watches, Digits digits, boolean sounds) {
    /// Names of the settings.
    public static final String DENOMINATION = "usual.denomination";

    public static final String BANK = "usual.bank";
    public static final String BRANCH = "usual.branch";
    public static final String WATCHES = "usual.watches";
    public static final String DIGITS = "mat.digits";
    public static final String SOUNDS = "mat.sounds";

    /// How the large keys stand.
    public enum Digits {
        /// 1 2 3 on top, as on a telephone.
        TELEPHONE,
        /// 7 8 9 on top, as on a keyboard's number block.
        CALCULATOR;

        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    public Usual {
        watches = List.copyOf(watches);
    }

    /// From settings; what is missing or unknown counts as not chosen.
    public static Usual of(Map<String, String> settings) {
        return new Usual(
                settings.getOrDefault(DENOMINATION, Denomination.US_CENT.toString()),
                settings.getOrDefault(BANK, ""),
                settings.getOrDefault(BRANCH, ""),
                Arrays.stream(settings.getOrDefault(WATCHES, "").split(","))
                        .map(String::strip)
                        .filter(watch -> !watch.isEmpty())
                        .toList(),
                Manner.one(Digits.values(), settings.getOrDefault(DIGITS, "")).orElse(Digits.TELEPHONE),
                settings.getOrDefault(SOUNDS, "").equals("on"));
    }

    /// As the settings keep it.
    public Map<String, String> written() {
        Map<String, String> written = new LinkedHashMap<>();
        written.put(DENOMINATION, denomination);
        written.put(BANK, bank);
        written.put(BRANCH, branch);
        written.put(WATCHES, String.join(",", watches));
        written.put(DIGITS, digits.word());
        written.put(SOUNDS, sounds ? "on" : "off");
        return written;
    }

    /// Bank and branch as an order names them, blank when there is no bank.
    public String place() {
        return bank.isEmpty() || branch.isEmpty() ? bank : bank + ", " + branch;
    }
}
