package gylewarden.store;

import java.io.IOException;
import java.io.Writer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/**
 * A file that is written under another name beside its place and takes the place when it is whole and on the disk. Whatever
 * ends the writing early, the place is as before; the unfinished file is removed, unless the process is killed.
 */
public final class NewFile implements AutoCloseable {
    static final String UNFINISHED = ".unfinished";

    private final Path place;
    private final Path unfinished;

    private NewFile(Path place) {
        this.place = place;
        this.unfinished = place.resolveSibling(place.getFileName() + UNFINISHED);
    }

    /**
     * Nothing is written yet; what an earlier attempt has left unfinished is removed.
     *
     * @throws IOException if the place's folder is not there or can't be written to
     */
    public static NewFile beside(Path place) throws IOException {
        if (Files.isDirectory(place)) throw new IOException("it is a folder");
        var file = new NewFile(place.toAbsolutePath());
        if (!Files.isDirectory(file.unfinished.getParent()))
            throw new IOException("the folder " + file.unfinished.getParent() + " is not there");
        Files.deleteIfExists(file.unfinished);
        return file;
    }

    /** Where to write meanwhile. */
    Path path() {
        return unfinished;
    }

    public Writer writer() throws IOException {
        return Files.newBufferedWriter(unfinished, StandardCharsets.UTF_8);
    }

    /** Takes the place, also of a file that is there; whether one was. */
    public boolean replace() throws IOException {
        boolean replaced = Files.exists(place);
        sync();
        Files.move(unfinished, place, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        Durable.syncFolder(place.getParent());
        return replaced;
    }

    /**
     * Takes the place if nothing is there.
     *
     * @throws java.nio.file.FileAlreadyExistsException if something is
     */
    void settle() throws IOException {
        sync();
        // Takes the name first: a rename replaces whatever is there.
        Files.createFile(place);
        Files.move(unfinished, place, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        Durable.syncFolder(place.getParent());
    }

    private void sync() throws IOException {
        try (var channel = FileChannel.open(unfinished, StandardOpenOption.WRITE)) {
            channel.force(true);
        }
    }

    @Override
    public void close() throws IOException {
        Files.deleteIfExists(unfinished);
    }
}
