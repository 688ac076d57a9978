/// What was recorded and what is known, looked up: albums, the cabinet, the till, odds, calculators, the catalogue.
@NullMarked
package org.rollwright.cli.books;

import org.jspecify.annotations.NullMarked;
