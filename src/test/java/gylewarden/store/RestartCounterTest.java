package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.store.RestartCounter.Restarts;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class RestartCounterTest {
    private static final BootId MONDAY = new BootId("4f6f0c1e-5a50-4d49-9f38-0a8d1c1f2b3c");
    private static final BootId TUESDAY = new BootId("9b2d7a44-11aa-4c0e-8f00-5d6e7f809a1b");

    @TempDir
    Path data;

    private Restarts start(BootId boot, long minutes) throws IOException {
        return new RestartCounter(data, boot).begin(Duration.ofMinutes(minutes));
    }

    @Test
    void the_first_start_waits_for_nothing() throws Exception {
        Restarts first = start(MONDAY, 1);
        assertEquals(new Restarts(1, false, Duration.ZERO), first);
        assertFalse(first.repeat());
    }

    @Test
    void five_starts_within_the_hour_repeat_and_back_off_further_each_time_but_never_give_up() throws Exception {
        for (int i = 1; i <= 4; i++) assertFalse(start(MONDAY, i).repeat());
        Restarts fifth = start(MONDAY, 5);
        assertTrue(fifth.repeat());
        assertEquals(Duration.ofMinutes(2), fifth.backOff());
        assertEquals(Duration.ofMinutes(5), start(MONDAY, 8).backOff());
        assertEquals(Duration.ofMinutes(10), start(MONDAY, 14).backOff());
        for (int i = 0; i < 20; i++)
            assertEquals(Duration.ofMinutes(30), start(MONDAY, 25).backOff());
        assertTrue(Files.readAllLines(data.resolve("starts")).size() <= 10, "the file grows without end");
    }

    @Test
    void starts_of_this_boot_are_forgotten_after_an_hour() throws Exception {
        for (int i = 0; i < 4; i++) start(MONDAY, i);
        assertEquals(1, start(MONDAY, 64).within());
    }

    @Test
    void starts_of_an_earlier_boot_are_kept_for_nobody_knows_how_long_ago_they_were() throws Exception {
        for (int i = 0; i < 4; i++) start(MONDAY, 1_000 + i);
        assertTrue(start(TUESDAY, 0).repeat());
    }

    @Test
    void a_run_that_has_lasted_an_hour_forgets_them_all() throws Exception {
        for (int i = 0; i < 4; i++) start(MONDAY, i);
        var counter = new RestartCounter(data, TUESDAY);
        counter.begin(Duration.ofMinutes(1));
        counter.lastedAnHour();
        assertEquals(1, start(TUESDAY, 70).within());
    }

    /** A daemon that nobody watches, and that fell over once after weeks. */
    @Test
    void one_crash_after_a_weeks_is_no_reason_to_wait_but_is_told_once() throws Exception {
        var weeks = new RestartCounter(data, MONDAY);
        assertFalse(weeks.begin(Duration.ofMinutes(1)).afterACrash());
        weeks.lastedAnHour();
        var next = new RestartCounter(data, MONDAY);
        assertEquals(new Restarts(1, true, Duration.ZERO), next.begin(Duration.ofDays(20)));
        next.lastedAnHour();
        next.endedOrderly();
        assertFalse(start(MONDAY, 60 * 24 * 30).afterACrash(), "the one before ended in order");
    }

    @Test
    void a_short_run_that_crashed_long_ago_is_told_and_one_cut_off_with_the_power_is_not() throws Exception {
        start(MONDAY, 1);
        assertTrue(start(MONDAY, 600).afterACrash());
        var lasted = new RestartCounter(data, MONDAY);
        lasted.begin(Duration.ofMinutes(700));
        lasted.lastedAnHour();
        assertEquals(new Restarts(1, false, Duration.ZERO), start(TUESDAY, 1));
    }

    @Test
    void a_start_that_ended_orderly_does_not_count() throws Exception {
        for (int i = 0; i < 10; i++) {
            var counter = new RestartCounter(data, MONDAY);
            assertEquals(1, counter.begin(Duration.ofMinutes(i)).within());
            counter.endedOrderly();
        }
    }

    @Test
    void a_torn_file_keeps_nobody_from_starting() throws Exception {
        Files.writeString(data.resolve("starts"), MONDAY.text() + " 60\n4f6f0c\n\u0000\u0000\n");
        assertEquals(2, start(MONDAY, 2).within());
    }

    @Test
    void a_boot_id_is_read_as_the_kernel_writes_it_and_anything_else_is_refused() throws Exception {
        Path file = Files.writeString(data.resolve("boot_id"), MONDAY.text() + "\n");
        assertEquals(MONDAY, BootId.read(file));
        Files.writeString(file, "");
        var wrong = assertThrows(IOException.class, () -> BootId.read(file));
        assertEquals(file + " holds no boot id but \"\"", wrong.getMessage());
    }
}
