/// What the tool says, in one language: sentences found by a key, with values in their places.
///
/// Keys and values enter, sentences leave. The sentences stand in two files, so that a translator changes no
/// code: `texts/pages.properties` for pages and their scripts, `texts/sentences.properties` for what all other
/// rooms say. Marks such as `<b>` are the business of `web`.
///
/// Knows: no room; no file, no clock, no chance.
@NullMarked
package org.rollwright.text;

import org.jspecify.annotations.NullMarked;
