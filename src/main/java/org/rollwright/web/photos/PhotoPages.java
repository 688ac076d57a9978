package org.rollwright.web.photos;

import static org.rollwright.text.Texts.labelled;
import static org.rollwright.text.Texts.t;
import static org.rollwright.web.shell.Render.PAGES;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotFoundResponse;
import io.javalin.http.UploadedFile;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.rollwright.action.Action;
import org.rollwright.action.Fields;
import org.rollwright.action.ScopeActions;
import org.rollwright.coin.Length;
import org.rollwright.desk.State;
import org.rollwright.hunt.Find;
import org.rollwright.hunt.HuntId;
import org.rollwright.scope.PhotoNote;
import org.rollwright.scope.PhotoSubject;
import org.rollwright.scope.picture.CoinOutline;
import org.rollwright.scope.picture.Photo;
import org.rollwright.scope.picture.PhotoReader;
import org.rollwright.scope.picture.PhotoShelf;
import org.rollwright.scope.picture.Registration;
import org.rollwright.web.shell.Bench;
import org.rollwright.web.shell.Door;
import org.rollwright.web.shell.Frame;

/// Photographs: taken in, shown, measured, compared.
public final class PhotoPages {
    private static final int MOST_FILES = 20;

    private final Bench bench;
    private final Door door;
    private final OpenPhotos open;

    public PhotoPages(Bench bench) {
        this.bench = bench;
        this.door = new Door(bench);
        this.open = new OpenPhotos(bench.photos());
    }

    public void register(RoutesConfig routes) {
        routes.post("/scope/photos", this::keep);
        routes.post("/scope/photos/take-out", this::takeOut);
        routes.get("/photos/{file}", this::file);
        routes.get("/scope/photo/{id}", this::photo);
        routes.post("/scope/photo/{id}/measure", this::measure);
        routes.get("/scope/compare", this::compare);
        routes.get("/scope/aligned/{first}/{second}", this::aligned);
    }

    private Frame frame(String title) {
        return bench.frame(title, "scope");
    }

    /// Where a photograph goes, from the fields of a form.
    private Optional<PhotoSubject> subject(Context context) {
        String find = Optional.ofNullable(context.formParam("find")).orElse("");
        String variety = Optional.ofNullable(context.formParam("variety")).orElse("");
        if (!variety.isEmpty()) {
            String marker = Optional.ofNullable(context.formParam("marker")).orElse("0");
            boolean known = bench.desk()
                    .<Boolean>read(book -> bench.varieties()
                            .book(book.scope())
                            .variety(variety)
                            .isPresent());
            return known && marker.matches("[0-9]{1,2}")
                    ? Optional.of(PhotoSubject.variety(variety, Integer.parseInt(marker)))
                    : Optional.empty();
        }
        if (!find.isEmpty()) {
            return find(find).map(known -> PhotoSubject.find(known.id()));
        }
        return Optional.of(PhotoSubject.BENCH);
    }

    /// `3/12` is find 12 of hunt 3.
    private Optional<Find> find(String text) {
        if (!text.matches("[0-9]{1,9}/[0-9]{1,9}")) {
            return Optional.empty();
        }
        String[] parts = text.split("/");
        long hunt = Long.parseLong(parts[0]);
        return hunt < 1
                ? Optional.empty()
                : bench.desk().read(book -> book.hunt().find(new HuntId(hunt), Integer.parseInt(parts[1])));
    }

    private void keep(Context context) {
        List<String> problems = new ArrayList<>();
        PhotoSubject about = subject(context).orElse(null);
        List<UploadedFile> files = context.uploadedFiles("photo").stream()
                .filter(file -> file.size() > 0)
                .toList();
        if (about == null) {
            problems.add(t("photo.subject-gone"));
        } else if (files.isEmpty()) {
            problems.add(t("photo.no-photograph"));
        } else if (files.size() > MOST_FILES) {
            problems.add(t("photo.too-many-files", files.size(), MOST_FILES));
        } else {
            String caption =
                    Optional.ofNullable(context.formParam("caption")).orElse("").strip();
            List<Photo> photos = read(files, problems);
            if (problems.isEmpty()) {
                problems.addAll(record(photos, about, caption));
            }
            if (problems.isEmpty()) {
                String last = photos.getLast().id();
                String back = Optional.ofNullable(context.formParam("back")).orElse("");
                boolean ours = back.startsWith("/scope") && !back.startsWith("//");
                context.header("X-Photo", last);
                context.redirect(ours ? back : "/scope/photo/" + last, HttpStatus.SEE_OTHER);
                return;
            }
        }
        context.status(HttpStatus.UNPROCESSABLE_CONTENT);
        context.html(PAGES.photosPhotosorry(
                        frame(t("photo.not-kept")),
                        problems,
                        Optional.ofNullable(context.formParam("back")).orElse("/scope"))
                .render());
    }

