/// Varieties under the microscope: which there are, which of them a coin is, and what doubling moved. Rows of
/// the variety catalogue, answers given, points clicked and pixels enter; prompts, probabilities with a verdict
/// in words, motions with their residuals and aligned pictures leave. It must never know where a photograph
/// lies, nor call anything certain.
@NullMarked
package org.rollwright.scope;

import org.jspecify.annotations.NullMarked;
