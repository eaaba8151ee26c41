package gylewarden.process;

import java.io.EOFException;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * A file relay that records every write with its time. It is a named pipe, so that no write can be missed, as a poller or a
 * watcher of the folder would miss a quick 1, 0, 1: the pipe keeps each line until this reader has it. The reader is the
 * pipe's only one and has it open from the start, so a writer never waits.
 */
final class RelayFiles implements AutoCloseable {
    private static final String END = "end of the recording";

    /** One write. */
    record Write(String text, long nanos) {
        Duration since(Write earlier) {
            return Duration.ofNanos(nanos - earlier.nanos);
        }
    }

    private final Path path;
    private final Path aside;
    private final RandomAccessFile pipe;
    private final List<Write> writes = new ArrayList<>();
    private final Thread reader;

    /** Makes the pipe. */
    RelayFiles(Path path) throws IOException, InterruptedException {
        this.path = path;
        this.aside = path.resolveSibling(path.getFileName() + ".aside");
        Files.createDirectories(path.getParent());
        Jar.tool(path.getParent(), "mkfifo", path.toString());
        // For reading and writing: so it opens without a writer, and never comes to an end when a writer closes.
        pipe = new RandomAccessFile(path.toFile(), "rw");
        reader = new Thread(this::record, "recorder of " + path.getFileName());
        reader.setDaemon(true);
        reader.start();
    }

    private void record() {
        try {
            for (String line = line(); !line.equals(END); line = line()) {
                synchronized (writes) {
                    writes.add(new Write(line, System.nanoTime()));
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private String line() throws IOException {
        var text = new StringBuilder();
        for (int next = pipe.read(); next != '\n'; next = pipe.read()) {
            if (next < 0) throw new EOFException("the pipe " + path + " has ended");
            text.append((char) next);
        }
        return text.toString();
    }

    List<Write> writes() {
        synchronized (writes) {
            return List.copyOf(writes);
        }
    }

    int count() {
        return writes().size();
    }

    /** What was written, in order: {@code 0 1 0}. */
    String texts() {
        return textsFrom(0);
    }

    /** What was written since there were {@code count} writes. */
    String textsFrom(int count) {
        return writes().stream().skip(count).map(Write::text).collect(Collectors.joining(" "));
    }

    Optional<Write> last() {
        List<Write> all = writes();
        return all.isEmpty() ? Optional.empty() : Optional.of(all.get(all.size() - 1));
    }

    boolean isEnergised() {
        return last().filter(write -> write.text().equals("1")).isPresent();
    }

    /** Waits for this to be the last write; gives it. */
    Write becomes(String text, Duration deadline, DaemonProcess writer) {
        Await.until(
                "relay " + path.getFileName() + " is " + text,
                deadline,
                () -> "written so far: " + texts() + "\n" + writer.said(),
                () -> last().filter(write -> write.text().equals(text)).isPresent());
        return last().orElseThrow();
    }

    /** From now on it can't be written: a folder is where it was. In one step, so that no file can slip in between. */
    void block() throws IOException {
        Path folder = Files.createDirectories(path.resolveSibling("a-folder"));
        Files.createLink(aside, path);
        Path link = Files.createSymbolicLink(path.resolveSibling(path.getFileName() + ".link"), folder);
        Files.move(link, path, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    }

    /** It can be written again. */
    void unblock() throws IOException {
        Files.move(aside, path, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    }

    @Override
    public void close() throws IOException {
        pipe.write((END + "\n").getBytes(StandardCharsets.US_ASCII));
        try {
            reader.join(10_000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        pipe.close();
    }
}
