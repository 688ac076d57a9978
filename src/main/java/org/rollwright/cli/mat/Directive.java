package org.rollwright.cli.mat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.rollwright.action.Action;
import org.rollwright.action.Actions;
import org.rollwright.action.Field;
import org.rollwright.action.Fields;
import org.rollwright.coin.Refusal;

/// A line of a script that has something done: `@name head; field value; field value`. The head is the field that
/// says what it is about; fields that scripts call by a shorter word may be called so.
///
/// @param fields what was said
/// @param wrong a sentence when a word is no field of the action; blank otherwise
record Directive(Action action, Fields fields, String wrong, String right) {
    private static final Map<String, String> HEADS = Map.of(
            "hunt", "name",
            "branch", "bank",
            "back", "box",
            "order", "where",
            "spent", "phase",
            "coin", "line",
            "place", "name",
            "cup", "name",
            "metal", "metal",
            "policy", "policy");

    /// Shorter words, by action.
    private static final Map<String, Map<String, String>> SHORT = Map.of(
            "hunt", Map.of("picked", "pickedUp", "to", "returnedTo"),
            "box", Map.of("picked", "pickedUp", "to", "returnedTo"),
            "box-change", Map.of("picked", "pickedUp", "to", "returnedTo"),
            "back", Map.of("to", "where"),
            "branch", Map.of("days", "open", "fee", "boxfee", "km", "road", "way", "bearing"),
            "order", Map.of("coins", "denomination", "day", "placed", "paid", "prepaid", "note", "ordernote"),
            "spent", Map.of("km", "road", "note", "what"));

    /// An example of every line of a script, by its name.
    static Map<String, String> examples() {
        Map<String, String> examples = new LinkedHashMap<>();
        for (Action action : Actions.ALL) {
            examples.put("@" + action.name(), example(action));
        }
        examples.put("@cash", "@cash OUTSIDE CASH; amount 25.00; day 2026-03-01; where Hill Bank, Mill Lane");
        examples.put(
                "@branch",
                "@branch Hill Bank; branch Mill Lane; days mon tue fri; does gives takes; lead 3; km 12; way NE");
        examples.put("@album", "@album Wheat cents: series wheat; years 1909-1958");
        examples.put("@opening", "@opening cent wheat 40 100000 451: boxes, coins searched, coins found");
        return examples;
    }

    private static String example(Action action) {
        String head = HEADS.getOrDefault(action.name(), "");
        String start = action.fields().stream()
                .filter(field -> field.name().equals(head))
                .map(Field::example)
                .findFirst()
                .orElse("");
        String rest = action.fields().stream()
                .filter(field -> field.needed() && !field.name().equals(head))
                .map(field -> "; " + field.name() + " " + field.example())
                .collect(Collectors.joining());
        return ("@" + action.name() + " " + start).strip() + rest;
    }

    /// Reads a line; empty when nothing is called so.
    static Optional<Directive> read(String name, String rest) {
        return Actions.named(name.substring(1)).map(action -> switch (action.name()) {
            case "album" -> album(action, rest);
            case "opening" -> opening(action, rest);
            default -> read(action, rest);
        });
    }

    private static Directive album(Action action, String rest) {
        int colon = rest.indexOf(':');
        Map<String, String> values = new LinkedHashMap<>();
        values.put("name", colon < 0 ? rest : rest.substring(0, colon).strip());
        values.put("rule", colon < 0 ? "" : rest.substring(colon + 1).strip());
        return new Directive(action, Fields.of(values), "", "");
    }

    private static Directive opening(Action action, String rest) {
        String[] parts = rest.split(" +");
        Map<String, String> values = new LinkedHashMap<>();
        for (int i = 0; i < Math.min(parts.length, action.fields().size()); i++) {
            values.put(action.fields().get(i).name(), parts[i]);
        }
        return new Directive(
                action,
                Fields.of(values),
                parts.length <= action.fields().size() ? "" : "An opening balance has five parts.",
                "Write " + examples().get("@opening") + ".");
    }

    private static Directive read(Action action, String rest) {
        String[] parts = rest.split(";");
        Map<String, List<String>> values = new LinkedHashMap<>();
        head(action, parts[0].strip(), values);
        if (action.name().equals("accept") && rest.isBlank()) {
            values.put("do", List.of("all"));
        }
        Map<String, String> shorter = SHORT.getOrDefault(action.name(), Map.of());
        for (int i = 1; i < parts.length; i++) {
            String part = parts[i].strip();
            int space = part.indexOf(' ');
            String word = space < 0 ? part : part.substring(0, space);
            String value = space < 0 ? "yes" : part.substring(space + 1).strip();
            if (word.equals("does") && action.name().equals("branch")) {
                say(values, "gives", value.contains("gives") ? "yes" : "no");
                say(values, "takes", value.contains("takes") ? "yes" : "no");
            } else if (!word.isEmpty()) {
                say(
                        values,
                        shorter.getOrDefault(word, word),
                        word.equals("km") && !value.endsWith("km") ? value + " km" : value);
            }
        }
        if (action.name().equals("branch") && !parts[0].isBlank()) {
            values.putIfAbsent("gives", List.of("yes"));
            values.putIfAbsent("takes", List.of("yes"));
            values.putIfAbsent("open", List.of("mon tue wed thu fri"));
        }
        return known(action, values);
    }

    /// Says something of a field; a field said again has several values, as in a form.
    private static void say(Map<String, List<String>> values, String field, String value) {
        values.computeIfAbsent(field, name -> new ArrayList<>()).add(value);
    }

    private static void head(Action action, String head, Map<String, List<String>> values) {
        if (action.name().equals("cash")) {
            String[] both = head.split(" +");
            if (both.length == 2) {
                say(values, "from", both[0]);
                say(values, "to", both[1]);
            } else {
                say(values, "kind", head);
            }
        } else if (HEADS.containsKey(action.name())) {
            say(values, HEADS.getOrDefault(action.name(), ""), head);
        } else if (!head.isEmpty()) {
            int space = head.indexOf(' ');
            say(
                    values,
                    space < 0 ? head : head.substring(0, space),
                    space < 0 ? "yes" : head.substring(space + 1).strip());
        }
    }

    /// Says so when a word is no field of the action.
    static Directive known(Action action, Map<String, List<String>> values) {
        List<String> names = action.fields().stream().map(Field::name).toList();
        List<String> unknown = new ArrayList<>(values.keySet());
        unknown.removeAll(names);
        return unknown.isEmpty()
                ? new Directive(action, new Fields(values), "", "")
                : new Directive(
                        action,
                        new Fields(values),
                        "'" + Refusal.quote(unknown.getFirst()) + "' is no part of " + action.name() + ".",
                        "There are " + String.join(", ", names) + ".");
    }
}
