package org.rollwright.web.shell;

import io.javalin.http.sse.SseClient;
import java.util.Deque;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;

/// The pages that are open and follow what happens. Thread-safe.
public final class LivePages implements AutoCloseable {
    /// Pages that follow at once. A browser has six for an address; who opens more forgot the first.
    public static final int MOST = 100;

    /// In the order they were opened.
    private final Deque<SseClient> open = new ConcurrentLinkedDeque<>();
    /// So long after an entry its pages hear of it: whoever made it has the answer by then, and need not share
    /// the processor with the pages that draw it.
    private static final int BREATH_MILLIS = 10;

    private final ScheduledExecutorService teller = Executors.newSingleThreadScheduledExecutor(
            task -> Thread.ofPlatform().daemon().name("live pages").unstarted(task));

    /// Keeps a page until it closes, or so many others opened that it is the oldest of too many.
    ///
    /// @param end is run when it does
    public void add(SseClient client, Runnable end) {
        client.onClose(() -> {
            var unused = open.remove(client);
            end.run();
        });
        open.addLast(client);
        while (open.size() > MOST) {
            SseClient oldest = open.pollFirst();
            if (oldest != null) {
                oldest.close();
            }
        }
    }

    /// Tells a page that something happened, on a thread of its own: whoever recorded it does not wait for
    /// pages.
    public void tell(SseClient client, String entry) {
        try {
            var unused =
                    teller.schedule(() -> client.sendEvent("changed", entry), BREATH_MILLIS, TimeUnit.MILLISECONDS);
        } catch (RejectedExecutionException e) {
            // closing: the page will open anew and fetch its state
        }
    }

    public int open() {
        return open.size();
    }

    /// Lets go of every page, so that the server can stop at once.
    @Override
    public void close() {
        teller.shutdownNow();
        open.forEach(SseClient::close);
    }
}
