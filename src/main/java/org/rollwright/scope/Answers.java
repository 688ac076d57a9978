package org.rollwright.scope;

import java.util.LinkedHashMap;
import java.util.Map;

/// Answers given in an attribution, by number of the question: `3y.0n.5c`.
///
/// @param stage of the die, as far as it was told
public record Answers(Map<Integer, Investigation.Answer> answers, Investigation.Stage stage) {
    public static Answers parse(String answers, String stage) {
        Map<Integer, Investigation.Answer> read = new LinkedHashMap<>();
        for (String part : answers.split("\\.")) {
            if (part.matches("[0-9]{1,3}[ync]")) {
                read.put(
                        Integer.parseInt(part.substring(0, part.length() - 1)),
                        switch (part.charAt(part.length() - 1)) {
                            case 'y' -> Investigation.Answer.YES;
                            case 'n' -> Investigation.Answer.NO;
                            default -> Investigation.Answer.CANNOT_TELL;
                        });
            }
        }
        Investigation.Stage found = Investigation.Stage.UNKNOWN;
        for (Investigation.Stage one : Investigation.Stage.values()) {
            found = one.name().equals(stage) ? one : found;
        }
        return new Answers(read, found);
    }

    private static String letter(Investigation.Answer answer) {
        return switch (answer) {
            case YES -> "y";
            case NO -> "n";
            case CANNOT_TELL -> "c";
        };
    }

    public String text() {
        return String.join(
                ".",
                answers.entrySet().stream()
                        .map(entry -> entry.getKey() + letter(entry.getValue()))
                        .toList());
    }

    public String with(int question, Investigation.Answer answer) {
        Map<Integer, Investigation.Answer> now = new LinkedHashMap<>(answers);
        now.remove(question);
        now.put(question, answer);
        return new Answers(now, stage).text();
    }
}
