package org.rollwright.web.narration;

import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.rollwright.entry.narration.VoiceShelf;
import org.rollwright.web.shell.Bench;

/// What the decoder of narrations learned of the hunter's voice: to see, to switch off, to forget.
public final class VoicePages {
    private final Bench bench;

    public VoicePages(Bench bench) {
        this.bench = bench;
    }

    public void register(RoutesConfig routes) {
        routes.get("/voice", context -> show(context, List.of()));
        routes.post("/voice", this::change);
    }

    private void show(Context context, List<String> problems) {
        context.html(PAGES.narrationVoice(bench.frame(t("page.voice"), "mat"), problems, VoiceView.of(bench.voice()))
                .render());
    }

    private void change(Context context) {
        VoiceShelf shelf = bench.voice().shelf();
        try {
            switch (Optional.ofNullable(context.formParam("do")).orElse("")) {
                case "on" -> shelf.turn(true);
                case "off" -> shelf.turn(false);
                case "forget" ->
                    shelf.forget(Optional.ofNullable(context.formParam("name")).orElse(""));
                case "forget-all" -> shelf.forgetAll();
                default -> {
                    context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                    show(context, List.of(t("settings.choose-listed")));
                    return;
                }
            }
        } catch (IOException e) {
            context.status(HttpStatus.SERVICE_UNAVAILABLE);
            show(context, List.of(t("settings.folder-not-writable")));
            return;
        }
        context.redirect("/voice", HttpStatus.SEE_OTHER);
    }
}
