package org.rollwright.till;

import static org.rollwright.text.Texts.t;

import java.util.Arrays;
import java.util.Optional;

/// What is booked by hand with one word.
public enum CashKind {
    DRAW(Account.OUTSIDE, Account.CASH),
    DEPOSIT(Account.CASH, Account.OUTSIDE),
    FEE(Account.CASH, Account.FEES),
    RETURNED(Account.TO_RETURN, Account.OUTSIDE),
    CASHED(Account.TO_RETURN, Account.CASH),
    COUNT_SHORT(Account.TO_RETURN, Account.SHORT),
    COUNT_OVER(Account.SHORT, Account.TO_RETURN),
    BOUGHT(Account.CASH, Account.BOXES),
    KEPT(Account.BOXES, Account.KEPT),
    ASIDE(Account.BOXES, Account.TO_RETURN);

    private final Account from;
    private final Account to;

    CashKind(Account from, Account to) {
        this.from = from;
        this.to = to;
    }

    public Account from() {
        return from;
    }

    public Account to() {
        return to;
    }

    /// The kind of a booking between two accounts.
    public static Optional<CashKind> between(Account from, Account to) {
        return Arrays.stream(values())
                .filter(kind -> kind.from == from && kind.to == to)
                .findFirst();
    }

    public String words() {
        return switch (this) {
            case DRAW -> t("till.drew-cash");
            case DEPOSIT -> t("till.deposited-cash");
            case FEE -> t("till.paid-a-fee");
            case RETURNED -> t("till.returned-coins-to-an-account");
            case CASHED -> t("till.returned-coins-for-cash");
            case COUNT_SHORT -> t("till.a-return-counted-short");
            case COUNT_OVER -> t("till.a-return-counted-over");
            case BOUGHT -> t("till.rolls-without-box");
            case KEPT -> t("till.kept-coins-of-such-rolls");
            case ASIDE -> t("till.set-such-rolls-aside");
        };
    }
}
