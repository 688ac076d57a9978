/// What is printed, and tables for other programs.
@NullMarked
package org.rollwright.web.paper;

import org.jspecify.annotations.NullMarked;
