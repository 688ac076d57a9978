package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.google.common.jimfs.Configuration;
import com.google.common.jimfs.Jimfs;
import java.io.IOException;
import java.nio.file.FileSystem;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.AclFileAttributeView;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/// Nobody else on the computer reads the record: POSIX modes 700 and 600, on Windows an access list with the owner.
class PrivacyTest {
    @TempDir
    private Path folder;

    @BeforeEach
    void posix() {
        assumeTrue(folder.getFileSystem().supportedFileAttributeViews().contains("posix"));
    }

    private static List<String> open(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(Disk::isOpenToOthers)
                    .map(path -> folder.relativize(path) + " " + mode(path))
                    .toList();
        }
    }

    private static String mode(Path path) {
        try {
            return PosixFilePermissions.toString(Files.getPosixFilePermissions(path));
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private Path filled() throws Exception {
        Path data = folder.resolve("data");
        try (Store store = Stores.open(data)) {
            Stores.add(store, 250);
            Stores.photograph(store, data);
            store.saveSnapshot();
            new Settings(data).choose(Map.of("region", "US"));
            new Backups(data.resolve("backups")).make(data, Stores.NOW);
            store.saveJournal(data.resolve("rollwright.text"));
            assertThat(open(data)).as("while it is open").isEmpty();
        }
        return data;
    }

    @Test
    void everything_made_is_the_owners_alone() throws Exception {
        Path data = filled();
        assertThat(open(data)).isEmpty();
        assertThat(mode(data)).isEqualTo("rwx------");
        assertThat(mode(data.resolve(Database.FILE))).isEqualTo("rw-------");
        Path again = folder.resolve("again");
        Backups backups = new Backups(data.resolve("backups"));
        backups.restore(backups.all().getFirst(), again);
        assertThat(open(again)).isEmpty();
    }

    @Test
    void what_an_earlier_version_left_open_is_mended_at_the_start() throws Exception {
        Path data = filled();
        try (Stream<Path> all = Files.walk(data)) {
            for (Path path : all.toList()) {
                Files.setPosixFilePermissions(
                        path, PosixFilePermissions.fromString(Files.isDirectory(path) ? "rwxr-xr-x" : "rw-r--r--"));
            }
        }
        assertThat(open(data)).isNotEmpty();
        Stores.open(data).close();
        assertThat(open(data)).isEmpty();
    }

    @Test
    void a_folder_that_holds_other_things_as_well_keeps_its_own_modes() throws Exception {
        Path shared = Files.createDirectory(folder.resolve("shared"));
        Files.setPosixFilePermissions(shared, PosixFilePermissions.fromString("rwxr-xr-x"));
        Path other = Files.writeString(shared.resolve("letter.txt"), "not ours");
        Files.setPosixFilePermissions(other, PosixFilePermissions.fromString("rw-r--r--"));
        Stores.open(shared).close();
        Stores.open(shared).close();
        assertThat(open(shared)).containsExactlyInAnyOrder(" rwxr-xr-x", "letter.txt rw-r--r--");
    }

    @Test
    void where_there_are_access_lists_the_owner_is_the_only_one_in_them() throws Exception {
        Configuration windows = Configuration.windows().toBuilder()
                .setAttributeViews("basic", "owner", "acl")
                .build();
        try (FileSystem system = Jimfs.newFileSystem(windows)) {
            Path made = system.getPath("C:\\coins\\data");
            Disk.makeFolder(made);
            Path file = made.resolve("settings.properties");
            Disk.create(file).close();
            for (Path path : List.of(made, file)) {
                AclFileAttributeView list = Files.getFileAttributeView(path, AclFileAttributeView.class);
                assertThat(list.getAcl())
                        .singleElement()
                        .satisfies(entry -> assertThat(entry.principal()).isEqualTo(list.getOwner()));
            }
        }
    }
}
