package org.rollwright.store;

import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import org.rollwright.coin.CoinDescription;
import org.rollwright.coin.Colour;
import org.rollwright.coin.Country;
import org.rollwright.coin.Denomination;
import org.rollwright.coin.Grade;
import org.rollwright.coin.Identity;
import org.rollwright.coin.Mass;
import org.rollwright.coin.Mint;
import org.rollwright.coin.Strike;
import org.rollwright.hunt.Acquisition;
import org.rollwright.hunt.AlbumId;
import org.rollwright.hunt.AttributionNote;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.BoxDetails;
import org.rollwright.hunt.BoxId;
import org.rollwright.hunt.Branch;
import org.rollwright.hunt.CabinetNote;
import org.rollwright.hunt.CashMove;
import org.rollwright.hunt.CoinRef;
import org.rollwright.hunt.CountedPile;
import org.rollwright.hunt.Cup;
import org.rollwright.hunt.Disposition;
import org.rollwright.hunt.Effort;
import org.rollwright.hunt.Event;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.FindId;
import org.rollwright.hunt.Hunt;
import org.rollwright.hunt.HuntId;
import org.rollwright.hunt.Logbook;
import org.rollwright.hunt.LogbookImage;
import org.rollwright.hunt.MetalPrice;
import org.rollwright.hunt.Order;
import org.rollwright.hunt.OwnedCoin;
import org.rollwright.hunt.PhotoNote;
import org.rollwright.hunt.PhotoSubject;
import org.rollwright.hunt.Place;
import org.rollwright.hunt.PlaceId;
import org.rollwright.hunt.PricePoint;
import org.rollwright.hunt.Roll;
import org.rollwright.hunt.Watch;

/// An image of the record as bytes, written and read part by part in one order. Plain calls instead of a
/// mapper: this is read at every start, where a mapper spends most of its time getting to know the types.
///
/// Below, what is written and what is read stand one under the other.
final class ImageFormat {
    private ImageFormat() {}

    static byte[] write(LogbookImage image) {
        Packer out = new Packer();
        out.whole(image.last());
        out.all(image.numbers(), Packer::whole);
        out.text(image.policy());
        out.all(image.hunts(), ImageFormat::hunt);
        out.all(image.boxes(), ImageFormat::box);
        out.all(image.finds(), ImageFormat::find);
        out.all(image.albums(), ImageFormat::album);
        out.all(image.added(), ImageFormat::added);
        out.all(image.balances(), ImageFormat::balance);
        out.all(image.attributions(), ImageFormat::attribution);
        out.all(image.varieties().entrySet(), (to, variety) -> {
            to.text(variety.getKey());
            to.all(variety.getValue().entrySet(), (into, field) -> {
                into.text(field.getKey());
                into.text(field.getValue());
            });
        });
        out.all(image.photos(), ImageFormat::photo);
        out.all(image.cabinet(), ImageFormat::cabinet);
        out.all(image.acquisitions(), ImageFormat::coming);
        out.all(image.places(), ImageFormat::place);
        out.all(image.prices(), ImageFormat::price);
        out.all(image.cups(), ImageFormat::cup);
        out.all(image.piles(), ImageFormat::pile);
        out.all(image.metalPrices(), ImageFormat::metalPrice);
        out.all(image.cashMoves(), ImageFormat::cashMove);
        out.all(image.branches(), ImageFormat::branch);
        out.all(image.orders(), ImageFormat::order);
        out.all(image.efforts(), ImageFormat::effort);
        out.all(image.takenBack(), (to, scope) -> {
            to.whole(scope.scope());
            to.all(scope.entries(), Packer::whole);
        });
        return out.bytes();
    }

