package org.rollwright.store;

import java.lang.reflect.Method;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.zip.CRC32;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.desk.State;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;

/// An image of the state as bytes. What is written follows from the records of [State.Image]: a part added to one of
/// them is written and read without a line here, and makes the format another.
///
/// A record is its parts in their order, each as the type it is declared with: no name of a class is ever in the
/// bytes, and nothing but those records can come out of them.
final class StateFormat {
    /// Raised when the same shape comes to mean something else.
    private static final String GENERATION = "2";

    /// Written once and named by number afterwards, so that equal values are one value in memory, too.
    private static final Set<Class<?>> SHARED =
            Set.of(Watch.class, Denomination.class, Identity.class, CoinDescription.class);

    /// Numbers, of which a state holds more than of anything else: made by plain calls.
    private static final Map<Class<?>, Part> NUMBERS = Map.of(
            FindId.class, new Plain((out, id) -> out.whole(((FindId) id).number()), in -> new FindId(in.whole())),
            HuntId.class, new Plain((out, id) -> out.whole(((HuntId) id).number()), in -> new HuntId(in.whole())),
            BoxId.class, new Plain((out, id) -> out.whole(((BoxId) id).number()), in -> new BoxId(in.whole())));

    private static final List<Class<?>> SHAPE = shape();

    /// Tells this shape from every other; a snapshot of another is of no use.
    static final int VERSION = version();

    /// How a value of a type is written and read.
    private interface Part {
        void write(Packer out, Object value);

        Object read(Unpacker in);
    }

    private StateFormat() {}

    static byte[] write(State.Image image) {
        Packer out = new Packer();
        new Parts().of(State.Image.class).write(out, image);
        return out.bytes();
    }

    /// @throws Unpacker.Damaged when the bytes are no image of this format
    static State.Image read(byte[] bytes) {
        Unpacker in = new Unpacker(bytes);
        try {
            State.Image image = (State.Image) new Parts().of(State.Image.class).read(in);
            if (!in.atEnd()) {
                throw new Unpacker.Damaged("something follows the end");
            }
            return image;
        } catch (IllegalArgumentException
                | DateTimeException
                | ArithmeticException
                | NullPointerException
                | ClassCastException e) {
            throw new Unpacker.Damaged("a value that cannot be", e);
        }
    }

    /// The parts of all types met, worked out once.
    private static final class Parts {
        private final Map<Type, Part> known = new HashMap<>();
        private final List<Class<?>> records =
                SHAPE.stream().filter(Class::isRecord).toList();
        private final Makers.Maker maker = Makers.of(records);

        Part of(Type type) {
            Part part = known.get(type);
            if (part == null) {
                part = made(type);
                known.put(type, part);
            }
            return part;
        }

        private Part made(Type type) {
            if (type instanceof ParameterizedType generic) {
                Type[] of = generic.getActualTypeArguments();
                if (generic.getRawType() == Map.class) {
                    return new Pairs(of(of[0]), of(of[1]));
                }
                if (generic.getRawType() != List.class && generic.getRawType() != Set.class) {
                    // a record whose parts do not depend on what it is of
                    return of(generic.getRawType());
                }
                return new Many(of(of[0]), generic.getRawType() == Set.class);
            }
            Class<?> kind = (Class<?>) type;
            Part number = NUMBERS.get(kind);
            if (number != null) {
                return number;
            }
            if (kind.isRecord()) {
                Part record = new Built(kind, this);
                return SHARED.contains(kind) ? new Shared(kind, record) : record;
            }
            return kind.isEnum() ? Word.of(kind) : plain(kind);
        }

        private static Part plain(Class<?> kind) {
            if (kind == int.class || kind == Integer.class) {
                return new Plain((out, value) -> out.whole((Integer) value), Unpacker::small);
            }
            if (kind == long.class || kind == Long.class) {
                return new Plain((out, value) -> out.whole((Long) value), Unpacker::whole);
            }
            if (kind == boolean.class) {
                return new Plain((out, value) -> out.flag((Boolean) value), Unpacker::flag);
            }
            if (kind == double.class) {
                return new Plain((out, value) -> out.real((Double) value), Unpacker::real);
            }
            if (kind == String.class) {
                return new Plain((out, value) -> out.text((String) value), Unpacker::text);
            }
            if (kind == Instant.class) {
                return new Plain((out, value) -> out.instant((Instant) value), Unpacker::instant);
            }
            if (kind == LocalDate.class) {
                return new Plain((out, value) -> out.day((LocalDate) value), Unpacker::day);
            }
            if (kind == BigDecimal.class) {
                return new Plain((out, value) -> out.decimal((BigDecimal) value), Unpacker::decimal);
            }
            throw new IllegalStateException("an image cannot hold a " + kind);
        }
    }

    private interface Written {
        void write(Packer out, Object value);
    }

    private interface Taken {
        Object read(Unpacker in);
    }

    private record Plain(Written written, Taken taken) implements Part {
        @Override
        public void write(Packer out, Object value) {
            written.write(out, value);
        }

        @Override
        public Object read(Unpacker in) {
            return taken.read(in);
        }
    }

    private record Word(Map<String, ?> words) implements Part {
        static Word of(Class<?> kind) {
            Map<String, Object> words = new HashMap<>();
            for (Object word : kind.getEnumConstants()) {
                words.put(((Enum<?>) word).name(), word);
            }
            return new Word(words);
        }

