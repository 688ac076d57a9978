package org.rollwright.store;

import com.fasterxml.jackson.annotation.JsonAutoDetect;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.rollwright.album.AlbumId;
import org.rollwright.cabinet.PlaceId;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Country;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Mass;
import org.rollwright.coin.Mint;
import org.rollwright.desk.Books;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.HuntId;
import org.rollwright.journal.Event;
import org.rollwright.journal.Word;
import org.rollwright.scale.CountedPile;
import org.rollwright.scale.Cup;
import org.rollwright.till.Order;
import org.rollwright.till.OrderId;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.jsontype.NamedType;

/// Events as JSON. The names of events are part of the format and never change; see the test that pins them.
/// Thread-safe.
final class EventJson {
    private static final List<Class<? extends Event>> STEPS =
            List.of(Event.Batch.class, Event.Undone.class, Event.Redone.class);

    /// The name of every kind of event in the journal.
    static final Map<Class<? extends Event>, String> NAMES = names();

    private static final JsonMapper MAPPER = mapper();

    private EventJson() {}

    private static Map<Class<? extends Event>, String> names() {
        Map<Class<? extends Event>, String> names = new LinkedHashMap<>();
        for (Class<? extends Event> area : Books.AREAS) {
            for (Class<?> kind : area.getPermittedSubclasses()) {
                names.put(kind.asSubclass(Event.class), name(kind));
            }
        }
        for (Class<? extends Event> step : STEPS) {
            names.put(step, name(step));
        }
        return Map.copyOf(names);
    }

    /// `BoxAdded` is `box-added` in the journal.
    private static String name(Class<?> kind) {
        return kind.getSimpleName().replaceAll("(?<=[a-z])(?=[A-Z])", "-").toLowerCase(Locale.ROOT);
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
    private abstract static class WordMixin {
        @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
        WordMixin(String word) {}

        @JsonValue
        abstract String word();
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
                .addMixIn(OrderId.class, NumberMixin.class)
                .addMixIn(CountedPile.class, FactsMixin.class)
                .addMixIn(Cup.class, FactsMixin.class)
                .addMixIn(Order.class, FactsMixin.class)
                .addMixIn(Country.class, CodeMixin.class)
                .addMixIn(Mint.class, CodeMixin.class)
                .addMixIn(Word.class, WordMixin.class)
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
