package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class InstanceLockTest {
    @TempDir
    Path folder;

    @Test
    void a_second_daemon_is_refused_and_told_who_holds_the_folder() throws Exception {
        Path data = folder.resolve("missing/data");
        var first = InstanceLock.take(data);
        try {
            var held = assertThrows(InstanceLock.Held.class, () -> InstanceLock.take(data));
            assertEquals(
                    "the data folder " + data + " is in use by process "
                            + ProcessHandle.current().pid(),
                    held.getMessage());
            assertEquals(Optional.of(held.getMessage()), InstanceLock.heldBy(data));
        } finally {
            first.close();
        }
        assertEquals(Optional.empty(), InstanceLock.heldBy(data));
    }

    @Test
    void to_look_who_holds_a_folder_makes_nothing() throws Exception {
        Path data = folder.resolve("missing/data");
        assertEquals(Optional.empty(), InstanceLock.heldBy(data));
        assertFalse(Files.exists(data));
    }

    @Test
    void a_folder_that_was_given_back_can_be_taken_again() throws Exception {
        InstanceLock.take(folder).close();
        InstanceLock.take(folder).close();
    }

    @Test
    void a_folder_that_was_moved_or_replaced_is_no_longer_the_one_that_was_taken() throws Exception {
        Path data = folder.resolve("data");
        var taken = InstanceLock.take(data);
        try {
            assertTrue(taken.isInPlace());
            Path away = Files.move(data, folder.resolve("away"));
            assertFalse(taken.isInPlace(), "moved");
            Files.createDirectory(data);
            assertFalse(taken.isInPlace(), "an empty one in its place");
            Files.copy(away.resolve("daemon.lock"), data.resolve("daemon.lock"));
            assertFalse(taken.isInPlace(), "a copy in its place");
            Files.move(data, folder.resolve("other"));
            Files.move(away, data);
            assertTrue(taken.isInPlace(), "back");
        } finally {
            taken.close();
        }
    }

    @Test
    void what_a_crash_left_in_the_file_locks_nobody_out() throws Exception {
        Files.writeString(folder.resolve("daemon.lock"), "12345\n");
        var taken = InstanceLock.take(folder);
        try {
            assertEquals(ProcessHandle.current().pid() + "\n", Files.readString(folder.resolve("daemon.lock")));
        } finally {
            taken.close();
        }
    }

    /** A card that is worn out lets itself be read only; the chambers must not stand still for it. */
    @Test
    void a_folder_that_can_only_be_read_is_taken_by_one_daemon_and_kept_when_it_can_be_written_again()
            throws Exception {
        try (var disk = SmallDisk.mount(folder.resolve("disk"), "64k")) {
            InstanceLock.take(disk.folder()).close();
            disk.remount("ro");
            assertThrows(IOException.class, () -> InstanceLock.take(disk.folder()), "it is wanted to write to");
            InstanceLock first = InstanceLock.takeAsItIs(disk.folder());
            try {
                assertTrue(first.unwritable().orElseThrow().contains("Read-only file system"), "why");
                assertTrue(first.isInPlace());
                assertHeld(disk.folder());
                disk.remount("rw");
                assertHeld(disk.folder());
                assertTrue(first.isInPlace());
            } finally {
                first.close();
            }
            InstanceLock.take(disk.folder()).close();
        }
    }

    /** Whoever mounts a disk over it later must not start a second daemon on what the first one holds. */
    @Test
    void a_folder_that_is_not_there_and_cannot_be_made_is_taken_by_one_daemon_and_is_never_in_its_place()
            throws Exception {
        try (var disk = SmallDisk.mount(folder.resolve("disk"), "64k")) {
            disk.remount("ro");
            Path data = disk.folder().resolve("data");
            InstanceLock first = InstanceLock.takeAsItIs(data);
            try {
                assertHeld(data);
                disk.remount("rw");
                Files.createDirectory(data);
                assertHeld(data);
                assertFalse(first.isInPlace(), "nobody knows what is in it");
            } finally {
                first.close();
            }
            InstanceLock.takeAsItIs(data).close();
        }
    }

    /** The mount is gone, and with it the lock that is on it. */
    @Test
    void a_folder_that_another_one_stands_in_for_is_still_held_by_the_daemon_that_took_it() throws Exception {
        Path data = folder.resolve("data");
        InstanceLock first = InstanceLock.takeAsItIs(data);
        try {
            assertEquals(Optional.empty(), first.unwritable());
            Files.move(data, folder.resolve("away"));
            Files.createDirectory(data);
            assertHeld(data);
        } finally {
            first.close();
        }
        InstanceLock.takeAsItIs(data).close();
    }

    /** Looked at from other processes, as a lock belongs to a process. */
    private static void assertHeld(Path data) throws Exception {
        String own = ProcessHandle.current().pid() + "";
        assertEquals(own, AnotherProcess.told("take", data));
        assertEquals(own, AnotherProcess.told("takeAsItIs", data));
        assertEquals(own, AnotherProcess.told("heldBy", data));
    }

    /** Says who has a folder. */
    static final class AnotherProcess {
        private AnotherProcess() {}

        static String told(String how, Path data) throws Exception {
            Process other = new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-cp",
                            System.getProperty("java.class.path"),
                            AnotherProcess.class.getName(),
                            how,
                            data.toString())
                    .redirectErrorStream(true)
                    .start();
            String said = new String(other.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            other.waitFor();
            Matcher pid = Pattern.compile("in use by process ([0-9]+)").matcher(said);
            return pid.find() ? pid.group(1) : said;
        }

        public static void main(String[] arguments) throws IOException {
            Path data = Path.of(arguments[1]);
            try {
                if (arguments[0].equals("heldBy")) System.out.println(InstanceLock.heldBy(data));
                else if (arguments[0].equals("take")) InstanceLock.take(data).close();
                else InstanceLock.takeAsItIs(data).close();
            } catch (InstanceLock.Held held) {
                System.out.println(held.getMessage());
            }
        }
    }
}
