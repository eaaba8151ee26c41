package gylewarden.store;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;

/**
 * What stays off over a restart: files without content in the data folder, because a name still fits on a disk that is
 * full. {@code relays-off} latches every relay of the daemon, {@code latched-CHAMBER-heating} one heater; {@code
 * relays-off.answered} is the daemon's word that its relays are released.
 */
public record LatchFolder(Path data) {
    private static final String RELAYS_OFF = "relays-off";
    private static final String ANSWERED = "relays-off.answered";
    private static final String LATCHED = "latched-";
    private static final String HEATING = "-heating";

    /**
     * What is latched at a moment.
     *
     * @param relaysOff a person has asked for all relays off
     * @param heaters the ids of the chambers whose heater is latched off
     */
    public record Latches(boolean relaysOff, Set<String> heaters) {
        public Latches {
            heaters = Set.copyOf(heaters);
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
        return new Latches(relaysOff, heaters);
    }

    /** Asks the daemon to release everything and keep it so. An answer to an earlier request is taken away first. */
    public void askRelaysOff() throws IOException {
        Files.createDirectories(data);
        Files.deleteIfExists(data.resolve(ANSWERED));
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

    /** Ends every latch. */
    public void resume() throws IOException {
        for (String chamber : read().heaters()) unlatchHeater(chamber);
        Files.deleteIfExists(data.resolve(RELAYS_OFF));
        Files.deleteIfExists(data.resolve(ANSWERED));
    }

    private void touch(String name) throws IOException {
        try {
            Files.createFile(data.resolve(name));
        } catch (FileAlreadyExistsException e) {
            return; // latched already
        }
        Durable.syncFolder(data);
    }
}
