package gylewarden.web;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The page's files and its two libraries, all of them read and packed once at start. What is not in this list is not served,
 * whatever a path looks like. A path holds the version of what it names, so that a browser may keep it for good.
 */
final class Assets {
    static final String LIT_HTML = "3.2.0";
    static final String UPLOT = "1.6.30";

    /** Stands in index.html for the version of all the page's files together. */
    static final String VERSION = "/page/VERSION/";

    private static final String FOR_GOOD = "public, max-age=31536000, immutable";

    private static final Map<String, String> TYPES = Map.of(
            "html", "text/html; charset=utf-8",
            "js", "text/javascript; charset=utf-8",
            "css", "text/css; charset=utf-8",
            "svg", "image/svg+xml",
            "png", "image/png",
            "ico", "image/x-icon",
            "json", "application/json",
            "webmanifest", "application/manifest+json");

    /** What the page's index.html begins with; in the demo it says there where things are broken. */
    private static final String ROOT = "<html lang=\"en\">";

    private static final String ROOT_IN_DEMO = "<html lang=\"en\" data-demo=\"/demo\">";

    private static final String PAGE_FOLDER = "gylewarden/web/page/";
    private static final String DEMO_FOLDER = "gylewarden/web/demo/";
    private static final String DEMO_VERSION = "/demo/files/VERSION/";

    private final Map<String, Asset> byPath;
    private final Asset index;
    private final Optional<Asset> demo;

    private static final class Asset {
        private final String type;
        private final byte[] plain;
        private final byte[] packed;
        private final String tag;

        private Asset(String type, byte[] plain, byte[] packed, String tag) {
            this.type = type;
            this.plain = plain;
            this.packed = packed;
            this.tag = tag;
        }

        static Asset of(String name, byte[] bytes) {
            String type = TYPES.get(name.substring(name.lastIndexOf('.') + 1));
            if (type == null) throw new IllegalStateException("no media type is known for " + name);
            return new Asset(type, bytes, Reply.gzip(bytes), "\"" + digest(Map.of(name, bytes)) + "\"");
        }

        Reply reply(Optional<String> acceptsEncoding, String caching) {
            boolean pack = packed.length < plain.length
                    && acceptsEncoding.filter(given -> given.contains("gzip")).isPresent();
            Reply reply = Reply.bytes(200, type, pack ? packed : plain)
                    .with("Cache-Control", caching)
                    .with("Vary", "Accept-Encoding");
            return pack ? reply.with("Content-Encoding", "gzip") : reply;
        }
    }

    private Assets(Map<String, Asset> byPath, Asset index, Optional<Asset> demo) {
        this.byPath = Map.copyOf(byPath);
        this.index = index;
        this.demo = demo;
    }

    /** @throws IllegalStateException if a file of the page is missing from the jar: a build that is broken */
    static Assets load() {
        return load(PAGE_FOLDER);
    }

    /** @param folder of the page's files on the class path */
    static Assets load(String folder) {
        Map<String, byte[]> page = Resources.under(folder, "index.html");
        String version = digest(page);
        Map<String, Asset> byPath = new TreeMap<>();
        page.forEach((name, bytes) -> byPath.put("/page/" + version + "/" + name, asset(name, bytes, version)));
        String libraries = "META-INF/resources/webjars/";
        Resources.under(libraries + "lit-html/" + LIT_HTML + "/", "lit-html.js").forEach((name, bytes) -> {
            if (name.endsWith(".js")) byPath.put("/lib/lit-html/" + LIT_HTML + "/" + name, Asset.of(name, bytes));
        });
        for (String name : new String[] {"uPlot.esm.js", "uPlot.min.css"})
            byPath.put(
                    "/lib/uplot/" + UPLOT + "/" + name,
                    Asset.of(name, Resources.read(libraries + "uplot/" + UPLOT + "/dist/" + name)));
        byPath.remove("/page/" + version + "/index.html");
        return new Assets(byPath, asset("index.html", page.get("index.html"), version), Optional.empty());
    }

    /** The same with the demo's own room, and the page's way to it. */
    static Assets loadForDemo() {
        Assets usual = load();
        Map<String, byte[]> page = Resources.under(PAGE_FOLDER, "index.html");
        String pageFiles = "/page/" + digest(page) + "/";
        Map<String, byte[]> room = Resources.under(DEMO_FOLDER, "index.html");
        String roomFiles = "/demo/files/" + digest(room) + "/";
        Map<String, Asset> byPath = new TreeMap<>(usual.byPath);
        room.forEach((name, bytes) -> {
            if (!name.equals("index.html")) byPath.put(roomFiles + name, Asset.of(name, bytes));
        });
        String index = text(page.get("index.html")).replace(VERSION, pageFiles);
        if (!index.contains(ROOT)) throw new IllegalStateException("the page's index.html does not hold " + ROOT);
        String demo = text(room.get("index.html")).replace(VERSION, pageFiles).replace(DEMO_VERSION, roomFiles);
        return new Assets(
                byPath,
                Asset.of("index.html", bytes(index.replace(ROOT, ROOT_IN_DEMO))),
                Optional.of(Asset.of("index.html", bytes(demo))));
    }

    private static Asset asset(String name, byte[] bytes, String version) {
        if (!name.equals("index.html")) return Asset.of(name, bytes);
        return Asset.of(name, bytes(text(bytes).replace(VERSION, "/page/" + version + "/")));
    }

    private static String text(byte[] bytes) {
        return new String(bytes, StandardCharsets.UTF_8);
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    /** The page, whichever of its addresses was asked for. */
    Reply page(Call call) {
        return unlessKnown(call, index);
    }

    /** The room of the demo. */
    Reply demo(Call call) {
        return unlessKnown(call, demo.orElseThrow(() -> new IllegalStateException("not loaded for the demo")));
    }

    private static Reply unlessKnown(Call call, Asset index) {
        boolean known = call.header("If-None-Match")
                .filter(tags -> tags.contains(index.tag))
                .isPresent();
        Reply reply = known ? Reply.empty(304) : index.reply(call.header("Accept-Encoding"), "no-cache");
        return reply.with("ETag", "W/" + index.tag);
    }

    Reply file(Call call) throws Refused {
        String path = call.context().path();
        Asset asset = Optional.ofNullable(byPath.get(path))
                .orElseThrow(() -> new Refused(
                        Problem.Kind.NOT_FOUND,
                        "There is no such file. The page may be of a version before this one: load it again."));
        return asset.reply(call.header("Accept-Encoding"), FOR_GOOD);
    }

    Iterable<String> paths() {
        return byPath.keySet();
    }

    private static String digest(Map<String, byte[]> files) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            new TreeMap<>(files).forEach((name, bytes) -> {
                digest.update(name.getBytes(StandardCharsets.UTF_8));
                digest.update(bytes);
            });
            return HexFormat.of().formatHex(digest.digest(), 0, 6);
        } catch (NoSuchAlgorithmException everyPlatformHasIt) {
            throw new IllegalStateException(everyPlatformHasIt);
        }
    }
}
