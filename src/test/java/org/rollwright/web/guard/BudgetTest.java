package org.rollwright.web.guard;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;

/// Memory that is lent for large requests.
class BudgetTest {
    private static Budget.Loan lent(Budget budget, long bytes) {
        return Objects.requireNonNull(budget.ask(bytes));
    }

    @Test
    void what_does_not_fit_stands_in_line_and_comes_in_turn() {
        Budget budget = new Budget(100, 8, 2);
        Budget.Loan first = lent(budget, 70);
        Budget.Loan second = lent(budget, 60);
        Budget.Loan third = lent(budget, 10);
        assertThat(budget.ask(1)).as("the line is full").isNull();
        assertThat(first.granted()).isCompleted();
        assertThat(second.granted()).isNotCompleted();
        assertThat(third.granted()).as("small ones do not push in").isNotCompleted();
        first.end();
        first.end();
        assertThat(second.granted()).isCompleted();
        assertThat(third.granted()).isCompleted();
        assertThat(budget.lent()).isEqualTo(70);
    }

    @Test
    void one_that_is_larger_than_all_there_is_comes_alone() {
        Budget budget = new Budget(100, 8, 2);
        Budget.Loan large = lent(budget, 1_000);
        assertThat(large.granted()).isCompleted();
        Budget.Loan small = lent(budget, 1);
        assertThat(small.granted()).isNotCompleted();
        large.end();
        assertThat(small.granted()).isCompleted();
    }

    /// Who will not wait any longer leaves the line and is lent nothing.
    @Test
    void who_gave_up_is_passed_over() {
        Budget budget = new Budget(100, 8, 3);
        Budget.Loan first = lent(budget, 100);
        Budget.Loan gaveUp = lent(budget, 100);
        Budget.Loan last = lent(budget, 100);
        gaveUp.granted().completeExceptionally(new IllegalStateException("tired"));
        first.end();
        assertThat(last.granted()).isCompleted();
        gaveUp.end();
        last.end();
        assertThat(budget.lent()).isZero();
        assertThat(budget.waiting()).isZero();
    }

    /// Seeded: whatever comes and goes, no more is lent than there is, and at the end nothing.
    @Test
    void never_more_is_lent_than_there_is() {
        Random random = new Random(20_261_127);
        Budget budget = new Budget(1_000, 5, 10);
        List<Budget.Loan> loans = new ArrayList<>();
        for (int i = 0; i < 20_000; i++) {
            if (random.nextBoolean()) {
                Budget.Loan loan = budget.ask(random.nextInt(1, 1_000));
                if (loan != null) {
                    loans.add(loan);
                }
            } else if (!loans.isEmpty()) {
                Budget.Loan loan = loans.remove(random.nextInt(loans.size()));
                if (random.nextInt(10) == 0) {
                    loan.granted().completeExceptionally(new IllegalStateException("tired"));
                }
                loan.end();
            }
            assertThat(budget.lent()).isBetween(0L, 1_000L);
        }
        loans.forEach(Budget.Loan::end);
        assertThat(budget.lent()).isZero();
        assertThat(budget.waiting()).isZero();
    }
}
