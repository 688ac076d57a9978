package org.rollwright.cli;

import java.nio.file.Path;
import java.time.InstantSource;
import org.rollwright.coin.Denomination;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.journal.JournalException;
import org.rollwright.store.Store;

/// A program that records one box after the other and enters each that is refused again, until it is kept.
final class RetryingHunt {
    static final int LINES = 40;
    private static final int MOST_TRIES = 30;

    private RetryingHunt() {}

    /// @param args the data folder
    public static void main(String[] args) throws InterruptedException {
        if (!(Store.open(Path.of(args[0]), Store.Mode.WRITE, InstantSource.system())
                instanceof Store.Opening.Opened opened)) {
            System.exit(3);
            return;
        }
        try (Store store = opened.store()) {
            for (int i = 0; i < LINES; i++) {
                record(store, "Box " + i);
            }
        }
    }

    private static void record(Store store, String label) throws InterruptedException {
        for (int tries = 0; tries < MOST_TRIES; tries++) {
            try {
                store.desk()
                        .record(
                                0,
                                "",
                                book -> new HuntEvent.BoxAdded(
                                        book.hunt().nextBox(), Denomination.US_CENT, BoxDetails.plain(label, 50, 50)));
                return;
            } catch (JournalException e) {
                System.out.println("refused " + label + ": " + e.getMessage());
                Thread.sleep(2);
            }
        }
        System.exit(4);
    }
}
