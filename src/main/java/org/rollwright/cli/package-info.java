/// Commands: arguments in, data to standard output, talk to standard error, exit codes in one place
/// ([ExitCode]).
@NullMarked
package org.rollwright.cli;

import org.jspecify.annotations.NullMarked;
