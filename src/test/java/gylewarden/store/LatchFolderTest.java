package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.store.LatchFolder.Latches;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class LatchFolderTest {
    @TempDir
    Path data;

    @Test
    void nothing_is_latched_in_an_empty_folder() throws Exception {
        assertEquals(Latches.NONE, new LatchFolder(data).read());
    }

    @Test
    void a_latch_is_still_there_for_whoever_starts_next() throws Exception {
        new LatchFolder(data).askRelaysOff();
        new LatchFolder(data).latchHeater("garage");
        new LatchFolder(data).latchHeater("garage");
        new LatchFolder(data).latchHeater("cellar-2");
        assertEquals(new Latches(true, Set.of("garage", "cellar-2"), false), new LatchFolder(data).read());
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

    /** The names are those that version 1 of the folder has always had: a board that is brought up to date keeps its latches. */
    @Test
    void the_files_of_a_daemon_that_knew_no_word_of_resuming_are_latches() throws Exception {
        Files.createFile(data.resolve("relays-off"));
        Files.createFile(data.resolve("relays-off.answered"));
        Files.createFile(data.resolve("latched-garage-heating"));
        assertEquals(new Latches(true, Set.of("garage"), false), new LatchFolder(data).read());
        assertTrue(new LatchFolder(data).isAnswered());
    }

    @Test
    void a_resume_is_a_file_of_its_own_also_where_nothing_was_latched() throws Exception {
        var folder = new LatchFolder(data);
        folder.resume();
        assertEquals(new Latches(false, Set.of(), true), folder.read());
        assertEquals(0, Files.size(data.resolve("relays-off.resumed")));
        folder.forgetResumed();
        assertEquals(Latches.NONE, folder.read());
    }

    @Test
    void a_resume_beside_latches_needs_no_more_names_than_there_were() throws Exception {
        var folder = new LatchFolder(data);
        folder.askRelaysOff();
        folder.resume();
        try (var names = Files.list(data)) {
            assertEquals(List.of(data.resolve("relays-off.resumed")), names.toList());
        }
    }

    @Test
    void asking_again_takes_the_word_of_resuming_away() throws Exception {
        var folder = new LatchFolder(data);
        folder.askRelaysOff();
        folder.resume();
        folder.askRelaysOff();
        assertEquals(new Latches(true, Set.of(), false), folder.read());
    }

    @Test
    void resuming_ends_every_latch_and_touches_nothing_else() throws Exception {
        var folder = new LatchFolder(data);
        Files.createFile(data.resolve("starts"));
        folder.askRelaysOff();
        folder.answer();
        folder.latchHeater("garage");
        folder.resume();
        assertEquals(new Latches(false, Set.of(), true), folder.read());
        assertFalse(folder.isAnswered());
        assertTrue(Files.exists(data.resolve("starts")));
    }

    @Test
    void a_folder_that_cannot_be_read_is_no_folder_without_latches() {
        assertThrows(IOException.class, () -> new LatchFolder(data.resolve("missing")).read());
    }
}
