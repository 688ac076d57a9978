package org.rollwright.cabinet;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Grade;
import org.rollwright.journal.Word;

/// What the cabinet knows of one coin beyond its find.
///
/// @param description as told for this coin, null while its find's words hold
/// @param gradeUpTo upper end where the grade is a range
/// @param place where it lies, null when nobody said
/// @param stays where it lay, the earliest first, the present place last
/// @param gone how it left, null while it is here
/// @param submission at grading or back from it, null when never sent
public record CabinetNote(
        CoinRef coin,
        @Nullable CoinDescription description,
        @Nullable Grade gradeUpTo,
        @Nullable PlaceId place,
        List<Stay> stays,
        @Nullable Gone gone,
        @Nullable Submission submission) {
    /// Where it lay from when on; a null place is nowhere in particular.
    public record Stay(@Nullable PlaceId place, Instant since) {}

    /// How a coin left.
    public record Gone(Word<Leaving> how, @Nullable BigDecimal price, String to, LocalDate day) {}

    /// A coin sent to be graded.
    ///
    /// @param estimate own estimate before, 1 to 70
    /// @param outcome what came back, 0 while it is away or when it was refused
    public record Submission(double estimate, double outcome, BigDecimal cost, LocalDate day) {}

    public CabinetNote {
        stays = List.copyOf(stays);
    }

    static CabinetNote blank(CoinRef coin) {
        return new CabinetNote(coin, null, null, null, List.of(), null, null);
    }

    CabinetNote described(CoinDescription words, @Nullable Grade upTo) {
        return new CabinetNote(coin, words, upTo, place, stays, gone, submission);
    }

    CabinetNote put(@Nullable PlaceId where, Instant at) {
        List<Stay> all = new java.util.ArrayList<>(stays);
        all.add(new Stay(where, at));
        return new CabinetNote(coin, description, gradeUpTo, where, all, gone, submission);
    }

    CabinetNote left(@Nullable Gone how) {
        return new CabinetNote(coin, description, gradeUpTo, place, stays, how, submission);
    }

    CabinetNote submitted(Submission sent) {
        return new CabinetNote(coin, description, gradeUpTo, place, stays, gone, sent);
    }
}