    private static List<Photo> read(List<UploadedFile> files, List<String> problems) {
        List<Photo> photos = new ArrayList<>();
        for (UploadedFile file : files) {
            if (file.size() > PhotoReader.MOST_BYTES) {
                problems.add(t(
                        "photo.file-too-large",
                        file.filename(),
                        file.size() / 1_000_000,
                        PhotoReader.MOST_BYTES / 1_000_000));
                continue;
            }
            try (InputStream in = file.content()) {
                switch (PhotoReader.read(in.readAllBytes())) {
                    case PhotoReader.Read.Good good -> photos.add(good.photo());
                    case PhotoReader.Read.Refused refused -> problems.add(labelled(file.filename(), refused.flaw()));
                }
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        return photos;
    }

    /// Pixels first, then the journal: what the journal names is always on the shelf.
    private List<String> record(List<Photo> photos, PhotoSubject about, String caption) {
        try {
            photos.forEach(bench.photos()::keep);
        } catch (PhotoShelf.NotKept e) {
            return List.of(String.valueOf(e.getMessage()));
        }
        List<ScopeActions.Shot> shots = photos.stream()
                .map(photo -> new ScopeActions.Shot(photo.id(), photo.width(), photo.height()))
                .toList();
        return ScopeActions.photographs(bench.desk(), door.setting(), shots, about, caption)
                        instanceof Action.Answer.Refused refused
                ? Door.sentences(refused)
                : List.of();
    }

    private void takeOut(Context context) {
        Map<String, List<String>> typed = new LinkedHashMap<>(context.formParamMap());
        subject(context)
                .flatMap(PhotoSubject::findId)
                .ifPresent(find -> typed.put("find", List.of(Long.toString(find.number()))));
        String back = Optional.ofNullable(context.formParam("back")).orElse("/scope");
        switch (door.perform(new Fields(typed), ScopeActions.PHOTO_OFF, (known, event) -> {})) {
            case Action.Answer.Done done ->
                context.redirect(back.startsWith("/scope") ? back : "/scope", HttpStatus.SEE_OTHER);
            case Action.Answer.Refused refused -> {
                context.status(HttpStatus.UNPROCESSABLE_CONTENT);
                context.html(PAGES.photosPhotosorry(frame(t("photo.not-taken-out")), Door.sentences(refused), back)
                        .render());
            }
        }
    }

    private void file(Context context) {
        String file = context.pathParam("file");
        Optional<byte[]> bytes = file.endsWith(".small.jpg")
                ? bench.photos().thumbnail(file.substring(0, file.length() - 10))
                : file.endsWith(".jpg") ? bench.photos().jpeg(file.substring(0, file.length() - 4)) : Optional.empty();
        context.contentType("image/jpeg");
        context.header("Cache-Control", "private, max-age=31536000, immutable");
        context.result(bytes.orElseThrow(NotFoundResponse::new));
    }

    /// The millimetres of the coin on a photograph, as far as the record says which coin it is.
    private static @Nullable Length diameter(State book, Bench bench, PhotoNote note) {
        return note.about()
                .findId()
                .flatMap(book.hunt()::find)
                .flatMap(find ->
                        bench.catalog().lookup(find.facts().identity()).stream().findFirst())
                .or(() -> note.about()
                        .varietyKey()
                        .flatMap(bench.varieties().book(book.scope())::variety)
                        .flatMap(one -> bench
                                .catalog()
                                .ofYear(one.denomination(), one.years().first())
                                .stream()
                                .findFirst()))
                .map(issue -> issue.alloy().diameter())
                .orElse(null);
    }

    private Optional<PhotoNote> note(State book, String id) {
        return book.scope().photos().stream()
                .filter(one -> one.photo().equals(id))
                .reduce((a, b) -> b);
    }

    private void photo(Context context) {
        String id = context.pathParam("id");
        PhotoView view = bench.desk()
                .read(book -> note(book, id).map(note -> {
                    Length diameter = diameter(book, bench, note);
                    return PhotoView.of(book, bench.catalog(), note, diameter);
                }))
                .orElseThrow(NotFoundResponse::new);
        @Nullable
        CoinOutline outline = open.pixels(id).flatMap(CoinOutline::find).orElse(null);
        context.html(PAGES.photosPhoto(frame(t("photo.photograph")), view.withOutline(outline))
                .render());
    }

    private void measure(Context context) {
        BufferedImage picture = open.pixels(context.pathParam("id")).orElseThrow(NotFoundResponse::new);
        Measured measured = Measured.of(picture, context.formParamMap());
        context.html(PAGES.photosMeasured(measured).render());
    }

    private void compare(Context context) {
        String first = Optional.ofNullable(context.queryParam("a")).orElse("");
        String second = Optional.ofNullable(context.queryParam("b")).orElse("");
        CompareView view = bench.desk().read(book -> CompareView.choices(book, bench.catalog(), first, second));
        Optional<BufferedImage> one = open.pixels(first);
        Optional<BufferedImage> two = open.pixels(second);
        if (one.isPresent() && two.isPresent()) {
            view = view.with(Registration.of(one.get(), two.get()), one.get());
        }
        context.html(
                PAGES.photosCompare(frame(t("photo.two-photographs")), view).render());
    }

    private void aligned(Context context) {
        BufferedImage first = open.pixels(context.pathParam("first")).orElseThrow(NotFoundResponse::new);
        BufferedImage second = open.pixels(context.pathParam("second")).orElseThrow(NotFoundResponse::new);
        context.contentType("image/jpeg");
        context.result(PhotoReader.jpeg(Registration.of(first, second).secondOverFirst(first, second)));
    }
}
