package org.rollwright.cli.keeping;

import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.cli.shell.Count;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Open;
import org.rollwright.store.JournalFile;
import org.rollwright.store.Store;
import picocli.CommandLine;

/// The whole store as text, and a store from it.
@CommandLine.Command(
        name = "journal",
        description =
                "Save the whole store as text, one entry a line in JSON, or fill an empty store from such a file.",
        footer = {
            "",
            "Example: ./run journal --save all.jsonl",
            "         ./run journal --fill all.jsonl --data /some/new/folder",
            "",
            "Photographs are not in it: copy the folder photos beside it.",
            "Exit status: 0 done, 2 the file was not usable or the store not empty, 4 the store is in use, 5 not saved."
        })
public final class JournalCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Option(
            names = "--save",
            paramLabel = "FILE",
            description = "Write every entry of the store to a file.")
    private @Nullable Path save;

    @CommandLine.Option(names = "--fill", paramLabel = "FILE", description = "Fill the store, which must be empty.")
    private @Nullable Path fill;

    @Override
    public Integer call() {
        Path out = save;
        Path in = fill;
        if ((out == null) == (in == null)) {
            throw new Open.Stop(ExitCode.INPUT, "Say either --save FILE or --fill FILE.");
        }
        try (Open.Bench bench = open.open(out != null ? Store.Mode.READ : Store.Mode.WRITE, System.err)) {
            if (out != null) {
                System.out.println(Count.of(bench.store().saveJournal(out), "entry", "entries") + " written to " + out);
            } else if (in != null) {
                System.out.println(Count.of(bench.store().fillFrom(in), "entry", "entries") + " taken from " + in);
            }
            return ExitCode.OK.number();
        } catch (JournalFile.Unusable e) {
            throw new Open.Stop(ExitCode.INPUT, String.valueOf(e.getMessage()));
        } catch (IOException e) {
            throw out != null
                    ? new Open.Stop(
                            ExitCode.STORE, out + " could not be written. Is its disk full, or not yours to write to?")
                    : new Open.Stop(ExitCode.INPUT, in + " could not be read.");
        }
    }
}
