package org.rollwright.scope;

import static org.rollwright.text.Texts.t;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/// How sure the catalogue is of what it says of a variety, field by field.
///
/// Written as `coin sure; where sure; markers likely; rarity unsure`.
///
/// @param fields those that something is said of
public record Certainty(Map<Field, Level> fields) {
    /// What may be sure or not.
    public enum Field {
        /// That there is such a coin.
        COIN,
        WHERE,
        DIRECTION,
        MARKERS,
        RARITY,
        WORTH;

        String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /// How sure.
    public enum Level {
        SURE,
        LIKELY,
        UNSURE;

        String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /// Nothing said.
    public static final Certainty UNTOLD = new Certainty(Map.of());

    public Certainty {
        Map<Field, Level> ordered = new EnumMap<>(Field.class);
        ordered.putAll(fields);
        fields = java.util.Collections.unmodifiableMap(ordered);
    }

    /// Reads a cell; a blank one says nothing.
    ///
    /// @return empty when a word is none of ours
    static Optional<Certainty> parse(String cell) {
        Map<Field, Level> fields = new EnumMap<>(Field.class);
        for (String part : cell.split(";")) {
            if (part.isBlank()) {
                continue;
            }
            String[] words = part.strip().split(" +");
            if (words.length != 2) {
                return Optional.empty();
            }
            try {
                Level level = Level.valueOf(words[1].toUpperCase(Locale.ROOT));
                fields.put(Field.valueOf(words[0].toUpperCase(Locale.ROOT)), level);
            } catch (IllegalArgumentException e) {
                return Optional.empty();
            }
        }
        return Optional.of(new Certainty(fields));
    }

    /// As it stands in a file.
    public String written() {
        List<String> parts = new ArrayList<>();
        fields.forEach((field, level) -> parts.add(field.word() + " " + level.word()));
        return String.join("; ", parts);
    }

    /// For a person: one part for each level, such as `sure: the coin, where to look`.
    public List<String> told() {
        List<String> parts = new ArrayList<>();
        for (Level level : Level.values()) {
            List<String> names = new ArrayList<>();
            fields.forEach((field, known) -> {
                if (known == level) {
                    names.add(said(field));
                }
            });
            if (!names.isEmpty()) {
                parts.add(t("scope.certainty-part", said(level), String.join(", ", names)));
            }
        }
        return parts;
    }

    private static String said(Level level) {
        return switch (level) {
            case SURE -> t("scope.sure");
            case LIKELY -> t("scope.likely");
            case UNSURE -> t("scope.unsure");
        };
    }

    private static String said(Field field) {
        return switch (field) {
            case COIN -> t("scope.certainty-coin");
            case WHERE -> t("scope.certainty-where");
            case DIRECTION -> t("scope.certainty-direction");
            case MARKERS -> t("scope.certainty-markers");
            case RARITY -> t("scope.certainty-rarity");
            case WORTH -> t("scope.certainty-worth");
        };
    }
}
