package org.rollwright.bench;

import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.HuntEvent;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Watch;
import org.rollwright.journal.Event;
import java.time.Instant;
import org.rollwright.desk.Desk;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.rollwright.catalog.CatalogFolder;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mint;
import org.rollwright.odds.AlbumForecast;
import org.rollwright.odds.GammaRate;
import org.rollwright.odds.History;
import org.rollwright.odds.OddsReport;

/// The odds of 1,000 boxes and 50,000 finds: aim at most 300 ms. And a forecast of a 150-hole album in 10,000
/// draws, the same that bench/forecast.py computes in vectorised NumPy: aim faster than that.
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(value = 1, jvmArgs = "-Xmx2g")
public class OddsBench {
    private static final InstantSource CLOCK = () -> Instant.parse("2026-03-01T19:00:00Z");
    private final org.rollwright.desk.State book = thousandBoxes();

    @Benchmark
    public OddsReport report() {
        History history = History.of(
                book.hunt(), CatalogFolder.catalog(), Denomination.US_CENT, new Watch("wheat", "series wheat"), 2_500);
        return OddsReport.of(book.hunt(), book.scope(), CatalogFolder.catalog(), history, 2_500, List.of());
    }

    @Benchmark
    public AlbumForecast forecast() {
        return forecast(10_000);
    }

    static AlbumForecast forecast(int draws) {
        List<GammaRate> holes = new ArrayList<>();
        for (int i = 0; i < 150; i++) {
            holes.add(new GammaRate(0.3 + (i % 20) * 0.2, 40_000 + 1_000 * i));
        }
        return AlbumForecast.simulate(holes, 2_500, 1.5, new int[] {10, 50, 100, 200, 400}, draws, 7);
    }

    private static org.rollwright.desk.State thousandBoxes() {
        Desk desk = new Desk(new ListJournal(List.of()), InstantSource.system(), org.rollwright.desk.State.EMPTY);
        SplittableRandom random = new SplittableRandom(5);
        long find = 0;
        for (int b = 1; b <= 1_000; b++) {
            BoxId box = new BoxId(b);
            HuntId hunt = new HuntId(b);
            BoxDetails details = new BoxDetails(
                    "Box " + b, BoxDetails.Form.BOX, 50, 50, 0, "Bank " + b % 5, "", b % 3 == 0 ? "customer" : "machine", "", "s" + b / 2,
                    null, LocalDate.of(2016, 1, 1).plusDays(3L * b), null, "", "");
            List<Event> events = new ArrayList<>(List.of(
                    new HuntEvent.BoxAdded(box, Denomination.US_CENT, details),
                    new HuntEvent.HuntStarted(hunt, "Box " + b, List.of(box), List.of(new Watch("wheat", "series wheat"))),
                    new HuntEvent.EndersSeen(box, random.nextInt(3), 60)));
            int ordinal = 0;
            for (int roll = 1; roll <= 50; roll++) {
                events.add(new HuntEvent.RollOpened(hunt, box, roll));
                for (int f = random.nextInt(3); f > 0; f--) {
                    int year = 1934 + random.nextInt(25);
                    CoinDescription coin = CoinDescription.plain(Identity.of(Denomination.US_CENT, year, random.nextBoolean() ? Mint.P : Mint.D));
                    events.add(new HuntEvent.FindLogged(new Find(
                            new FindId(++find), hunt, ++ordinal, box, roll, coin, 1, false, Disposition.KEEP, CLOCK.instant())));
                }
            }
            events.add(new HuntEvent.HuntFinished(hunt));
            for (Event event : events) {
                long scope = b;
                desk.recordAt(CLOCK.instant(), "", known -> new Desk.Step(scope, event));
            }
        }
        return desk.state();
    }

    /// Times the forecast as a whole process does: once, after a warm-up, for bench/forecast.
    public static void main(String[] args) {
        for (int i = 0; i < 5; i++) {
            forecast(10_000);
        }
        double best = Double.POSITIVE_INFINITY;
        AlbumForecast result = forecast(10_000);
        for (int i = 0; i < 5; i++) {
            long start = System.nanoTime();
            result = forecast(10_000);
            best = Math.min(best, (System.nanoTime() - start) / 1e6);
        }
        System.out.println(best + " " + result.completeWithin() + " " + result.filledWithin());
    }
}
