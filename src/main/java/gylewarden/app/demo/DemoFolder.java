package gylewarden.app.demo;

import gylewarden.app.CommandFailed;
import gylewarden.store.InstanceLock;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The data folder of a demo: a temporary one that is removed at the end, or one that is kept. A folder with anybody else's data
 * is never used, for invented beer does not belong into a real record.
 */
final class DemoFolder implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    /** Tells a demo's folder from a real one. */
    private static final String MARK = "invented-by-demo";

    private final Path path;
    private final boolean temporary;
    private final InstanceLock lock;

    private DemoFolder(Path path, boolean temporary, InstanceLock lock) {
        this.path = path;
        this.temporary = temporary;
        this.lock = lock;
    }

    static DemoFolder open(Optional<Path> wished) throws CommandFailed {
        try {
            Path path = wished.isPresent() ? wished.get() : Files.createTempDirectory("gylewarden-demo-");
            if (wished.isPresent() && isSomebodyElses(path))
                throw new CommandFailed(path.toAbsolutePath()
                        + " holds something that no demo has written. Give --data an empty folder, or one that is not"
                        + " there yet. Nothing was started.");
            InstanceLock lock = InstanceLock.take(path);
            Files.writeString(path.resolve(MARK), "What is in this folder was invented by the demo.\n");
            return new DemoFolder(path, wished.isEmpty(), lock);
        } catch (InstanceLock.Held held) {
            throw new CommandFailed(held.getMessage() + ". Nothing was started.");
        } catch (IOException e) {
            throw new CommandFailed("cannot use the data folder "
                    + wished.map(Path::toAbsolutePath).map(Path::toString).orElse("of the system for temporary files")
                    + ": " + e.getClass().getSimpleName() + " " + e.getMessage()
                    + ". Give --data a folder that may be written. Nothing was started.");
        }
    }

    private static boolean isSomebodyElses(Path path) throws IOException {
        if (!Files.isDirectory(path) || Files.exists(path.resolve(MARK))) return false;
        try (Stream<Path> inside = Files.list(path)) {
            return inside.findAny().isPresent();
        }
    }

    Path path() {
        return path;
    }

    /** Gives the lock back, and removes what is temporary. */
    @Override
    public void close() {
        try {
            lock.close();
            if (temporary) remove();
        } catch (IOException e) {
            LOG.warn("{} could not be tidied up: {}", path, e.getMessage());
        }
    }

    private void remove() throws IOException {
        List<Path> inside;
        try (Stream<Path> walk = Files.walk(path)) {
            inside = walk.sorted(Comparator.reverseOrder()).toList();
        }
        for (Path each : inside) Files.deleteIfExists(each);
    }
}
