package org.rollwright.cli.mat;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.cli.shell.Count;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.entry.narration.Lesson;
import org.rollwright.entry.narration.OwnVoice;
import org.rollwright.entry.narration.VoiceShelf;
import org.rollwright.store.Settings;
import picocli.CommandLine;

/// What the decoder learned of the hunter's voice.
@CommandLine.Command(
        name = "voice",
        description = "Show what was learned of your voice from narrations you reviewed; forget it, switch it off.",
        footer = {
            "",
            "Example: ./run voice          ./run voice --forget all          ./run voice --off",
            "",
            "It is learned when a review is accepted on the page, and lies in the data folder only. It may run beside the tool.",
            "Exit status: 0 done, 2 an option was not usable, 3 there is no such lesson, 5 it could not be saved."
        })
public final class VoiceCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Option(names = "--forget", paramLabel = "NAME", description = "Forget one lesson, or all of them.")
    private @Nullable String forget;

    @CommandLine.Option(names = "--off", description = "Do not use the voice, and learn no more of it.")
    private boolean off;

    @CommandLine.Option(names = "--on", description = "Use it and learn again.")
    private boolean on;

    @CommandLine.Option(names = "--json", description = "Print JSON.")
    private boolean json;

    /// A reviewed recording.
    record LessonJson(
            String name, String learned, String file, int finds, int accepted, int changed, int dropped, int added) {}

    /// A word that tells.
    record TraitJson(String word, int dates, int finds) {}

    /// What is printed.
    record Report(boolean on, List<LessonJson> lessons, List<TraitJson> words) {}

    @Override
    public Integer call() {
        if (on && off) {
            throw new Open.Stop(ExitCode.INPUT, "Say --on or --off, not both.");
        }
        OwnVoice voice = open.voice(open.catalog(System.err), new Settings(open.folder()));
        VoiceShelf shelf = voice.shelf();
        try {
            forget(shelf);
            if (on || off) {
                shelf.turn(on);
            }
        } catch (IOException e) {
            throw new Open.Stop(ExitCode.STORE, "The data folder " + open.folder() + " cannot be written to.");
        }
        print(voice, shelf.lessons());
        return ExitCode.OK.number();
    }

    private void forget(VoiceShelf shelf) throws IOException {
        String wanted = forget;
        if (wanted == null) {
            return;
        }
        if (wanted.toLowerCase(Locale.ROOT).equals("all")) {
            shelf.forgetAll();
            return;
        }
        if (shelf.lessons().stream().noneMatch(one -> one.name().equals(wanted))) {
            throw new Open.Stop(ExitCode.NOTHING, "There is no lesson " + wanted + ". ./run voice lists them.");
        }
        shelf.forget(wanted);
    }

    private void print(OwnVoice voice, List<VoiceShelf.Kept> lessons) {
        boolean used = voice.shelf().isOn();
        List<OwnVoice.Trait> traits = voice.traits();
        if (json) {
            System.out.println(Json.of(new Report(
                    used,
                    lessons.stream().map(VoiceCommand::json).toList(),
                    traits.stream()
                            .map(one -> new TraitJson(one.word(), one.dates(), one.finds()))
                            .toList())));
            return;
        }
        lessons.forEach(one -> System.out.println(line(one)));
        if (!traits.isEmpty()) {
            System.out.println("Words behind a date, and how many of those dates were finds:");
            traits.forEach(
                    one -> System.out.printf(Locale.ROOT, "  %-14s %d of %d%n", one.word(), one.finds(), one.dates()));
        }
        System.out.println(
                lessons.isEmpty()
                        ? "Nothing was learned of your voice yet. Accepting a review teaches it."
                        : Count.of(lessons.size(), "lesson", "lessons") + ".");
        System.out.println(
                used ? "The voice is used and learned from." : "The voice is switched off; --on switches it on again.");
    }

    private static LessonJson json(VoiceShelf.Kept kept) {
        Lesson lesson = kept.lesson();
        Lesson.Corrections corrections = lesson.corrections();
        return new LessonJson(
                kept.name(),
                lesson.learned().toString(),
                lesson.file(),
                lesson.coins(),
                corrections.accepted(),
                corrections.changed(),
                corrections.dropped(),
                corrections.added());
    }

    private static String line(VoiceShelf.Kept kept) {
        Lesson.Corrections corrections = kept.lesson().corrections();
        return kept.name() + "  " + kept.lesson().file() + "  "
                + Count.of(kept.lesson().coins(), "coin", "coins") + "; rows: " + corrections.accepted()
                + " accepted as they were, " + corrections.changed() + " changed, " + corrections.dropped()
                + " dropped, " + corrections.added() + " added";
    }
}
