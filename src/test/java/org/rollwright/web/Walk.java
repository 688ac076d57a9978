package org.rollwright.web;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicReference;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import org.jspecify.annotations.Nullable;
import org.rollwright.desk.Desk;
import org.rollwright.desk.MemoryJournal;
import org.rollwright.desk.State;
import org.rollwright.desk.StateText;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;
import org.rollwright.store.RoundTrip;

/// A random walk over every form of the pages, with undo and redo. Now and then the journal is folded anew, once
/// from its beginning and once from a snapshot taken on the way, and every page must then read the same.
///
/// The clock is the walk's own and stands still while pages are compared. One thing is masked, after a start from a
/// snapshot: whether the button for redo is offered, because only the last thousand entries before the snapshot are
/// looked through for it; the key works all the same.
final class Walk implements AutoCloseable {
    /// What a walk came to.
    static final class Sum {
        final Map<String, Integer> posts = new TreeMap<>();
        final List<String> differences = new ArrayList<>();
        int refused;
        int undone;
        int redone;
        int pages;
        int folds;

        int all() {
            return posts.values().stream().mapToInt(Integer::intValue).sum();
        }

        @Override
        public String toString() {
            return all() + " posts " + posts + ", " + refused + " refused, " + undone + " undone, " + redone
                    + " redone, " + folds + " folds anew, " + pages + " pages compared, " + differences.size()
                    + " differences";
        }
    }

    private static final Pattern LINK = Pattern.compile("(?:href|hx-get)=\"(/[^\"#]*)");
    private static final Pattern SHOWN = Pattern.compile("name=\"shown\" value=\"([^\"]*)\"");
    private static final int MOST_DIFFERENCES = 12;

    private final Random random;
    private final AtomicReference<Instant> now = new AtomicReference<>(Instant.parse("2026-03-01T19:00:00Z"));
    private final HttpClient client = HttpClient.newHttpClient();
    private final Sum sum;
    private final byte[][] pictures;
    private TestBench bench;
    private WalkMoves moves;
    private @Nullable State earlier;

    Walk(long seed, Sum sum) {
        this.random = new Random(seed);
        this.sum = sum;
        this.pictures = new byte[][] {picture(1), picture(2), picture(3)};
        this.bench = new TestBench(now::get);
        this.moves = new WalkMoves(random, bench, pictures);
        bench.begin();
    }

