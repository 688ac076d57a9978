package org.rollwright.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.AclEntry;
import java.nio.file.attribute.AclEntryPermission;
import java.nio.file.attribute.AclEntryType;
import java.nio.file.attribute.AclFileAttributeView;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/// Files that survive a power cut and that nobody else can read.
///
/// A file is written under another name, synchronised, renamed, and its folder synchronised: a name never stands
/// for half a file, and once a method returns, the file is there after a power cut. Folders are the owner's alone
/// (700), files too (600); on Windows the owner is the only one in the access list.
final class Disk {
    private static final Set<PosixFilePermission> FOLDER = PosixFilePermissions.fromString("rwx------");
    private static final Set<PosixFilePermission> FILE = PosixFilePermissions.fromString("rw-------");
    private static final String PART = ".part";
    /// Bytes: an empty store, its log and the index of that.
    private static final long LEAST_SPACE = 250_000;

    private Disk() {}

    /// Makes a folder and those above it where they are missing; what it made is the owner's alone.
    static void makeFolder(Path folder) throws IOException {
        if (Files.isDirectory(folder)) {
            return;
        }
        Path parent = folder.toAbsolutePath().getParent();
        if (parent != null) {
            makeFolder(parent);
        }
        try {
            Files.createDirectory(folder);
        } catch (java.nio.file.FileAlreadyExistsException e) {
            if (!Files.isDirectory(folder)) {
                throw e;
            }
            return;
        }
        makePrivate(folder);
        if (parent != null) {
            sync(parent);
        }
    }

    /// Makes the folder a file is to lie in, as [#makeFolder(Path)].
    static void makeFolderOf(Path file) throws IOException {
        Path parent = file.toAbsolutePath().getParent();
        if (parent != null) {
            makeFolder(parent);
        }
    }

    /// Writes a file whole, in place of an earlier one of that name.
    static void write(Path file, byte[] bytes) throws IOException {
        replace(file, part -> {
            try (FileChannel channel = create(part)) {
                ByteBuffer buffer = ByteBuffer.wrap(bytes);
                while (buffer.hasRemaining()) {
                    channel.write(buffer);
                }
                channel.force(true);
            }
        });
    }

    /// Copies a file, in place of an earlier one of that name.
    static void copy(Path from, Path to) throws IOException {
        replace(to, part -> copyPlain(from, part));
    }

    /// Copies a file under its last name at once, for folders that are renamed as a whole or thrown away.
    static void copyPlain(Path from, Path to) throws IOException {
        try (FileChannel in = FileChannel.open(from, StandardOpenOption.READ);
                FileChannel out = create(to)) {
            long size = in.size();
            for (long done = 0; done < size; ) {
                long moved = in.transferTo(done, size - done, out);
                if (moved <= 0) {
                    throw new IOException(from + " became shorter while it was read");
                }
                done += moved;
            }
            out.force(true);
        }
    }

    /// Copies every file below a folder; nothing when there is no such folder.
    static void copyTree(Path from, Path to) throws IOException {
        if (!Files.isDirectory(from)) {
            return;
        }
        for (Path file : files(from)) {
            Path copy = to.resolve(from.relativize(file).toString());
            makeFolderOf(copy);
            copy(file, copy);
        }
    }

    /// Every file below a folder, in no order; empty when there is no such folder.
    static List<Path> files(Path folder) throws IOException {
        if (!Files.isDirectory(folder)) {
            return List.of();
        }
        try (Stream<Path> paths = Files.walk(folder)) {
            return paths.filter(Files::isRegularFile).toList();
        } catch (java.io.UncheckedIOException e) {
            throw e.getCause();
        }
    }

    /// Gives a file or a folder another name in the same folder or disk, for good.
    static void move(Path from, Path to) throws IOException {
        Files.move(from, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        syncParent(to);
        Path left = from.toAbsolutePath().getParent();
        if (left != null && !left.equals(to.toAbsolutePath().getParent())) {
            sync(left);
        }
    }

    /// An empty file that is the owner's alone from the first moment; one that is there is emptied.
    static FileChannel create(Path file) throws IOException {
        Set<StandardOpenOption> options =
                EnumSet.of(StandardOpenOption.CREATE, StandardOpenOption.WRITE, StandardOpenOption.TRUNCATE_EXISTING);
        if (isPosix(file)) {
            FileChannel channel = FileChannel.open(file, options, PosixFilePermissions.asFileAttribute(FILE));
            try {
                makePrivate(file);
            } catch (IOException e) {
                // a file made by somebody else: its folder keeps others out
            }
            return channel;
        }
        FileChannel channel = FileChannel.open(file, options);
        makePrivate(file);
        return channel;
    }

    /// Makes a file or folder the owner's alone, as far as the disk knows of owners.
    static void makePrivate(Path path) throws IOException {
        PosixFileAttributeView modes =
                Files.getFileAttributeView(path, PosixFileAttributeView.class, LinkOption.NOFOLLOW_LINKS);
        Set<PosixFilePermission> wanted = Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS) ? FOLDER : FILE;
        if (modes != null) {
            if (!modes.readAttributes().permissions().equals(wanted)) {
                modes.setPermissions(wanted);
            }
            return;
        }
        AclFileAttributeView list = Files.getFileAttributeView(path, AclFileAttributeView.class);
        if (list != null) {
            AclEntry owner = AclEntry.newBuilder()
                    .setType(AclEntryType.ALLOW)
                    .setPrincipal(list.getOwner())
                    .setPermissions(EnumSet.allOf(AclEntryPermission.class))
                    .build();
            list.setAcl(List.of(owner));
        }
    }

