package org.rollwright;

import static org.assertj.core.api.Assertions.assertThat;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.resolve.DirectoryCodeResolver;
import java.io.File;
import java.io.IOException;
import java.io.StringWriter;
import java.lang.reflect.Constructor;
import java.lang.reflect.Method;
import java.net.MalformedURLException;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.commonmark.node.FencedCodeBlock;
import org.commonmark.node.Node;
import org.commonmark.node.Paragraph;
import org.commonmark.node.StrongEmphasis;
import org.commonmark.node.Text;
import org.commonmark.parser.Parser;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.catalog.CatalogLoader;
import org.rollwright.catalog.NamedText;
import org.rollwright.scope.VarietyBook;

/// The examples of docs/how-to are followed: a block below a path in bold is written, added or patched into that
/// file, beside the code and not in it; the result is compiled, read by our loaders, and its tests are run.
///
/// A `java` block or an `html` block (a template) is a whole file, a `csv` or `properties` block a whole file or lines
/// added to one, and a `diff` block pieces of a file, parted by `@@`, that must stand there as it says.
class HowToTest {
    private static final Path PAGES = Path.of("docs/how-to");

    /// Texts of the files as they are when all pages have been followed, by path.
    private static final Map<String, String> FOLLOWED = new TreeMap<>();

    private static final List<String> WRONG = new ArrayList<>();

    @BeforeAll
    static void follow() throws IOException {
        try (Stream<Path> pages = Files.list(PAGES)) {
            for (Path page : pages.filter(file -> file.toString().endsWith(".md"))
                    .sorted()
                    .toList()) {
                Node document = Parser.builder().build().parse(Files.readString(page));
                for (Node node = document.getFirstChild(); node != null; node = node.getNext()) {
                    if (node instanceof FencedCodeBlock block) {
                        follow(page, block);
                    }
                }
            }
        }
    }

    private static void follow(Path page, FencedCodeBlock block) throws IOException {
        String path = pathBefore(block);
        if (path.isEmpty()) {
            return;
        }
        Path file = Path.of(path);
        String before = FOLLOWED.getOrDefault(path, Files.exists(file) ? Files.readString(file) : "");
        String text = block.getLiteral();
        switch (block.getInfo()) {
            case "java", "html" -> {
                if (!before.isEmpty()) {
                    WRONG.add(page + ": " + path + " is there already; show what changes in it as a diff");
                }
                FOLLOWED.put(path, text);
            }
            case "csv", "properties" -> FOLLOWED.put(path, before + text);
            case "diff" -> FOLLOWED.put(path, patched(page + ": " + path, before, text));
            default ->
                WRONG.add(
                        page + ": a block below a path is java, html, csv, properties or diff, not " + block.getInfo());
        }
    }

    /// What stands in bold alone in front of a block.
    private static String pathBefore(Node block) {
        return block.getPrevious() instanceof Paragraph paragraph
                        && paragraph.getFirstChild() instanceof StrongEmphasis bold
                        && bold.getNext() == null
                        && bold.getFirstChild() instanceof Text text
                ? text.getLiteral()
                : "";
    }

    private static String patched(String where, String before, String diff) {
        String now = before;
        for (String piece : diff.split("(?m)^@@\n")) {
            String old = side(piece, '+');
            int at = now.indexOf(old);
            if (at < 0 || now.indexOf(old, at + 1) >= 0) {
                WRONG.add(where + (at < 0 ? " does not hold" : " holds more than once") + " these lines:\n" + old);
            } else {
                now = now.substring(0, at) + side(piece, '-') + now.substring(at + old.length());
            }
        }
        return now;
    }

    /// The lines of a piece without those that begin with a sign, and without the signs.
    private static String side(String piece, char without) {
        StringBuilder lines = new StringBuilder();
        piece.lines()
                .filter(line -> line.isEmpty() || line.charAt(0) != without)
                .forEach(line ->
                        lines.append(line.isEmpty() ? "" : line.substring(1)).append('\n'));
        return lines.toString();
    }

    @Test
    void pages_name_files_as_they_are() {
        assertThat(WRONG).isEmpty();
        assertThat(FOLLOWED).hasSizeGreaterThan(10);
    }

    @Test
    void rows_of_the_catalogue_are_read_without_a_problem() {
        Map<String, String> tables = new TreeMap<>();
        Map<String, String> varieties = new TreeMap<>();
        FOLLOWED.forEach((path, text) -> {
            if (path.startsWith("catalog/")) {
                (path.startsWith("catalog/varieties/") ? varieties : tables)
                        .put(path.substring("catalog/".length()), text);
            }
        });
        List<NamedText> files = new ArrayList<>();
        for (NamedText file : CatalogFolder.files()) {
            String followed = tables.remove(file.name());
            files.add(followed == null ? file : new NamedText(file.name(), followed));
        }
        tables.forEach((name, text) -> files.add(new NamedText(name, text)));
        CatalogLoader.Loaded loaded = CatalogLoader.load(files);
        assertThat(loaded.problems()).isEmpty();
        List<NamedText> books = new ArrayList<>();
        varieties.forEach((name, text) -> books.add(new NamedText(name, text)));
        assertThat(books).isNotEmpty();
        assertThat(VarietyBook.load(books, loaded.catalog()).problems()).isEmpty();
    }

