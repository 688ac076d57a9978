package org.rollwright.catalog;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;

class SheetCellTest {
    /// Texts made of what matters here: signs of formulas in all widths, spaces, invisible characters, quotes.
    @Provide
    Arbitrary<String> texts() {
        return Arbitraries.of(
                        "=",
                        "+",
                        "-",
                        "@",
                        "＝",
                        "＋",
                        "－",
                        "＠",
                        "﹦",
                        "−",
                        "'",
                        "\"",
                        " ",
                        "\t",
                        "\r",
                        "\n",
                        "\r\n",
                        "\u00A0",
                        "\u3000",
                        "\u200B",
                        "\uFEFF",
                        ",",
                        ";",
                        "|",
                        "a",
                        "1",
                        "SUM(A1)",
                        "cmd|' /C x'!A0",
                        "é")
                .list()
                .ofMaxSize(5)
                .map(parts -> String.join("", parts));
    }

    @Property(tries = 3_000)
    void every_text_comes_back_as_it_went(@ForAll("texts") String text) {
        assertThat(SheetCell.in(SheetCell.out(text))).isEqualTo(text);
    }

    @Property(tries = 2_000)
    void any_text_at_all_comes_back_as_it_went(@ForAll String text) {
        assertThat(SheetCell.in(SheetCell.out(text))).isEqualTo(text);
    }

    /// A rule of its own: what stands first when spaces, controls and invisible characters are taken away, with the
    /// wide signs made narrow as Unicode does it.
    @Property(tries = 3_000)
    void no_spreadsheet_runs_what_goes_out(@ForAll("texts") String text) {
        String out = SheetCell.out(text);
        String narrow = java.text.Normalizer.normalize(out, java.text.Normalizer.Form.NFKC)
                .replace('−', '-')
                .replaceAll("^[\\s\\p{Z}\\p{C}]+", "");
        assertThat(out.equals("-") || narrow.isEmpty() || "=+-@".indexOf(narrow.charAt(0)) < 0)
                .as(out)
                .isTrue();
        assertThat(out.isEmpty() || "\t\r\n ".indexOf(out.charAt(0)) < 0)
                .as(out)
                .isTrue();
    }

    @Test
    void wide_signs_and_signs_behind_spaces_are_guarded_too() {
        for (String bad :
                List.of("＝1+1", "＋1", "－1", "＠SUM(A1)", "\t=1", "\r=1", "\n=1", " =1", "\u3000＝1", "\u200B=1")) {
            assertThat(SheetCell.out(bad)).isEqualTo("'" + bad);
        }
        assertThat(SheetCell.out("-")).isEqualTo("-");
        assertThat(SheetCell.out("1936-D")).isEqualTo("1936-D");
        assertThat(SheetCell.in("'tis no formula")).isEqualTo("'tis no formula");
    }
}
