/// The pages: served, opened in the browser, warmed up, backed up while they run.
@NullMarked
package org.rollwright.cli.serve;

import org.jspecify.annotations.NullMarked;
