package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.store.LatchFolder.Latches;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class LatchFolderTest {
    private static final Latches NOTHING = new Latches(false, Set.of());

    @TempDir
    Path data;

    @Test
    void nothing_is_latched_in_an_empty_folder() throws Exception {
        assertEquals(NOTHING, new LatchFolder(data).read());
    }

    @Test
    void a_latch_is_still_there_for_whoever_starts_next() throws Exception {
        new LatchFolder(data).askRelaysOff();
        new LatchFolder(data).latchHeater("garage");
        new LatchFolder(data).latchHeater("garage");
        new LatchFolder(data).latchHeater("cellar-2");
        assertEquals(new Latches(true, Set.of("garage", "cellar-2")), new LatchFolder(data).read());
    }

    @Test
    void a_latch_needs_no_room_on_the_disk_but_a_name() throws Exception {
        new LatchFolder(data).askRelaysOff();
        new LatchFolder(data).latchHeater("garage");
        assertEquals(0, Files.size(data.resolve("relays-off")));
        assertEquals(0, Files.size(data.resolve("latched-garage-heating")));
    }

    @Test
    void an_answer_belongs_to_the_last_request() throws Exception {
        var folder = new LatchFolder(data);
        folder.askRelaysOff();
        folder.answer();
        assertTrue(folder.isAnswered());
        folder.askRelaysOff();
        assertFalse(folder.isAnswered());
    }

    @Test
    void resuming_ends_every_latch_and_touches_nothing_else() throws Exception {
        var folder = new LatchFolder(data);
        Files.createFile(data.resolve("starts"));
        folder.askRelaysOff();
        folder.answer();
        folder.latchHeater("garage");
        folder.resume();
        assertEquals(NOTHING, folder.read());
        assertFalse(folder.isAnswered());
        assertTrue(Files.exists(data.resolve("starts")));
    }

    @Test
    void a_folder_that_cannot_be_read_is_no_folder_without_latches() {
        assertThrows(IOException.class, () -> new LatchFolder(data.resolve("missing")).read());
    }
}
