package org.rollwright.web.guard;

import static org.rollwright.text.Texts.t;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.eclipse.jetty.http.HttpCookie;
import org.eclipse.jetty.server.Request;
import org.jspecify.annotations.Nullable;

/// Who may come in from the network: every request must carry the word of this start, besides naming this
/// computer.
///
/// Whoever shows the right word with a request is let in whatever others try, even from the same address. Words
/// typed at the door are not looked at while their address has to wait.
public final class PhoneDoor implements Refusal.Judge {
    public static final String JOIN = "/join";

    private final Lan lan;
    private final int port;
    private final Guesses guesses;

    public PhoneDoor(Lan lan, int port, Guesses guesses) {
        this.lan = lan;
        this.port = port;
        this.guesses = guesses;
    }

    @Override
    public @Nullable Refusal judge(Request request) {
        String host = Gate.host(request);
        boolean ours = lan.addresses().stream().anyMatch(address -> host.equals(address + ":" + port));
        if (!ours || Gate.foreign(request, "https://" + host)) {
            return Refusal.bare(403, t("server.open-with-word"));
        }
        String from = Request.getRemoteAddr(request);
        if (JOIN.equals(request.getHttpURI().getPath())) {
            return join(from, word(request.getHttpURI().getQuery()));
        }
        List<String> shown = Request.getCookies(request).stream()
                .filter(cookie -> cookie.getName().equals(Lan.COOKIE))
                .map(HttpCookie::getValue)
                .toList();
        if (shown.isEmpty()) {
            return Refusal.bare(403, t("server.open-with-word"));
        }
        if (!guesses.looksAt(from)) {
            return later(from, guesses.wait(from));
        }
        return shown.stream().anyMatch(lan::is) ? null : wrong(from, shown.getFirst(), t("server.open-with-word"));
    }

    private @Nullable Refusal join(String from, String word) {
        Duration wait = guesses.wait(from);
        if (wait.isPositive()) {
            return later(from, wait);
        }
        if (lan.is(word)) {
            return null;
        }
        return word.isEmpty() ? Refusal.bare(403, t("server.word-wrong")) : wrong(from, word, t("server.word-wrong"));
    }

    private Refusal wrong(String from, String word, String sentence) {
        Duration wait = guesses.wrong(from, word);
        return wait.isPositive() ? later(from, wait) : Refusal.bare(403, sentence);
    }

    private Refusal later(String from, Duration wait) {
        int seconds = (int) Math.max(1, wait.plusMillis(999).toSeconds());
        return new Refusal(
                429, "", t("server.too-many-wrong-words", seconds), seconds, guesses.isStubborn(from) ? 1 : 0);
    }

    /// The word needs no escapes, so none are read.
    private static String word(@Nullable String query) {
        for (String field : Optional.ofNullable(query).orElse("").split("&")) {
            if (field.startsWith("word=")) {
                return field.substring("word=".length());
            }
        }
        return "";
    }
}
