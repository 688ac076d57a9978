package org.rollwright.scope;

import static org.rollwright.text.Texts.t;

import org.rollwright.journal.Word;

/// How sure an attribution is.
public enum VerdictWord implements Word.Listed {
    SUSPECTED("suspected"),
    PROBABLE("probable"),
    MATCHED("matched"),
    CONFIRMED("confirmed"),
    ORDINARY("ordinary"),
    LOOKS_LIKE_SOMETHING_ELSE("looks like something else"),
    OPEN("open");

    private final String word;

    VerdictWord(String word) {
        this.word = word;
    }

    @Override
    public String word() {
        return word;
    }

    /// Whether the variety counts as found.
    public boolean countsAsFound() {
        return this == PROBABLE || this == MATCHED || this == CONFIRMED;
    }

    /// In the language of the pages.
    public String said() {
        return switch (this) {
            case SUSPECTED -> t("scope.suspected");
            case PROBABLE -> t("scope.probable");
            case MATCHED -> t("scope.matched");
            case CONFIRMED -> t("scope.confirmed");
            case ORDINARY -> t("scope.ordinary");
            case LOOKS_LIKE_SOMETHING_ELSE -> t("scope.looks-like-something-else");
            case OPEN -> t("scope.open");
        };
    }

    /// When it is given, for people.
    public String rule() {
        return switch (this) {
            case SUSPECTED -> t("scope.one-leads");
            case PROBABLE -> t("scope.at-least-8-in-10");
            case MATCHED -> t("scope.sure-variety");
            case CONFIRMED -> t("scope.matched-compared");
            case ORDINARY -> t("scope.sure-ordinary");
            case LOOKS_LIKE_SOMETHING_ELSE -> t("scope.other-cause");
            case OPEN -> t("scope.none-of-these-yet");
        };
    }
}
