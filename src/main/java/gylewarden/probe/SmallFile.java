package gylewarden.probe;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/** Reads a file that should hold a line or two. */
final class SmallFile {
    /** A reading takes less than 100 bytes; whatever the file is, no more than this is read of it. */
    private static final int MOST_BYTES = 4096;

    private SmallFile() {}

    /** @throws IOException whatever the reason: there is no such file, it may not be read, the device fails */
    static String read(Path path) throws IOException {
        try (InputStream in = Files.newInputStream(path)) {
            return new String(in.readNBytes(MOST_BYTES), StandardCharsets.ISO_8859_1).strip();
        }
    }
}
