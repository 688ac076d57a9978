/// Calculators: the models by themselves, for anyone with numbers in hand. [Calculators#ALL] is the table of contents.
///
/// What was said enters by the keys of fields, as JSON or as the text of a form; an answer in values and in sentences
/// leaves, or a refusal. Pages and commands are two doors to the same calculator, with the same bounds and the same
/// words. Nothing of what the hunter recorded enters.
///
/// Knows: `cabinet`, `coin`, `odds`, `scale`, `scope`, `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.calc;

import org.jspecify.annotations.NullMarked;
