package gylewarden.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.BooleanSupplier;

/**
 * One daemon per data folder: two of them would switch one compressor by two guards. The folder is taken by a lock on a file in
 * it. A card that is worn out can only be read, and a lock on what can only be read keeps nobody out; so a daemon takes a
 * file beside it as well, in the first of {@link #BESIDE} that can be written to, and everybody looks for one there.
 */
public final class InstanceLock implements AutoCloseable {
    private static final String FILE = "daemon.lock";

    /** The service's own folder in memory, where its unit has made it; else the temporary folder; else shared memory. */
    private static final List<Path> BESIDE =
            List.of(Path.of("/run/gylewarden"), Path.of(System.getProperty("java.io.tmpdir")), Path.of("/dev/shm"));

    private final List<LockFile> locks;
    private final Optional<Path> made;
    private final BooleanSupplier inPlace;
    private final Optional<String> unwritable;

    private InstanceLock(
            List<LockFile> locks, Optional<Path> made, BooleanSupplier inPlace, Optional<String> unwritable) {
        this.locks = List.copyOf(locks);
        this.made = made;
        this.inPlace = inPlace;
        this.unwritable = unwritable;
    }

    /**
     * Takes the data folder to write to it, making it if it is missing.
     *
     * @throws Held if another process has it
     * @throws IOException if the folder or the file in it cannot be written, or its file system knows no locks
     */
    public static InstanceLock take(Path data) throws IOException, Held {
        try {
            for (Path beside : beside(data)) lookBeside(beside);
            Files.createDirectories(data);
            LockFile inside = LockFile.exclusive(data.resolve(FILE));
            return new InstanceLock(List.of(inside), Optional.empty(), inside::isInPlace, Optional.empty());
        } catch (LockFile.Taken taken) {
            throw new Held(data, taken.pid());
        }
    }

    /**
     * Takes the data folder as it is, also one that can't be written to or is not there: the beer does not wait for a new card.
     *
     * @throws Held if another process has it
     * @throws IOException if neither it nor a file beside it can be locked, so that nobody knows whether another process has it
     */
    public static InstanceLock takeAsItIs(Path data) throws IOException, Held {
        List<LockFile> locks = new ArrayList<>();
        boolean taken = false;
        try {
            Optional<LockFile> besides = takeBeside(data);
            besides.ifPresent(locks::add);
            Optional<String> unwritable = takeInside(data, locks);
            if (unwritable.isPresent() && besides.isEmpty())
                throw new IOException(unwritable.get() + "; and no file can be locked in any of " + BESIDE);
            taken = true;
            return new InstanceLock(locks, besides.map(LockFile::path), place(data, locks), unwritable);
        } catch (LockFile.Taken other) {
            throw new Held(data, other.pid());
        } finally {
            if (!taken) for (LockFile lock : locks) lock.close();
        }
    }

    /** Adds the lock of the file in the folder, if there is one; why that does not keep others out, if so. */
    private static Optional<String> takeInside(Path data, List<LockFile> locks) throws LockFile.Taken {
        Path file = data.resolve(FILE);
        try {
            Files.createDirectories(data);
            locks.add(LockFile.exclusive(file));
            return Optional.empty();
        } catch (IOException unwritable) {
            try {
                locks.add(LockFile.shared(file));
            } catch (IOException unreadable) {
                unwritable.addSuppressed(unreadable);
            }
            return Optional.of(String.valueOf(unwritable.getMessage()));
        }
    }

    /** A folder that was not there at the start is never in its place: nobody knows what is in it. */
    private static BooleanSupplier place(Path data, List<LockFile> locks) {
        Path file = data.resolve(FILE);
        for (LockFile lock : locks) if (lock.path().equals(file)) return lock::isInPlace;
        try {
            Object identity = LockFile.identity(data);
            return () -> LockFile.isStill(data, identity);
        } catch (IOException notThere) {
            return () -> false;
        }
    }

    /** Taken in one folder, looked for in all: another user may be refused where this one is not. */
    private static Optional<LockFile> takeBeside(Path data) throws LockFile.Taken {
        Optional<LockFile> besides = Optional.empty();
        for (Path beside : beside(data)) {
            if (besides.isPresent()) lookBeside(beside);
            else besides = tryBeside(beside);
        }
        return besides;
    }

    /** Empty if it can't be made there. */
    private static Optional<LockFile> tryBeside(Path beside) throws LockFile.Taken {
        try {
            LockFile taken = LockFile.exclusive(beside);
            // The holder before may have taken the file away between the opening and the locking of it.
            while (!taken.isInPlace()) {
                taken.close();
                taken = LockFile.exclusive(beside);
            }
            return Optional.of(taken);
        } catch (IOException unwritable) {
            return Optional.empty();
        }
    }

    /** One that can't be looked at may be a stranger's; that must not keep a daemon out that has the folder itself. */
    private static void lookBeside(Path beside) throws LockFile.Taken {
        try {
            LockFile.look(beside);
        } catch (IOException unknown) {
            return;
        }
    }

    private static List<Path> beside(Path data) {
        UUID name = UUID.nameUUIDFromBytes(real(data).toString().getBytes(StandardCharsets.UTF_8));
        return BESIDE.stream()
                .map(folder -> folder.resolve("gylewarden-" + name + ".lock"))
                .toList();
    }

    private static Path real(Path data) {
        try {
            return data.toRealPath();
        } catch (IOException notThere) {
            return data.toAbsolutePath().normalize();
        }
    }

    /**
     * Whether the data folder is still the one that was taken: false once it has been moved, replaced or unmounted, or its
     * lock's file deleted.
     */
    public boolean isInPlace() {
        return inPlace.getAsBoolean();
    }

    /** Why the folder can't be written to, or is not there; empty if it can. As it was when it was taken. */
    public Optional<String> unwritable() {
        return unwritable;
    }

    /**
     * Who has the data folder, in words; empty if nobody has. Makes and changes nothing.
     *
     * @throws IOException if the lock's file can't be opened, so that nobody knows
     */
    public static Optional<String> heldBy(Path data) throws IOException {
        try {
            for (Path beside : beside(data)) lookBeside(beside);
            LockFile.look(data.resolve(FILE));
            return Optional.empty();
        } catch (LockFile.Taken taken) {
            return Optional.of(new Held(data, taken.pid()).getMessage());
        }
    }

    @Override
    public void close() throws IOException {
        if (made.isPresent()) Files.deleteIfExists(made.get());
        for (LockFile lock : locks) lock.close();
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
