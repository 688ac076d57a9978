package org.rollwright.till;

import static org.rollwright.text.Texts.labelled;
import static org.rollwright.text.Texts.t;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import net.fortuna.ical4j.data.CalendarOutputter;
import net.fortuna.ical4j.model.Calendar;
import net.fortuna.ical4j.model.component.VEvent;
import net.fortuna.ical4j.model.property.Description;
import net.fortuna.ical4j.model.property.DtStamp;
import net.fortuna.ical4j.model.property.ProdId;
import net.fortuna.ical4j.model.property.Uid;
import net.fortuna.ical4j.model.property.immutable.ImmutableCalScale;
import net.fortuna.ical4j.model.property.immutable.ImmutableVersion;

/// Orders and rounds as a calendar file (RFC 5545), whole days without a time of day, so that no time zone can
/// be wrong.
public final class CalendarFile {
    /// One day's entry.
    ///
    /// @param id the same for the same thing, so that taking the file in again changes the entry and adds none
    public record DayEntry(String id, LocalDate day, String title, String text) {}

    private CalendarFile() {}

    /// The open orders, on the days they can be picked up.
    public static List<DayEntry> orders(Iterable<Order> orders, java.util.function.Function<Order, String> coins) {
        List<DayEntry> entries = new ArrayList<>();
        for (Order order : orders) {
            if (order.isOpen()) {
                entries.add(new DayEntry(
                        "order-" + order.number() + "-" + order.placed(),
                        order.due(),
                        t("till.pick-up-boxes-of", order.boxes(), coins.apply(order)),
                        t("till.ordered", order.branch(), order.placed())
                                + (order.note().isBlank() ? "" : "; " + order.note())));
            }
        }
        return entries;
    }

    /// A round as one entry, its calls in order.
    public static DayEntry round(Round round) {
        StringBuilder text = new StringBuilder();
        int number = 1;
        for (Round.Call call : round.calls()) {
            text.append(number++)
                    .append(". ")
                    .append(
                            call.why().isEmpty()
                                    ? call.branch().name()
                                    : labelled(call.branch().name(), String.join(", ", call.why())))
                    .append('\n');
        }
        return new DayEntry(
                "round-" + round.day(),
                round.day(),
                t("till.bank-round-calls", round.calls().size()),
                text.toString().stripTrailing());
    }

    /// The file's text.
    ///
    /// @param made when it is made
    public static String of(List<DayEntry> entries, Instant made) {
        Calendar calendar = new Calendar();
        calendar.add(new ProdId("-//Rollwright//Till//EN"));
        calendar.add(ImmutableVersion.VERSION_2_0);
        calendar.add(ImmutableCalScale.GREGORIAN);
        for (DayEntry entry : entries) {
            VEvent event = new VEvent(entry.day, entry.title);
            event.getProperty(net.fortuna.ical4j.model.Property.DTSTAMP).ifPresent(event::remove);
            event.add(new DtStamp(made));
            event.add(new Uid(entry.id + "@rollwright.invalid"));
            event.add(new Description(entry.text));
            calendar.add(event);
        }
        StringWriter out = new StringWriter();
        try {
            // checks the calendar, folds long lines and ends them as RFC 5545 asks
            new CalendarOutputter(true).output(calendar, out);
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory", e);
        }
        return out.toString();
    }
}
