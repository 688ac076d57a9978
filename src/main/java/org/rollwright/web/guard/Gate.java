package org.rollwright.web.guard;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.eclipse.jetty.http.HttpFields;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.http.UriCompliance;
import org.eclipse.jetty.io.Content;
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.server.handler.ErrorHandler;
import org.eclipse.jetty.util.Callback;
import org.jspecify.annotations.Nullable;
import org.rollwright.web.mat.Answer;
import org.rollwright.web.shell.Bench;

/// What every request passes before routes see it: who asks, by which name, with which method, in sound letters;
/// then its body is taken in. What the web library would obey besides is taken out here, so that routes and the
/// checks read the same request.
public final class Gate extends Handler.Wrapper {
    /// Nothing but our own files is ever loaded, and nothing inline runs.
    private static final String POLICY =
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
                    + "connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

    private static final List<String> METHODS = List.of("GET", "HEAD", "POST");

    /// After these nothing more is expected on the connection.
    private static final Set<Integer> CLOSING = Set.of(405, 408, 429);

    /// The first would change the method behind the guard's back; the second leads past every route.
    private static final List<String> UNHEARD = List.of("X-HTTP-Method-Override", "Sec-WebSocket-Version");

    /// The one spelling of letters that forms of ours are sent in.
    private static final Pattern LETTERS = Pattern.compile(";\\s*charset\\s*=\\s*\"?(utf-?8|us-ascii)\"?\\s*(;|$)");

    /// What the web library calls an address it could not read.
    private static final String UNREAD = "/badMessage";

    private static final Set<String> FRAMES = Set.of("iframe", "frame", "object", "embed", "fencedframe");

    /// Addresses that get as far as here: also those with broken escapes, so that it is us who say what is wrong.
    public static final UriCompliance ADDRESSES = UriCompliance.LEGACY.with(
            "Gate",
            UriCompliance.Violation.BAD_UTF8_ENCODING,
            UriCompliance.Violation.BAD_PERCENT_ENCODING,
            UriCompliance.Violation.UTF16_ENCODINGS);

    private final Bench bench;
    private final Refusal.Judge judge;
    private final Intake intake;
    private final boolean home;

    /// @param judge whether who asks may
    /// @param home whether only this computer can ask
    public Gate(Bench bench, Refusal.Judge judge, boolean home) {
        this.home = home;
        this.bench = bench;
        this.judge = judge;
        this.intake = new Intake(Runtime.getRuntime().maxMemory(), this::refuse);
    }

    @Override
    public boolean handle(Request request, Response response, Callback callback) throws Exception {
        protect(response);
        Refusal refusal = strange(request);
        if (refusal == null) {
            refusal = judge.judge(request);
        }
        if (refusal == null) {
            refusal = unsound(request);
        }
        if (refusal != null) {
            refuse(request, response, callback, refusal);
            return true;
        }
        return intake.take(getHandler(), heard(request), response, callback);
    }

    private static void protect(Response response) {
        HttpFields.Mutable headers = response.getHeaders();
        headers.put("Content-Security-Policy", POLICY);
        headers.put("X-Content-Type-Options", "nosniff");
        headers.put("X-Frame-Options", "DENY");
        headers.put("Cross-Origin-Resource-Policy", "same-origin");
        headers.put("Cross-Origin-Opener-Policy", "same-origin");
        headers.put("Referrer-Policy", "same-origin");
        headers.put("Cache-Control", "no-store");
    }

    /// A method no page has.
    private static @Nullable Refusal strange(Request request) {
        return METHODS.contains(request.getMethod()) ? null : Refusal.bare(405, t("server.method-wrong"));
    }

    /// Escapes that are none, and letters that we do not read. What is wrong in a form's body, [Server] sees.
    private static @Nullable Refusal unsound(Request request) {
        boolean sound = Escapes.sound(request.getHttpURI().getPath())
                && Escapes.sound(request.getHttpURI().getQuery());
        String type = Optional.ofNullable(request.getHeaders().get(HttpHeader.CONTENT_TYPE))
                .orElse("")
                .toLowerCase(Locale.ROOT);
        int named = type.split("charset", -1).length - 1;
        boolean letters = named == 0 || (named == 1 && LETTERS.matcher(type).find());
        return sound && letters ? null : unreadable();
    }

    /// What is said of a form or an address whose letters cannot be read.
    public static Refusal unreadable() {
        return Refusal.page(400, t("server.that-could-not-be-read"), t("server.percent-sign"));
    }

