/// Commands: arguments in, data to standard output, talk to standard error. [RootCommand] lists them; they stand
/// in rooms by what they are for, on a common shell.
@NullMarked
package org.rollwright.cli;

import org.jspecify.annotations.NullMarked;
