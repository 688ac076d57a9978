package org.rollwright.till;

/// Whether a box that showed nothing at all is one's own returned coins, by Bayes' rule: a box of one's own
/// rejects always shows nothing, another one only by chance.
///
/// @param prior chance, before opening, that a box from there is one's own return, 0 to 1
/// @param none chance that another box from there shows nothing, 0 to 1, from the hunter's own yields
/// @param chance that this one is one's own return
public record OwnRejects(double prior, double none, double chance) {
    /// Days within which a returned box is thought likely to come round again; ours, common practice has no
    /// figure.
    public static final int DAYS = 90;

    /// @throws IllegalArgumentException when a chance lies outside 0 to 1
    public static OwnRejects of(double prior, double none) {
        if (!(prior >= 0) || prior > 1 || !(none >= 0) || none > 1) {
            throw new IllegalArgumentException("a chance lies between 0 and 1, was " + prior + " and " + none);
        }
        double either = prior + (1 - prior) * none;
        return new OwnRejects(prior, none, either == 0 ? 0 : prior / either);
    }
}