    private static Request heard(Request request) {
        HttpFields headers = request.getHeaders();
        boolean typeOfNothing = headers.contains(HttpHeader.CONTENT_TYPE)
                && request.getLength() <= 0
                && !headers.contains(HttpHeader.TRANSFER_ENCODING);
        if (!typeOfNothing && UNHEARD.stream().noneMatch(headers::contains)) {
            return request;
        }
        HttpFields.Mutable rest = HttpFields.build(headers);
        UNHEARD.forEach(rest::remove);
        if (typeOfNothing) {
            rest.remove(HttpHeader.CONTENT_TYPE);
        }
        HttpFields heard = rest.asImmutable();
        return new Request.Wrapper(request) {
            @Override
            public HttpFields getHeaders() {
                return heard;
            }
        };
    }

    /// Whether a page of another origin asks for a change, or for something to be drawn behind the hunter's back.
    /// Browsers name the origin of every form sent across sites and say so in Sec-Fetch-Site.
    ///
    /// @param own this origin, such as `http://127.0.0.1:7300`
    public static boolean foreign(Request request, String own) {
        HttpFields headers = request.getHeaders();
        String origin = headers.get("Origin");
        boolean near = Set.of("same-origin", "none")
                .contains(Optional.ofNullable(headers.get("Sec-Fetch-Site")).orElse("same-origin"));
        if (!List.of("GET", "HEAD").contains(request.getMethod())) {
            return (origin != null && !origin.equals(own)) || !near;
        }
        return !near
                && (!"navigate".equals(headers.get("Sec-Fetch-Mode"))
                        || FRAMES.contains(Optional.ofNullable(headers.get("Sec-Fetch-Dest"))
                                .orElse("")));
    }

    /// The one name a request goes to; empty when there is none, or another one in its address.
    public static String host(Request request) {
        List<String> names = request.getHeaders().getValuesList("Host");
        String name = names.size() == 1 ? names.getFirst() : "";
        String authority = request.getHttpURI().getAuthority();
        return authority == null || authority.equals(name) ? name : "";
    }

    private void refuse(Request request, Response response, Callback callback, Refusal refusal) {
        if (refusal.delay() > 0) {
            var unused = request.getComponents()
                    .getScheduler()
                    .schedule(() -> answer(request, response, callback, refusal), refusal.delay(), TimeUnit.SECONDS);
        } else {
            answer(request, response, callback, refusal);
        }
    }

    private void answer(Request request, Response response, Callback callback, Refusal refusal) {
        HttpFields.Mutable headers = response.getHeaders();
        response.setStatus(refusal.status());
        if (refusal.status() == 405) {
            headers.put("Allow", String.join(", ", METHODS));
        }
        if (refusal.seconds() > 0) {
            headers.put("Retry-After", refusal.seconds());
        }
        if (CLOSING.contains(refusal.status())) {
            headers.put("Connection", "close");
        }
        String body;
        if (refusal.title().isEmpty()) {
            headers.put("Content-Type", "text/plain; charset=utf-8");
            body = refusal.text();
        } else {
            headers.put("Content-Type", "text/html; charset=utf-8");
            boolean quick = "quick".equals(request.getHeaders().get("X-Bench"));
            if (quick) {
                headers.put("X-Outcome", "problem");
            }
            body = page(bench, quick, refusal.title(), refusal.text());
        }
        Content.Sink.write(response, true, body, callback);
    }

    /// The page that is sorry, or its sentence for the quick keys.
    public static String page(Bench bench, boolean quick, String title, String text) {
        return quick
                ? PAGES.matAnswer(Answer.problem("", title + ".", text), 0L).render()
                : PAGES.shellSorry(bench.frame(title, ""), text).render();
    }

    /// Requests that the web library itself refuses, before they reach us: as readable as our own refusals.
    public boolean broken(Request request, Response response, Callback callback) {
        protect(response);
        boolean unread = UNREAD.equals(request.getHttpURI().getPath());
        int status = request.getAttribute(ErrorHandler.ERROR_STATUS) instanceof Integer known ? known : 400;
        Refusal refusal =
                switch (status) {
                    case 413, 414, 431 -> Refusal.page(status, t("server.too-much"), t("server.the-address-or-what"));
                    case 404 -> Refusal.page(status, t("server.there-is-no-such-page"), t("server.perhaps-undone"));
                    default ->
                        status >= 500
                                ? Refusal.page(status, t("server.our-mistake-title"), t("server.our-mistake"))
                                : Refusal.page(
                                        status,
                                        t("server.that-could-not-be-read"),
                                        unread ? t("server.percent-sign") : t("server.not-a-request"));
                };
        response.getHeaders().put("Connection", "close");
        // of an address that cannot be read nobody knows who asks for it: the sentence tells nothing of the hunter, but
        // in the network it stays bare
        boolean page = home && unread;
        answer(
                request,
                response,
                callback,
                page || judge.judge(request) == null ? refusal : Refusal.bare(status, refusal.text()));
        return true;
    }
}
