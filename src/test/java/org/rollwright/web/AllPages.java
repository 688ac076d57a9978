package org.rollwright.web;

import java.util.List;

/// One address of every page, for tests that look at all of them.
final class AllPages {
    static final List<String> PAGES = List.of(
            "/mat",
            "/mat/1",
            "/mat/1/finish",
            "/mat/1/narration",
            "/boxes",
            "/boxes/1",
            "/boxes/2",
            "/albums",
            "/albums/1",
            "/albums/2",
            "/albums/compare",
            "/scope",
            "/scope?q=1972-D",
            "/scope/new",
            "/scope/variety/cent-1972-strongly-doubled-obverse",
            "/scope/find/1/1",
            "/scope/find/1/6?a=0y.1n",
            "/scope/compare",
            "/recap/1",
            "/recap/series",
            "/till",
            "/till/branches",
            "/till/time",
            "/till/round",
            "/scale",
            "/scale?form=single&denomination=cent&year=1982&weight=3.08g&step=0.01g",
            "/cabinet",
            "/cabinet?q=36d",
            "/cabinet/coin/f1.1",
            "/odds",
            "/odds/calc",
            "/guide",
            "/guide/entry-line",
            "/guide/albums",
            "/guide/boxes",
            "/guide/odds",
            "/guide/scope",
            "/guide/recap",
            "/guide/till",
            "/guide/scale",
            "/guide/cabinet",
            "/guide/narration",
            "/guide/catalogue",
            "/guide/keeping",
            "/guide/commands",
            "/about",
            "/settings",
            "/no-such-page");

    private AllPages() {}
}
