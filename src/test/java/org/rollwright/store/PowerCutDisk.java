package org.rollwright.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/// A folder as a process left it, call by call, and as a disk may hold it when the power is cut there: what was
/// synchronised is there; of the rest, something, nothing or everything.
final class PowerCutDisk {
    /// What makes the names in a folder last.
    enum Names {
        /// As the standard for such calls has it: a name lasts once its folder was synchronised. Of later
        /// changes any may be on the disk, each for itself.
        STRICT,
        /// As file systems with a journal do it: any synchronisation makes all changes of names before it last,
        /// and later ones reach the disk in their order.
        ORDERED
    }

    private static final int SECTOR = 512;
    private static final byte[] EMPTY = {};

    /// A write, or a new size when there are no bytes.
    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Change(long position, long at, byte @Nullable [] bytes) {}

    /// A file or folder, whatever its name.
    private static final class Node {
        final boolean folder;
        /// What is durable of a file.
        Content kept = new Content(EMPTY);
        /// What is not yet durable.
        List<Change> pending = new ArrayList<>();
        /// What the process sees, and what is durable, of a folder.
        final Map<String, Node> now = new TreeMap<>();

        final Map<String, Node> durable = new TreeMap<>();

        Node(boolean folder) {
            this.folder = folder;
        }
    }

    /// A name in a folder given to a file, or taken away.
    private record Part(Node folder, String name, @Nullable Node to) {}

    /// Changes of names that happen together or not at all.
    private record Edit(long position, List<Part> parts) {}

    private final Path root;
    private final Names names;
    private final @Nullable Pattern forgotten;
    private final Node top = new Node(true);
    private final Map<Integer, Node> open = new HashMap<>();
    private final Map<Node, String> lastName = new HashMap<>();
    private List<Edit> edits = new ArrayList<>();
    private long position;

    /// A disk that holds what a folder does, all of it durable.
    ///
    /// @param root what the folder is called in the log
    /// @param forgotten paths whose synchronisation this disk promises and does not do, null for none; that of a
    ///     folder ends in `/`
    PowerCutDisk(Path start, Path root, Names names, @Nullable Pattern forgotten) throws IOException {
        this.root = root;
        this.names = names;
        this.forgotten = forgotten;
        fill(top, start);
    }

    private static void fill(Node node, Path folder) throws IOException {
        try (Stream<Path> paths = Files.list(folder)) {
            for (Path path : paths.toList()) {
                Node child = new Node(Files.isDirectory(path));
                if (child.folder) {
                    fill(child, path);
                } else {
                    child.kept = new Content(Files.readAllBytes(path));
                }
                node.now.put(path.getFileName().toString(), child);
                node.durable.put(path.getFileName().toString(), child);
            }
        }
    }

    /// Takes the next call of the log.
    void apply(PowerCutLog.Call call) {
        switch (call) {
            case PowerCutLog.Opened opened -> opened(opened);
            case PowerCutLog.Closed closed -> open.remove(closed.fd());
            case PowerCutLog.Written written ->
                file(written.fd()).pending.add(new Change(position, written.at(), written.bytes()));
            case PowerCutLog.Resized resized -> {
                Node node = resized.path().isEmpty() ? file(resized.fd()) : node(resized.path());
                node.pending.add(new Change(position, resized.size(), null));
            }
            case PowerCutLog.Synchronised synchronised -> synchronise(file(synchronised.fd()), synchronised.before());
            case PowerCutLog.Renamed renamed -> {
                Node node = node(renamed.from());
                edit(new Part(parent(renamed.from()), name(renamed.from()), null), part(renamed.to(), node));
            }
            case PowerCutLog.Unlinked unlinked -> {
                node(unlinked.path());
                edit(new Part(parent(unlinked.path()), name(unlinked.path()), null));
            }
            case PowerCutLog.FolderMade made -> edit(part(made.path(), new Node(true)));
            case PowerCutLog.Linked linked -> edit(part(linked.to(), node(linked.from())));
            case PowerCutLog.Doubled doubled -> open.put(doubled.to(), file(doubled.from()));
            case PowerCutLog.Mapped mapped -> {
                if (!lastName.getOrDefault(file(mapped.fd()), "").endsWith("-shm")) {
                    throw new IllegalStateException(
                            lastName.get(file(mapped.fd())) + " is written through memory, which is not in the log");
                }
            }
            case PowerCutLog.Unknown unknown ->
                throw new IllegalStateException("a call the log does not tell: " + unknown);
            case PowerCutLog.Said said -> {
                // nothing on the disk
            }
        }
        position++;
    }

