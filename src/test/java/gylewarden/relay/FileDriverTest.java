package gylewarden.relay;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Contact;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.ClosedByInterruptException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The contract with a file behind it, and how that file is written. */
class FileDriverTest extends RelayContract {
    @TempDir
    Path folder;

    /** A twentieth of the seeds: a file is written at each step. */
    static LongStream seeds() {
        return LongStream.range(0, Math.max(10, Long.getLong("gylewarden.seeds", 1000) / 20));
    }

    @Override
    Rig rig() {
        Path file = folder.resolve("relays/belt");
        Path away = folder.resolve("away");
        var driver = new FileDriver(file, false);
        var now = new AtomicReference<>(Uptime.ofSeconds(0));
        var writes = new AtomicInteger();
        var relay = LeasedRelay.start(
                "belt",
                contact -> {
                    writes.incrementAndGet();
                    driver.write(contact);
                },
                now::get);
        return LeasedRelayTest.rigOf(relay, now, () -> load(file, away), writes::get, fail -> block(file, away, fail));
    }

    private static Contact load(Path file, Path away) {
        try {
            return switch (Files.readString(Files.isDirectory(file) ? away : file)) {
                case "1\n" -> Contact.ENERGISED;
                case "0\n" -> Contact.RELEASED;
                default -> throw new AssertionError("neither 1 nor 0");
            };
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A folder in the file's place: no right to write would not stop a test that runs as root. */
    private static void block(Path file, Path away, boolean fail) {
        try {
            if (fail) {
                Files.move(file, away);
                Files.createDirectory(file);
            } else {
                Files.delete(file);
                Files.move(away, file);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Test
    void a_missing_folder_is_made_and_the_file_holds_a_digit_and_a_newline() throws Exception {
        Path file = folder.resolve("a/b/c");
        new FileDriver(file, false).write(Contact.ENERGISED);
        assertEquals("1\n", Files.readString(file));
        new FileDriver(file, false).write(Contact.RELEASED);
        assertEquals("0\n", Files.readString(file));
    }

    @Test
    void active_low_energises_with_0() throws Exception {
        Path file = folder.resolve("low");
        var driver = new FileDriver(file, true);
        driver.write(Contact.ENERGISED);
        assertEquals("0\n", Files.readString(file));
        driver.write(Contact.RELEASED);
        assertEquals("1\n", Files.readString(file));
        assertEquals("1", driver.released());
    }

    @Test
    void the_same_file_is_overwritten_and_never_replaced() throws Exception {
        Path file = Files.writeString(folder.resolve("longer"), "something longer\n");
        Object before = Files.getAttribute(file, "unix:ino");
        new FileDriver(file, false).write(Contact.ENERGISED);
        assertEquals("1\n", Files.readString(file));
        assertEquals(before, Files.getAttribute(file, "unix:ino"));
    }

    @Test
    void a_file_that_cannot_be_written_is_named() throws Exception {
        Path inTheWay = Files.createDirectory(folder.resolve("folder"));
        var failure = assertThrows(IOException.class, () -> new FileDriver(inTheWay, false).write(Contact.RELEASED));
        assertEquals("could not write " + inTheWay + ": it is a folder", failure.getMessage());
    }

    @Test
    void a_failure_without_words_is_told_by_its_kind() {
        // Java's own: an interrupt while a channel is written has no message.
        assertEquals(
                "java.nio.channels.ClosedByInterruptException", FileDriver.reason(new ClosedByInterruptException()));
        Thread.currentThread().interrupt();
        var driver = new FileDriver(folder.resolve("belt"), false);
        var failure = assertThrows(IOException.class, () -> driver.write(Contact.RELEASED));
        assertTrue(Thread.interrupted());
        assertEquals(
                "could not write " + folder.resolve("belt") + ": java.nio.channels.ClosedByInterruptException",
                failure.getMessage());
    }
}
