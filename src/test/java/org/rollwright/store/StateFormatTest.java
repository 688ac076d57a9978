package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.rollwright.desk.State;

/// Any image comes back as it was; damage is told and nothing else happens.
class StateFormatTest {
    @Property(tries = 60)
    void what_was_written_comes_back(@ForAll long seed) throws ReflectiveOperationException {
        State.Image image = (State.Image) any(State.Image.class, new Random(seed));
        assertThat(StateFormat.read(StateFormat.write(image))).isEqualTo(image);
    }

    @Property(tries = 60)
    void damage_is_told_or_gives_another_image(@ForAll long seed) throws ReflectiveOperationException {
        Random random = new Random(seed);
        byte[] bytes = StateFormat.write((State.Image) any(State.Image.class, random));
        for (int i = 0; i < 20; i++) {
            byte[] damaged = random.nextBoolean() ? Arrays.copyOf(bytes, random.nextInt(bytes.length)) : bytes.clone();
            if (damaged.length > 0) {
                damaged[random.nextInt(damaged.length)] ^= (byte) (1 << random.nextInt(8));
            }
            try {
                assertThat(StateFormat.read(damaged)).isNotNull();
            } catch (Unpacker.Damaged e) {
                assertThat(e).message().isNotBlank();
            }
        }
    }

    @Test
    void what_follows_the_end_and_what_ends_too_early_is_damage() {
        byte[] bytes = StateFormat.write(State.Image.of(State.EMPTY));
        assertThat(bytes.length).isLessThan(200);
        assertThatThrownBy(() -> StateFormat.read(Arrays.copyOf(bytes, bytes.length + 1)))
                .isInstanceOf(Unpacker.Damaged.class)
                .hasMessage("something follows the end");
        assertThatThrownBy(() -> StateFormat.read(new byte[0])).isInstanceOf(Unpacker.Damaged.class);
    }

    @Test
    void no_name_of_a_class_is_in_the_bytes() throws ReflectiveOperationException {
        for (int seed = 0; seed < 50; seed++) {
            byte[] bytes = StateFormat.write((State.Image) any(State.Image.class, new Random(seed)));
            assertThat(new String(bytes, StandardCharsets.ISO_8859_1)).doesNotContain("rollwright", "java.");
        }
    }

    private static final class One {
        enum Way {
            IN,
            OUT {
                @Override
                public String toString() {
                    return "in another language";
                }
            }
        }

        record Coin(String date, @Nullable String mint, List<String> notes) {}
    }

    private static final class Other {
        enum Way {
            IN,
            OUT,
            BACK
        }

        record Coin(String date, String mint, List<String> notes) {}
    }

    /// Whether a part may be missing is a bit in the bytes; how a word is shown to a person is nothing in them.
    @Test
    void what_a_type_is_told_by_is_what_the_bytes_depend_on() {
        assertThat(StateFormat.describe(One.Coin.class))
                .endsWith("[date:java.lang.String, mint:java.lang.String?, notes:java.util.List<java.lang.String>]");
        assertThat(StateFormat.describe(Other.Coin.class))
                .endsWith("[date:java.lang.String, mint:java.lang.String, notes:java.util.List<java.lang.String>]");
        assertThat(StateFormat.describe(One.Way.class)).endsWith("[IN, OUT]");
        assertThat(StateFormat.describe(Other.Way.class)).endsWith("[IN, OUT, BACK]");
    }

    /// Any value of a type of the image, nothing included where it may be missing.
    private static Object any(Type type, Random random) throws ReflectiveOperationException {
        if (type instanceof ParameterizedType generic) {
            if (generic.getRawType() instanceof Class<?> raw && raw.isRecord()) {
                return record(raw, random);
            }
            Type[] of = generic.getActualTypeArguments();
            int size = random.nextInt(4);
            if (generic.getRawType() == Map.class) {
                Map<Object, Object> map = new LinkedHashMap<>();
                for (int i = 0; i < size; i++) {
                    map.put(any(of[0], random), any(of[1], random));
                }
                return Map.copyOf(map);
            }
            List<Object> values = new ArrayList<>();
            for (int i = 0; i < size; i++) {
                values.add(any(of[0], random));
            }
            return generic.getRawType() == Set.class ? Set.copyOf(new LinkedHashSet<>(values)) : List.copyOf(values);
        }
        Class<?> kind = (Class<?>) type;
        if (kind.isRecord()) {
            return record(kind, random);
        }
        if (kind.isEnum()) {
            Object[] all = kind.getEnumConstants();
            return all[random.nextInt(all.length)];
        }
        return plain(kind, random);
    }

    private static Object plain(Class<?> kind, Random random) {
        if (kind == String.class) {
            return List.of("", "wheat", "36-D", "Münze ½", "\u0000\n", "box " + random.nextInt(5))
                    .get(random.nextInt(6));
        }
        if (kind == int.class || kind == Integer.class) {
            return random.nextInt(1, 3_000);
        }
        if (kind == long.class || kind == Long.class) {
            return random.nextLong(1, 1L << random.nextInt(1, 60));
        }
        if (kind == double.class) {
            return random.nextInt(1, 70) / 8.0;
        }
        if (kind == boolean.class) {
            return random.nextBoolean();
        }
        if (kind == Instant.class) {
            return Instant.ofEpochSecond(
                    random.nextLong(0, 4_000_000_000L), random.nextBoolean() ? 0 : random.nextInt(1_000_000_000));
        }
        if (kind == LocalDate.class) {
            return LocalDate.ofEpochDay(random.nextInt(-30_000, 60_000));
        }
        if (kind == BigDecimal.class) {
            return BigDecimal.valueOf(random.nextLong(0, 1_000_000), random.nextInt(0, 4));
        }
        throw new AssertionError("no value of " + kind);
    }

    /// Values a record refuses are tried again.
    private static Object record(Class<?> kind, Random random) throws ReflectiveOperationException {
        RecordComponent[] parts = kind.getRecordComponents();
        Class<?>[] types = Arrays.stream(parts).map(RecordComponent::getType).toArray(Class<?>[]::new);
        var constructor = kind.getDeclaredConstructor(types);
        constructor.setAccessible(true);
        int tries = 0;
        while (true) {
            @Nullable Object[] values = new Object[parts.length];
            for (int i : IntStream.range(0, parts.length).toArray()) {
                boolean mayMiss = parts[i].getAnnotatedType().isAnnotationPresent(Nullable.class);
                values[i] = mayMiss && random.nextInt(3) == 0 ? null : any(parts[i].getGenericType(), random);
                if (kind.getSimpleName().equals("Identity")
                        && parts[i].getName().equals("year")
                        && values[i] != null) {
                    values[i] = random.nextInt(1793, 2027);
                }
                if (kind.getSimpleName().equals("Grade")) {
                    values[i] = random.nextInt(1, 71);
                }
                if (kind.getSimpleName().equals("Country")) {
                    values[i] = random.nextBoolean() ? "US" : "CA";
                }
            }
            try {
                return constructor.newInstance(values);
            } catch (java.lang.reflect.InvocationTargetException e) {
                if (++tries > 200) {
                    throw e;
                }
            }
        }
    }
}
