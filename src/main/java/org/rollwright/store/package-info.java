/// The journal on disk, snapshots, and the folders of the user.
///
/// Entries enter and are durable when the call returns: SQLite, one file, write-ahead log, full
/// synchronisation. Checksums cover the entry before, a mark outside the file says how far it had come, and a store
/// that is damaged is not written to (docs/decisions/0012-kept-for-good.md). SQL and file paths stay in here.
///
/// Knows not: `action`, `calc`, `cli`, `odds`, `recap`, `web`.
@NullMarked
package org.rollwright.store;

import org.jspecify.annotations.NullMarked;
