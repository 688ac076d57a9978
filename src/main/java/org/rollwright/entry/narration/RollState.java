package org.rollwright.entry.narration;

/// Where two voices are in the boxes, and what each has counted.
///
/// @param first place of the first voice: box times one more than the rolls of a box, and the roll
/// @param second place of the second voice
/// @param firstCount of the first voice, 0 before it counts
/// @param secondCount of the second voice
/// @param slipped whether a turn of the voices was missed
/// @param voice whose place counts, 0 or 1
record RollState(int first, int second, int firstCount, int secondCount, boolean slipped, int voice) {
    int place(int of) {
        return of == 0 ? first : second;
    }

    int count(int of) {
        return of == 0 ? firstCount : secondCount;
    }

    RollState slip() {
        return new RollState(first, second, firstCount, secondCount, !slipped, voice);
    }

    RollState at(int of, int place) {
        return of == 0
                ? new RollState(place, second, firstCount, secondCount, slipped, 0)
                : new RollState(first, place, firstCount, secondCount, slipped, 1);
    }

    RollState counted(int of, int count) {
        return of == 0
                ? new RollState(first, second, count, secondCount, slipped, voice)
                : new RollState(first, second, firstCount, count, slipped, voice);
    }
}
