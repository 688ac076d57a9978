package org.rollwright.web;

import java.util.Optional;

/// Which version this is, from the build.
final class Version {
    static final String NUMBER = Optional.ofNullable(Version.class.getPackage().getImplementationVersion())
            .orElse("of the working folder");

    private Version() {}
}