    private void opened(PowerCutLog.Opened opened) {
        Node node;
        if (opened.made()) {
            node = new Node(false);
            edit(part(opened.path(), node));
        } else {
            node = node(opened.path());
            if (opened.emptied()) {
                node.pending.add(new Change(position, 0, null));
            }
        }
        lastName.put(node, opened.path());
        open.put(opened.fd(), node);
    }

    private Part part(String path, Node node) {
        return new Part(parent(path), name(path), node);
    }

    private void edit(Part... parts) {
        for (Part part : parts) {
            apply(part, part.folder.now);
        }
        edits.add(new Edit(position, List.of(parts)));
    }

    private static void apply(Part part, Map<String, Node> names) {
        Node to = part.to;
        if (to == null) {
            names.remove(part.name);
        } else {
            names.put(part.name, to);
        }
    }

    private void synchronise(Node node, long before) {
        String name = lastName.getOrDefault(node, "") + (node.folder ? "/" : "");
        if (forgotten != null && forgotten.matcher(name).find()) {
            return;
        }
        List<Change> later = new ArrayList<>();
        for (Change change : node.pending) {
            if (change.position < before) {
                node.kept.apply(change, null, 1);
            } else {
                later.add(change);
            }
        }
        node.pending = later;
        List<Edit> rest = new ArrayList<>();
        for (Edit edit : edits) {
            boolean lasts = edit.position < before
                    && (names == Names.ORDERED || edit.parts.stream().anyMatch(part -> part.folder == node));
            if (lasts) {
                edit.parts.forEach(part -> apply(part, part.folder.durable));
            } else {
                rest.add(edit);
            }
        }
        edits = rest;
    }

    private Node file(int fd) {
        Node node = open.get(fd);
        if (node == null) {
            throw new IllegalStateException("descriptor " + fd + " was not opened, at " + position);
        }
        return node;
    }

    private Path relative(String path) {
        return root.relativize(Path.of(path).normalize());
    }

    private String name(String path) {
        return relative(path).getFileName().toString();
    }

    private Node parent(String path) {
        Path parent = relative(path).getParent();
        return parent == null ? top : node(root.resolve(parent).toString());
    }

    private Node node(String path) {
        Node node = top;
        Path relative = relative(path);
        if (!relative.toString().isEmpty()) {
            for (Path part : relative) {
                @Nullable Node child = node.now.get(part.toString());
                if (child == null) {
                    throw new IllegalStateException("the log names no such file before " + position + ": " + path);
                }
                node = child;
            }
        }
        return node;
    }

    /// Where the process's own view differs from a folder, but for shared memory of the database; empty when
    /// the log tells everything.
    Set<String> differences(Path folder) throws IOException {
        Map<String, byte[]> here = new TreeMap<>();
        collect(top, "", here);
        Map<String, byte[]> there = contents(folder);
        Set<String> different = new TreeSet<>(here.keySet());
        different.addAll(there.keySet());
        different.removeIf(name -> name.endsWith("-shm") || Arrays.equals(here.get(name), there.get(name)));
        return different;
    }

    private static void collect(Node node, String path, Map<String, byte[]> into) {
        if (node.folder) {
            into.put(path + "/", EMPTY);
            node.now.forEach((name, child) -> collect(child, path + "/" + name, into));
        } else {
            Content content = new Content(node.kept.bytes());
            node.pending.forEach(change -> content.apply(change, null, 1));
            into.put(path, content.bytes());
        }
    }

    /// Every file and folder of a folder, by its path in it; folders end in `/`.
    static Map<String, byte[]> contents(Path folder) throws IOException {
        Map<String, byte[]> found = new TreeMap<>();
        try (Stream<Path> paths = Files.walk(folder)) {
            for (Path path : paths.toList()) {
                String relative = folder.relativize(path).toString();
                String name = relative.isEmpty() ? "" : "/" + relative;
                if (Files.isDirectory(path)) {
                    found.put(name + "/", EMPTY);
                } else {
                    found.put(name, Files.readAllBytes(path));
                }
            }
        }
        return found;
    }

