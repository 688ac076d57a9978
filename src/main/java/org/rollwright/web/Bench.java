package org.rollwright.web;

import java.time.InstantSource;
import org.rollwright.catalog.Catalog;
import org.rollwright.entry.Recorder;
import org.rollwright.entry.narration.Decoder;
import org.rollwright.hunt.Desk;
import org.rollwright.scope.VarietyShelf;
import org.rollwright.scope.picture.PhotoShelf;

/// What the pages work on.
///
/// @param demo whether this is the invented demo series, which every page says
/// @param stop ends the tool; returns at once
public record Bench(
        Desk desk,
        Catalog catalog,
        VarietyShelf varieties,
        PhotoShelf photos,
        Recorder recorder,
        Decoder decoder,
        InstantSource clock,
        SettingsShelf settings,
        boolean demo,
        Runnable stop) {}
