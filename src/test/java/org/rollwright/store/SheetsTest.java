package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.rollwright.catalog.SheetCell;
import org.rollwright.entry.sheet.SheetRow;

class SheetsTest {
    @TempDir
    private Path folder;

    private Sheets.Read csv(String text, Charset charset) throws IOException {
        Path file = folder.resolve("old.csv");
        Files.writeString(file, text, charset);
        return Sheets.read(file);
    }

    private static List<SheetRow> rows(Sheets.Read read) {
        assertThat(read).isInstanceOf(Sheets.Read.Rows.class);
        return ((Sheets.Read.Rows) read).rows();
    }

    private static String sentence(Sheets.Read read) {
        assertThat(read).isInstanceOf(Sheets.Read.Unusable.class);
        return ((Sheets.Read.Unusable) read).sentence();
    }

    @Test
    void commas_semicolons_and_tabs_are_told_apart_and_quotes_keep_line_breaks() throws IOException {
        assertThat(rows(csv("Box;Wheats\n\"one;\ntwo\";3\n", StandardCharsets.UTF_8)))
                .containsExactly(new SheetRow(1, List.of("Box", "Wheats")), new SheetRow(2, List.of("one;\ntwo", "3")));
        assertThat(rows(csv("\uFEFFBox\tWheats\n1\t3\n", StandardCharsets.UTF_8))
                        .getFirst()
                        .cells())
                .containsExactly("Box", "Wheats");
        assertThat(rows(csv("Box,Wheats\n1,\"2,500\"\n", StandardCharsets.UTF_8))
                        .getLast()
                        .cells())
                .containsExactly("1", "2,500");
    }

    @Test
    void a_file_in_another_encoding_is_refused_whole() throws IOException {
        assertThat(sentence(csv("Box,Note\n1,d\u00e9j\u00e0 vu\n", StandardCharsets.ISO_8859_1)))
                .contains("UTF-8");
    }

    @Test
    void a_workbook_gives_its_first_sheet_with_dates_and_numbers_as_text() throws IOException {
        Path file = folder.resolve("old.xlsx");
        try (OutputStream out = Files.newOutputStream(file);
                ZipOutputStream zip = new ZipOutputStream(out)) {
            part(zip, "[Content_Types].xml", """
                    <Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
                    <Default Extension="xml" ContentType="application/xml"/>
                    <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
                    <Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>
                    <Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/>
                    </Types>""");
            part(zip, "xl/workbook.xml", """
                    <workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"
                    xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">
                    <sheets><sheet name="Boxes" sheetId="1" r:id="rId1"/></sheets></workbook>""");
            part(zip, "xl/_rels/workbook.xml.rels", """
                    <Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
                    <Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/>
                    <Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/>
                    </Relationships>""");
            part(zip, "xl/styles.xml", """
                    <styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">
                    <cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="14" applyNumberFormat="1"/></cellXfs></styleSheet>""");
            part(zip, "xl/worksheets/sheet1.xml", """
                    <worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>
                    <row r="1"><c r="A1" t="inlineStr"><is><t>Box</t></is></c><c r="B1" t="inlineStr"><is><t>Date</t></is></c><c r="C1" t="inlineStr"><is><t>Wheats</t></is></c></row>
                    <row r="2"><c r="A2"><v>7</v></c><c r="B2" s="1"><v>46145</v></c><c r="C2"><v>12</v></c></row>
                    <row r="4"><c r="A4"><v>8</v></c><c r="C4"><v>0</v></c></row>
                    </sheetData></worksheet>""");
        }
        // 46145 days after 1899-12-30 are 2026-05-03 (the date system of the file format, ECMA-376 part 1, 18.17.4)
        assertThat(rows(Sheets.read(file)))
                .containsExactly(
                        new SheetRow(1, List.of("Box", "Date", "Wheats")),
                        new SheetRow(2, List.of("7", "2026-05-03", "12")),
                        new SheetRow(4, List.of("8", "", "0")));
    }

    private static void part(ZipOutputStream zip, String name, String text) throws IOException {
        zip.putNextEntry(new ZipEntry(name));
        zip.write(text.getBytes(StandardCharsets.UTF_8));
        zip.closeEntry();
    }

