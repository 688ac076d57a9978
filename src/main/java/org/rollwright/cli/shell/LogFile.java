package org.rollwright.cli.shell;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.logging.ErrorManager;
import java.util.logging.FileHandler;
import java.util.logging.Handler;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import java.util.logging.SimpleFormatter;
import org.jspecify.annotations.Nullable;

/// Where warnings and mistakes of the tool are written, with all detail: a file in the data folder, made when
/// there is something to write. A person at the terminal sees sentences only.
public final class LogFile extends Handler {
    private static final int MOST_BYTES = 1_000_000;

    private final Path folder;
    private @Nullable FileHandler file;
    private boolean failed;

    private LogFile(Path folder) {
        this.folder = folder;
    }

    /// Sends all logging to the folder's log instead of the terminal.
    public static void in(Path folder) {
        Logger root = Logger.getLogger("");
        for (Handler handler : root.getHandlers()) {
            root.removeHandler(handler);
        }
        root.addHandler(new LogFile(folder));
    }

    @Override
    public synchronized void publish(LogRecord record) {
        if (failed || !isLoggable(record)) {
            return;
        }
        try {
            FileHandler open = file;
            if (open == null) {
                Files.createDirectories(folder);
                open = new FileHandler(folder.resolve("rollwright.log").toString(), MOST_BYTES, 1, true);
                open.setFormatter(new SimpleFormatter());
                // the usual one prints a stack trace on the terminal, for example when the disk is full
                open.setErrorManager(new ErrorManager() {
                    @Override
                    public void error(@Nullable String message, @Nullable Exception failure, int code) {
                        // the log is of less use than what it stands beside; the next line may fit again
                    }
                });
                file = open;
            }
            open.publish(record);
        } catch (IOException e) {
            // A folder that cannot be written to is told to the person elsewhere; the log is given up.
            failed = true;
        }
    }

    @Override
    public synchronized void flush() {
        FileHandler open = file;
        if (open != null) {
            open.flush();
        }
    }

    @Override
    public synchronized void close() {
        FileHandler open = file;
        if (open != null) {
            open.close();
        }
    }
}
