/// The record of a search: boxes, rolls, what was watched for, and every find.
///
/// Its events enter ([HuntEvent]); its book ([HuntBook]) and what can be told from it leave. This room knows catalogue
/// and coins, but no prices, cash or photographs, no database, page or command.
@NullMarked
package org.rollwright.hunt;

import org.jspecify.annotations.NullMarked;
