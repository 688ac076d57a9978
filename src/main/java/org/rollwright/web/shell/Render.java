package org.rollwright.web.shell;

import org.rollwright.pages.StaticTemplates;
import org.rollwright.pages.Templates;

/// The templates, each a method with its parameters, made from `src/main/jte` at build time. Thread-safe.
public final class Render {
    /// Every template: `PAGES.boxesBox(frame, view)` is `boxes/box.jte`.
    public static final Templates PAGES = new StaticTemplates();

    private Render() {}
}