    @Test
    void code_compiles_without_a_warning_and_its_tests_hold(@TempDir Path folder) throws Exception {
        List<Path> sources = new ArrayList<>();
        List<String> tests = new ArrayList<>();
        for (Map.Entry<String, String> file : FOLLOWED.entrySet()) {
            String path = file.getKey();
            boolean java = path.endsWith(".java");
            Path written = folder.resolve(path.replaceFirst("^src/main/resources/", ""));
            Files.createDirectories(written.getParent());
            Files.writeString(written, file.getValue());
            if (java) {
                sources.add(written);
            }
            if (java && path.startsWith("src/test/java/")) {
                tests.add(path.substring("src/test/java/".length(), path.length() - ".java".length())
                        .replace('/', '.'));
            }
        }
        sources.addAll(templates(folder));
        compile(sources, folder);
        assertThat(tests).isNotEmpty();
        try (OwnClasses loader = new OwnClasses(folder)) {
            for (String test : tests) {
                run(loader.loadClass(test));
            }
        }
    }

    /// Loads all of our classes and files anew, the followed ones first: a changed class must meet those that know it
    /// in one loader. Libraries stay as they are.
    private static final class OwnClasses extends URLClassLoader {
        OwnClasses(Path first) throws MalformedURLException {
            super(folders(first), HowToTest.class.getClassLoader());
        }

        private static URL[] folders(Path first) throws MalformedURLException {
            List<URL> folders = new ArrayList<>(List.of(first.toUri().toURL()));
            for (String part : System.getProperty("java.class.path").split(File.pathSeparator)) {
                if (Files.isDirectory(Path.of(part))) {
                    folders.add(Path.of(part).toUri().toURL());
                }
            }
            return folders.toArray(URL[]::new);
        }

        @Override
        protected Class<?> loadClass(String name, boolean resolve) throws ClassNotFoundException {
            if (!name.startsWith("org.rollwright.")) {
                return super.loadClass(name, resolve);
            }
            synchronized (getClassLoadingLock(name)) {
                Class<?> loaded = findLoadedClass(name);
                return loaded == null ? findClass(name) : loaded;
            }
        }

        @Override
        public @Nullable URL getResource(String name) {
            URL found = findResource(name);
            return found == null ? super.getResource(name) : found;
        }
    }

    /// The templates with the followed ones among them, as the build makes Java of them.
    private static List<Path> templates(Path folder) throws IOException {
        Path from = Path.of("src/main/jte");
        Path all = folder.resolve("templates");
        try (Stream<Path> files = Files.walk(from)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                Path copy = all.resolve(from.relativize(file));
                Files.createDirectories(copy.getParent());
                Files.copy(file, copy);
            }
        }
        for (Map.Entry<String, String> file : FOLLOWED.entrySet()) {
            if (file.getKey().endsWith(".jte")) {
                Path copy = all.resolve(from.relativize(Path.of(file.getKey())));
                Files.createDirectories(copy.getParent());
                Files.writeString(copy, file.getValue());
            }
        }
        Path made = folder.resolve("pages");
        TemplateEngine engine = TemplateEngine.create(
                new DirectoryCodeResolver(all), made, ContentType.Html, null, "org.rollwright.pages");
        engine.setTrimControlStructures(true);
        engine.setExtensions(Map.of("gg.jte.models.generator.ModelExtension", Map.of()));
        engine.generateAll();
        try (Stream<Path> files = Files.walk(made)) {
            return files.filter(file -> file.toString().endsWith(".java")).toList();
        }
    }

    private static void compile(List<Path> sources, Path into) throws IOException {
        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        StringWriter said = new StringWriter();
        try (StandardJavaFileManager files = compiler.getStandardFileManager(null, null, null)) {
            boolean good = compiler.getTask(
                            said,
                            files,
                            null,
                            List.of(
                                    "-proc:none",
                                    "-parameters",
                                    "-Werror",
                                    "-Xlint:all,-processing,-serial,-classfile,-requires-automatic",
                                    // helpers of the tests that nothing has compiled yet
                                    "-implicit:class",
                                    "-sourcepath",
                                    "src/test/java",
                                    "-cp",
                                    System.getProperty("java.class.path"),
                                    "-d",
                                    into.toString()),
                            null,
                            files.getJavaFileObjectsFromPaths(sources))
                    .call();
            assertThat(good).as(said.toString()).isTrue();
        }
    }

    private static void run(Class<?> test) throws ReflectiveOperationException {
        int run = 0;
        for (Method method : test.getDeclaredMethods()) {
            if (method.isAnnotationPresent(Test.class)) {
                Constructor<?> made = test.getDeclaredConstructor();
                made.setAccessible(true);
                Object instance = made.newInstance();
                method.setAccessible(true);
                method.invoke(instance);
                for (Method after : test.getDeclaredMethods()) {
                    if (after.isAnnotationPresent(AfterEach.class)) {
                        after.setAccessible(true);
                        after.invoke(instance);
                    }
                }
                run++;
            }
        }
        assertThat(run).as(test.getName()).isPositive();
    }
}