    /// @throws Unpacker.Damaged when the bytes are no image of this format
    static LogbookImage read(byte[] bytes) {
        Unpacker in = new Unpacker(bytes);
        try {
            LogbookImage image = new LogbookImage(
                    in.whole(),
                    in.all(Unpacker::whole),
                    in.text(),
                    in.all(ImageFormat::hunt),
                    in.all(ImageFormat::box),
                    in.all(ImageFormat::find),
                    in.all(ImageFormat::album),
                    in.all(ImageFormat::added),
                    in.all(ImageFormat::balance),
                    in.all(ImageFormat::attribution),
                    varieties(in),
                    in.all(ImageFormat::photo),
                    in.all(ImageFormat::cabinet),
                    in.all(ImageFormat::coming),
                    in.all(ImageFormat::place),
                    in.all(ImageFormat::price),
                    in.all(ImageFormat::cup),
                    in.all(ImageFormat::pile),
                    in.all(ImageFormat::metalPrice),
                    in.all(ImageFormat::cashMove),
                    in.all(ImageFormat::branch),
                    in.all(ImageFormat::order),
                    in.all(ImageFormat::effort),
                    in.all(from -> new LogbookImage.TakenBack(from.whole(), from.all(Unpacker::whole))));
            if (!in.atEnd()) {
                throw new Unpacker.Damaged("something follows the end");
            }
            return image;
        } catch (IllegalArgumentException | DateTimeException | ArithmeticException | ClassCastException e) {
            throw new Unpacker.Damaged("a value that cannot be", e);
        }
    }

    private static Map<String, Map<String, String>> varieties(Unpacker in) {
        Map<String, Map<String, String>> varieties = new HashMap<>();
        in.all(from -> varieties.put(from.text(), fields(from)) == null);
        return Map.copyOf(varieties);
    }

    private static Map<String, String> fields(Unpacker in) {
        Map<String, String> fields = new HashMap<>();
        in.all(from -> fields.put(from.text(), from.text()) == null);
        return Map.copyOf(fields);
    }

    private static void hunt(Packer out, LogbookImage.HuntImage one) {
        out.whole(one.id().number());
        out.text(one.name());
        out.instant(one.started());
        out.instant(one.touched());
        out.maybe(one.finished(), Packer::instant);
        out.all(one.boxes(), (to, id) -> to.whole(id.number()));
        out.all(one.watches(), ImageFormat::watch);
        out.maybe(one.box(), (to, id) -> to.whole(id.number()));
        out.whole(one.roll());
        out.whole(one.lastOrdinal());
        out.all(one.finds(), (to, id) -> to.whole(id.number()));
        out.all(one.marks(), ImageFormat::remark);
        out.all(one.notes(), ImageFormat::remark);
        out.all(one.trials(), ImageFormat::trial);
    }

    private static LogbookImage.HuntImage hunt(Unpacker in) {
        return new LogbookImage.HuntImage(
                new HuntId(in.whole()),
                in.text(),
                in.instant(),
                in.instant(),
                in.maybe(Unpacker::instant),
                in.all(from -> new BoxId(from.whole())),
                in.all(ImageFormat::watch),
                in.maybe(from -> new BoxId(from.whole())),
                in.small(),
                in.small(),
                in.all(from -> new FindId(from.whole())),
                in.all(ImageFormat::remark),
                in.all(ImageFormat::remark),
                in.all(ImageFormat::trial));
    }

    private static void remark(Packer out, Hunt.Remark one) {
        out.instant(one.at());
        out.text(one.text());
    }

    private static Hunt.Remark remark(Unpacker in) {
        return new Hunt.Remark(in.instant(), in.text());
    }

    private static void trial(Packer out, Hunt.Trial one) {
        out.whole(one.find().number());
        out.text(one.variety());
    }

    private static Hunt.Trial trial(Unpacker in) {
        return new Hunt.Trial(new FindId(in.whole()), in.text());
    }

    private static void box(Packer out, LogbookImage.BoxImage one) {
        out.whole(one.id().number());
        denomination(out, one.denomination());
        details(out, one.details());
        out.maybe(one.hunt(), (to, id) -> to.whole(id.number()));
        out.all(one.rolls(), ImageFormat::roll);
        out.all(one.enders(), ImageFormat::enders);
        out.all(one.weights(), ImageFormat::weight);
        out.all(one.finds(), (to, id) -> to.whole(id.number()));
        out.maybe(one.earlier(), ImageFormat::tallied);
    }

    private static LogbookImage.BoxImage box(Unpacker in) {
        return new LogbookImage.BoxImage(
                new BoxId(in.whole()),
                denomination(in),
                details(in),
                in.maybe(from -> new HuntId(from.whole())),
                in.all(ImageFormat::roll),
                in.all(ImageFormat::enders),
                in.all(ImageFormat::weight),
                in.all(from -> new FindId(from.whole())),
                in.maybe(ImageFormat::tallied));
    }

