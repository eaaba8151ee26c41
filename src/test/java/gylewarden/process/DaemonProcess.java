package gylewarden.process;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/** A running process of the jar: what it has said so far, signals, and its end. Closing kills it. */
final class DaemonProcess implements AutoCloseable {
    private final Process process;
    private final Path folder;
    private final Path out;
    private final Path err;
    /** Also when the tests themselves are interrupted, no daemon is left behind. */
    private final Thread atExit;

    private DaemonProcess(Process process, Path folder, Path out, Path err) {
        this.process = process;
        this.folder = folder;
        this.out = out;
        this.err = err;
        atExit = new Thread(process::destroyForcibly, "no daemon left behind");
        Runtime.getRuntime().addShutdownHook(atExit);
    }

    /** Starts the jar; what it says goes into new files in {@code folder}. */
    static DaemonProcess start(Path folder, String... arguments) throws IOException {
        return start(folder, Map.of(), arguments);
    }

    /** @param environment is added to this process's own */
    static DaemonProcess start(Path folder, Map<String, String> environment, String... arguments) throws IOException {
        return start(folder, environment, List.of(), arguments);
    }

    /** @param wrapper a command that runs the command that follows it, in its own process */
    static DaemonProcess start(Path folder, Map<String, String> environment, List<String> wrapper, String... arguments)
            throws IOException {
        List<String> command = new ArrayList<>(wrapper);
        command.addAll(Jar.command(arguments));
        Path out = Files.createTempFile(folder, "daemon-", ".out");
        Path err = Files.createTempFile(folder, "daemon-", ".err");
        var builder = new ProcessBuilder(command)
                .redirectInput(ProcessBuilder.Redirect.from(Path.of("/dev/null").toFile()))
                .redirectOutput(out.toFile())
                .redirectError(err.toFile());
        builder.environment().putAll(environment);
        Process process = builder.start();
        return new DaemonProcess(process, folder, out, err);
    }

    String out() {
        return read(out);
    }

    String err() {
        return read(err);
    }

    /** Everything it said, for the message of a failure. */
    String said() {
        return "--- standard output\n" + out() + "--- standard error\n" + err() + "--- "
                + (process.isAlive() ? "it runs" : "it ended with status " + process.exitValue());
    }

    private static String read(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Waits until the log holds this; fails at once if the process ends without it. */
    void says(String words) {
        saysMore(0, words);
    }

    /** How much it has said until now, to wait for something that it says later. */
    int saidUntilNow() {
        return out().length();
    }

    /** As {@link #says}, but not counting what it said before {@code from}. */
    void saysMore(int from, String words) {
        Await.until("\"" + words + "\" in the log", Await.LONG, this::said, () -> {
            boolean alive = process.isAlive();
            if (out().indexOf(words, from) >= 0) return true;
            if (!alive) throw new AssertionError("it ended without saying \"" + words + "\"\n" + said());
            return false;
        });
    }

    boolean isAlive() {
        return process.isAlive();
    }

    long pid() {
        return process.pid();
    }

    /** @param name such as TERM, KILL, STOP */
    void signal(String name) throws IOException, InterruptedException {
        Jar.tool(folder, "sh", "-c", "kill -s " + name + " " + process.pid());
    }

    /** Sends SIGSTOP and waits until the kernel says that the process has stopped. */
    void freeze() throws IOException, InterruptedException {
        signal("STOP");
        Path status = Path.of("/proc/" + process.pid() + "/status");
        Await.until(
                "the process is stopped",
                Await.LONG,
                this::said,
                () -> read(status).contains("State:\tT"));
    }

    /** Sends SIGKILL and waits for the end. */
    void kill() throws IOException, InterruptedException {
        signal("KILL");
        ended(Await.LONG);
    }

    /** Waits for the end. */
    int ended(Duration deadline) throws InterruptedException {
        if (!process.waitFor(deadline.toMillis(), TimeUnit.MILLISECONDS))
            throw new AssertionError("it has not ended within " + deadline.toSeconds() + " s\n" + said());
        return process.exitValue();
    }

    @Override
    public void close() {
        process.destroyForcibly();
        try {
            process.waitFor(Await.LONG.toSeconds(), TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        Runtime.getRuntime().removeShutdownHook(atExit);
    }

    @Override
    public String toString() {
        return "process " + process.pid() + " of " + List.of(out, err);
    }
}
