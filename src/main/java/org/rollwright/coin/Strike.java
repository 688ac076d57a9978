package org.rollwright.coin;

/// How the coin was made: for circulation, as a proof, or as a specimen (satin or special set finish).
public enum Strike {
    BUSINESS,
    PROOF,
    SPECIMEN
}