    private static void details(Packer out, BoxDetails one) {
        out.text(one.label());
        out.name(one.form());
        out.whole(one.rolls());
        out.whole(one.coinsPerRoll());
        out.whole(one.looseCoins());
        out.text(one.bank());
        out.text(one.branch());
        out.text(one.wrap());
        out.text(one.stamp());
        out.text(one.sisters());
        out.maybe(one.ordered(), Packer::day);
        out.maybe(one.pickedUp(), Packer::day);
        out.maybe(one.returned(), Packer::day);
        out.text(one.returnedTo());
        out.text(one.note());
    }

    private static BoxDetails details(Unpacker in) {
        return new BoxDetails(
                in.text(),
                in.name(BoxDetails.Form.class),
                in.small(),
                in.small(),
                in.small(),
                in.text(),
                in.text(),
                in.text(),
                in.text(),
                in.text(),
                in.maybe(Unpacker::day),
                in.maybe(Unpacker::day),
                in.maybe(Unpacker::day),
                in.text(),
                in.text());
    }

    private static void roll(Packer out, Roll one) {
        out.whole(one.number());
        out.maybe(one.counted(), (to, number) -> to.whole(number));
        out.maybe(one.opened(), Packer::instant);
        out.flag(one.left());
        out.all(one.watches(), ImageFormat::watch);
    }

    private static Roll roll(Unpacker in) {
        return new Roll(
                in.small(),
                in.maybe(Unpacker::small),
                in.maybe(Unpacker::instant),
                in.flag(),
                in.all(ImageFormat::watch));
    }

    private static void enders(Packer out, Box.Enders one) {
        out.whole(one.matching());
        out.whole(one.visible());
    }

    private static Box.Enders enders(Unpacker in) {
        return new Box.Enders(in.small(), in.small());
    }

    private static void weight(Packer out, Box.Weight one) {
        out.instant(one.at());
        out.real(one.mass().grams());
        out.text(one.what());
    }

    private static Box.Weight weight(Unpacker in) {
        return new Box.Weight(in.instant(), new Mass(in.real()), in.text());
    }

    private static void tallied(Packer out, Event.BoxTallied one) {
        out.whole(one.box().number());
        out.whole(one.coins());
        out.all(one.counts(), ImageFormat::counted);
    }

    private static Event.BoxTallied tallied(Unpacker in) {
        return new Event.BoxTallied(new BoxId(in.whole()), in.whole(), in.all(ImageFormat::counted));
    }

    private static void counted(Packer out, Event.WatchCount one) {
        watch(out, one.watch());
        out.whole(one.found());
    }

    private static Event.WatchCount counted(Unpacker in) {
        return new Event.WatchCount(watch(in), in.small());
    }

    private static void find(Packer out, Find one) {
        out.whole(one.id().number());
        out.whole(one.hunt().number());
        out.whole(one.ordinal());
        out.whole(one.box().number());
        out.whole(one.roll());
        coin(out, one.facts());
        out.whole(one.count());
        out.flag(one.ender());
        out.name(one.disposition());
        out.instant(one.at());
    }

    private static Find find(Unpacker in) {
        return new Find(
                new FindId(in.whole()),
                new HuntId(in.whole()),
                in.small(),
                new BoxId(in.whole()),
                in.small(),
                coin(in),
                in.small(),
                in.flag(),
                in.name(Disposition.class),
                in.instant());
    }

    private static void added(Packer out, OwnedCoin one) {
        ref(out, one.ref());
        coin(out, one.description());
        out.text(one.provenance());
    }

    private static OwnedCoin added(Unpacker in) {
        return new OwnedCoin(ref(in), coin(in), in.text());
    }

    private static void ref(Packer out, CoinRef one) {
        out.whole(one.find());
        out.whole(one.piece());
    }

    private static CoinRef ref(Unpacker in) {
        return new CoinRef(in.whole(), in.small());
    }

