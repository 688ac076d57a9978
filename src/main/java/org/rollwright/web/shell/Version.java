package org.rollwright.web.shell;

import java.util.Optional;

/// Which version this is, from the build.
public final class Version {
    public static final String NUMBER = Optional.ofNullable(
                    Version.class.getPackage().getImplementationVersion())
            .orElse("of the working folder");

    private Version() {}
}
