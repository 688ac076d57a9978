/// The record's safety: backups, checks, salvage, and sheets of earlier boxes taken in.
@NullMarked
package org.rollwright.cli.keeping;

import org.jspecify.annotations.NullMarked;
