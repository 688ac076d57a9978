package org.rollwright.entry;

import java.util.List;

/// What came of reading an entry line.
public sealed interface Reading {
    /// The line is clear.
    record Clear(List<Command> commands) implements Reading {
        public Clear {
            commands = List.copyOf(commands);
        }
    }

    /// The line could mean several things; one must be chosen before anything is recorded.
    ///
    /// @param position of the word in question, from 0
    record Choose(int position, String question, List<Option> options) implements Reading {
        public Choose {
            options = List.copyOf(options);
        }
    }

    /// The line cannot be taken.
    ///
    /// @param position of the word at fault, from 0
    /// @param length of that word, 0 when something is missing
    /// @param wrong what is wrong, a whole sentence
    /// @param right what would be right, a whole sentence
    record Problem(int position, int length, String wrong, String right) implements Reading {
        @Override
        public String toString() {
            return wrong + " " + right;
        }
    }

    /// Nothing was typed.
    record Empty() implements Reading {}

    /// One way of reading an ambiguous line.
    ///
    /// @param label for a person: `1919 wheat ears`
    /// @param line the whole line, made clear
    record Option(String label, String line) {}
}
