package org.rollwright.store;

import java.time.LocalDateTime;
import java.time.YearMonth;
import java.time.temporal.IsoFields;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/// Which backups stay: the newest ten, the newest of each of the last twelve weeks that have one, and the
/// newest of every month.
final class Rotation {
    private static final int NEWEST = 10;
    private static final int WEEKS = 12;

    private Rotation() {}

    /// @return those that may be deleted
    static List<LocalDateTime> superfluous(List<LocalDateTime> backups) {
        List<LocalDateTime> newest = new ArrayList<>(backups);
        newest.sort(Comparator.reverseOrder());
        Set<LocalDateTime> stay = new HashSet<>(newest.subList(0, Math.min(NEWEST, newest.size())));
        Set<String> weeks = new HashSet<>();
        Set<YearMonth> months = new HashSet<>();
        for (LocalDateTime one : newest) {
            String week = one.get(IsoFields.WEEK_BASED_YEAR) + "-" + one.get(IsoFields.WEEK_OF_WEEK_BASED_YEAR);
            if (weeks.size() < WEEKS && weeks.add(week)) {
                stay.add(one);
            }
            if (months.add(YearMonth.from(one))) {
                stay.add(one);
            }
        }
        return backups.stream().filter(one -> !stay.contains(one)).toList();
    }
}
