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

    private final Map<String, Asset> byPath;
    private final Asset index;

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

    private Assets(Map<String, Asset> byPath, Asset index) {
        this.byPath = Map.copyOf(byPath);
        this.index = index;
    }

    /** @throws IllegalStateException if a file of the page is missing from the jar: a build that is broken */
    static Assets load() {
        return load("gylewarden/web/page/");
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
        return new Assets(byPath, asset("index.html", page.get("index.html"), version));
    }

    private static Asset asset(String name, byte[] bytes, String version) {
        if (!name.equals("index.html")) return Asset.of(name, bytes);
        String written = new String(bytes, StandardCharsets.UTF_8).replace(VERSION, "/page/" + version + "/");
        return Asset.of(name, written.getBytes(StandardCharsets.UTF_8));
    }

    /** The page, whichever of its addresses was asked for. */
    Reply page(Call call) {
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