    @Test
    void merged_cells_and_formulas_are_refused_with_their_place() throws IOException {
        Path merged = folder.resolve("merged.xlsx");
        try (OutputStream out = Files.newOutputStream(merged);
                org.dhatim.fastexcel.Workbook workbook = new org.dhatim.fastexcel.Workbook(out, "test", "1.0")) {
            org.dhatim.fastexcel.Worksheet sheet = workbook.newWorksheet("coins");
            sheet.value(0, 0, "year");
            sheet.value(1, 0, "1936");
            sheet.range(1, 0, 2, 0).merge();
        }
        assertThat(sentence(Sheets.read(merged))).contains("merged cells").contains("Split them");
        Path bomb = folder.resolve("bomb.xlsx");
        try (OutputStream out = Files.newOutputStream(bomb);
                org.dhatim.fastexcel.Workbook workbook = new org.dhatim.fastexcel.Workbook(out, "test", "1.0")) {
            org.dhatim.fastexcel.Worksheet sheet = workbook.newWorksheet("coins");
            sheet.value(0, 0, "year");
            sheet.formula(1, 0, "REPT(\"x\",1000000)&A2");
        }
        assertThat(sentence(Sheets.read(bomb))).contains("Cell A2 holds a formula");
    }

    @Test
    void what_is_no_spreadsheet_is_said_plainly() throws IOException {
        Path file = folder.resolve("old.xlsx");
        Files.writeString(file, "not a workbook");
        assertThat(sentence(Sheets.read(file))).contains("is none");
        Files.write(file, new byte[] {'P', 'K', 3, 4, 1, 2, 3});
        assertThat(sentence(Sheets.read(file))).contains("damaged");
        assertThat(sentence(Sheets.read(folder.resolve("none.csv")))).contains("no file");
        assertThat(sentence(csv("Box,Wheats\n" + "1,".repeat(300), StandardCharsets.UTF_8)))
                .contains("columns");
    }

    /// Written as a table and read back as one, in both kinds of file: signs of formulas in all widths, spaces, line
    /// breaks, quotes, letters of all sorts.
    @Test
    void what_goes_out_as_a_table_comes_back_the_same() throws IOException {
        List<String> parts = List.of(
                "=",
                "+",
                "-",
                "@",
                "＝",
                "＋",
                "－",
                "＠",
                "'",
                "\"",
                " ",
                "\t",
                "\n",
                "\r",
                "\r\n",
                "\u00A0",
                "\u3000",
                "\u200B",
                "\uFEFF",
                ",",
                ";",
                "a",
                "1",
                "SUM(A1)",
                "_x000D_",
                "<b>",
                "&amp;",
                "é",
                "\uD83E\uDE99",
                "שלום");
        Random random = new Random(20_261_127);
        List<List<String>> texts = new ArrayList<>();
        for (int i = 0; i < 400; i++) {
            List<String> row = new ArrayList<>();
            for (int c = 0; c < 3; c++) {
                StringBuilder text = new StringBuilder();
                for (int part = random.nextInt(6); part > 0; part--) {
                    text.append(parts.get(random.nextInt(parts.size())));
                }
                row.add(text.toString());
            }
            // a full last column, so that every row has all its cells
            row.add("end");
            texts.add(row);
        }
        for (String name : List.of("out.csv", "out.xlsx")) {
            Path file = folder.resolve(name);
            Tables.write(
                    file,
                    "coins",
                    List.of("one", "two", "three", "four"),
                    texts.stream()
                            .map(row -> row.stream().map(SheetCell::out).toList())
                            .toList());
            List<SheetRow> back = rows(Sheets.read(file));
            assertThat(back).as(name).hasSize(texts.size() + 1);
            for (int r = 0; r < texts.size(); r++) {
                List<String> cells =
                        back.get(r + 1).cells().stream().map(SheetCell::in).toList();
                assertThat(cells).as(name + ", row " + r).isEqualTo(texts.get(r));
            }
        }
    }

    @Test
    void a_number_without_end_in_a_workbook_does_not_fill_memory() throws IOException {
        Path file = folder.resolve("endless.xlsx");
        Tables.write(file, "coins", List.of("year"), List.of(List.of("1")));
        Path endless = folder.resolve("endless2.xlsx");
        try (java.util.zip.ZipFile zip = new java.util.zip.ZipFile(file.toFile());
                ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(endless))) {
            for (ZipEntry entry : java.util.Collections.list(zip.entries())) {
                out.putNextEntry(new ZipEntry(entry.getName()));
                byte[] bytes = zip.getInputStream(entry).readAllBytes();
                String text = new String(bytes, StandardCharsets.UTF_8);
                out.write(
                        entry.getName().endsWith("sheet1.xml")
                                ? text.replaceAll("<c r=\"A2\".*?</c>", "<c r=\"A2\"><v>1e99999999</v></c>")
                                        .getBytes(StandardCharsets.UTF_8)
                                : bytes);
            }
        }
        List<SheetRow> read = rows(Sheets.read(endless));
        assertThat(read.getLast().cells().getFirst().length()).isLessThan(100);
    }
}
