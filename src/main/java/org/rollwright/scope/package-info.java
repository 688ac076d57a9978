/// Varieties under the microscope: which there are, which of them a coin is, and what doubling moved. Rows of
/// the variety catalogue, answers given, points clicked and pixels enter; prompts, probabilities with a verdict
/// in words, motions with their residuals and aligned pictures leave. It must never call anything certain.
///
/// Knows: `catalog`, `coin`, `hunt`, `journal`, `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.scope;

import org.jspecify.annotations.NullMarked;