    private static void balance(Packer out, Logbook.Balance one) {
        denomination(out, one.denomination());
        out.text(one.watch());
        out.whole(one.boxes());
        out.whole(one.coins());
        out.whole(one.found());
    }

    private static Logbook.Balance balance(Unpacker in) {
        return new Logbook.Balance(denomination(in), in.text(), in.small(), in.whole(), in.whole());
    }

    private static void attribution(Packer out, AttributionNote one) {
        out.whole(one.find().number());
        out.text(one.variety());
        out.text(one.verdict());
        out.all(one.path(), ImageFormat::look);
        out.text(one.note());
        out.instant(one.at());
    }

    private static AttributionNote attribution(Unpacker in) {
        return new AttributionNote(
                new FindId(in.whole()), in.text(), in.text(), in.all(ImageFormat::look), in.text(), in.instant());
    }

    private static void look(Packer out, Event.Look one) {
        out.text(one.looked());
        out.text(one.answer());
    }

    private static Event.Look look(Unpacker in) {
        return new Event.Look(in.text(), in.text());
    }

    private static void photo(Packer out, PhotoNote one) {
        out.text(one.photo());
        out.whole(one.width());
        out.whole(one.height());
        subject(out, one.about());
        out.text(one.caption());
        out.instant(one.at());
    }

    private static PhotoNote photo(Unpacker in) {
        return new PhotoNote(in.text(), in.small(), in.small(), subject(in), in.text(), in.instant());
    }

    private static void subject(Packer out, PhotoSubject one) {
        out.text(one.kind());
        out.text(one.key());
        out.whole(one.part());
    }

    private static PhotoSubject subject(Unpacker in) {
        return new PhotoSubject(in.text(), in.text(), in.small());
    }

    private static void cabinet(Packer out, CabinetNote one) {
        ref(out, one.coin());
        out.maybe(one.description(), ImageFormat::coin);
        out.maybe(one.gradeUpTo(), (to, value) -> to.whole(value.points()));
        out.maybe(one.place(), (to, id) -> to.whole(id.number()));
        out.all(one.stays(), ImageFormat::stay);
        out.maybe(one.gone(), ImageFormat::gone);
        out.maybe(one.submission(), ImageFormat::submission);
    }

    private static CabinetNote cabinet(Unpacker in) {
        return new CabinetNote(
                ref(in),
                in.maybe(ImageFormat::coin),
                in.maybe(from -> new Grade(from.small())),
                in.maybe(from -> new PlaceId(from.whole())),
                in.all(ImageFormat::stay),
                in.maybe(ImageFormat::gone),
                in.maybe(ImageFormat::submission));
    }

    private static void stay(Packer out, CabinetNote.Stay one) {
        out.maybe(one.place(), (to, id) -> to.whole(id.number()));
        out.instant(one.since());
    }

    private static CabinetNote.Stay stay(Unpacker in) {
        return new CabinetNote.Stay(in.maybe(from -> new PlaceId(from.whole())), in.instant());
    }

    private static void gone(Packer out, CabinetNote.Gone one) {
        out.text(one.how());
        out.maybe(one.price(), Packer::decimal);
        out.text(one.to());
        out.day(one.day());
    }

    private static CabinetNote.Gone gone(Unpacker in) {
        return new CabinetNote.Gone(in.text(), in.maybe(Unpacker::decimal), in.text(), in.day());
    }

    private static void submission(Packer out, CabinetNote.Submission one) {
        out.real(one.estimate());
        out.real(one.outcome());
        out.decimal(one.cost());
        out.day(one.day());
    }

    private static CabinetNote.Submission submission(Unpacker in) {
        return new CabinetNote.Submission(in.real(), in.real(), in.decimal(), in.day());
    }

    private static void coming(Packer out, LogbookImage.Coming one) {
        ref(out, one.coin());
        acquisition(out, one.acquisition());
    }

    private static LogbookImage.Coming coming(Unpacker in) {
        return new LogbookImage.Coming(ref(in), acquisition(in));
    }

    private static void acquisition(Packer out, Acquisition one) {
        out.text(one.how());
        out.text(one.from());
        out.day(one.day());
        out.maybe(one.price(), Packer::decimal);
    }

