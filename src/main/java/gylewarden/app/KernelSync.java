package gylewarden.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

/**
 * Asks whether the kernel takes its wall clock as synchronised, whichever program keeps it so.
 *
 * @param tool a program that says {@code yes} or {@code no}
 * @param mark is there once the clock was synchronised in this boot; asked where the tool has no answer
 */
record KernelSync(List<String> tool, Path mark, Duration deadline) {
    /** What was found out. */
    enum Said {
        SYNCHRONISED,
        NOT_SYNCHRONISED,
        /** There is nobody here who would know. */
        NOBODY_KNOWS
    }

    /**
     * systemd: timedatectl(1) and org.freedesktop.timedate1(5), property NTPSynchronized ("whether the kernel reports the time as
     * synchronized"); systemd-timesyncd.service(8), FILES. All from memory.
     */
    static KernelSync real() {
        return new KernelSync(
                List.of("timedatectl", "show", "--property=NTPSynchronized", "--value"),
                Path.of("/run/systemd/timesync/synchronized"),
                Duration.ofSeconds(5));
    }

    /** Takes up to the deadline, so never call it from a loop. Interrupted, it gives up. */
    Said ask() {
        Optional<String> answer = askTool();
        if (answer.isPresent() && answer.get().equals("yes")) return Said.SYNCHRONISED;
        if (answer.isPresent() && answer.get().equals("no")) return Said.NOT_SYNCHRONISED;
        if (Files.exists(mark)) return Said.SYNCHRONISED;
        boolean kept =
                Optional.ofNullable(mark.getParent()).filter(Files::isDirectory).isPresent();
        return kept ? Said.NOT_SYNCHRONISED : Said.NOBODY_KNOWS;
    }

    private Optional<String> askTool() {
        try {
            Process process = new ProcessBuilder(tool)
                    .redirectInput(
                            ProcessBuilder.Redirect.from(Path.of("/dev/null").toFile()))
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            try {
                if (!process.waitFor(deadline.toMillis(), TimeUnit.MILLISECONDS)) return Optional.empty();
                // Not to its end: a child that it left behind may hold that open.
                var out = process.getInputStream();
                byte[] said = out.readNBytes(Math.min(out.available(), 100));
                return process.exitValue() == 0
                        ? Optional.of(new String(said, StandardCharsets.UTF_8).strip())
                        : Optional.empty();
            } finally {
                process.destroyForcibly();
            }
        } catch (IOException missing) {
            return Optional.empty();
        } catch (InterruptedException ending) {
            Thread.currentThread().interrupt();
            return Optional.empty();
        }
    }
}
