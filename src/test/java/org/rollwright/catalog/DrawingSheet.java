package org.rollwright.catalog;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/// Writes every drawing onto a page, to be looked at: light and dark, in four sizes, and each with all its zones one by
/// one. `bench/drawings` runs it.
public final class DrawingSheet {
    private static final List<Integer> SIZES = List.of(24, 64, 160, 480);

    private DrawingSheet() {}

    public static void main(String[] args) throws IOException {
        Path folder = Path.of("target", "drawings");
        Files.createDirectories(folder);
        Catalog catalog = CatalogFolder.catalog();
        Map<String, Zones.Shown> faces = faces(catalog);
        for (String theme : List.of("light", "dark")) {
            for (int size : SIZES) {
                StringBuilder page = new StringBuilder(head(theme, size));
                for (Zones.Shown shown : faces.values()) {
                    page.append(figure(catalog, shown, List.of(), shown.face().name()));
                }
                Files.writeString(folder.resolve(theme + "-" + size + ".html"), page);
            }
            StringBuilder zones = new StringBuilder(head(theme, 160));
            for (Zones.Shown shown : faces.values()) {
                for (Zone zone : shown.face().zones()) {
                    zones.append(
                            figure(catalog, shown, List.of(zone), shown.face().name() + ": " + zone.name()));
                }
            }
            Files.writeString(folder.resolve(theme + "-zones.html"), zones);
        }
        System.out.println(faces.size() + " faces in " + folder);
    }

    /// Each face as the first coin that has it shows it.
    private static Map<String, Zones.Shown> faces(Catalog catalog) {
        Map<String, Zones.Shown> faces = new LinkedHashMap<>();
        for (Issue issue : catalog.issues()) {
            for (Side side : Side.values()) {
                catalog.zones()
                        .shown(issue, side)
                        .ifPresent(shown -> faces.putIfAbsent(shown.face().name(), shown));
            }
        }
        return faces;
    }

    private static String figure(Catalog catalog, Zones.Shown shown, List<Zone> zones, String words)
            throws IOException {
        return "<figure>" + catalog.drawing().of(ZonesTest.svg(shown.face()), shown, zones) + "<figcaption>" + words
                + "</figcaption></figure>\n";
    }

    private static String head(String theme, int size) throws IOException {
        return "<!DOCTYPE html><html lang=\"en\" data-theme=\"" + theme
                + "\"><meta charset=\"utf-8\"><title>Drawings</title>"
                + "<style>" + Files.readString(Path.of("src/main/resources/web/bench.css"))
                + "body{display:flex;flex-wrap:wrap;gap:8px;padding:8px}figure{margin:0;width:" + size
                + "px}figcaption{font-size:11px;overflow-wrap:anywhere"
                + (size < 100 ? ";display:none" : "") + "}</style>\n";
    }
}
