package org.rollwright.desk;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.Set;
import java.util.stream.Stream;
import org.rollwright.journal.Event;

/// Every kind of event there is, found in the classes themselves and in no list of ours.
public final class EventKinds {
    private static final Set<Class<? extends Event>> ALL = found();

    private EventKinds() {}

    public static Set<Class<? extends Event>> all() {
        return ALL;
    }

    /// Looks at every class that lies where [Event] lies, without starting any.
    private static Set<Class<? extends Event>> found() {
        Path house = Path.of(URI.create(
                Event.class.getProtectionDomain().getCodeSource().getLocation().toString()));
        Set<Class<? extends Event>> found = new LinkedHashSet<>();
        try (Stream<Path> files = Files.walk(house.resolve("org/rollwright"))) {
            for (Path file :
                    files.filter(path -> path.toString().endsWith(".class")).toList()) {
                String name = house.relativize(file)
                        .toString()
                        .replaceAll("\\.class$", "")
                        .replaceAll("[/\\\\]", ".");
                Class<?> one = Class.forName(name, false, Event.class.getClassLoader());
                if (Event.class.isAssignableFrom(one) && one.isRecord()) {
                    found.add(one.asSubclass(Event.class));
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (ClassNotFoundException e) {
            throw new AssertionError(e);
        }
        return Set.copyOf(found);
    }
}
