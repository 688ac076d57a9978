package org.rollwright.cli.keeping;

import java.io.IOException;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.rollwright.cli.shell.Count;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Open;
import org.rollwright.store.Backups;
import org.rollwright.store.Settings;
import picocli.CommandLine;

/// Makes a backup now.
@CommandLine.Command(
        name = "backup",
        description = "Make a backup now, prove it by reading it back, and remember where backups go.",
        footer = {
            "",
            "Example: ./run backup --to /media/disk/rollwright          ./run backup          ./run backup --list",
            "",
            "The tool makes one a day by itself in the folder named last. Kept are the newest ten, one of each of twelve",
            "weeks, and one of every month. It may run beside the tool.",
            "A sound copy of a photograph is never replaced, and a backup that holds more than the store is never deleted.",
            "Exit status: 0 made and proved, 5 not made, or made with something missing that is named."
        })
public final class BackupCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Option(
            names = "--to",
            paramLabel = "DIR",
            description = "Folder for backups, best on another disk; it is remembered.")
    private @Nullable Path to;

    @CommandLine.Option(names = "--list", description = "List the backups there are, the newest first.")
    private boolean list;

    @Override
    public Integer call() {
        Settings settings = new Settings(open.folder());
        Path wanted = to;
        Path where =
                wanted == null ? settings.backups() : wanted.toAbsolutePath().normalize();
        Path data = open.folder().toAbsolutePath().normalize();
        if (wanted != null && where.startsWith(data) && !where.equals(data.resolve("backups"))) {
            throw new Open.Stop(
                    ExitCode.INPUT,
                    where
                            + " lies in the data folder itself: a disk that fails takes both. Name a folder elsewhere, best on"
                            + " another disk.");
        }
        Backups backups = new Backups(where);
        if (list) {
            List<Path> all = backups.all();
            all.forEach(System.out::println);
            if (all.isEmpty()) {
                System.err.println("There is no backup in " + where + ".");
            }
            return ExitCode.OK.number();
        }
        try {
            Backups.Backup made =
                    backups.make(open.folder(), InstantSource.system().instant());
            if (wanted != null) {
                settings.backups(where);
            }
            System.out.println(made.folder() + ": " + Count.of(made.entries(), "entry", "entries") + " and "
                    + Count.of(made.photographs(), "photograph", "photographs")
                    + ", proved by reading every one back.");
            made.warnings().forEach(warning -> System.err.println(open.advice(warning)));
            return (made.warnings().isEmpty() ? ExitCode.OK : ExitCode.STORE).number();
        } catch (Backups.Failed e) {
            throw new Open.Stop(ExitCode.STORE, open.advice(String.valueOf(e.getMessage())));
        } catch (IOException e) {
            throw new Open.Stop(
                    ExitCode.STORE,
                    "The backup was made, but the data folder cannot be written to, so its place is not remembered.");
        }
    }
}