    private static Acquisition acquisition(Unpacker in) {
        return new Acquisition(in.text(), in.text(), in.day(), in.maybe(Unpacker::decimal));
    }

    private static void place(Packer out, Place one) {
        out.whole(one.id().number());
        out.maybe(one.parent(), (to, id) -> to.whole(id.number()));
        out.text(one.name());
        out.whole(one.capacity());
    }

    private static Place place(Unpacker in) {
        return new Place(new PlaceId(in.whole()), in.maybe(from -> new PlaceId(from.whole())), in.text(), in.small());
    }

    private static void price(Packer out, PricePoint one) {
        identity(out, one.issue());
        out.whole(one.grade().points());
        out.maybe(one.colour(), Packer::name);
        out.decimal(one.amount());
        out.day(one.day());
        out.text(one.note());
    }

    private static PricePoint price(Unpacker in) {
        return new PricePoint(
                identity(in),
                new Grade(in.small()),
                in.maybe(from -> from.name(Colour.class)),
                in.decimal(),
                in.day(),
                in.text());
    }

    private static void cup(Packer out, Cup one) {
        out.text(one.name());
        out.text(one.alloy());
        out.real(one.tare().grams());
        out.real(one.resolution().grams());
        out.instant(one.since());
        out.all(one.readings(), ImageFormat::reading);
    }

    private static Cup cup(Unpacker in) {
        return new Cup(
                in.text(),
                in.text(),
                new Mass(in.real()),
                new Mass(in.real()),
                in.instant(),
                in.all(ImageFormat::reading));
    }

    private static void reading(Packer out, Cup.Reading one) {
        out.text(one.what());
        out.real(one.mass().grams());
        out.instant(one.at());
    }

    private static Cup.Reading reading(Unpacker in) {
        return new Cup.Reading(in.text(), new Mass(in.real()), in.instant());
    }

    private static void pile(Packer out, CountedPile one) {
        out.text(one.alloy());
        out.whole(one.coins());
        out.real(one.mass().grams());
        out.real(one.resolution().grams());
        out.instant(one.at());
    }

    private static CountedPile pile(Unpacker in) {
        return new CountedPile(in.text(), in.small(), new Mass(in.real()), new Mass(in.real()), in.instant());
    }

    private static void metalPrice(Packer out, MetalPrice one) {
        out.text(one.metal());
        out.decimal(one.perKilogram());
        out.text(one.asTyped());
        out.day(one.day());
    }

    private static MetalPrice metalPrice(Unpacker in) {
        return new MetalPrice(in.text(), in.decimal(), in.text(), in.day());
    }

    private static void cashMove(Packer out, CashMove one) {
        out.day(one.day());
        out.text(one.from());
        out.text(one.to());
        out.decimal(one.amount());
        out.text(one.where());
        out.text(one.what());
        out.maybe(one.currency(), Packer::text);
    }

    private static CashMove cashMove(Unpacker in) {
        return new CashMove(
                in.day(), in.text(), in.text(), in.decimal(), in.text(), in.text(), in.maybe(Unpacker::text));
    }

    private static void branch(Packer out, Branch one) {
        out.text(one.bank());
        out.text(one.branch());
        out.flag(one.gives());
        out.flag(one.takes());
        days(out, one.open());
        out.whole(one.leadDays());
        out.decimal(one.boxFee());
        out.decimal(one.countPercent());
        out.real(one.kilometres());
        out.text(one.bearing());
        out.flag(one.closed());
        out.text(one.note());
    }

    private static Branch branch(Unpacker in) {
        return new Branch(
                in.text(),
                in.text(),
                in.flag(),
                in.flag(),
                days(in),
                in.small(),
                in.decimal(),
                in.decimal(),
                in.real(),
                in.text(),
                in.flag(),
                in.text());
    }

    private static void order(Packer out, Order one) {
        out.whole(one.number());
        out.text(one.branch());
        denomination(out, one.denomination());
        out.whole(one.boxes());
        out.day(one.placed());
        out.day(one.due());
        out.flag(one.prepaid());
        out.text(one.note());
        out.maybe(one.ended(), Packer::day);
        out.all(one.arrived(), (to, id) -> to.whole(id.number()));
    }

