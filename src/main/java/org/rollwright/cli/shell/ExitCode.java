package org.rollwright.cli.shell;

/// What a command's exit status means; each number has one meaning.
public enum ExitCode {
    /// Done.
    OK(0, "done"),
    /// Our mistake.
    BUG(1, "a mistake of the tool; the log tells more"),
    /// The command, a file or a line was not usable; nothing was half done.
    INPUT(2, "the command, a file or a line was not usable"),
    /// What was asked for is not there.
    NOTHING(3, "what was asked for is not there"),
    /// Another process works on the store.
    BUSY(4, "the store is open in another process"),
    /// It could not be saved, or the store could not be opened.
    STORE(5, "it could not be saved, or the store could not be opened");

    private final int number;
    private final String meaning;

    ExitCode(int number, String meaning) {
        this.number = number;
        this.meaning = meaning;
    }

    public int number() {
        return number;
    }

    public String meaning() {
        return meaning;
    }
}
