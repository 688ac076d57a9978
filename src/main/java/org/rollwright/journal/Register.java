package org.rollwright.journal;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;

/// An immutable map in which the value written last lies on top: event after event changes the same hunt and the same
/// box, and only turning to another one touches the map below.
public final class Register<K, V> {
    private static final Register<?, ?> EMPTY = new Register<>(Growing.map(), null, null);

    /// May hold an older value of the key on top.
    private final Map<K, V> below;

    private final @Nullable K key;
    private final @Nullable V top;

    private Register(Map<K, V> below, @Nullable K key, @Nullable V top) {
        this.below = below;
        this.key = key;
        this.top = top;
    }

    @SuppressWarnings("unchecked") // nothing is in it
    public static <K, V> Register<K, V> empty() {
        return (Register<K, V>) EMPTY;
    }

    /// The values given, by keys of their own.
    public static <K, V> Register<K, V> of(Map<K, V> all) {
        return new Register<>(Growing.map(all), null, null);
    }

    public @Nullable V get(K wanted) {
        return wanted.equals(key) ? top : below.get(wanted);
    }

    /// The value of a key that must be there.
    ///
    /// @throws Contradiction when it is not
    public V known(K wanted, String what) {
        V value = get(wanted);
        if (value == null) {
            throw new Contradiction("there is no " + what + " " + wanted);
        }
        return value;
    }

    public boolean has(K wanted) {
        return get(wanted) != null;
    }

    public Register<K, V> with(K at, V value) {
        return new Register<>(at.equals(key) ? below : all(), at, value);
    }

    /// With the value of a key that is there changed.
    public Register<K, V> changed(K at, UnaryOperator<V> change) {
        V value = get(at);
        return value == null ? this : with(at, change.apply(value));
    }

    public Register<K, V> without(K gone) {
        return new Register<>(Growing.without(all(), gone), null, null);
    }

    /// Everything, in no order.
    public Map<K, V> all() {
        return key == null || top == null ? below : Growing.with(below, key, top);
    }

    /// All values, in no order.
    public Collection<V> values() {
        return all().values();
    }

    /// All values in an order.
    public List<V> sorted(Comparator<? super V> order) {
        return all().values().stream().sorted(order).toList();
    }
}
