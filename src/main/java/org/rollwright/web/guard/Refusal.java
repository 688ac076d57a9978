package org.rollwright.web.guard;

import org.jspecify.annotations.Nullable;

/// Why a request gets no page.
///
/// @param status of HTTP, 400 to 599
/// @param title of the page that says so; empty for a bare sentence, which is for those who should not get a page
/// @param seconds after which to try again; 0 when that is no use
/// @param delay seconds to hold the answer back, so that trying on costs time
public record Refusal(int status, String title, String text, int seconds, int delay) {
    public static Refusal bare(int status, String text) {
        return new Refusal(status, "", text, 0, 0);
    }

    static Refusal page(int status, String title, String text) {
        return new Refusal(status, title, text, 0, 0);
    }

    /// What judges requests before anything of theirs is read.
    @FunctionalInterface
    public interface Judge {
        /// @return none to let it in
        @Nullable
        Refusal judge(org.eclipse.jetty.server.Request request);
    }
}
