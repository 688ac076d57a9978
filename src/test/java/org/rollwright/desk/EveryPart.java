package org.rollwright.desk;

import java.lang.reflect.Field;
import java.lang.reflect.Modifier;
import java.util.Collection;
import java.util.Map;
import java.util.Set;
import org.rollwright.journal.Register;

/// Every part of a state as text, found in its classes and in no list of ours: a part added to a book tomorrow is
/// compared from then on. What a book only remembers for speed (its volatile fields) is no part of it.
final class EveryPart {
    private EveryPart() {}

    static String of(State state) {
        StringBuilder text = new StringBuilder();
        write(text, state);
        return text.toString();
    }

    private static void write(StringBuilder text, Object value) {
        switch (value) {
            case null -> text.append('-');
            case Register<?, ?> register -> write(text, register.all());
            case Map<?, ?> map -> {
                text.append("{\n");
                map.entrySet().stream()
                        .map(entry -> {
                            StringBuilder one = new StringBuilder();
                            write(one, entry.getKey());
                            one.append(" = ");
                            write(one, entry.getValue());
                            return one.append('\n').toString();
                        })
                        .sorted()
                        .forEach(text::append);
                text.append('}');
            }
            case Set<?> set ->
                text.append(set.stream().map(Object::toString).sorted().toList());
            case Collection<?> many -> {
                text.append('[');
                many.forEach(one -> {
                    write(text, one);
                    text.append(' ');
                });
                text.append(']');
            }
            case Enum<?> word -> text.append(word);
            default -> {
                if (value.getClass().getName().startsWith("org.rollwright")) {
                    fields(text, value);
                } else {
                    text.append(value);
                }
            }
        }
    }

    private static void fields(StringBuilder text, Object value) {
        text.append(value.getClass().getSimpleName()).append('(');
        for (Field field : value.getClass().getDeclaredFields()) {
            if (!Modifier.isStatic(field.getModifiers()) && !Modifier.isVolatile(field.getModifiers())) {
                field.setAccessible(true);
                text.append(field.getName()).append(' ');
                try {
                    write(text, field.get(value));
                } catch (IllegalAccessException e) {
                    throw new AssertionError(e);
                }
                text.append("; ");
            }
        }
        text.append(')');
    }
}