    /// Makes the folder that a disk may hold when the power is cut now.
    ///
    /// @param target made here
    /// @return in a few words, what became of what was not synchronised
    String cut(Path target, Random random) throws IOException {
        Map<Node, Map<String, Node>> listings = new HashMap<>();
        int how = random.nextInt(4);
        int most = how == 0 ? 0 : how == 1 ? edits.size() : random.nextInt(edits.size() + 1);
        boolean inOrder = names == Names.ORDERED || how < 3;
        int there = 0;
        for (int i = 0; i < edits.size(); i++) {
            boolean reached = inOrder ? i < most : random.nextBoolean();
            if (reached) {
                there++;
                for (Part part : edits.get(i).parts) {
                    apply(part, listings.computeIfAbsent(part.folder, folder -> new TreeMap<>(folder.durable)));
                }
            }
        }
        Manner manner = Manner.ALL_OF_THEM.get(random.nextInt(Manner.ALL_OF_THEM.size()));
        Files.createDirectories(target);
        build(top, target, listings, manner, random, new HashMap<>());
        return names + ", " + there + " of " + edits.size() + " changes of names, unsynchronised writes: " + manner;
    }

    /// What becomes of writes that were not synchronised.
    private enum Manner {
        NONE,
        ALL,
        /// Those up to some point, the last of them in part.
        FIRST,
        /// Any of their sectors.
        SECTORS,
        /// Of each file another of these.
        MIXED;

        static final List<Manner> ALL_OF_THEM = List.of(values());
    }

    private void build(
            Node node,
            Path path,
            Map<Node, Map<String, Node>> listings,
            Manner manner,
            Random random,
            Map<Node, byte[]> made)
            throws IOException {
        Map<String, Node> listing = listings.getOrDefault(node, node.durable);
        for (Map.Entry<String, Node> one : listing.entrySet()) {
            Path child = path.resolve(one.getKey());
            if (one.getValue().folder) {
                Files.createDirectory(child);
                build(one.getValue(), child, listings, manner, random, made);
            } else {
                byte[] bytes = made.get(one.getValue());
                if (bytes == null) {
                    bytes = content(one.getValue(), manner, random);
                    made.put(one.getValue(), bytes);
                }
                Files.write(child, bytes);
            }
        }
    }

    private static byte[] content(Node node, Manner all, Random random) {
        Content content = new Content(node.kept.bytes());
        Manner manner = all == Manner.MIXED ? Manner.ALL_OF_THEM.get(random.nextInt(4)) : all;
        switch (manner) {
            case NONE -> {
                // as it was synchronised
            }
            case ALL -> node.pending.forEach(change -> content.apply(change, null, 1));
            case FIRST -> {
                int most = random.nextInt(node.pending.size() + 1);
                node.pending.subList(0, most).forEach(change -> content.apply(change, null, 1));
                if (most < node.pending.size()) {
                    content.apply(node.pending.get(most), random, 0.5);
                }
            }
            case SECTORS, MIXED -> {
                double share = new double[] {0.1, 0.5, 0.9}[random.nextInt(3)];
                node.pending.forEach(change -> content.apply(change, random, share));
                // the size may be on the disk before what it promises
                if (random.nextBoolean()) {
                    content.lengthen(node.pending.stream()
                            .mapToLong(change -> change.bytes == null ? 0 : change.at + change.bytes.length)
                            .max()
                            .orElse(0));
                }
            }
        }
        return content.bytes();
    }

    /// Bytes of a file in the making, in an array that is this one's own.
    private static final class Content {
        private byte[] bytes;
        private int size;

        Content(byte[] bytes) {
            this.bytes = bytes;
            this.size = bytes.length;
        }

        byte[] bytes() {
            return Arrays.copyOf(bytes, size);
        }

        void lengthen(long wanted) {
            if (wanted > size) {
                if (wanted > bytes.length) {
                    bytes = Arrays.copyOf(bytes, Math.toIntExact(Math.max(wanted, 2L * bytes.length)));
                }
                Arrays.fill(bytes, size, (int) wanted, (byte) 0);
                size = (int) wanted;
            }
        }

        /// @param random null when all of it is to be there
        /// @param share how likely a sector is
        void apply(Change change, @Nullable Random random, double share) {
            byte[] written = change.bytes;
            if (written == null) {
                if (random == null || random.nextDouble() < share) {
                    lengthen(change.at);
                    size = (int) change.at;
                }
                return;
            }
            int from = 0;
            while (from < written.length) {
                long place = change.at + from;
                int to = (int) Math.min(written.length, from + SECTOR - place % SECTOR);
                if (random == null || random.nextDouble() < share) {
                    lengthen(place + to - from);
                    System.arraycopy(written, from, bytes, (int) place, to - from);
                }
                from = to;
            }
        }
    }
}