    private static Order order(Unpacker in) {
        return new Order(
                in.whole(),
                in.text(),
                denomination(in),
                in.small(),
                in.day(),
                in.day(),
                in.flag(),
                in.text(),
                in.maybe(Unpacker::day),
                in.all(from -> new BoxId(from.whole())));
    }

    private static void effort(Packer out, Effort one) {
        out.day(one.day());
        out.maybe(one.hunt(), (to, id) -> to.whole(id.number()));
        out.name(one.phase());
        out.whole(one.minutes());
        out.real(one.kilometres());
        out.decimal(one.fuel());
        out.text(one.branch());
        out.text(one.note());
    }

    private static Effort effort(Unpacker in) {
        return new Effort(
                in.day(),
                in.maybe(from -> new HuntId(from.whole())),
                in.name(Effort.Phase.class),
                in.small(),
                in.real(),
                in.decimal(),
                in.text(),
                in.text());
    }

    private static void album(Packer out, LogbookImage.AlbumImage one) {
        out.whole(one.id().number());
        out.text(one.name());
        out.text(one.rule());
        out.all(one.holes().entrySet(), (to, hole) -> {
            to.text(hole.getKey());
            ref(to, hole.getValue());
        });
    }

    private static LogbookImage.AlbumImage album(Unpacker in) {
        AlbumId id = new AlbumId(in.whole());
        String name = in.text();
        String rule = in.text();
        Map<String, CoinRef> holes = new HashMap<>();
        in.all(from -> holes.put(from.text(), ref(from)) == null);
        return new LogbookImage.AlbumImage(id, name, rule, Map.copyOf(holes));
    }

    private static void days(Packer out, Set<DayOfWeek> days) {
        out.all(days.stream().sorted().toList(), Packer::name);
    }

    private static Set<DayOfWeek> days(Unpacker in) {
        return Set.copyOf(in.all(from -> from.name(DayOfWeek.class)));
    }

    private static void watch(Packer out, Watch watch) {
        out.shared(watch, (to, one) -> {
            to.text(one.name());
            to.text(one.rule());
        });
    }

    private static Watch watch(Unpacker in) {
        return in.shared(Watch.class, from -> new Watch(from.text(), from.text()));
    }

    private static void denomination(Packer out, Denomination denomination) {
        out.shared(denomination, (to, one) -> {
            to.text(one.country().code());
            to.text(one.key());
        });
    }

    private static Denomination denomination(Unpacker in) {
        return in.shared(Denomination.class, from -> new Denomination(new Country(from.text()), from.text()));
    }

    private static void identity(Packer out, Identity identity) {
        out.shared(identity, (to, one) -> {
            denomination(to, one.denomination());
            to.maybe(one.year(), (into, year) -> into.whole(year));
            to.maybe(one.mint(), (into, mint) -> into.text(mint.code()));
            to.text(one.kind());
            to.text(one.design());
        });
    }

    private static Identity identity(Unpacker in) {
        return in.shared(
                Identity.class,
                from -> new Identity(
                        denomination(from),
                        from.maybe(Unpacker::small),
                        from.maybe(mint -> new Mint(mint.text())),
                        from.text(),
                        from.text()));
    }

    /// Thousands of finds are the same few coins.
    private static void coin(Packer out, CoinDescription coin) {
        out.shared(coin, (to, one) -> {
            identity(to, one.identity());
            to.maybe(one.grade(), (into, grade) -> into.whole(grade.points()));
            to.maybe(one.details(), Packer::text);
            to.maybe(one.colour(), Packer::name);
            to.name(one.strike());
            to.all(one.varieties(), Packer::text);
            to.all(one.errors(), Packer::text);
            to.text(one.note());
            to.all(one.photos(), Packer::text);
        });
    }

    private static CoinDescription coin(Unpacker in) {
        return in.shared(
                CoinDescription.class,
                from -> new CoinDescription(
                        identity(from),
                        from.maybe(grade -> new Grade(grade.small())),
                        from.maybe(Unpacker::text),
                        from.maybe(colour -> colour.name(Colour.class)),
                        from.name(Strike.class),
                        from.all(Unpacker::text),
                        from.all(Unpacker::text),
                        from.text(),
                        from.all(Unpacker::text)));
    }
}
