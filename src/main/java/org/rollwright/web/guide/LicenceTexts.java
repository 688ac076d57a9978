package org.rollwright.web.guide;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.jar.Attributes;
import java.util.jar.JarEntry;
import java.util.jar.JarFile;
import java.util.jar.Manifest;
import java.util.regex.Pattern;

/// Licences and notices as the libraries carry them, each text once, under the names of all that carry it.
public final class LicenceTexts {
    private static final Pattern NAMED =
            Pattern.compile("(.*/)?(LICEN[CS]E|NOTICE|COPYING)([-.](?!class)[^/]*)?", Pattern.CASE_INSENSITIVE);

    private LicenceTexts() {}

    /// The short licences, then every text found in the libraries on the class path.
    public static String all() {
        Map<String, Set<String>> texts = new LinkedHashMap<>();
        for (Path library : libraries(System.getProperty("java.class.path", ""))) {
            try (JarFile jar = new JarFile(library.toFile())) {
                for (JarEntry entry : jar.stream()
                        .filter(one -> NAMED.matcher(one.getName()).matches())
                        .toList()) {
                    try (InputStream in = jar.getInputStream(entry)) {
                        String text = new String(in.readAllBytes(), StandardCharsets.UTF_8)
                                .replace("\r\n", "\n")
                                .strip();
                        texts.computeIfAbsent(text, key -> new TreeSet<>())
                                .add(name(library) + " (" + entry.getName().replaceAll(".*/", "") + ")");
                    }
                }
            } catch (IOException e) {
                // a library that cannot be read is named on the page all the same
            }
        }
        StringBuilder all = new StringBuilder(shortOnes());
        texts.forEach((text, names) -> all.append("\n\n")
                .append("=".repeat(118))
                .append('\n')
                .append(String.join("\n", names))
                .append("\n\n")
                .append(text)
                .append('\n'));
        return all.toString();
    }

    private static String name(Path library) {
        return String.valueOf(library.getFileName()).replaceAll("\\.jar$", "");
    }

    /// The jars of a class path and those that their manifests name.
    static List<Path> libraries(String classPath) {
        Set<Path> found = new LinkedHashSet<>();
        for (String part : classPath.split(Pattern.quote(File.pathSeparator))) {
            Path path = Path.of(part);
            if (part.endsWith(".jar") && Files.isRegularFile(path)) {
                found.add(path);
                named(path).stream().filter(Files::isRegularFile).forEach(found::add);
            }
        }
        return List.copyOf(found);
    }

    private static List<Path> named(Path jar) {
        try (JarFile open = new JarFile(jar.toFile())) {
            Manifest manifest = open.getManifest();
            String line = manifest == null ? null : manifest.getMainAttributes().getValue(Attributes.Name.CLASS_PATH);
            return line == null
                    ? List.of()
                    : Arrays.stream(line.split(" "))
                            .filter(one -> !one.isBlank() && !one.contains(":"))
                            .map(jar::resolveSibling)
                            .toList();
        } catch (IOException e) {
            return List.of();
        }
    }

    private static String shortOnes() {
        try (InputStream in = LicenceTexts.class.getResourceAsStream("/licences/short.txt")) {
            if (in == null) {
                throw new IllegalStateException("missing from the build: licences/short.txt");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8).strip();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
