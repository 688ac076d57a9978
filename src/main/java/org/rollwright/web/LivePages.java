package org.rollwright.web;

import io.javalin.http.sse.SseClient;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/// The pages that are open and follow what happens. Thread-safe.
final class LivePages implements AutoCloseable {
    private final Set<SseClient> open = ConcurrentHashMap.newKeySet();

    /// Keeps a page until it closes.
    ///
    /// @param end is run when it does
    void add(SseClient client, Runnable end) {
        open.add(client);
        client.onClose(() -> {
            open.remove(client);
            end.run();
        });
    }

    /// Lets go of every page, so that the server can stop at once.
    @Override
    public void close() {
        open.forEach(SseClient::close);
    }
}
