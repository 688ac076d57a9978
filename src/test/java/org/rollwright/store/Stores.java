package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.rollwright.coin.Denomination;
import org.rollwright.desk.Desk;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.scope.ScopeEvent;
import org.rollwright.scope.picture.PaintedCoin;
import org.rollwright.scope.picture.Photo;
import org.rollwright.scope.picture.PhotoReader;

/// Stores for tests, and what can happen to their files.
final class Stores {
    static final Instant NOW = Instant.parse("2026-03-01T19:00:00Z");

    private Stores() {}

    static Store open(Path folder) {
        Store.Opening opening = Store.open(folder, Store.Mode.WRITE, InstantSource.fixed(NOW));
        assertThat(opening).isInstanceOf(Store.Opening.Opened.class);
        return ((Store.Opening.Opened) opening).store();
    }

    /// What a person is told of a store that is not opened.
    static String refusal(Path folder) {
        Store.Opening opening = Store.open(folder, Store.Mode.WRITE, InstantSource.fixed(NOW));
        if (opening instanceof Store.Opening.Opened opened) {
            opened.store().close();
            throw new AssertionError("opened");
        }
        assertThat(opening).isInstanceOf(Store.Opening.Unusable.class);
        return ((Store.Opening.Unusable) opening).sentence();
    }

    static Desk.Outcome add(Store store, String label) {
        return store.desk()
                .record(
                        0,
                        label,
                        book -> new HuntEvent.BoxAdded(
                                book.hunt().nextBox(), Denomination.US_CENT, BoxDetails.plain(label, 50, 50)));
    }

    /// Adds boxes called "Box 1" and so on, one entry each, behind those there are.
    static void add(Store store, int count) {
        int before = labels(store).size();
        for (int i = 1; i <= count; i++) {
            assertThat(add(store, "Box " + (before + i))).isInstanceOf(Desk.Outcome.Kept.class);
        }
    }

    static List<String> labels(Store store) {
        return store.desk()
                .read(book -> book.hunt().boxes().stream()
                        .map(box -> box.details().label())
                        .toList());
    }

    /// "Box 1" to "Box COUNT".
    static List<String> boxes(int count) {
        return IntStream.rangeClosed(1, count).mapToObj(i -> "Box " + i).toList();
    }

    static List<String> labels(Path folder) {
        try (Store store = open(folder)) {
            return labels(store);
        }
    }

    static Photo photograph(Store store, Path folder) {
        return photograph(store, folder, 0);
    }

    /// @param number makes it another picture than the others
    static Photo photograph(Store store, Path folder, int number) {
        java.awt.image.BufferedImage painted = PaintedCoin.paint(null);
        painted.setRGB(3, 3, 0xff0000 | number * 37);
        painted.setRGB(40 + number, 40, 0x00ff00);
        if (!(PhotoReader.read(PaintedCoin.png(painted)) instanceof PhotoReader.Read.Good good)) {
            throw new AssertionError("refused");
        }
        Photo photo = good.photo();
        new PhotoFolder(folder).keep(photo);
        store.desk()
                .record(
                        0,
                        "",
                        book -> new ScopeEvent.PhotoKept(
                                photo.id(), photo.width(), photo.height(), PhotoSubject.BENCH, ""));
        return photo;
    }

    /// A copy of a folder as a killed process leaves it, while its store is open.
    static void copyAsKilled(Path from, Path to) throws IOException {
        try (Stream<Path> files = Files.walk(from)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                String name = from.relativize(file).toString();
                if (!name.endsWith("-shm")) {
                    Path copy = to.resolve(name);
                    Files.createDirectories(copy.getParent());
                    Files.copy(file, copy, java.nio.file.StandardCopyOption.REPLACE_EXISTING);
                }
            }
        }
    }

    static void flip(Path file, long bit) throws IOException {
        try (RandomAccessFile bytes = new RandomAccessFile(file.toFile(), "rw")) {
            bytes.seek(bit / 8);
            int old = bytes.read();
            bytes.seek(bit / 8);
            bytes.write(old ^ 1 << (int) (bit % 8));
        }
    }

    static List<Checkup.Finding> troubles(Path folder) {
        return Checkup.of(folder, NOW).stream()
                .filter(finding -> finding.weight() != Checkup.Weight.GOOD)
                .toList();
    }

    static List<Checkup.Finding> bad(Path folder) {
        return Checkup.of(folder, NOW).stream()
                .filter(finding -> finding.weight() == Checkup.Weight.BAD)
                .toList();
    }
}
