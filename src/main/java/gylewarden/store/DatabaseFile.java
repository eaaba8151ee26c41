package gylewarden.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Instant;
import java.util.Optional;

/** The database as a file among files: is it there, is it still the same, what does its header say, out of the way with it. */
record DatabaseFile(Path path) {
    /** SQLite's file format, section 1.3: the header is 100 bytes, and big-endian. */
    private static final int HEADER = 100;

    private static final byte[] MAGIC = "SQLite format 3\0".getBytes(StandardCharsets.US_ASCII);
    private static final int AT_USER_VERSION = 60;
    private static final int AT_APPLICATION = 68;

    /** What the first bytes of a database say. */
    record Header(int version, int application) {}

    Path folder() {
        return path.getParent();
    }

    boolean exists() {
        return Files.exists(path);
    }

    /** Tells this file from another one of the same name. */
    Object identity() throws IOException {
        Object key = Files.readAttributes(path, BasicFileAttributes.class).fileKey();
        return Optional.ofNullable(key).orElse(path);
    }

    boolean isStill(Object identity) {
        try {
            return identity().equals(identity);
        } catch (IOException e) {
            return false;
        }
    }

    /** The disk that the folder lives on, as the kernel numbers it. */
    Object disk() throws IOException {
        return Files.getAttribute(folder(), "unix:dev");
    }

    /** In bytes; 0 if it is not there. */
    long size() throws IOException {
        return size(path);
    }

    /** Whether there is something in it that the database itself does not hold yet. */
    boolean hasLog() throws IOException {
        return size(companion("-wal")) > 0;
    }

    private static long size(Path file) throws IOException {
        try {
            return Files.size(file);
        } catch (NoSuchFileException e) {
            return 0;
        }
    }

    /** Empty if these are not the first bytes of a database. */
    Optional<Header> header() throws IOException {
        var bytes = ByteBuffer.allocate(HEADER);
        try (var channel = FileChannel.open(path, StandardOpenOption.READ)) {
            boolean more = true;
            while (more) more = bytes.hasRemaining() && channel.read(bytes) >= 0;
        }
        if (bytes.hasRemaining()) return Optional.empty();
        for (int i = 0; i < MAGIC.length; i++) if (bytes.get(i) != MAGIC[i]) return Optional.empty();
        return Optional.of(new Header(bytes.getInt(AT_USER_VERSION), bytes.getInt(AT_APPLICATION)));
    }

    /** Renames it and what belongs to it; nothing is deleted and nothing overwritten. Needs no space on the disk. */
    Path setAside(Instant now) throws IOException {
        Path aside = SetAside.name(path, now);
        for (String companion : SetAside.COMPANIONS)
            if (Files.exists(companion(companion)))
                Files.move(companion(companion), Path.of(aside + companion), StandardCopyOption.ATOMIC_MOVE);
        Durable.syncFolder(folder());
        return aside;
    }

    private Path companion(String suffix) {
        return Path.of(path + suffix);
    }
}
