/// A hunt on the command line: the entry line, scripts and actions, boxes, narrations, the telling of it.
@NullMarked
package org.rollwright.cli.mat;

import org.jspecify.annotations.NullMarked;
