package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class BackupsTest {
    private static final Duration DAY = Duration.ofDays(1);
    private static final Instant NOON = Instant.parse("2026-05-14T12:00:00Z");

    @TempDir
    private Path data;

    @TempDir
    private Path stick;

    @BeforeEach
    void a_record() throws Exception {
        try (var database = new Database(data, () -> NOON)) {
            database.open();
            database.write(true, handle -> handle.execute("INSERT INTO setting VALUES ('a', 'b', 1)"));
        }
    }

    private Backups daily(int kept) {
        return new Backups(data, stick, DAY, kept);
    }

    private List<String> names() throws IOException {
        try (Stream<Path> files = Files.list(stick)) {
            return files.map(file -> file.getFileName().toString()).sorted().toList();
        }
    }

    @Test
    void the_first_is_made_at_once_and_the_next_when_its_time_has_come_whatever_was_restarted_between()
            throws Exception {
        assertTrue(daily(3).makeIfDue(NOON).isPresent());
        assertTrue(daily(3).makeIfDue(NOON.plus(Duration.ofHours(23))).isEmpty());
        assertTrue(daily(3).makeIfDue(NOON.plus(DAY)).isPresent());
        assertEquals(List.of("gylewarden-20260514T1200Z.db", "gylewarden-20260515T1200Z.db"), names());
    }

    @Test
    void the_newest_are_kept_and_what_somebody_else_has_put_there_is_not_touched() throws Exception {
        List<String> others = List.of("gylewarden-before-the-move.db", "letters.txt");
        for (String other : others) Files.writeString(stick.resolve(other), "mine");
        var random = new SplittableRandom(5);
        Instant now = NOON;
        for (int made = 1; made <= 12; made++) {
            Backups.Done done = daily(4).makeIfDue(now).orElseThrow();
            assertTrue(Files.exists(done.made()));
            now = now.plus(DAY).plusSeconds(random.nextInt(100_000));
            var ours = new TreeSet<>(names());
            assertTrue(ours.containsAll(others), ours::toString);
            others.forEach(ours::remove);
            assertEquals(Math.min(made, 4), ours.size(), ours::toString);
            assertEquals(done.made().getFileName().toString(), ours.last());
        }
    }

    @Test
    void what_a_clock_that_ran_ahead_has_dated_does_not_keep_the_next_from_being_made() throws Exception {
        daily(1).makeIfDue(NOON.plus(Duration.ofDays(900)));
        Backups.Done done = daily(1).makeIfDue(NOON).orElseThrow();
        assertTrue(Files.exists(done.made()), "never deletes what it has just made");
    }

    @Test
    void a_folder_that_is_not_there_is_never_made() {
        var away = new Backups(data, stick.resolve("backups"), DAY, 3);
        IOException failed = assertThrows(IOException.class, () -> away.makeIfDue(NOON));
        assertEquals(
                "the folder " + stick.resolve("backups") + " is not there; is its disk plugged in and mounted?",
                failed.getMessage());
        assertFalse(Files.exists(stick.resolve("backups")));
    }

    @Test
    void nothing_is_deleted_before_the_new_one_is_whole() throws Exception {
        daily(1).makeIfDue(NOON);
        Files.delete(data.resolve("gylewarden.db"));
        assertThrows(RecordFailed.class, () -> daily(1).makeIfDue(NOON.plus(DAY)));
        assertEquals(List.of("gylewarden-20260514T1200Z.db"), names());
    }

    @Test
    void what_a_power_cut_has_left_of_one_goes_with_the_next() throws Exception {
        Files.writeString(stick.resolve("gylewarden-20260513T1200Z.db.unfinished"), "half of");
        Optional<Backups.Done> done = daily(2).makeIfDue(NOON);
        assertEquals(List.of(done.orElseThrow().made().getFileName().toString()), names());
    }
}
