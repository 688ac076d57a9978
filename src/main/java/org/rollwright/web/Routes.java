package org.rollwright.web;

import io.javalin.config.RoutesConfig;
import org.rollwright.web.albums.AlbumPages;
import org.rollwright.web.albums.AlbumShelf;
import org.rollwright.web.boxes.BoxPages;
import org.rollwright.web.boxes.OrderPages;
import org.rollwright.web.cabinet.CabinetPages;
import org.rollwright.web.cabinet.CabinetShelf;
import org.rollwright.web.guard.Guesses;
import org.rollwright.web.guide.GuidePages;
import org.rollwright.web.guide.HelpPages;
import org.rollwright.web.guide.SettingsPages;
import org.rollwright.web.mat.DecidePages;
import org.rollwright.web.mat.MatPages;
import org.rollwright.web.narration.NarrationPages;
import org.rollwright.web.narration.VoicePages;
import org.rollwright.web.odds.CalcPages;
import org.rollwright.web.odds.OddsPages;
import org.rollwright.web.odds.OddsShelf;
import org.rollwright.web.paper.PaperPages;
import org.rollwright.web.photos.PhotoPages;
import org.rollwright.web.recap.RecapPages;
import org.rollwright.web.scale.ScalePages;
import org.rollwright.web.scope.KindsPages;
import org.rollwright.web.scope.ScopePages;
import org.rollwright.web.sheets.SheetPages;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.ChangedPages;
import org.rollwright.web.shell.Coins;
import org.rollwright.web.shell.LivePages;
import org.rollwright.web.till.BranchPages;
import org.rollwright.web.till.TillPages;
import org.rollwright.web.till.TripPages;

/// Every page, place by place: the table of contents of the tool.
final class Routes {
    private Routes() {}

    static void register(
            RoutesConfig routes, Bench bench, AlbumShelf albums, OddsShelf odds, LivePages live, Guesses guesses) {
        // whatever page a save came from, its form comes back on one page
        new ChangedPages(bench).register(routes);

        // the drawings of coins, on many pages
        Coins.register(routes);

        // Mat: hunts, and the entry line
        new MatPages(bench, albums, odds, live).register(routes);
        new DecidePages(bench, albums).register(routes);
        new NarrationPages(bench).register(routes);
        new VoicePages(bench).register(routes);

        // Boxes
        new OrderPages(bench).register(routes);
        new BoxPages(bench).register(routes);
        new SheetPages(bench).register(routes);

        // Albums
        new AlbumPages(bench, albums).register(routes);

        // Scope: varieties, attributions, photographs
        new ScopePages(bench).register(routes);
        new KindsPages(bench).register(routes);
        new PhotoPages(bench).register(routes);

        // Scale
        new ScalePages(bench).register(routes);

        // Cabinet: coins, places, prices, labels and lists on paper
        CabinetShelf cabinet = new CabinetShelf(bench);
        new CabinetPages(bench, cabinet).register(routes);
        new PaperPages(bench, cabinet, albums).register(routes);

        // Till: books, branches, time and rounds
        new TillPages(bench).register(routes);
        new BranchPages(bench).register(routes);
        new TripPages(bench, cabinet).register(routes);

        // Odds, and how hunts went
        new OddsPages(bench, odds).register(routes);
        new CalcPages(bench).register(routes);
        new RecapPages(bench, cabinet).register(routes);

        // Guide, help, settings
        new GuidePages(bench).register(routes);
        new HelpPages(bench).register(routes);
        new SettingsPages(bench, guesses).register(routes);
    }
}
