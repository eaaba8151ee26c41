package gylewarden.web;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.JarURLConnection;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;

/** Files on the class path, in a jar or in a folder. */
final class Resources {
    private Resources() {}

    static byte[] read(String name) {
        try (InputStream in = url(name).openStream()) {
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * All files below a folder, by their path within it.
     *
     * @param known one of them, for a jar need not have entries for folders
     */
    static Map<String, byte[]> under(String folder, String known) {
        Map<String, byte[]> files = new TreeMap<>();
        for (String name : names(folder, url(folder + known), known)) files.put(name, read(folder + name));
        return files;
    }

    private static List<String> names(String folder, URL anchor, String known) {
        try {
            if (anchor.openConnection() instanceof JarURLConnection jar)
                return jar.getJarFile().stream()
                        .filter(entry -> !entry.isDirectory() && entry.getName().startsWith(folder))
                        .map(entry -> entry.getName().substring(folder.length()))
                        .toList();
            Path root = Path.of(anchor.toURI());
            for (int up = known.split("/", -1).length; up > 0; up--) root = root.getParent();
            Path top = root;
            try (Stream<Path> walk = Files.walk(root)) {
                return walk.filter(Files::isRegularFile)
                        .map(file -> top.relativize(file).toString())
                        .toList();
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (URISyntaxException e) {
            throw new IllegalStateException(e);
        }
    }

    private static URL url(String name) {
        return Optional.ofNullable(Resources.class.getClassLoader().getResource(name))
                .orElseThrow(() -> new IllegalStateException(name + " is not in the jar; the build is broken"));
    }
}
