package org.rollwright.web.guard;

import static org.rollwright.text.Texts.t;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/// Wrong words from the network: who tried how many, how long they have to wait, and what the person at the
/// computer is told of it. Thread-safe; nothing here waits.
///
/// The same wrong word again counts once: an open page of an earlier start asks on with its old cookie for as
/// long as it is open, and must not keep its own phone from joining anew.
public final class Guesses {
    /// Wrong words of one address without a wait.
    public static final int FREE = 5;

    /// Addresses remembered; the one that was quiet for longest is forgotten first.
    static final int MOST_ADDRESSES = 256;

    /// Wrong words of all addresses together without a wait; one more every [#EACH] after that.
    static final int FREE_TOGETHER = 40;

    /// Wrong words after which an address is stubborn: its answers are held back for a second.
    static final int STUBBORN = 20;

    /// Answers held back at once; what comes on top from the stubborn is not looked at.
    static final int HELD_BACK = 64;

    private static final Duration EACH = Duration.ofSeconds(2);
    private static final Duration LONGEST = Duration.ofMinutes(5);
    private static final int REMEMBERED_WORDS = 8;
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm");

    private static final class Guesser {
        private final Deque<Integer> words = new ArrayDeque<>();
        private long wrong;
        private Instant until = Instant.MIN;
        private Instant counted = Instant.MIN;
    }

    private final InstantSource clock;
    private final LinkedHashMap<String, Guesser> guessers = new LinkedHashMap<>(16, 0.75f, true);
    private Consumer<String> tell = sentence -> {};
    /// When the last wrong words of the stubborn came.
    private final Deque<Instant> held = new ArrayDeque<>();
    private long all;
    private int together;
    private @Nullable Instant refilled;
    private @Nullable Instant first;
    private String lastAddress = "";

    public Guesses(InstantSource clock) {
        this.clock = clock;
    }

    /// Who is told when wrong words come in: at the fifth, the tenth, the hundredth, and so on.
    public synchronized void tell(Consumer<String> listener) {
        tell = listener;
    }

    /// How long words from an address are not looked at, counted from now; zero when they are.
    synchronized Duration wait(String address) {
        Instant now = clock.instant();
        Guesser guesser = guessers.get(address);
        Duration own = guesser == null ? Duration.ZERO : left(guesser, now);
        refill(now);
        Duration shared = together >= FREE_TOGETHER ? EACH : Duration.ZERO;
        return own.compareTo(shared) > 0 ? own : shared;
    }

    /// A clock that was set back must not make a wait longer than it was.
    private static Duration left(Guesser guesser, Instant now) {
        if (now.isBefore(guesser.counted)) {
            guesser.until = now.plus(Duration.between(guesser.counted, guesser.until));
            guesser.counted = now;
        }
        return now.isBefore(guesser.until) ? Duration.between(now, guesser.until) : Duration.ZERO;
    }

    private void refill(Instant now) {
        Instant since = refilled;
        if (since == null || now.isBefore(since)) {
            refilled = now;
            return;
        }
        long back = Duration.between(since, now).dividedBy(EACH);
        if (back > 0) {
            together = (int) Math.max(0, together - back);
            refilled = since.plus(EACH.multipliedBy(back));
        }
    }

    /// Counts a wrong word.
    ///
    /// @return how long words from there are not looked at from now on
    synchronized Duration wrong(String address, String word) {
        Instant now = clock.instant();
        Guesser guesser = guessers.computeIfAbsent(address, unused -> new Guesser());
        if (guessers.size() > MOST_ADDRESSES) {
            guessers.remove(guessers.keySet().iterator().next());
        }
        Integer trace = word.hashCode();
        if (guesser.words.contains(trace)) {
            return left(guesser, now);
        }
        guesser.words.addLast(trace);
        if (guesser.words.size() > REMEMBERED_WORDS) {
            guesser.words.removeFirst();
        }
        refill(now);
        together = Math.min(FREE_TOGETHER, together + 1);
        guesser.wrong++;
        if (guesser.wrong > STUBBORN && held.size() < HELD_BACK) {
            held.addLast(now);
        }
        all++;
        lastAddress = address;
        if (first == null) {
            first = now;
        }
        if (guesser.wrong >= FREE) {
            Duration wait = Duration.ofSeconds(1L << Math.min(20, guesser.wrong - FREE + 1));
            guesser.counted = now;
            guesser.until = now.plus(wait.compareTo(LONGEST) > 0 ? LONGEST : wait);
        }
        if (all == FREE || (all >= 10 && isPowerOfTen(all))) {
            summary().ifPresent(tell);
        }
        return left(guesser, now);
    }

    private static boolean isPowerOfTen(long number) {
        long rest = number;
        while (rest % 10 == 0) {
            rest /= 10;
        }
        return rest == 1;
    }

    synchronized boolean isStubborn(String address) {
        Guesser guesser = guessers.get(address);
        return guesser != null && guesser.wrong >= STUBBORN;
    }

    /// Whether what a request from there shows is looked at. It nearly always is: the right word must open
    /// whatever others tried from the same address. Only who sends more than [#HELD_BACK] wrong ones a second
    /// is not heard in between.
    synchronized boolean looksAt(String address) {
        Instant now = clock.instant();
        while (!held.isEmpty() && !held.getFirst().plusSeconds(1).isAfter(now)) {
            held.removeFirst();
        }
        return !isStubborn(address) || held.size() < HELD_BACK;
    }

    synchronized int addresses() {
        return guessers.size();
    }

    /// What to tell the person at the computer; none when fewer than [#FREE] wrong words came in.
    public synchronized Optional<String> summary() {
        Instant since = first;
        return all < FREE || since == null
                ? Optional.empty()
                : Optional.of(
                        t("guesses.wrong-words", all, lastAddress, TIME.format(since.atZone(ZoneId.systemDefault()))));
    }
}
