package org.rollwright.entry.narration;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/// The decoder with the shipped data.
final class Decoding {
    static final Phrases PHRASES = Phrases.parse(text("phrases.csv"));
    static final Decoder DECODER = new Decoder(() -> PHRASES, () -> Weights.parse(text("weights.csv")));

    private Decoding() {}

    static String text(String name) {
        try {
            return Files.readString(Path.of("catalog/narration", name));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static Narration decode(Annotated narration) {
        return decode(narration.vtt(), narration);
    }

    static Narration decode(String captions, Annotated narration) {
        Captions.Read read = Captions.read(captions.getBytes(StandardCharsets.UTF_8));
        return DECODER.decode(((Captions.Read.Good) read).captions(), narration.context(), 50);
    }
}
