package org.rollwright.journal;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Predicate;
import kotlinx.collections.immutable.ExtensionsKt;
import kotlinx.collections.immutable.PersistentList;
import kotlinx.collections.immutable.PersistentMap;
import org.jspecify.annotations.Nullable;

/// Lists and maps of which a changed copy shares almost everything with the one before. They are read as any list or
/// map of Java; only here are they known to be more.
public final class Growing {
    private Growing() {}

    /// An empty list.
    public static <T> List<T> list() {
        return ExtensionsKt.persistentListOf();
    }

    /// A list that grows cheaply with what another holds; the same when it is one already.
    public static <T> List<T> list(Collection<? extends T> all) {
        return ExtensionsKt.toPersistentList(all);
    }

    /// With one more at its end.
    public static <T> List<T> plus(List<T> all, T one) {
        return growing(all).add(one);
    }

    /// With one more at a place.
    public static <T> List<T> plus(List<T> all, int at, T one) {
        return growing(all).add(at, one);
    }

    /// With another value at a place.
    public static <T> List<T> with(List<T> all, int at, T one) {
        return growing(all).set(at, one);
    }

    /// Without the last that equals one.
    public static <T> List<T> minusLast(List<T> all, T one) {
        int at = all.lastIndexOf(one);
        return at < 0 ? all : growing(all).removeAt(at);
    }

    /// Without those that are so.
    public static <T> List<T> without(List<T> all, Predicate<? super T> so) {
        List<T> left = new ArrayList<>(all);
        return left.removeIf(so) ? list(left) : all;
    }

    private static <T> PersistentList<T> growing(List<T> all) {
        return ExtensionsKt.toPersistentList(all);
    }

    /// An empty map.
    public static <K, V> Map<K, V> map() {
        return ExtensionsKt.persistentHashMapOf();
    }

    /// A map that grows cheaply with what another holds.
    public static <K, V> Map<K, V> map(Map<? extends K, ? extends V> all) {
        PersistentMap.Builder<K, V> builder =
                ExtensionsKt.<K, V>persistentHashMapOf().builder();
        builder.putAll(all);
        return builder.build();
    }

    /// A map of many values, by a key of their own.
    public static <K, V> Map<K, V> map(Collection<V> all, Function<V, K> key) {
        PersistentMap.Builder<K, V> builder =
                ExtensionsKt.<K, V>persistentHashMapOf().builder();
        all.forEach(one -> builder.put(key.apply(one), one));
        return builder.build();
    }

    /// With a value in place of the one before.
    public static <K, V> Map<K, V> with(Map<K, V> all, K key, V value) {
        return ((PersistentMap<K, V>) all).put(key, value);
    }

    /// Without a key.
    public static <K, V> Map<K, V> without(Map<K, V> all, K key) {
        return ((PersistentMap<K, V>) all).remove(key);
    }

    /// With a count added; a count of nothing is left out.
    public static <K> Map<K, Integer> counted(Map<K, Integer> all, K key, int more) {
        @Nullable Integer before = all.get(key);
        int sum = (before == null ? 0 : before) + more;
        return sum == 0 ? without(all, key) : with(all, key, sum);
    }
}