    private static byte[] picture(int number) {
        BufferedImage image = new BufferedImage(48, 36, BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = image.createGraphics();
        graphics.setColor(new Color(40 * number, 90, 60));
        graphics.fillOval(8, 4, 28, 28);
        graphics.dispose();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            ImageIO.write(image, "png", out);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    /// Posts so many times.
    void go(int posts) throws IOException, InterruptedException {
        int left = posts;
        int image = random.nextInt(Math.max(1, posts));
        while (left > 0) {
            if (left <= image && earlier == null) {
                earlier = bench.bench.desk().read(RoundTrip::of);
            }
            int chance = random.nextInt(1000);
            if (chance < 60) {
                int times = chance == 0 && left > 2_000 ? 700 : 1 + random.nextInt(12);
                for (WalkMoves.Post post : moves.backAndForth(Math.min(times, left))) {
                    post(post);
                    left--;
                }
                for (int i = random.nextInt(4); i > 0; i--) {
                    // pages offer no redo outside hunts, the desk does
                    count(bench.bench.desk().redo(0, ">") instanceof Desk.Outcome.Kept);
                }
            } else {
                post(moves.next());
                left--;
            }
        }
    }

    private void count(boolean kept) {
        sum.redone += kept ? 1 : 0;
    }

    private void post(WalkMoves.Post post) throws IOException, InterruptedException {
        now.updateAndGet(instant -> instant.plusMillis(random.nextInt(3) == 0 ? 0 : random.nextInt(120_000)));
        WalkMoves.Post full = post.path().equals("/albums/compare") ? shown(post) : post;
        long before = bench.journal.last();
        HttpResponse<String> answer = send(full);
        sum.posts.merge(post.place(), 1, Integer::sum);
        if (answer.statusCode() >= 500) {
            differ("answer " + answer.statusCode() + " to " + told(full));
        }
        if (answer.statusCode() >= 400) {
            sum.refused++;
            if (bench.journal.last() != before) {
                differ("refused, yet recorded: " + told(full));
            }
        } else if (bench.journal.last() > before) {
            Event event = bench.journal.at(bench.journal.last()).event();
            sum.undone += event instanceof Event.Undone ? 1 : 0;
            count(event instanceof Event.Redone);
        }
    }

    private WalkMoves.Post shown(WalkMoves.Post post) throws IOException, InterruptedException {
        Matcher matcher = SHOWN.matcher(get(bench, "/albums/compare"));
        while (matcher.find()) {
            if (random.nextInt(4) > 0) {
                post.with("shown", plain(matcher.group(1)));
            }
        }
        return post;
    }

    private static String plain(String text) {
        return text.replace("&#34;", "\"")
                .replace("&quot;", "\"")
                .replace("&#39;", "'")
                .replace("&lt;", "<")
                .replace("&amp;", "&");
    }

    private static String told(WalkMoves.Post post) {
        StringBuilder told = new StringBuilder(post.path());
        post.fields()
                .forEach(field -> told.append(' ').append(field[0]).append('=').append(field[1]));
        return told.toString();
    }

    private HttpResponse<String> send(WalkMoves.Post post) throws IOException, InterruptedException {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(bench.address + post.path()));
        if (!post.file().isEmpty()) {
            ByteArrayOutputStream body = new ByteArrayOutputStream();
            for (String[] field : post.fields()) {
                body.writeBytes(part(field[0], "", field[1].getBytes(StandardCharsets.UTF_8)));
            }
            body.writeBytes(part(post.file(), "a.csv", post.content()));
            body.writeBytes("--cut--\r\n".getBytes(StandardCharsets.US_ASCII));
            request.header("Content-Type", "multipart/form-data; boundary=cut")
                    .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray()));
        } else {
            StringBuilder body = new StringBuilder();
            post.fields()
                    .forEach(field -> body.append(body.isEmpty() ? "" : "&")
                            .append(URLEncoder.encode(field[0], StandardCharsets.UTF_8))
                            .append('=')
                            .append(URLEncoder.encode(field[1], StandardCharsets.UTF_8)));
            request.header("Content-Type", "application/x-www-form-urlencoded")
                    .POST(HttpRequest.BodyPublishers.ofString(body.toString()));
            if (post.path().endsWith("/line")) {
                // as the quick keys send it: the page is not printed again for a refusal
                request.header("X-Bench", "quick");
            }
        }
        return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
    }

    private static byte[] part(String name, String file, byte[] content) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        String head = "--cut\r\nContent-Disposition: form-data; name=\"" + name + "\""
                + (file.isEmpty() ? "" : "; filename=\"" + file + "\"") + "\r\n\r\n";
        out.writeBytes(head.getBytes(StandardCharsets.UTF_8));
        out.writeBytes(content);
        out.writeBytes("\r\n".getBytes(StandardCharsets.US_ASCII));
        return out.toByteArray();
    }

    private String get(TestBench from, String path) throws IOException, InterruptedException {
        HttpResponse<String> answer = client.send(
                HttpRequest.newBuilder(URI.create(from.address + path.replace(" ", "%20")))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
        return answer.statusCode() + "\n" + answer.body();
    }

    private void differ(String what) {
        if (sum.differences.size() < MOST_DIFFERENCES) {
            System.out.println("DIFFERENCE " + what);
        }
        sum.differences.add(what);
    }

    /// Addresses of pages to compare: all that links lead to, so many of each shape, chosen anew each time.
    private Set<String> pages(Map<String, String> printed, int ofEach) throws IOException, InterruptedException {
        Deque<String> waiting = new ArrayDeque<>(List.of(
                "/mat",
                "/boxes",
                "/albums",
                "/albums/compare",
                "/scope",
                "/scope/compare",
                "/scale",
                "/cabinet",
                "/till",
                "/till/branches",
                "/till/time",
                "/till/round",
                "/odds",
                "/recap/series",
                "/settings"));
        Map<String, Integer> shapes = new HashMap<>();
        Set<String> seen = new HashSet<>();
        while (!waiting.isEmpty()) {
            String path = waiting.removeFirst();
            boolean text = !path.contains(".") || path.matches("[^?]*\\.(csv|ics|txt|json)(\\?.*)?");
            if (!text
                    || path.endsWith("/live")
                    || path.startsWith("/assets")
                    || path.startsWith("/guide")
                    || path.startsWith("/help")
                    || !seen.add(path)
                    || shapes.merge(path.replaceAll("[0-9]+|=[^&]*", "N"), 1, Integer::sum) > ofEach) {
                continue;
            }
            String page = get(bench, path);
            printed.put(path, page);
            List<String> links = new ArrayList<>();
            Matcher link = LINK.matcher(page);
            while (link.find()) {
                links.add(plain(link.group(1)));
            }
            Collections.shuffle(links, random);
            waiting.addAll(links);
        }
        return printed.keySet();
    }

    /// Folds the journal anew and compares every page; the walk may go on from one of the new states.
    void compare(int ofEach) throws IOException, InterruptedException {
        Map<String, String> printed = new LinkedHashMap<>();
        pages(printed, ofEach);
        String state = bench.bench.desk().read(StateText::whole);
        MemoryJournal read = new MemoryJournal();
        bench.journal.read(0, entry -> read.append(RoundTrip.of(entry)));
        State image = earlier == null ? bench.bench.desk().read(RoundTrip::of) : earlier;
        List<TestBench> others = new ArrayList<>();
        others.add(same("folded from the beginning", read, State.EMPTY, state, printed));
        others.add(same("folded from a snapshot", read, image, state, printed));
        State present = bench.bench.desk().read(RoundTrip::of);
        others.add(same("from a snapshot of now", read, present, state, printed));
        earlier = null;
        // one of the three is lived on
        others.add(bench);
        bench = others.remove(random.nextInt(others.size()));
        others.forEach(TestBench::close);
        moves = new WalkMoves(random, bench, pictures);
    }

    private TestBench same(String how, MemoryJournal journal, State start, String state, Map<String, String> printed)
            throws IOException, InterruptedException {
        MemoryJournal copy = new MemoryJournal();
        journal.read(0, copy::append);
        boolean whole = start.last() == 0;
        TestBench other = bench.again(copy, start);
        sum.folds++;
        String again = other.bench.desk().read(StateText::whole);
        if (!again.equals(state)) {
            differ("state " + how + ": " + first(state, again));
        }
        for (Map.Entry<String, String> page : printed.entrySet()) {
            String now = get(other, page.getKey());
            sum.pages++;
            boolean equal = whole ? now.equals(page.getValue()) : masked(now).equals(masked(page.getValue()));
            if (!equal) {
                differ("page " + page.getKey() + " " + how + ": " + first(page.getValue(), now));
            }
        }
        return other;
    }

    private static String masked(String page) {
        return page.replace("data-line=\"&gt;\" disabled>", "data-line=\"&gt;\">");
    }

    private static String first(String one, String other) {
        String[] a = one.split("\n");
        String[] b = other.split("\n");
        for (int i = 0; i < Math.min(a.length, b.length); i++) {
            if (!a[i].equals(b[i])) {
                int at = 0;
                while (at < Math.min(a[i].length(), b[i].length()) && a[i].charAt(at) == b[i].charAt(at)) {
                    at++;
                }
                int from = Math.max(0, at - 60);
                return "line " + (i + 1) + ": '" + a[i].substring(from, Math.min(a[i].length(), at + 160)) + "' / '"
                        + b[i].substring(from, Math.min(b[i].length(), at + 160)) + "'";
            }
        }
        return a.length + " lines / " + b.length + " lines";
    }

    /// The journal so far, for looking into a difference.
    List<Entry> entries() {
        List<Entry> entries = new ArrayList<>();
        bench.journal.read(0, entries::add);
        return entries;
    }

    @Override
    public void close() {
        client.close();
        bench.close();
    }

    /// Walks in evenings of up to 4,000 posts, each on a new record, so that pages stay of a hunter's size.
    static Sum walk(int posts, long seed, int evening, int ofEach) throws IOException, InterruptedException {
        Sum sum = new Sum();
        for (int begun = 0; begun < posts; begun += evening) {
            int here = Math.min(evening, posts - begun);
            try (Walk walk = new Walk(seed + begun / evening, sum)) {
                walk.go(here / 2);
                walk.compare(ofEach);
                walk.go(here - here / 2);
                walk.compare(ofEach);
            }
        }
        return sum;
    }

    /// `[POSTS [SEED]]`
    public static void main(String[] arguments) throws IOException, InterruptedException {
        int posts = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 100_000;
        long seed = arguments.length > 1 ? Long.parseLong(arguments[1]) : 20_261_127;
        long start = System.nanoTime();
        Sum sum = walk(posts, seed, 4_000, 4);
        System.out.println(sum + ", seed " + seed + ", " + (System.nanoTime() - start) / 1_000_000_000 + " s");
        System.exit(sum.differences.isEmpty() ? 0 : 1);
    }
}
