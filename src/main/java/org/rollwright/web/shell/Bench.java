package org.rollwright.web.shell;

import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.function.Supplier;
import org.rollwright.catalog.Catalog;
import org.rollwright.desk.Desk;
import org.rollwright.entry.Recorder;
import org.rollwright.entry.narration.OwnVoice;
import org.rollwright.scope.VarietyShelf;
import org.rollwright.scope.picture.PhotoShelf;

/// What the pages work on.
///
/// @param demo whether this is the invented demo series, which every page says
/// @param trouble what the hunter must know whichever page is open, above all a backup that fails; blank for none
/// @param stop ends the tool; returns at once
public record Bench(
        Desk desk,
        Catalog catalog,
        VarietyShelf varieties,
        PhotoShelf photos,
        Recorder recorder,
        OwnVoice voice,
        InstantSource clock,
        SettingsShelf settings,
        boolean demo,
        Supplier<String> trouble,
        Runnable stop) {
    /// Today where the computer stands.
    public LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), ZoneId.systemDefault());
    }

    /// What a page needs around its content.
    ///
    /// @param place which place in the tool is current, blank for none
    public Frame frame(String title, String place) {
        return new Frame(title, place, demo, trouble.get());
    }
}
