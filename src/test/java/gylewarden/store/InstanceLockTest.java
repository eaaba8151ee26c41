package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
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
}
