package org.rollwright.cli;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.rollwright.catalog.Catalog;
import org.rollwright.hunt.Box;
import org.rollwright.hunt.Branch;
import org.rollwright.hunt.CashMove;
import org.rollwright.hunt.Effort;
import org.rollwright.hunt.Event;
import org.rollwright.hunt.Logbook;
import org.rollwright.hunt.Order;
import org.rollwright.till.Ledger;

/// The lines of a script that concern banks, cash and time: `Name; key value; key value`.
final class TillScript {
    /// The lines understood here, each with an example.
    static final Map<String, String> EXAMPLES = examples();

    private final Catalog catalog;

    TillScript(Catalog catalog) {
        this.catalog = catalog;
    }

    private static Map<String, String> examples() {
        Map<String, String> examples = new LinkedHashMap<>();
        examples.put(
                "@branch",
                "@branch Hill Bank; branch Mill Lane; days mon tue fri; does gives takes; lead 3; km 12; way NE");
        examples.put("@cash", "@cash OUTSIDE CASH; amount 25.00; day 2026-03-01; where Hill Bank, Mill Lane");
        examples.put("@back", "@back Box 12, Box 13; day 2026-03-20; to Hill Bank, Mill Lane");
        examples.put("@order", "@order Hill Bank, Mill Lane; coins cent; boxes 2; day 2026-03-01; due 2026-03-04");
        examples.put(
                "@spent", "@spent BANK; day 2026-03-01; minutes 40; km 21.5; fuel 3.10; where Hill Bank, Mill Lane");
        return Map.copyOf(examples);
    }

    /// What a line asks to record.
    ///
    /// @throws Typed.Unread with a sentence when a part is missing or unusable
    Event event(Logbook book, String name, String rest) {
        String[] parts = rest.split(";");
        Map<String, String> values = new LinkedHashMap<>();
        for (int i = 1; i < parts.length; i++) {
            String part = parts[i].strip();
            int space = part.indexOf(' ');
            values.put(
                    space < 0 ? part : part.substring(0, space),
                    space < 0 ? "" : part.substring(space + 1).strip());
        }
        String head = parts[0].strip();
        return switch (name) {
            case "@branch" -> new Event.BranchWritten(branch(head, values));
            case "@cash" -> new Event.CashMoved(cash(head, values));
            case "@back" -> back(book, head, values);
            case "@order" -> new Event.OrderPlaced(order(book, head, values));
            default -> new Event.EffortNoted(effort(head, values));
        };
    }

    private static Branch branch(String bank, Map<String, String> values) {
        Set<DayOfWeek> open = EnumSet.noneOf(DayOfWeek.class);
        for (String word : values.getOrDefault("days", "mon tue wed thu fri").split(" +")) {
            open.add(Arrays.stream(DayOfWeek.values())
                    .filter(day -> day.name().startsWith(word.toUpperCase(Locale.ROOT)) && word.length() >= 3)
                    .findFirst()
                    .orElseThrow(() -> new Typed.Unread(Typed.quote(word) + " is no day of the week.")));
        }
        List<String> does = List.of(values.getOrDefault("does", "gives takes").split(" +"));
        return new Branch(
                bank,
                values.getOrDefault("branch", ""),
                does.contains("gives"),
                does.contains("takes"),
                open,
                Typed.small("lead", values.getOrDefault("lead", "0"), 0, 60),
                Typed.money("fee", values.getOrDefault("fee", "0")).stripTrailingZeros(),
                Typed.decimal("percent", values.getOrDefault("percent", "0"), 30),
                Typed.decimal("km", values.getOrDefault("km", "0"), 2_000).doubleValue(),
                values.getOrDefault("way", ""),
                values.containsKey("closed"),
                values.getOrDefault("note", ""));
    }

    private static CashMove cash(String accounts, Map<String, String> values) {
        String[] both = accounts.split(" +");
        if (both.length != 2) {
            throw new Typed.Unread("Two places are needed, from and to.");
        }
        return new CashMove(
                day(values),
                account(both[0]),
                account(both[1]),
                Typed.money("amount", values.getOrDefault("amount", "0")),
                values.getOrDefault("where", ""),
                values.getOrDefault("what", ""),
                Typed.currency(values.getOrDefault("currency", "USD")));
    }

    private static String account(String word) {
        return Typed.word("place of the books", word, Ledger.Account.class).name();
    }

    private static Event back(Logbook book, String labels, Map<String, String> values) {
        List<Event> events = new ArrayList<>();
        for (String label : labels.split(",")) {
            Box box = book.boxes().stream()
                    .filter(one -> one.details().label().equals(label.strip())
                            && one.details().returned() == null)
                    .findFirst()
                    .orElseThrow(() ->
                            new Typed.Unread("There is no box " + Typed.quote(label.strip()) + " here to go back."));
            events.add(new Event.BoxChanged(
                    box.id(), box.details().returnedOn(day(values), values.getOrDefault("to", ""))));
        }
        return new Event.Batch(events);
    }

    private Order order(Logbook book, String branch, Map<String, String> values) {
        String coins = values.getOrDefault("coins", "cent");
        return new Order(
                book.nextOrder(),
                branch,
                Script.denomination(catalog, coins)
                        .orElseThrow(() -> new Typed.Unread(Typed.quote(coins) + " is no denomination."))
                        .denomination(),
                Typed.small("boxes", values.getOrDefault("boxes", "1"), 1, 1_000),
                day(values),
                Typed.day("due", values.getOrDefault("due", "")),
                values.containsKey("paid"),
                values.getOrDefault("note", ""),
                null,
                List.of());
    }

    private static Effort effort(String phase, Map<String, String> values) {
        return new Effort(
                day(values),
                null,
                Typed.word("kind of time", phase, Effort.Phase.class),
                Typed.small("minutes", values.getOrDefault("minutes", "0"), 0, 1_440),
                Typed.decimal("km", values.getOrDefault("km", "0"), 2_000).doubleValue(),
                Typed.money("fuel", values.getOrDefault("fuel", "0")),
                values.getOrDefault("where", ""),
                values.getOrDefault("note", ""));
    }

    private static LocalDate day(Map<String, String> values) {
        return Typed.day("day", values.getOrDefault("day", ""));
    }
}
