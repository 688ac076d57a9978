/// Timings by JMH. They are run by hand (bench/jmh), never as tests.
@NullMarked
package org.rollwright.bench;

import org.jspecify.annotations.NullMarked;
