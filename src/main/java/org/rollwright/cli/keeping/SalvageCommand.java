package org.rollwright.cli.keeping;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.cli.shell.Count;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Open;
import org.rollwright.store.Salvage;
import org.rollwright.text.Texts;
import picocli.CommandLine;

/// Lists what a damaged store and its backups still hold, and brings it back.
@CommandLine.Command(
        name = "salvage",
        description =
                "List what a damaged store, its log and its backups still hold, and bring it back into a new folder.",
        footer = {
            "",
            "Example: ./run salvage                                    list it; nothing is changed",
            "         ./run salvage --into ~/coins-again               make a new data folder of it",
            "         ./run salvage --photographs                      put sound copies from backups in place of damaged ones",
            "",
            "Every entry is held against its checksum and joined to the one before. The damaged folder stays as it is, but for",
            "photographs with --photographs, where sound ones are never touched.",
            "Exit status: 0 done and nothing known of is missing, 3 there is nothing, 5 something stays lost, or not written."
        })
public final class SalvageCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Option(
            names = "--into",
            paramLabel = "DIR",
            description = "The new data folder, empty or not there yet.")
    private @Nullable Path into;

    @CommandLine.Option(
            names = "--photographs",
            description = "Put sound copies of photographs from the backups in place of missing and damaged ones.")
    private boolean photographs;

    @Override
    public Integer call() {
        Path target = into;
        if (photographs && target != null) {
            throw new Open.Stop(
                    ExitCode.INPUT,
                    "Say either --photographs or --into DIR: a new folder gets its photographs anyway.");
        }
        try {
            if (photographs) {
                Salvage.Photographs put = Salvage.putPhotographsBack(open.folder());
                put.back().forEach(System.out::println);
                System.out.println(
                        Count.of(put.back().size(), "photograph", "photographs") + " put back from the backups.");
                put.wanting().forEach(System.err::println);
                return (put.wanting().isEmpty() ? ExitCode.OK : ExitCode.STORE).number();
            }
            if (Salvage.isInUse(open.folder())) {
                throw new Open.Stop(
                        ExitCode.BUSY, "A tool works on the store in " + open.folder() + ". Stop it first.");
            }
            return entries(Salvage.of(open.folder()), target);
        } catch (Salvage.Failed e) {
            throw new Open.Stop(ExitCode.STORE, String.valueOf(e.getMessage()));
        }
    }

    private static String entries(long from, long to) {
        return from == to ? "entry " + from : "entries " + from + " to " + to;
    }

    private int entries(Salvage salvage, @Nullable Path target) throws Salvage.Failed {
        List<Salvage.Run> runs = salvage.runs();
        long last = runs.isEmpty() ? 0 : runs.getLast().to();
        long known = salvage.acknowledged();
        if (known == 0) {
            throw new Open.Stop(
                    ExitCode.NOTHING, "There is no store in " + open.folder() + ", and no backup that is known of.");
        }
        runs.forEach(run -> System.out.println("  " + entries(run.from(), run.to()) + " from " + run.source()));
        List<String> others = salvage.others();
        others.forEach(System.out::println);
        if (last < known) {
            List<String> behind = salvage.behindTheGap();
            System.out.println("  " + entries(last + 1, known) + ": not to be had whole"
                    + (behind.isEmpty()
                            ? "."
                            : "; the lines of " + Count.of(behind.size(), "entry", "entries")
                                    + " behind a gap, as typed:"));
            behind.forEach(line -> System.out.println("    " + line));
        }
        boolean lost = last < known || !others.isEmpty();
        if (target == null) {
            System.out.println(
                    last == 0
                            ? "No entry can be brought back."
                            : "Bring them back into a new folder: " + Texts.command() + " salvage --into DIR"
                                    + open.named());
        } else {
            Salvage.Made made = salvage.into(target.toAbsolutePath().normalize());
            made.warnings().forEach(System.err::println);
            System.out.println(target + " made: " + Count.of(made.entries(), "entry", "entries") + " and "
                    + Count.of(made.photographs(), "photograph", "photographs") + ".");
            System.out.println("Look at it: " + Texts.command() + " --data " + target
                    + ", then put it in the old one's place and keep that aside.");
            lost |= !made.warnings().isEmpty();
        }
        return (lost ? ExitCode.STORE : ExitCode.OK).number();
    }
}
