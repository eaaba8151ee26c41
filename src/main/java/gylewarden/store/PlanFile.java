package gylewarden.store;

import gylewarden.batch.Standing;
import gylewarden.document.Unreadable;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.util.Optional;
import java.util.function.Function;

/**
 * The small file of one chamber, {@code chamber-ID.json} in the data folder: what it is asked to do and how far it has got, so
 * that a broken database never leaves a batch without a setpoint. Replaced whole and synced; any thread.
 */
public final class PlanFile {
    private final Path file;
    /** What is in the file, as far as this process knows. */
    private Optional<Standing> held = Optional.empty();

    public PlanFile(Path data, String chamber) {
        file = data.resolve("chamber-" + chamber + ".json");
    }

    /** What a start found. */
    public sealed interface Read {
        <T> T fold(Function<Kept, T> kept, Function<Nothing, T> nothing, Function<Lost, T> lost);

        /** What it says; empty if nothing can be read. */
        default Optional<Standing> standing() {
            return fold(kept -> Optional.of(kept.plan()), nothing -> Optional.empty(), lost -> Optional.empty());
        }

        default Optional<Lost> lost() {
            return fold(kept -> Optional.empty(), nothing -> Optional.empty(), Optional::of);
        }

        record Kept(Standing plan) implements Read {
            @Override
            public <T> T fold(Function<Kept, T> kept, Function<Nothing, T> nothing, Function<Lost, T> lost) {
                return kept.apply(this);
            }
        }

        /** There is no file: nobody has asked anything yet. */
        record Nothing() implements Read {
            @Override
            public <T> T fold(Function<Kept, T> kept, Function<Nothing, T> nothing, Function<Lost, T> lost) {
                return nothing.apply(this);
            }
        }

        /**
         * There is one, and nobody can read it; the database may know what it said.
         *
         * @param sentence what happened, where, and where the file is now
         */
        record Lost(String sentence) implements Read {
            @Override
            public <T> T fold(Function<Kept, T> kept, Function<Nothing, T> nothing, Function<Lost, T> lost) {
                return lost.apply(this);
            }
        }
    }

    public Path path() {
        return file;
    }

    /**
     * At a start. A file that makes no sense is set aside, never deleted; one that the disk won't give is left where it is.
     *
     * @param now for the name of a file that is set aside
     */
    public synchronized Read read(Instant now) {
        try {
            Standing standing = PlanText.read(Files.readString(file));
            held = Optional.of(standing);
            return new Read.Kept(standing);
        } catch (NoSuchFileException e) {
            return missing();
        } catch (Unreadable e) {
            return setAside(String.valueOf(e.getMessage()), now);
        } catch (CharacterCodingException e) {
            return setAside("it is no text", now);
        } catch (IOException e) {
            return new Read.Lost(file + " can't be read: " + reason(e) + ". Look at that disk.");
        }
    }

    /**
     * A kill soon after a file was set aside must not make what was lost look like what was never asked; nor must a folder that
     * is away, or a disk that won't say what is in it.
     */
    private Read missing() {
        Path folder = file.toAbsolutePath().getParent();
        try (DirectoryStream<Path> aside = Files.newDirectoryStream(folder, SetAside.all(file))) {
            return aside.iterator().hasNext()
                    ? new Read.Lost(file + " was set aside by a start before this one, and none was written since.")
                    : new Read.Nothing();
        } catch (IOException | DirectoryIteratorException e) {
            return new Read.Lost(
                    "Whether there is a " + file + " nobody knows, for its folder can't be read: look at that"
                            + " disk, and whether it is mounted.");
        }
    }

    private Read setAside(String why, Instant now) {
        String broken = file + " can't be understood: " + why + ".";
        try {
            Path aside = SetAside.name(file, now);
            Files.move(file, aside, StandardCopyOption.ATOMIC_MOVE);
            Durable.syncFolder(file.toAbsolutePath().getParent());
            return new Read.Lost(broken + " It is set aside as " + aside + ".");
        } catch (IOException e) {
            return new Read.Lost(broken + " It could not be set aside: " + reason(e) + ".");
        }
    }

    /**
     * Puts {@code standing} in the file and on the disk, unless the file holds a later word or a later moment already: the minute's
     * checkpoint and a person's change come from different threads.
     *
     * @return whether the file holds {@code standing} now; if not, what it holds is younger
     * @throws IOException if it can't be written; what was there before is still there
     */
    public synchronized boolean write(Standing standing) throws IOException {
        if (held.filter(standing::isOlderThan).isPresent()) return false;
        Durable.replace(file, PlanText.write(standing));
        held = Optional.of(standing);
        return true;
    }

    private static String reason(IOException e) {
        return Optional.ofNullable(e.getMessage()).orElseGet(() -> e.getClass().getSimpleName());
    }
}
