/// What every command stands on: the data folder opened, exit codes in one place ([ExitCode]), JSON, the log file.
@NullMarked
package org.rollwright.cli.shell;

import org.jspecify.annotations.NullMarked;
