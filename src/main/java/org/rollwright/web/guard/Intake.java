package org.rollwright.web.guard;

import static org.rollwright.text.Texts.t;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicLong;
import org.eclipse.jetty.http.HttpException;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.io.Content;
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;
import org.jspecify.annotations.Nullable;

/// Takes in what requests send. A small body is read whole before a thread works on it, so that a slow sender
/// holds none; a large one gets memory lent first, and there are few of those at once; who sends slower than the
/// worst network would is sent away.
public final class Intake {
    /// Bytes a form may have: fifty thousand lines of a narration, with room.
    static final long MOST_IN_A_FORM = 20_000_000;

    /// Bytes anything may have: two photographs of the largest size taken, with the form around them.
    public static final long MOST = 60_000_000;

    /// Bytes that are read before a thread is given.
    private static final int SMALL = 256_000;

    /// Bytes of all small bodies at once.
    private static final long SMALL_TOGETHER = 32_000_000;

    /// Fields a form may have: nine of each of fifty thousand rows.
    public static final int MOST_FIELDS = 500_000;

    /// A form with more fields takes much more memory than its bytes, however small it is.
    private static final int FEW_FIELDS = 2_000;

    /// Bytes of memory that a field takes while it is read, and a byte of a form of unknown fields, and one of a file.
    /// A form is held as bytes, as text and as its fields; a file lies on disk, and is held once it is looked at.
    /// IntakeTest shows that they are enough.
    private static final int FIELD_BYTES = 400;

    private static final int FORM_FACTOR = 20;
    private static final int PARTS_FACTOR = 3;

    private static final int LARGE_AT_ONCE = 8;
    private static final int LONGEST_LINE = 40;
    private static final int SECONDS_IN_LINE = 20;

    /// Nobody is sent away as slow before that many seconds.
    private static final int GRACE_SECONDS = 10;

    /// Bytes a second: a small body, and a large one, which keeps memory from others.
    private static final long SLOWEST = 1_000;

    private static final long SLOWEST_LARGE = 16_000;

    /// What is refused is still read up to here, so that a browser shows the answer and no broken connection.
    private static final long MOST_READ_IN_VAIN = 500_000_000;

    /// Answers a request that is not let on.
    @FunctionalInterface
    interface Refuser {
        void refuse(Request request, Response response, Callback callback, Refusal refusal);
    }

    private final Budget budget;
    private final AtomicLong small = new AtomicLong();
    private final Refuser refuser;

    /// @param heap bytes of memory the program may have
    Intake(long heap, Refuser refuser) {
        this.budget = new Budget(heap / 4, LARGE_AT_ONCE, LONGEST_LINE);
        this.refuser = refuser;
    }

    private static boolean hasBody(Request request) {
        return request.getLength() > 0 || request.getHeaders().contains(HttpHeader.TRANSFER_ENCODING);
    }

    /// Lets a request on to the pages once its body may come.
    boolean take(Handler pages, Request request, Response response, Callback callback) throws Exception {
        if (!hasBody(request)) {
            return pages.handle(request, response, callback);
        }
        String type = String.valueOf(request.getHeaders().get(HttpHeader.CONTENT_TYPE));
        boolean parts = type.toLowerCase(Locale.ROOT).startsWith("multipart/form-data");
        new Body(pages, request, response, callback, parts).begin();
        return true;
    }

    public static Refusal tooMuch(boolean parts) {
        return Refusal.page(
                413, t("server.too-much"), parts ? t("server.upload-too-large") : t("server.form-too-large"));
    }

    private static Refusal busy() {
        return new Refusal(503, t("server.others-are-sending"), t("server.no-memory"), 10, 0);
    }

    private static Refusal slow() {
        return Refusal.page(408, t("server.that-came-too-slowly"), t("server.it-was-given-up"));
    }

    /// The body of one request, until it is passed on. Used by one thread at a time.
    private final class Body {
        private final Handler pages;
        private final Request request;
        private final Response response;
        private final Callback callback;
        private final boolean parts;
        private long begin = System.nanoTime();
        private byte[] bytes = new byte[0];
        private int size;
        private long seen;
        private @Nullable Refusal inVain;
        private Budget.@Nullable Loan loan;

        Body(Handler pages, Request request, Response response, Callback callback, boolean parts) {
            this.pages = pages;
            this.request = request;
            this.response = response;
            this.callback = callback;
            this.parts = parts;
        }

        private long most() {
            return parts ? MOST : MOST_IN_A_FORM;
        }

        void begin() {
            if (request.getLength() > MOST_READ_IN_VAIN) {
                refuser.refuse(request, response, callback, tooMuch(parts));
            } else if (request.getLength() > most()) {
                readInVain(tooMuch(parts));
            } else {
                read();
            }
        }

