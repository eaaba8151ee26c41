package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.app.KernelSync.Said;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A real process is asked each time; the tools are small shell scripts. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
@Timeout(60)
class KernelSyncTest {
    private static final Duration PATIENT = Duration.ofSeconds(30);

    @TempDir
    Path folder;

    private Said ask(String script, Path mark) {
        return new KernelSync(List.of("sh", "-c", script), mark, PATIENT).ask();
    }

    private Path noMark() {
        return folder.resolve("not-there/synchronized");
    }

    @Test
    void the_tool_is_believed() {
        assertEquals(Said.SYNCHRONISED, ask("echo yes", noMark()));
        assertEquals(Said.NOT_SYNCHRONISED, ask("echo no", noMark()));
    }

    @Test
    void a_tool_that_fails_or_says_something_else_has_not_answered() {
        assertEquals(Said.NOBODY_KNOWS, ask("echo yes; exit 1", noMark()));
        assertEquals(Said.NOBODY_KNOWS, ask("echo perhaps", noMark()));
        assertEquals(Said.NOBODY_KNOWS, ask("true", noMark()));
        assertEquals(
                Said.NOBODY_KNOWS,
                new KernelSync(List.of(folder.resolve("no-such-tool").toString()), noMark(), PATIENT).ask());
    }

    @Test
    void without_an_answer_the_mark_is_looked_for() throws Exception {
        Path mark = folder.resolve("synchronized");
        assertEquals(Said.NOT_SYNCHRONISED, ask("exit 1", mark));
        Files.createFile(mark);
        assertEquals(Said.SYNCHRONISED, ask("exit 1", mark));
        assertEquals(Said.NOT_SYNCHRONISED, ask("echo no", mark));
    }

    @Test
    void a_tool_that_hangs_is_left_after_the_deadline() {
        var hanging = new KernelSync(List.of("sleep", "1000"), noMark(), Duration.ofMillis(50));
        assertEquals(Said.NOBODY_KNOWS, hanging.ask());
        assertTrue(ProcessHandle.current()
                .children()
                .filter(child -> child.info().commandLine().orElse("").contains("sleep 1000"))
                .allMatch(child -> child.onExit()
                                .orTimeout(30, java.util.concurrent.TimeUnit.SECONDS)
                                .join()
                        != null));
    }

    @Test
    void a_child_that_the_tool_leaves_behind_is_not_waited_for() {
        assertEquals(Said.SYNCHRONISED, ask("sleep 20 & echo yes", noMark()));
    }

    @Test
    void an_interrupted_question_is_given_up() throws Exception {
        var asking = new Thread(() -> {
            Thread.currentThread().interrupt();
            assertEquals(Said.NOBODY_KNOWS, ask("sleep 1000", noMark()));
        });
        asking.start();
        asking.join(30_000);
        assertTrue(!asking.isAlive(), "still asking");
    }
}
