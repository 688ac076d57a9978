package org.rollwright.scope;

import static org.rollwright.text.Texts.t;

import java.util.Optional;
import org.rollwright.coin.Refusal;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.HuntBook;

/// Keeps contradictions about attributions, varieties and photographs out of the journal.
final class ScopeChecks {
    private ScopeChecks() {}

    static Optional<Refusal> refuse(ScopeBook book, ScopeEvent event, HuntBook hunts) {
        return switch (event) {
            case ScopeEvent.Attributed attributed -> find(hunts, attributed.find());
            case ScopeEvent.VarietyWritten written ->
                written.variety().isBlank()
                        ? Refusal.of(t("hunt.variety-key-missing"), t("hunt.give-it-a-name"))
                        : Optional.empty();
            case ScopeEvent.VarietyRemoved removed ->
                book.hasVariety(removed.variety())
                        ? Optional.empty()
                        : Refusal.of(t("hunt.variety-unknown", removed.variety()), t("hunt.variety-not-own"));
            case ScopeEvent.PhotoKept kept -> subject(hunts, kept.about());
            case ScopeEvent.PhotoTaken taken ->
                book.photos(taken.about()).stream()
                                .anyMatch(note -> note.photo().equals(taken.photo()))
                        ? Optional.empty()
                        : Refusal.of(t("hunt.photograph-gone"), t("hunt.page-look-again"));
        };
    }

    private static Optional<Refusal> find(HuntBook hunts, FindId id) {
        return hunts.find(id).isPresent()
                ? Optional.empty()
                : Refusal.of(t("hunt.find-unknown", id), t("hunt.find-struck-perhaps"));
    }

    private static Optional<Refusal> subject(HuntBook hunts, PhotoSubject about) {
        if (!about.kind().is(PhotoSubject.Kind.FIND)) {
            return Optional.empty();
        }
        return about.findId()
                .map(id -> find(hunts, id))
                .orElseGet(() -> Refusal.of(t("hunt.find-impossible", about.key()), t("hunt.photograph-open-find")));
    }
}
