package org.rollwright.desk;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.LinkedHashSet;
import java.util.Set;
import org.rollwright.journal.Event;

/// Every kind of event there is, found in the classes themselves and in no list of ours.
public final class EventKinds {
    private static final Set<Class<? extends Event>> ALL = found();

    private EventKinds() {}

    public static Set<Class<? extends Event>> all() {
        return ALL;
    }

    private static Set<Class<? extends Event>> found() {
        Set<Class<? extends Event>> found = new LinkedHashSet<>();
        for (JavaClass one : new ClassFileImporter()
                .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
                .importPackages("org.rollwright")) {
            if (one.isAssignableTo(Event.class)
                    && one.isRecord()
                    && !one.getModifiers().contains(JavaModifier.ABSTRACT)) {
                found.add(one.reflect().asSubclass(Event.class));
            }
        }
        return Set.copyOf(found);
    }
}
