package org.rollwright.store;

import com.esotericsoftware.kryo.Kryo;
import com.esotericsoftware.kryo.KryoException;
import com.esotericsoftware.kryo.Registration;
import com.esotericsoftware.kryo.Serializer;
import com.esotericsoftware.kryo.io.Input;
import com.esotericsoftware.kryo.io.Output;
import com.esotericsoftware.kryo.serializers.RecordSerializer;
import com.esotericsoftware.kryo.util.DefaultClassResolver;
import com.esotericsoftware.kryo.util.MapReferenceResolver;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.zip.CRC32;
import org.jspecify.annotations.Nullable;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Identity;
import org.rollwright.desk.State;

/// An image of the state as bytes. What is written follows from the records of [State.Image]: a part added to one of
/// them is written and read without a line here, and makes the format another.
///
/// Only those records, their enumerations and the plain types they hold can be read: no name of a class is ever in the
/// bytes.
final class StateFormat {
    /// Raised when the same shape comes to mean something else.
    private static final String GENERATION = "1";

    private static final List<Class<?>> SHAPE = shape();

    /// Tells this shape from every other; a snapshot of another is of no use.
    static final int VERSION = version();

    /// The bytes are not what they should be.
    static final class Damaged extends Exception {
        private static final long serialVersionUID = 1;

        Damaged(String message, @Nullable Throwable cause) {
            super(message, cause);
        }
    }

    private StateFormat() {}

    static byte[] write(State.Image image) {
        Output out = new Output(1 << 16, Integer.MAX_VALUE - 8);
        kryo().writeObject(out, image);
        return out.toBytes();
    }

    /// @throws Damaged when the bytes are no image of this format
    static State.Image read(byte[] bytes) throws Damaged {
        try {
            Input in = new Input(bytes);
            State.Image image = kryo().readObject(in, State.Image.class);
            if (!in.end()) {
                throw new Damaged("something follows the end", null);
            }
            return image;
        } catch (KryoException
                | IllegalArgumentException
                | DateTimeException
                | ArithmeticException
                | NullPointerException
                | ClassCastException
                | IndexOutOfBoundsException
                | NegativeArraySizeException e) {
            throw new Damaged("a value that cannot be", e);
        } catch (OutOfMemoryError e) {
            // one length that cannot be; nothing of it was kept
            throw new Damaged("a length that cannot be", e);
        }
    }

    static {
        // it warns otherwise that it will not be able to reach into memory for ever; nothing here wants it to
        System.setProperty("kryo.unsafe", "false");
    }

    private static Kryo kryo() {
        Kryo kryo = new Kryo(new Kinds(), new Shared());
        kryo.setRegistrationRequired(true);
        kryo.register(List.class, new Many<>(all -> List.copyOf(all)));
        kryo.register(Set.class, new Many<>(all -> Set.copyOf(all)));
        kryo.register(Map.class, new Pairs());
        for (Class<?> type : SHAPE) {
            if (type.isRecord()) {
                RecordSerializer<?> records = new RecordSerializer<>(type);
                records.setFixedFieldTypes(true);
                kryo.register(type, records);
            } else {
                kryo.register(type);
            }
        }
        return kryo;
    }

    /// Takes every list for a list, whoever made it.
    private static final class Kinds extends DefaultClassResolver {
        @Override
        @SuppressWarnings("rawtypes") // the library's own signature
        public Registration getRegistration(Class type) {
            if (List.class.isAssignableFrom(type)) {
                return super.getRegistration(List.class);
            }
            if (Set.class.isAssignableFrom(type)) {
                return super.getRegistration(Set.class);
            }
            return super.getRegistration(Map.class.isAssignableFrom(type) ? Map.class : type);
        }
    }

    /// Writes once what many hold: what every roll was searched for, and what coins of a date have in common.
    private static final class Shared extends MapReferenceResolver {
        @Override
        @SuppressWarnings("rawtypes") // the library's own signature
        public boolean useReferences(Class type) {
            return type == Identity.class || type == CoinDescription.class || List.class.isAssignableFrom(type);
        }
    }

    private static int length(Input in) {
        int length = in.readVarInt(true);
        if (length < 0 || length > in.limit() - in.position()) {
            throw new KryoException("more parts than bytes");
        }
        return length;
    }

    private static final class Many<C extends Collection<?>> extends Serializer<C> {
        private final Function<List<Object>, C> made;

        Many(Function<List<Object>, C> made) {
            this.made = made;
        }

        @Override
        public void write(Kryo kryo, Output out, C all) {
            out.writeVarInt(all.size(), true);
            all.forEach(one -> kryo.writeClassAndObject(out, one));
        }

        @Override
        public C read(Kryo kryo, Input in, Class<? extends C> type) {
            int length = length(in);
            List<Object> all = new ArrayList<>(length);
            for (int i = 0; i < length; i++) {
                all.add(kryo.readClassAndObject(in));
            }
            return made.apply(all);
        }
    }

    private static final class Pairs extends Serializer<Map<Object, Object>> {
        @Override
        public void write(Kryo kryo, Output out, Map<Object, Object> all) {
            out.writeVarInt(all.size(), true);
            all.forEach((key, value) -> {
                kryo.writeClassAndObject(out, key);
                kryo.writeClassAndObject(out, value);
            });
        }

        @Override
        public Map<Object, Object> read(Kryo kryo, Input in, Class<? extends Map<Object, Object>> type) {
            int length = length(in);
            Map<Object, Object> all = new HashMap<>();
            for (int i = 0; i < length; i++) {
                all.put(kryo.readClassAndObject(in), kryo.readClassAndObject(in));
            }
            return Map.copyOf(all);
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

    private static String describe(Class<?> type) {
        String parts = "";
        if (type.isRecord()) {
            parts = Arrays.stream(type.getRecordComponents())
                    .map(part -> part.getName() + ":" + part.getGenericType().getTypeName())
                    .toList()
                    .toString();
        } else if (type.isEnum()) {
            parts = Arrays.toString(type.getEnumConstants());
        }
        return type.getName() + parts;
    }
}
