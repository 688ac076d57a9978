package org.rollwright.web.guard;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.CompletableFuture;
import org.jspecify.annotations.Nullable;

/// Memory for large requests, lent out so that never more is held at once than there is. Who comes when it is
/// lent out stands in line; the line is bounded. Thread-safe; nothing here waits.
final class Budget {
    /// What was lent, or a place in the line.
    final class Loan {
        private final long bytes;
        private final CompletableFuture<Boolean> granted = new CompletableFuture<>();
        private boolean held;

        private Loan(long bytes) {
            this.bytes = bytes;
        }

        /// Done once it is lent. Who will not wait any longer completes it otherwise.
        CompletableFuture<Boolean> granted() {
            return granted;
        }

        /// Gives back what was lent, or leaves the line. A second time does nothing.
        void end() {
            synchronized (Budget.this) {
                var unused = line.remove(this);
                if (held) {
                    held = false;
                    lent -= bytes;
                    loans--;
                }
                while (!line.isEmpty() && fits(line.getFirst())) {
                    lend(line.removeFirst());
                }
            }
        }
    }

    private final long bytes;
    private final int most;
    private final int longestLine;
    private final Deque<Loan> line = new ArrayDeque<>();
    private long lent;
    private int loans;

    /// @param bytes lent out together; a single loan may be larger when nothing else is lent
    /// @param most loans at once
    /// @param longestLine how many stand in line
    Budget(long bytes, int most, int longestLine) {
        this.bytes = bytes;
        this.most = most;
        this.longestLine = longestLine;
    }

    private boolean fits(Loan loan) {
        return loans == 0 || (loans < most && lent + loan.bytes <= bytes);
    }

    private void lend(Loan loan) {
        if (loan.granted.complete(true)) {
            loan.held = true;
            lent += loan.bytes;
            loans++;
        }
    }

    /// Asks for memory.
    ///
    /// @return none when the line is full
    synchronized @Nullable Loan ask(long wanted) {
        Loan loan = new Loan(wanted);
        if (line.isEmpty() && fits(loan)) {
            lend(loan);
        } else if (line.size() < longestLine) {
            line.addLast(loan);
        } else {
            return null;
        }
        return loan;
    }

    synchronized int waiting() {
        return line.size();
    }

    synchronized long lent() {
        return lent;
    }
}
