package gylewarden.probe;

import gylewarden.control.Sample.Fault;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Looks what is on the 1-Wire buses, for a person who wires them. */
public final class OneWireBus {
    /** The families of thermometers that the kernel's driver knows: 10, 22, 28, 3b and 42. */
    private static final Pattern THERMOMETER = Pattern.compile("(?:10|22|28|3b|42)-[0-9a-f]{12}");

    private OneWireBus() {}

    public record Found(String address, Raw raw) {
        /** The fault in words, for a sentence that begins with the probe. */
        public static String words(Fault fault) {
            return switch (fault) {
                case NO_ANSWER -> "does not answer: look at its plug and wires";
                case BAD_CHECKSUM -> "answers with damaged frames: look at the wire's length and the pull-up resistor";
                case POWER_ON_VALUE -> "says 85 °C, its value after power-on: look at its supply";
                case IMPOSSIBLE -> "says what no probe can measure";
            };
        }
    }

    public static boolean isAddress(String text) {
        return THERMOMETER.matcher(text).matches();
    }

    /** The thermometers that the kernel has a folder for, in order; none where there is no such root. */
    public static List<String> addresses(Path root) throws IOException {
        try (Stream<Path> entries = Files.list(root)) {
            return entries.map(entry -> entry.getFileName().toString())
                    .filter(OneWireBus::isAddress)
                    .sorted()
                    .toList();
        } catch (NoSuchFileException nothing) {
            return List.of();
        }
    }

    /**
     * Reads each of them once, one after the other.
     *
     * @param patience how long each may take; one that takes longer does not answer
     * @throws IOException if the root can't be listed
     */
    public static List<Found> list(Path root, Duration patience) throws IOException, InterruptedException {
        List<Found> found = new ArrayList<>();
        for (String address : addresses(root))
            found.add(new Found(address, readWithin(patience, new OneWireSource(root, address))));
        return found;
    }

    /** One attempt of any source; one that takes longer than {@code patience} does not answer. */
    public static Raw readWithin(Duration patience, Source source) throws InterruptedException {
        var attempt = new FutureTask<>(source::read);
        var thread = new Thread(attempt, "one look at " + source.bus());
        thread.setDaemon(true);
        thread.start();
        try {
            return attempt.get(patience.toMillis(), TimeUnit.MILLISECONDS);
        } catch (TimeoutException hangs) {
            attempt.cancel(true);
            return Raw.fails(Fault.NO_ANSWER);
        } catch (ExecutionException ourBug) {
            throw new IllegalStateException(ourBug.getCause());
        }
    }
}
