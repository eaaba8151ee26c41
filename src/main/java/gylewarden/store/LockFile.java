package gylewarden.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.Optional;
import java.util.Set;

/**
 * One file that this process has locked. The kernel holds the lock for as long as the process lives, so a crash leaves none
 * behind; the file's text only names the holder.
 */
record LockFile(Path path, FileChannel channel, FileLock lock, Object identity) implements AutoCloseable {
    private static final Set<OpenOption> MADE = Set.of(
            StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS);
    /** Without the wish to make it: in a folder for all, the kernel refuses that for the file of another user. */
    private static final Set<OpenOption> THERE =
            Set.of(StandardOpenOption.READ, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS);

    private static final Set<OpenOption> ONLY_READ = Set.of(StandardOpenOption.READ);

    /** Somebody else has it: who, where they say so. */
    static final class Taken extends Exception {
        private static final long serialVersionUID = 1;

        private final transient Optional<String> pid;

        Taken(Optional<String> pid) {
            this.pid = pid;
        }

        Optional<String> pid() {
            return pid;
        }
    }

    /** Against everybody, making the file if it is missing. */
    static LockFile exclusive(Path path) throws IOException, Taken {
        LockFile taken = take(path, Files.exists(path) ? THERE : MADE, false);
        taken.name();
        return taken;
    }

    /** A file that can only be read: against those that can write it, not against those that can't. */
    static LockFile shared(Path path) throws IOException, Taken {
        return take(path, ONLY_READ, true);
    }

    /** Makes and changes nothing. A file that is not there is nobody's. */
    static void look(Path path) throws IOException, Taken {
        try {
            lookWriting(path);
        } catch (NoSuchFileException nobody) {
            return;
        } catch (IOException onlyRead) {
            shared(path).close();
        }
    }

    private static void lookWriting(Path path) throws IOException, Taken {
        take(path, THERE, false).close();
    }

    private static LockFile take(Path path, Set<OpenOption> how, boolean shared) throws IOException, Taken {
        FileChannel channel = FileChannel.open(path, how);
        boolean taken = false;
        try {
            FileLock lock = tryLock(channel, shared).orElseThrow(() -> new Taken(holder(channel)));
            var file = new LockFile(path, channel, lock, identity(path));
            taken = true;
            return file;
        } finally {
            if (!taken) channel.close();
        }
    }

    private static Optional<FileLock> tryLock(FileChannel channel, boolean shared) throws IOException {
        try {
            return Optional.ofNullable(channel.tryLock(0, Long.MAX_VALUE, shared));
        } catch (OverlappingFileLockException e) {
            return Optional.empty(); // held by this very process
        }
    }

    /** As long as it is open, the kernel gives its number to no other file. */
    boolean isInPlace() {
        return isStill(path, identity);
    }

    static boolean isStill(Path path, Object identity) {
        try {
            return identity(path).equals(identity);
        } catch (IOException gone) {
            return false;
        }
    }

    /** Tells this file or folder from any other of the same name: its disk and its number there. */
    static Object identity(Path path) throws IOException {
        Object key = Files.readAttributes(path, BasicFileAttributes.class).fileKey();
        return Optional.ofNullable(key).orElse(path);
    }

    /** Writes who holds it, for the words of a second instance. On a full disk the lock holds all the same. */
    private void name() {
        try {
            channel.truncate(0);
            channel.write(
                    ByteBuffer.wrap((ProcessHandle.current().pid() + "\n").getBytes(StandardCharsets.US_ASCII)), 0);
        } catch (IOException e) {
            return; // nobody is named then
        }
    }

    private static Optional<String> holder(FileChannel channel) {
        var text = ByteBuffer.allocate(32);
        try {
            if (channel.read(text, 0) <= 0) return Optional.empty();
        } catch (IOException e) {
            return Optional.empty(); // nobody is named then
        }
        return Optional.of(new String(text.array(), 0, text.position(), StandardCharsets.US_ASCII).strip())
                .filter(pid -> pid.matches("[0-9]+"));
    }

    @Override
    public void close() throws IOException {
        lock.release();
        channel.close();
    }
}