    /// Whether others than the owner may read a file or folder, as far as the disk tells.
    static boolean isOpenToOthers(Path path) {
        try {
            Set<PosixFilePermission> modes = Files.getPosixFilePermissions(path, LinkOption.NOFOLLOW_LINKS);
            return modes.stream().anyMatch(mode -> !FOLDER.contains(mode));
        } catch (IOException | UnsupportedOperationException e) {
            return false;
        }
    }

    /// Makes everything below a folder the owner's alone. What cannot be changed is left as it is.
    static void makePrivateBelow(Path folder) {
        try {
            Files.walkFileTree(folder, new SimpleFileVisitor<>() {
                @Override
                public FileVisitResult preVisitDirectory(Path path, BasicFileAttributes attributes) {
                    return mend(path);
                }

                @Override
                public FileVisitResult visitFile(Path path, BasicFileAttributes attributes) {
                    return attributes.isSymbolicLink() ? FileVisitResult.CONTINUE : mend(path);
                }

                @Override
                public FileVisitResult visitFileFailed(Path path, IOException e) {
                    return FileVisitResult.CONTINUE;
                }

                private FileVisitResult mend(Path path) {
                    try {
                        makePrivate(path);
                    } catch (IOException e) {
                        // somebody else's, or a disk that cannot be written to
                    }
                    return FileVisitResult.CONTINUE;
                }
            });
        } catch (IOException e) {
            // the visitor swallows what it meets
        }
    }

    /// Deletes a folder with everything in it, or a file; nothing when there is none.
    static void deleteAll(Path folder) throws IOException {
        if (Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
            try (Stream<Path> paths = Files.walk(folder)) {
                for (Path path : paths.sorted(Comparator.reverseOrder()).toList()) {
                    Files.deleteIfExists(path);
                }
            }
        }
    }

    /// As [#deleteAll(Path)], where what is left harms nothing.
    static void deleteQuietly(Path folder) {
        try {
            deleteAll(folder);
        } catch (IOException | java.io.UncheckedIOException e) {
            // what is left is counted as nothing by all who look
        }
    }

    /// Whether next to nothing fits on the disk of a folder any more.
    static boolean isFull(Path folder) {
        for (@Nullable Path there = folder.toAbsolutePath(); there != null; there = there.getParent()) {
            if (Files.isDirectory(there)) {
                try {
                    return Files.getFileStore(there).getUsableSpace() < LEAST_SPACE;
                } catch (IOException e) {
                    return false;
                }
            }
        }
        return false;
    }

    /// Whether a folder is missing or has nothing in it.
    static boolean isEmptyOrMissing(Path folder) {
        if (!Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
            return true;
        }
        try (Stream<Path> inside = Files.list(folder)) {
            return inside.findAny().isEmpty();
        } catch (IOException e) {
            return false;
        }
    }

    /// A file's bytes; empty when there is none or it cannot be read.
    static Optional<byte[]> bytes(Path file) {
        try {
            return Optional.of(Files.readAllBytes(file));
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    /// Makes the names in a folder durable. On systems that cannot open a folder (Windows) renames are ordered by
    /// the file system's own log.
    static void sync(Path folder) throws IOException {
        if (!isPosix(folder)) {
            return;
        }
        try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        }
    }

    static void syncParent(Path file) throws IOException {
        Path parent = file.toAbsolutePath().getParent();
        if (parent != null) {
            sync(parent);
        }
    }

    private static boolean isPosix(Path path) {
        return path.getFileSystem().supportedFileAttributeViews().contains("posix");
    }

    /// Fills a file under another name and then gives it its own.
    private static void replace(Path file, Filling filling) throws IOException {
        Path part = file.resolveSibling(file.getFileName() + PART);
        try {
            filling.fill(part);
            move(part, file);
        } catch (IOException e) {
            Files.deleteIfExists(part);
            throw e;
        }
    }

    private interface Filling {
        void fill(Path part) throws IOException;
    }
}
