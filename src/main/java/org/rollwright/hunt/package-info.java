/// The record of a search: boxes, rolls, what was watched for, and every find.
///
/// Events enter, each with its instant and the raw line that made it; the [Journal] keeps them and [Logbook]
/// folds them into the present state. [Desk] is the one place where an event becomes durable and then visible.
/// This room knows catalogue and coins, but no database, page or command; `store` gives it a journal that
/// survives a power cut.
@NullMarked
package org.rollwright.hunt;

import org.jspecify.annotations.NullMarked;
