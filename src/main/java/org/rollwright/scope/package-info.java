/// Varieties under the microscope: what doubling moved, and which variety a coin is. Points clicked and answers
/// given enter; motions with their residuals and probabilities leave. So far this room holds the mathematics
/// only: the catalogue of varieties, prompts and photographs have no page yet. It must never know where a
/// photograph lies, nor call anything certain.
@NullMarked
package org.rollwright.scope;

import org.jspecify.annotations.NullMarked;
