package org.rollwright.entry;

import java.util.List;
import org.rollwright.coin.Identity;
import org.rollwright.desk.State;

/// Names the varieties a coin is to be checked for, so that "checked, not it" counts as a trial for each.
@FunctionalInterface
public interface CheckList {
    /// For a bench without a catalogue of varieties.
    CheckList NONE = (book, coin) -> List.of();

    /// Keys of varieties; empty when there are none for this coin.
    List<String> of(State book, Identity coin);
}