        /// Reads what is there, and comes back when there is more.
        private void read() {
            while (true) {
                Content.Chunk chunk = request.read();
                if (chunk == null) {
                    request.demand(this::read);
                    return;
                }
                if (Content.Chunk.isFailure(chunk)) {
                    end();
                    if (chunk.getFailure() instanceof TimeoutException) {
                        refuser.refuse(request, response, callback, slow());
                    } else {
                        callback.failed(chunk.getFailure());
                    }
                    return;
                }
                seen += chunk.remaining();
                boolean last = chunk.isLast();
                boolean room = inVain != null || keep(chunk);
                chunk.release();
                if (!room) {
                    readInVain(busy());
                    return;
                }
                if (inVain != null && (last || seen > MOST_READ_IN_VAIN)) {
                    refuser.refuse(request, response, callback, inVain);
                    return;
                }
                if (last) {
                    int fields = parts ? 0 : fields();
                    if (fields > FEW_FIELDS) {
                        standInLine((long) fields * FIELD_BYTES + 8L * size, true);
                    } else {
                        passOn(true);
                    }
                    return;
                }
                if (tooSlow(inVain != null)) {
                    end();
                    refuser.refuse(request, response, callback, slow());
                    return;
                }
                if (inVain == null && size >= SMALL) {
                    long length = request.getLength() > 0 ? request.getLength() : most();
                    standInLine(length * (parts ? PARTS_FACTOR : FORM_FACTOR), false);
                    return;
                }
            }
        }

        private boolean keep(Content.Chunk chunk) {
            int more = chunk.remaining();
            if (size + more > bytes.length) {
                int wanted = Math.max(size + more, Math.min(2 * bytes.length, SMALL));
                if (small.addAndGet(wanted - bytes.length) > SMALL_TOGETHER) {
                    small.addAndGet(bytes.length - wanted);
                    return false;
                }
                bytes = Arrays.copyOf(bytes, wanted);
            }
            chunk.getByteBuffer().get(bytes, size, more);
            size += more;
            return true;
        }

        /// Gives back what is held.
        private void end() {
            small.addAndGet(-bytes.length);
            bytes = new byte[0];
            size = 0;
            Budget.Loan lent = loan;
            if (lent != null) {
                lent.end();
            }
        }

        private void readInVain(Refusal refusal) {
            end();
            inVain = refusal;
            read();
        }

        private boolean tooSlow(boolean large) {
            long millis = TimeUnit.NANOSECONDS.toMillis(System.nanoTime() - begin) - GRACE_SECONDS * 1_000L;
            return millis > 0 && seen < millis * (large ? SLOWEST_LARGE : SLOWEST) / 1_000;
        }

        /// Goes on with a large body once there is memory for it, without a thread that waits.
        private void standInLine(long wanted, boolean whole) {
            Budget.Loan asked = budget.ask(wanted);
            if (asked == null) {
                giveUp(whole);
                return;
            }
            loan = asked;
            if (asked.granted().isDone() && whole) {
                passOn(true);
                return;
            }
            // never from here when more is to come: the server tells of more only once this call has ended, and the
            // page
            // would wait for it in vain
            var unused = asked.granted()
                    .orTimeout(SECONDS_IN_LINE, TimeUnit.SECONDS)
                    .whenCompleteAsync(
                            (lent, failure) -> {
                                begin = System.nanoTime();
                                if (failure == null) {
                                    passOn(whole);
                                } else {
                                    giveUp(whole);
                                }
                            },
                            request.getComponents().getExecutor());
        }

        private void giveUp(boolean whole) {
            if (whole) {
                end();
                refuser.refuse(request, response, callback, busy());
            } else {
                readInVain(busy());
            }
        }

        private int fields() {
            int fields = 1;
            for (int i = 0; i < size; i++) {
                fields += bytes[i] == '&' ? 1 : 0;
            }
            return fields;
        }

        private void passOn(boolean whole) {
            Callback after = Callback.from(callback, this::end);
            Request taken = new Taken(whole);
            try {
                if (!pages.handle(taken, response, after)) {
                    Response.writeError(taken, response, after, 404);
                }
            } catch (Exception e) {
                Response.writeError(taken, response, after, e);
            }
        }

        /// The request with what was read of its body in front of the rest.
        private final class Taken extends Request.Wrapper {
            private final boolean whole;
            private boolean given;

            Taken(boolean whole) {
                super(request);
                this.whole = whole;
            }

            @Override
            public Content.Chunk read() {
                if (!given) {
                    given = true;
                    return Content.Chunk.from(ByteBuffer.wrap(bytes, 0, size), whole);
                }
                if (whole) {
                    return Content.Chunk.EOF;
                }
                if (tooSlow(true)) {
                    return Content.Chunk.from(new TimeoutException("too slow"));
                }
                Content.Chunk chunk = super.read();
                if (chunk == null || Content.Chunk.isFailure(chunk)) {
                    return chunk;
                }
                seen += chunk.remaining();
                if (seen > most()) {
                    chunk.release();
                    return Content.Chunk.from(new HttpException.RuntimeException(413, "too much"));
                }
                return chunk;
            }
        }
    }
}
