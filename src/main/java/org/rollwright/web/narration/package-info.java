/// From a narration to its log, and what was learned of the hunter's voice.
@NullMarked
package org.rollwright.web.narration;

import org.jspecify.annotations.NullMarked;
