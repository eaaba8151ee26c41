package gylewarden.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** Writing so that a power cut leaves the old content or the new, never half of one. */
public final class Durable {
    private Durable() {}

    /** Puts {@code text} in the place of {@code file}: a new file beside it, synced, renamed over it, the folder synced. */
    public static void replace(Path file, String text) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        Path fresh = folder.resolve(file.getFileName() + ".new");
        try (var channel = FileChannel.open(
                fresh, StandardOpenOption.CREATE, StandardOpenOption.TRUNCATE_EXISTING, StandardOpenOption.WRITE)) {
            var bytes = ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8));
            while (bytes.hasRemaining()) channel.write(bytes);
            channel.force(true);
        }
        Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        syncFolder(folder);
    }

    /** Leaves {@code file} without content, or makes it so; needs no space on the disk but for a name. */
    static void empty(Path file) throws IOException {
        try (var channel = FileChannel.open(
                file, StandardOpenOption.CREATE, StandardOpenOption.TRUNCATE_EXISTING, StandardOpenOption.WRITE)) {
            channel.force(true);
        }
        syncFolder(file.toAbsolutePath().getParent());
    }

    /** Makes new and vanished names in a folder last. */
    static void syncFolder(Path folder) throws IOException {
        try (var channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        }
    }
}
