package org.rollwright.desk;

import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.rollwright.album.AlbumId;
import org.rollwright.cabinet.CoinRef;
import org.rollwright.cabinet.PlaceId;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Mint;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.journal.Event;
import org.rollwright.journal.Word;
import org.rollwright.scope.ScopeEvent;

/// Events of every kind, made from the shape of their records: numbers and words come from small pools, so that many
/// fit a state and many do not. A kind or a part added tomorrow is made, too.
final class AnyEvents {
    /// Kinds in an order that is the same in every run.
    static final List<Class<? extends Event>> KINDS = EventKinds.all().stream()
            .sorted(Comparator.comparing(Class::getName))
            .toList();

    /// Kinds that tell what happened, and can be part of a batch.
    static final List<Class<? extends Event>> PLAIN = KINDS.stream()
            .filter(kind -> kind.getDeclaringClass() != Event.class)
            .toList();

    private static final Map<String, List<String>> WORDS = Map.ofEntries(
            Map.entry("bearing", List.of("", "NE", "SW", "N", "up")),
            Map.entry("how", List.of("sold", "given", "bought")),
            Map.entry("PhotoSubject.kind", List.of("bench", "find", "variety")),
            Map.entry("PhotoSubject.key", List.of("1", "2", "3", "x")),
            Map.entry("Denomination.key", List.of("cent", "dime")),
            Map.entry("Country.code", List.of("US", "CA")),
            Map.entry("rule", List.of("series wheat", "metal copper")),
            Map.entry("design", List.of("")),
            Map.entry("kind", List.of("")),
            Map.entry("currency", List.of("USD")));

    private final Random random;
    private final State state;
    private final long scope;
    /// Numbers this step has given already.
    private long given;

    AnyEvents(Random random, State state, long scope) {
        this.random = random;
        this.state = state;
        this.scope = scope;
    }

    /// Some scope, the one a kind of event belongs to most of the time.
    static long scope(Random random, State state, Class<?> kind) {
        boolean outside = !HuntEvent.class.isAssignableFrom(kind) && !ScopeEvent.class.isAssignableFrom(kind);
        return random.nextInt(4) == 0 || (outside && random.nextInt(8) > 0)
                ? 0
                : random.nextInt(state.hunt().hunts().size() + 2);
    }

    /// Some event that is no step of the desk.
    Event plain() {
        return of(pick(PLAIN));
    }

    <T extends Event> T of(Class<T> kind) {
        return kind.cast(record(kind));
    }

    private <T> T pick(List<T> some) {
        return some.get(random.nextInt(some.size()));
    }

    private Object record(Class<?> kind) {
        for (int attempt = 0; ; attempt++) {
            try {
                List<Object> parts = new ArrayList<>();
                for (RecordComponent part : kind.getRecordComponents()) {
                    boolean none = part.getAnnotatedType().isAnnotationPresent(Nullable.class);
                    parts.add(none && random.nextInt(3) == 0 ? null : value(kind, part));
                }
                Constructor<?> constructor =
                        kind.getDeclaredConstructor(java.util.Arrays.stream(kind.getRecordComponents())
                                .map(RecordComponent::getType)
                                .toArray(Class<?>[]::new));
                constructor.setAccessible(true);
                return constructor.newInstance(parts.toArray());
            } catch (InvocationTargetException e) {
                // a record refuses the impossible by itself
                if (!(e.getCause() instanceof IllegalArgumentException) || attempt > 100) {
                    throw new AssertionError("no " + kind, e);
                }
            } catch (ReflectiveOperationException e) {
                throw new LinkageError("no " + kind, e);
            }
        }
    }

    private Object value(Class<?> owner, RecordComponent part) {
        return value(owner, part.getName(), part.getGenericType());
    }

