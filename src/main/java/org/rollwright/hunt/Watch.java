package org.rollwright.hunt;

import org.rollwright.journal.Prose;

/// Something being looked for: only what was watched for can later be counted as absent.
///
/// @param name short name, unique within a hunt: `wheat`; a watch that is typed as a rule is called by it
/// @param rule a rule of [org.rollwright.catalog.Selection], kept with the hunt so that a later change of the
///     catalogue's names does not change what was searched for
public record Watch(@Prose String name, String rule) {}
