package org.rollwright.calc;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/// The guide lists every calculator; the main method writes its line anew: bench/calculators.
class CalculatorListTest {
    private static final Path GUIDE = Path.of("docs/guide/commands.md");
    private static final Pattern LINE = Pattern.compile("(?m)^\\| `\\./run calc` \\|.*$");

    private static String line() {
        return "| `./run calc` | a model by itself, as on the page [Calculator](/odds/calc): " + Calculators.names()
                + " |";
    }

    @Test
    void the_guide_lists_every_calculator() throws IOException {
        assertThat(Files.readAllLines(GUIDE))
                .as("bench/calculators writes it anew")
                .contains(line());
    }

    public static void main(String[] args) throws IOException {
        Files.writeString(GUIDE, LINE.matcher(Files.readString(GUIDE)).replaceAll(Matcher.quoteReplacement(line())));
    }
}