    private Object value(Class<?> owner, String name, Type type) {
        if (type instanceof ParameterizedType many) {
            return many.getRawType() == Word.class ? word(many) : collection(owner, name, many);
        }
        Class<?> kind = (Class<?>) type;
        if (kind == String.class) {
            return pick(WORDS.getOrDefault(
                    owner.getSimpleName() + "." + name, WORDS.getOrDefault(name, List.of("", "a", "b", "a", "b"))));
        } else if (kind == long.class) {
            return name.equals("order") || name.equals("number")
                    ? number(state.till().nextOrder().number())
                    : pick(List.of(7_500L, 3L, 40L, 0L, -1L));
        } else if (kind == int.class || kind == Integer.class) {
            return whole(name);
        } else if (kind == double.class) {
            return name.equals("grams")
                    ? pick(List.of(0.1, 10.0, 30.0, 500.0, 90_000.0))
                    : pick(List.of(0.0, 0.5, 1.0, 12.0, 3_000.0));
        } else if (kind == boolean.class) {
            return random.nextInt(3) > 0;
        } else if (kind == BigDecimal.class) {
            return pick(List.of(
                    BigDecimal.ONE, BigDecimal.TEN, new BigDecimal("2.50"), BigDecimal.ZERO, new BigDecimal("-1")));
        } else if (kind == LocalDate.class) {
            return LocalDate.of(2026, 1, 1).plusDays(random.nextInt(9));
        } else if (kind == Instant.class) {
            return Histories.START.plusSeconds(random.nextInt(9));
        } else if (kind.isEnum()) {
            return pick(List.of(kind.getEnumConstants()));
        } else if (kind == Event.class) {
            return plain();
        } else if (kind == Grade.class) {
            return new Grade(pick(Grade.steps()));
        } else if (kind == Mint.class) {
            return pick(List.of(Mint.P, Mint.D));
        } else if (kind == CoinRef.class) {
            return coin();
        } else if (kind == HuntId.class) {
            return scope > 0 && random.nextInt(3) > 0
                    ? new HuntId(scope)
                    : new HuntId(number(state.hunt().nextHunt().number()));
        } else if (kind == BoxId.class) {
            return own(Hunt::boxes)
                    .orElseGet(() -> new BoxId(number(state.hunt().nextBox().number())));
        } else if (kind == FindId.class) {
            return own(Hunt::finds)
                    .orElseGet(() -> new FindId(number(state.hunt().nextFind().number())));
        } else if (kind == AlbumId.class) {
            return new AlbumId(number(state.album().nextAlbum().number()));
        } else if (kind == PlaceId.class) {
            return new PlaceId(number(state.cabinet().nextPlace().number()));
        }
        return record(kind);
    }

    /// One of the numbers that were given, or the next one.
    private long number(long next) {
        return random.nextInt(3) == 0 ? next + given++ : 1 + random.nextInt((int) next);
    }

    /// One of what the hunt of this scope has, most of the time.
    private <T> Optional<T> own(Function<Hunt, List<T>> all) {
        List<T> some = scope == 0
                ? List.of()
                : state.hunt().hunt(new HuntId(scope)).map(all).orElse(List.of());
        return some.isEmpty() || random.nextInt(3) == 0 ? Optional.empty() : Optional.of(pick(some));
    }

    private CoinRef coin() {
        List<org.rollwright.cabinet.OwnedCoin> held = state.holdings().coins();
        return switch (random.nextInt(3)) {
            case 0 -> state.cabinet().nextAdded();
            case 1 -> new CoinRef(random.nextInt(4), 1 + random.nextInt(3));
            default -> held.isEmpty() ? new CoinRef(0, 1) : pick(held).ref();
        };
    }

    private int whole(String name) {
        return switch (name) {
            case "year" -> 1940 + random.nextInt(3);
            case "roll" -> random.nextInt(53);
            case "rolls", "coinsPerRoll" -> pick(List.of(50, 50, 50, 20_000));
            case "looseCoins" -> 0;
            case "coins" -> pick(List.of(1, 2, 10, 40, 9));
            case "minutes", "leadDays" -> pick(List.of(0, 1, 2, 30, 3_000));
            default -> pick(List.of(1, 2, 3, 2, 3, 0, -1));
        };
    }

    /// A word of a fixed list, or one of another version.
    private Object word(ParameterizedType type) {
        List<String> words = new ArrayList<>();
        for (Object one : ((Class<?>) type.getActualTypeArguments()[0]).getEnumConstants()) {
            words.add(((Word.Listed) one).word());
        }
        words.add("odd");
        return new Word<>(pick(words));
    }

    private Object collection(Class<?> owner, String name, ParameterizedType type) {
        Class<?> raw = (Class<?>) type.getRawType();
        Type[] of = type.getActualTypeArguments();
        int size = random.nextInt(3);
        if (raw == Map.class) {
            Map<Object, Object> map = new HashMap<>();
            for (int i = 0; i < size; i++) {
                map.put(value(owner, "key of " + name, of[0]), value(owner, name, of[1]));
            }
            return map;
        }
        List<Object> list = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            list.add(value(owner, name, of[0]));
        }
        return raw == Set.class ? new HashSet<>(list) : list;
    }
}
