package org.rollwright.entry.sheet.take;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.jspecify.annotations.Nullable;

/// What the library that reads cells does not tell of a workbook: hidden columns and rows, merged cells.
record WorkbookShape(Map<String, OfSheet> sheets, boolean tooLarge) {
    private static final Pattern RANGE = Pattern.compile("([A-Z]{1,3})([0-9]{1,7}):([A-Z]{1,3})([0-9]{1,7})");

    private static final OfSheet PLAIN = new OfSheet(Set.of(), Set.of(), List.of());

    /// A merged range: columns from 0, rows from 1.
    record Merge(int column, long row, int lastColumn, long lastRow) {}

    record OfSheet(Set<Integer> hiddenColumns, Set<Long> hiddenRows, List<Merge> merges) {
        boolean hiddenRow(long row) {
            return hiddenRows.contains(row);
        }

        boolean wide(long row) {
            return merges.stream().anyMatch(merge -> merge.row == row && merge.lastColumn - merge.column >= 2);
        }

        /// Cells merged downward: what stands in the first is true of all.
        List<Grid.Line> filledDown(List<Grid.Line> lines) {
            List<Grid.Line> filled = new ArrayList<>(lines);
            for (Merge merge : merges) {
                if (merge.lastRow == merge.row || merge.column != merge.lastColumn || merge.row > filled.size()) {
                    continue;
                }
                Grid.Cell first = filled.get((int) merge.row - 1).cell(merge.column);
                for (long row = merge.row + 1; row <= Math.min(merge.lastRow, filled.size()); row++) {
                    Grid.Line line = filled.get((int) row - 1);
                    if (!line.isBlank() && line.cell(merge.column).isBlank()) {
                        List<Grid.Cell> cells = new ArrayList<>(line.cells());
                        while (cells.size() <= merge.column) {
                            cells.add(Grid.Cell.BLANK);
                        }
                        cells.set(merge.column, first);
                        filled.set((int) row - 1, new Grid.Line(line.number(), line.hidden(), line.wide(), cells));
                    }
                }
            }
            return filled;
        }
    }

    OfSheet sheet(String name) {
        return sheets.getOrDefault(name, PLAIN);
    }

    /// @return null when it is no workbook
    static @Nullable WorkbookShape of(byte[] bytes, long most) {
        Map<String, byte[]> parts = new HashMap<>();
        long all = 0;
        try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(bytes))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                byte[] part = zip.readNBytes((int) (most - all) + 1);
                all += part.length;
                if (all > most) {
                    return new WorkbookShape(Map.of(), true);
                }
                String name = entry.getName();
                if (name.startsWith("xl/worksheets/") || name.equals("xl/workbook.xml") || name.endsWith(".rels")) {
                    parts.put(name, part);
                }
            }
            Map<String, OfSheet> sheets = new HashMap<>();
            byte[] book = parts.get("xl/workbook.xml");
            if (book == null) {
                return null;
            }
            Map<String, String> targets = new HashMap<>();
            each(parts.getOrDefault("xl/_rels/workbook.xml.rels", new byte[0]), (xml, element) -> {
                if (element.equals("Relationship")) {
                    targets.put(attribute(xml, "Id"), attribute(xml, "Target"));
                }
            });
            each(book, (xml, element) -> {
                if (element.equals("sheet")) {
                    String target = targets.getOrDefault(attribute(xml, "id"), "");
                    byte[] part = parts.get(target.startsWith("/") ? target.substring(1) : "xl/" + target);
                    sheets.put(attribute(xml, "name"), part == null ? PLAIN : shape(part));
                }
            });
            return new WorkbookShape(Map.copyOf(sheets), false);
        } catch (IOException | XMLStreamException | IllegalArgumentException e) {
            return null;
        }
    }

    private static OfSheet shape(byte[] part) throws XMLStreamException {
        Set<Integer> columns = new HashSet<>();
        Set<Long> rows = new HashSet<>();
        List<Merge> merges = new ArrayList<>();
        each(part, (xml, element) -> {
            boolean hidden = Set.of("1", "true").contains(attribute(xml, "hidden"));
            if (element.equals("col") && hidden) {
                int last = Math.min(number(attribute(xml, "max")), 300);
                for (int c = number(attribute(xml, "min")); c <= last; c++) {
                    columns.add(c - 1);
                }
            } else if (element.equals("row") && hidden) {
                rows.add((long) number(attribute(xml, "r")));
            } else if (element.equals("mergeCell")) {
                Matcher range = RANGE.matcher(attribute(xml, "ref"));
                if (range.matches()) {
                    merges.add(new Merge(
                            column(range.group(1)),
                            Long.parseLong(range.group(2)),
                            column(range.group(3)),
                            Long.parseLong(range.group(4))));
                }
            }
        });
        return new OfSheet(columns, rows, merges);
    }

    private static int number(String text) {
        return text.matches("[0-9]{1,8}") ? Integer.parseInt(text) : 1;
    }

    private static int column(String letters) {
        int column = 0;
        for (int i = 0; i < letters.length(); i++) {
            column = column * 26 + letters.charAt(i) - 'A' + 1;
        }
        return column - 1;
    }

    private interface Element {
        void at(XMLStreamReader xml, String name) throws XMLStreamException;
    }

    private static void each(byte[] part, Element then) throws XMLStreamException {
        if (part.length == 0) {
            return;
        }
        XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        XMLStreamReader xml = factory.createXMLStreamReader(new ByteArrayInputStream(part));
        while (xml.hasNext()) {
            if (xml.next() == XMLStreamConstants.START_ELEMENT) {
                then.at(xml, xml.getLocalName());
            }
        }
    }

    private static String attribute(XMLStreamReader xml, String name) {
        for (int i = 0; i < xml.getAttributeCount(); i++) {
            if (xml.getAttributeLocalName(i).equals(name)) {
                return xml.getAttributeValue(i);
            }
        }
        return "";
    }
}
