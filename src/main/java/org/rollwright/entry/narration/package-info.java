/// What was said in a filmed hunt, read back from its captions. Bytes of a caption file and the catalogue
/// enter; proposed finds leave, each with its time, its roll, how sure it is and the words it came from.
/// Nothing is recorded here: the hunter confirms, and [org.rollwright.entry.Recorder] records. It must never
/// hear a sound.
@NullMarked
package org.rollwright.entry.narration;

import org.jspecify.annotations.NullMarked;
