package gylewarden.store;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.HashSet;
import java.util.Set;

/**
 * What stays off over a restart: files without content in the data folder, because a name still fits on a disk that is
 * full. {@code relays-off} latches every relay of the daemon, {@code latched-CHAMBER-heating} one heater; {@code
 * relays-off.answered} is the daemon's word that its relays are released. {@code relays-off.resumed} is a person's word
 * that ends every latch. That a latch is missing is nobody's word.
 */
public record LatchFolder(Path data) {
    private static final String RELAYS_OFF = "relays-off";
    private static final String ANSWERED = "relays-off.answered";
    private static final String RESUMED = "relays-off.resumed";
    private static final String LATCHED = "latched-";
    private static final String HEATING = "-heating";

    /**
     * What is latched at a moment.
     *
     * @param relaysOff a person has asked for all relays off
     * @param heaters the ids of the chambers whose heater is latched off
     * @param resumed a person has ended every latch, and nobody has taken that word yet. Beside a latch it is a word that was
     *     interrupted; the latch holds
     */
    public record Latches(boolean relaysOff, Set<String> heaters, boolean resumed) {
        public static final Latches NONE = new Latches(false, Set.of(), false);

        public Latches {
            heaters = Set.copyOf(heaters);
        }

        public boolean any() {
            return relaysOff || !heaters.isEmpty();
        }
    }

    /** @throws IOException if the folder cannot be read; then nobody knows what is latched */
    public Latches read() throws IOException {
        boolean relaysOff = false;
        Set<String> heaters = new HashSet<>();
        try (DirectoryStream<Path> files = Files.newDirectoryStream(data)) {
            for (Path file : files) {
                String name = file.getFileName().toString();
                if (name.equals(RELAYS_OFF)) relaysOff = true;
                if (name.startsWith(LATCHED) && name.endsWith(HEATING) && name.length() > (LATCHED + HEATING).length())
                    heaters.add(name.substring(LATCHED.length(), name.length() - HEATING.length()));
            }
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        // After the latches, for the word is written before they are taken away: whoever misses them finds it.
        return new Latches(relaysOff, heaters, isResumed());
    }

    /** Asks the daemon to release everything and keep it so. The answer and the word that came before are taken away. */
    public void askRelaysOff() throws IOException {
        Files.createDirectories(data);
        Files.deleteIfExists(data.resolve(ANSWERED));
        latchRelays();
        forgetResumed();
    }

    /** Latches every relay, and leaves all else as it is. */
    public void latchRelays() throws IOException {
        touch(RELAYS_OFF);
    }

    /** The daemon's word that its relays are released and stay so. */
    public void answer() throws IOException {
        touch(ANSWERED);
    }

    public boolean isAnswered() {
        return Files.exists(data.resolve(ANSWERED));
    }

    /** Latches a chamber's heater off until a person ends it. */
    public void latchHeater(String chamber) throws IOException {
        touch(LATCHED + chamber + HEATING);
    }

    /** Ends the latch of a chamber's heater. */
    public void unlatchHeater(String chamber) throws IOException {
        Files.deleteIfExists(data.resolve(LATCHED + chamber + HEATING));
    }

    /** A person ends every latch. A running daemon takes the word and {@link #forgetResumed removes it}. */
    public void resume() throws IOException {
        try {
            Files.move(data.resolve(RELAYS_OFF), data.resolve(RESUMED), StandardCopyOption.ATOMIC_MOVE);
        } catch (NoSuchFileException notLatched) {
            touch(RESUMED);
        }
        for (String chamber : read().heaters()) unlatchHeater(chamber);
        Files.deleteIfExists(data.resolve(ANSWERED));
        Durable.syncFolder(data);
    }

    /** Whether a person's word that ends every latch waits for a daemon. */
    public boolean isResumed() {
        return Files.exists(data.resolve(RESUMED));
    }

    /** The word has been taken, or is an old one. */
    public void forgetResumed() throws IOException {
        Files.deleteIfExists(data.resolve(RESUMED));
    }

    private void touch(String name) throws IOException {
        try {
            Files.createFile(data.resolve(name));
        } catch (FileAlreadyExistsException e) {
            return; // there already
        }
        Durable.syncFolder(data);
    }
}
