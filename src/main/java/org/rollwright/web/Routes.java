package org.rollwright.web;

import io.javalin.config.RoutesConfig;

/// Every page, place by place: the table of contents of the tool.
final class Routes {
    private Routes() {}

    static void register(
            RoutesConfig routes,
            Bench bench,
            Render render,
            AlbumShelf albums,
            OddsShelf odds,
            LivePages live,
            Guesses guesses) {
        // whatever page a save came from, its form comes back on one page
        new ChangedPages(bench, render).register(routes);

        // Mat: hunts, and the entry line
        new MatPages(bench, render, albums, odds, live).register(routes);
        new NarrationPages(bench, render).register(routes);
        new VoicePages(bench, render).register(routes);

        // Boxes
        new BoxPages(bench, render).register(routes);

        // Albums
        new AlbumPages(bench, render, albums).register(routes);

        // Scope: varieties, attributions, photographs
        new ScopePages(bench, render).register(routes);
        new PhotoPages(bench, render).register(routes);

        // Scale
        new ScalePages(bench, render).register(routes);

        // Cabinet: coins, places, prices, labels and lists on paper
        CabinetShelf cabinet = new CabinetShelf(bench);
        new CabinetPages(bench, render, cabinet).register(routes);
        new PaperPages(bench, render, cabinet, albums).register(routes);

        // Till: books, branches and orders, time and rounds
        new TillPages(bench, render).register(routes);
        new BranchPages(bench, render).register(routes);
        new TripPages(bench, render, cabinet).register(routes);

        // Odds, and how hunts went
        new OddsPages(bench, render, odds).register(routes);
        new CalcPages(bench, render).register(routes);
        new RecapPages(bench, render).register(routes);

        // Guide, help, settings
        new GuidePages(bench, render).register(routes);
        new HelpPages(bench, render).register(routes);
        new SettingsPages(bench, render, guesses).register(routes);
    }
}
