package org.rollwright.cli.keeping;

import java.nio.file.Files;
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
import org.rollwright.text.Texts;
import picocli.CommandLine;

/// Makes a data folder from a backup.
@CommandLine.Command(
        name = "restore",
        description = "Make a new data folder from a backup, and check it.",
        footer = {
            "",
            "Example: ./run restore --into ~/coins-again",
            "         ./run restore --from /media/disk/rollwright/2026-03-01T190000 --into ~/coins-again",
            "",
            "Only into a folder that is new or empty: look at it with ./run --data DIR, then put it in the old one's place.",
            "Exit status: 0 restored, 3 there is no backup, 5 not restored, or without a photograph that is named."
        })
public final class RestoreCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Option(
            names = "--from",
            paramLabel = "DIR",
            description = "A backup, or the folder that holds backups; the newest one of the usual folder if left out.")
    private @Nullable Path from;

    @CommandLine.Option(names = "--into", paramLabel = "DIR", required = true, description = "The new data folder.")
    private Path into = Path.of("");

    @Override
    public Integer call() {
        Path named = from == null
                ? new Settings(open.folder()).backups()
                : from.toAbsolutePath().normalize();
        Path backup;
        Backups backups;
        if (Files.exists(named.resolve("rollwright.db"))) {
            backup = named;
            backups = new Backups(java.util.Objects.requireNonNullElse(named.getParent(), named));
        } else {
            backups = new Backups(named);
            List<Path> all = backups.all();
            if (all.isEmpty()) {
                throw new Open.Stop(ExitCode.NOTHING, "There is no backup in " + named + ". Name one with --from.");
            }
            backup = backups.latestOf(open.folder(), InstantSource.system().instant())
                    .orElse(all.getFirst());
            if (!backup.equals(all.getFirst())) {
                System.err.println(
                        "Not the newest by its name, " + all.getFirst().getFileName()
                                + ": that one is dated in the future, does not read back, or is of another store.");
            }
        }
        try {
            Backups.Backup restored =
                    backups.restore(backup, into.toAbsolutePath().normalize());
            restored.warnings().forEach(System.err::println);
            System.out.println(into + " made from " + backup + ": " + Count.of(restored.entries(), "entry", "entries")
                    + " and " + Count.of(restored.photographs(), "photograph", "photographs") + ".");
            System.out.println("Look at it: " + Texts.command() + " --data " + into);
            return (restored.warnings().isEmpty() ? ExitCode.OK : ExitCode.STORE).number();
        } catch (Backups.Failed e) {
            throw new Open.Stop(ExitCode.STORE, e.getMessage() + sound(backups, backup));
        }
    }

    /// The newest backup that could be restored instead, when it is another.
    private String sound(Backups backups, Path refused) {
        return backups.newestSound(InstantSource.system().instant())
                .filter(one -> !one.equals(refused))
                .map(one -> "\nThe newest backup that reads back is " + one + ": " + Texts.command()
                        + " restore --from " + one + " --into " + into)
                .orElse("");
    }
}
