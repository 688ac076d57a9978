package org.rollwright.till;

/// The number of an order, counted from 1 over the whole journal; printed as the number it is.
public record OrderId(long number) {
    @Override
    public String toString() {
        return Long.toString(number);
    }
}
