/// What a coin is: country, denomination, date, mint, grade, colour, metal, mass and diameter.
///
/// Values enter as what a person read off a coin or as catalogue figures and leave as records that refuse the
/// impossible. Every quantity carries its unit. Which coins exist is the business
/// of `catalog`, who found one is the business of `hunt`.
///
/// Knows: `text`; no file, no clock, no chance.
@NullMarked
package org.rollwright.coin;

import org.jspecify.annotations.NullMarked;