        @Override
        public void write(Packer out, Object value) {
            out.name((Enum<?>) value);
        }

        @Override
        public Object read(Unpacker in) {
            Object word = words.get(in.text());
            if (word == null) {
                throw new Unpacker.Damaged("a word that is none");
            }
            return word;
        }
    }

    private record Shared(Class<?> kind, Part part) implements Part {
        @Override
        public void write(Packer out, Object value) {
            out.shared(value, part::write);
        }

        @Override
        public Object read(Unpacker in) {
            Object value = in.shared(Object.class, part::read);
            if (!kind.isInstance(value)) {
                throw new Unpacker.Damaged("a value of another kind");
            }
            return value;
        }
    }

    private record Many(Part part, boolean set) implements Part {
        @Override
        public void write(Packer out, Object value) {
            out.all((Collection<?>) value, part::write);
        }

        @Override
        public Object read(Unpacker in) {
            List<Object> all = in.all(part::read);
            return set ? Set.copyOf(all) : all;
        }
    }

    private record Pairs(Part key, Part value) implements Part {
        @Override
        public void write(Packer out, Object map) {
            out.all(((Map<?, ?>) map).entrySet(), (to, entry) -> {
                key.write(to, entry.getKey());
                value.write(to, entry.getValue());
            });
        }

        @Override
        public Object read(Unpacker in) {
            Map<Object, Object> map = new HashMap<>();
            in.all(from -> {
                map.put(key.read(from), value.read(from));
                return 0;
            });
            return Map.copyOf(map);
        }
    }

    private static final class Built implements Part {
        private final int number;
        private final Makers.Maker maker;
        private final Method[] accessors;
        private final Part[] parts;
        private final boolean[] mayMiss;

        Built(Class<?> kind, Parts all) {
            RecordComponent[] components = kind.getRecordComponents();
            this.accessors = new Method[components.length];
            this.parts = new Part[components.length];
            this.mayMiss = new boolean[components.length];
            for (int i = 0; i < components.length; i++) {
                accessors[i] = components[i].getAccessor();
                accessors[i].setAccessible(true);
                parts[i] = all.of(components[i].getGenericType());
                mayMiss[i] = mayMiss(components[i]);
            }
            this.number = all.records.indexOf(kind);
            this.maker = all.maker;
        }

        @Override
        public void write(Packer out, Object record) {
            for (int i = 0; i < parts.length; i++) {
                Object value;
                try {
                    value = accessors[i].invoke(record);
                } catch (ReflectiveOperationException e) {
                    throw new IllegalStateException("a part cannot be looked at: " + accessors[i], e);
                }
                if (mayMiss[i]) {
                    out.flag(value != null);
                }
                if (value != null) {
                    parts[i].write(out, value);
                } else if (!mayMiss[i]) {
                    throw new IllegalStateException("nothing stands where something must: " + accessors[i]);
                }
            }
        }

        @Override
        public Object read(Unpacker in) {
            @Nullable Object[] values = new Object[parts.length];
            for (int i = 0; i < parts.length; i++) {
                values[i] = mayMiss[i] && !in.flag() ? null : parts[i].read(in);
            }
            return maker.make(number, values);
        }
    }

    /// The types an image is made of, in the order of their names.
    private static List<Class<?>> shape() {
        Set<Class<?>> found = new LinkedHashSet<>();
        walk(State.Image.class, found);
        Set<Class<?>> sorted = new TreeSet<>((one, other) -> one.getName().compareTo(other.getName()));
        sorted.addAll(found);
        return List.copyOf(sorted);
    }

    private static void walk(Type type, Set<Class<?>> found) {
        if (type instanceof ParameterizedType generic) {
            if (generic.getRawType() instanceof Class<?> kind && kind.isRecord()) {
                walk(kind, found);
            }
            Arrays.stream(generic.getActualTypeArguments()).forEach(part -> walk(part, found));
            walk(generic.getRawType(), found);
        } else if (type instanceof Class<?> kind && !kind.isPrimitive() && found.add(kind) && kind.isRecord()) {
            for (RecordComponent part : kind.getRecordComponents()) {
                walk(part.getGenericType(), found);
            }
        }
    }

    private static int version() {
        CRC32 sum = new CRC32();
        sum.update(GENERATION.getBytes(StandardCharsets.UTF_8));
        for (Class<?> type : SHAPE) {
            sum.update(describe(type).getBytes(StandardCharsets.UTF_8));
        }
        return (int) sum.getValue();
    }

    /// All about a type on which the bytes depend.
    static String describe(Class<?> type) {
        String parts = "";
        if (type.isRecord()) {
            parts = Arrays.stream(type.getRecordComponents())
                    .map(part ->
                            part.getName() + ":" + part.getGenericType().getTypeName() + (mayMiss(part) ? "?" : ""))
                    .toList()
                    .toString();
        } else if (type.isEnum()) {
            parts = Arrays.stream((Enum<?>[]) type.getEnumConstants())
                    .map(Enum::name)
                    .toList()
                    .toString();
        }
        return type.getName() + parts + (SHARED.contains(type) ? "=" : "") + (NUMBERS.containsKey(type) ? "#" : "");
    }

    private static boolean mayMiss(RecordComponent part) {
        return part.getAnnotatedType().isAnnotationPresent(Nullable.class);
    }
}
