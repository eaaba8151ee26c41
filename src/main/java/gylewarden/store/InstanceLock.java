package gylewarden.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.Optional;

/**
 * One daemon per data folder: two of them would switch one compressor by two guards. The kernel holds the lock for as long
 * as the process lives, so a crash leaves none behind; the file's text only names the holder.
 */
public final class InstanceLock implements AutoCloseable {
    private static final String FILE = "daemon.lock";

    private final FileChannel channel;
    private final FileLock lock;
    private final Path file;
    private final Object identity;

    private InstanceLock(FileChannel channel, FileLock lock, Path file, Object identity) {
        this.channel = channel;
        this.lock = lock;
        this.file = file;
        this.identity = identity;
    }

    /**
     * Takes the data folder, making it if it is missing.
     *
     * @throws Held if another process has it
     * @throws IOException if the folder or the file in it cannot be written, or its file system knows no locks
     */
    public static InstanceLock take(Path data) throws IOException, Held {
        Files.createDirectories(data);
        Path file = data.resolve(FILE);
        FileChannel channel =
                FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
        boolean taken = false;
        try {
            Optional<FileLock> lock = tryLock(channel);
            if (lock.isEmpty()) throw new Held(data, holder(channel));
            name(channel);
            var taking = new InstanceLock(channel, lock.get(), file, identity(file));
            taken = true;
            return taking;
        } finally {
            if (!taken) channel.close();
        }
    }

    /**
     * Whether the data folder is still the one that was taken: false once it has been moved, replaced or unmounted, or its
     * lock's file deleted. As long as it is open, the kernel gives its number to no other file.
     */
    public boolean isInPlace() {
        try {
            return identity(file).equals(identity);
        } catch (IOException gone) {
            return false;
        }
    }

    /** Tells this file from any other of the same name: its disk and its number there. */
    private static Object identity(Path file) throws IOException {
        Object key = Files.readAttributes(file, BasicFileAttributes.class).fileKey();
        return Optional.ofNullable(key).orElse(file);
    }

    /**
     * Who has the data folder, in words; empty if nobody has. Makes and changes nothing.
     *
     * @throws IOException if the lock's file can't be opened, so that nobody knows
     */
    public static Optional<String> heldBy(Path data) throws IOException {
        Path file = data.resolve(FILE);
        if (!Files.exists(file)) return Optional.empty();
        try (var channel = FileChannel.open(file, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
            Optional<FileLock> lock = tryLock(channel);
            if (lock.isEmpty()) return Optional.of(new Held(data, holder(channel)).getMessage());
            lock.get().release();
            return Optional.empty();
        }
    }

    private static Optional<FileLock> tryLock(FileChannel channel) throws IOException {
        try {
            return Optional.ofNullable(channel.tryLock());
        } catch (OverlappingFileLockException e) {
            return Optional.empty(); // held by this very process
        }
    }

    /** Writes who holds it, for the words of a second instance. On a full disk the lock holds all the same. */
    private static void name(FileChannel channel) {
        try {
            channel.truncate(0);
            channel.write(
                    ByteBuffer.wrap((ProcessHandle.current().pid() + "\n").getBytes(StandardCharsets.US_ASCII)), 0);
        } catch (IOException e) {
            return; // nobody is named then
        }
    }

    private static Optional<String> holder(FileChannel channel) throws IOException {
        var text = ByteBuffer.allocate(32);
        if (channel.read(text, 0) <= 0) return Optional.empty();
        return Optional.of(new String(text.array(), 0, text.position(), StandardCharsets.US_ASCII).strip())
                .filter(pid -> pid.matches("[0-9]+"));
    }

    @Override
    public void close() throws IOException {
        lock.release();
        channel.close();
    }

    /** Another process has the data folder. */
    public static final class Held extends Exception {
        private static final long serialVersionUID = 1;

        Held(Path data, Optional<String> pid) {
            super("the data folder " + data + " is in use by "
                    + pid.map(number -> "process " + number).orElse("another process"));
        }
    }
}
