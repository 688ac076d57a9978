package org.rollwright.store;

import com.fasterxml.jackson.annotation.JsonAutoDetect;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.LinkedHashMap;
import java.util.Map;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Mass;
import org.rollwright.coin.Mint;
import org.rollwright.hunt.AlbumId;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.CountedPile;
import org.rollwright.hunt.Cup;
import org.rollwright.hunt.Event;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.PlaceId;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.jsontype.NamedType;

/// Events as JSON. The names of events are part of the format and never change; see the test that pins them.
/// Thread-safe.
final class EventJson {
    /// The name of every kind of event in the journal.
    static final Map<Class<? extends Event>, String> NAMES = names();

    private static final JsonMapper MAPPER = mapper();

    private EventJson() {}

    private static Map<Class<? extends Event>, String> names() {
        Map<Class<? extends Event>, String> names = new LinkedHashMap<>();
        names.put(Event.BoxAdded.class, "box-added");
        names.put(Event.BoxChanged.class, "box-changed");
        names.put(Event.HuntStarted.class, "hunt-started");
        names.put(Event.BoxJoined.class, "box-joined");
        names.put(Event.WatchBegan.class, "watch-began");
        names.put(Event.WatchEnded.class, "watch-ended");
        names.put(Event.RollOpened.class, "roll-opened");
        names.put(Event.RollCounted.class, "roll-counted");
        names.put(Event.RollLeft.class, "roll-left");
        names.put(Event.FindLogged.class, "find-logged");
        names.put(Event.FindCorrected.class, "find-corrected");
        names.put(Event.FindMoved.class, "find-moved");
        names.put(Event.FindSplit.class, "find-split");
        names.put(Event.FindDeleted.class, "find-deleted");
        names.put(Event.FindDisposed.class, "find-disposed");
        names.put(Event.EndersSeen.class, "enders-seen");
        names.put(Event.Weighed.class, "weighed");
        names.put(Event.Checked.class, "checked");
        names.put(Event.Attributed.class, "attributed");
        names.put(Event.VarietyWritten.class, "variety-written");
        names.put(Event.VarietyRemoved.class, "variety-removed");
        names.put(Event.PhotoKept.class, "photo-kept");
        names.put(Event.PhotoTaken.class, "photo-taken");
        names.put(Event.Marked.class, "marked");
        names.put(Event.Noted.class, "noted");
        names.put(Event.HuntFinished.class, "hunt-finished");
        names.put(Event.HuntResumed.class, "hunt-resumed");
        names.put(Event.OpeningBalance.class, "opening-balance");
        names.put(Event.BoxTallied.class, "box-tallied");
        names.put(Event.CoinAdded.class, "coin-added");
        names.put(Event.CoinAcquired.class, "coin-acquired");
        names.put(Event.CoinDescribed.class, "coin-described");
        names.put(Event.PlaceMade.class, "place-made");
        names.put(Event.PlaceRemoved.class, "place-removed");
        names.put(Event.CoinsPut.class, "coins-put");
        names.put(Event.CoinsLeft.class, "coins-left");
        names.put(Event.CoinSubmitted.class, "coin-submitted");
        names.put(Event.PriceNoted.class, "price-noted");
        names.put(Event.PriceForgotten.class, "price-forgotten");
        names.put(Event.CupBegun.class, "cup-begun");
        names.put(Event.CupRead.class, "cup-read");
        names.put(Event.PileCounted.class, "pile-counted");
        names.put(Event.MetalPriced.class, "metal-priced");
        names.put(Event.CashMoved.class, "cash-moved");
        names.put(Event.BranchWritten.class, "branch-written");
        names.put(Event.BranchRemoved.class, "branch-removed");
        names.put(Event.OrderPlaced.class, "order-placed");
        names.put(Event.OrderEnded.class, "order-ended");
        names.put(Event.EffortNoted.class, "effort-noted");
        names.put(Event.AlbumDefined.class, "album-defined");
        names.put(Event.AlbumRemoved.class, "album-removed");
        names.put(Event.HolesFilled.class, "holes-filled");
        names.put(Event.PolicyChanged.class, "policy-changed");
        names.put(Event.Batch.class, "batch");
        names.put(Event.Undone.class, "undone");
        names.put(Event.Redone.class, "redone");
        return Map.copyOf(names);
    }

    @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "type")
    private interface EventMixin {}

    /// `isDetails()` is a question, not a property.
    @JsonAutoDetect(isGetterVisibility = JsonAutoDetect.Visibility.NONE)
    private interface FactsMixin {}

    @SuppressWarnings("UnusedVariable") // Jackson matches the constructor by its parameter
    private abstract static class NumberMixin {
        @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
        NumberMixin(long number) {}

        @JsonValue
        abstract long number();
    }

    @SuppressWarnings("UnusedVariable") // Jackson matches the constructor by its parameter
    private abstract static class CodeMixin {
        @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
        CodeMixin(String code) {}

        @JsonValue
        abstract String code();
    }

    @SuppressWarnings("UnusedVariable") // Jackson matches the constructor by its parameter
    private abstract static class GradeMixin {
        @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
        GradeMixin(int points) {}

        @JsonValue
        abstract int points();
    }

    @SuppressWarnings("UnusedVariable") // Jackson matches the constructor by its parameter
    private abstract static class MassMixin {
        @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
        MassMixin(double grams) {}

        @JsonValue
        abstract double grams();
    }

    private static JsonMapper mapper() {
        JsonMapper.Builder builder = JsonMapper.builder()
                .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
                .changeDefaultPropertyInclusion(inclusion ->
                        JsonInclude.Value.construct(JsonInclude.Include.NON_NULL, JsonInclude.Include.NON_NULL))
                .addMixIn(Event.class, EventMixin.class)
                .addMixIn(CoinDescription.class, FactsMixin.class)
                .addMixIn(BoxId.class, NumberMixin.class)
                .addMixIn(HuntId.class, NumberMixin.class)
                .addMixIn(FindId.class, NumberMixin.class)
                .addMixIn(AlbumId.class, NumberMixin.class)
                .addMixIn(PlaceId.class, NumberMixin.class)
                .addMixIn(CountedPile.class, FactsMixin.class)
                .addMixIn(Cup.class, FactsMixin.class)
                .addMixIn(org.rollwright.hunt.Order.class, FactsMixin.class)
                .addMixIn(Country.class, CodeMixin.class)
                .addMixIn(Mint.class, CodeMixin.class)
                .addMixIn(Grade.class, GradeMixin.class)
                .addMixIn(Mass.class, MassMixin.class);
        NAMES.forEach((type, name) -> builder.registerSubtypes(new NamedType(type, name)));
        return builder.build();
    }

    static String write(Event event) {
        return MAPPER.writerFor(Event.class).writeValueAsString(event);
    }

    /// @throws JacksonException when the text is no event this version knows
    static Event read(String text) {
        return MAPPER.readValue(text, Event.class);
    }
}
