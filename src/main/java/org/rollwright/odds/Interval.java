package org.rollwright.odds;

/// A central interval.
///
/// @param low not above `high`
/// @param level probability it is meant to hold, such as 0.9
public record Interval(double low, double high, double level) {}
