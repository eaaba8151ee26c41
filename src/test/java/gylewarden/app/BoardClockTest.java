package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.app.BoardClock.Voucher;
import gylewarden.chamber.Answer;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.store.BootId;
import gylewarden.store.ConfirmedTime;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class BoardClockTest {
    private static final String BOOT = "9d1f0a3c-2b7e-4c55-8a10-0f6e2d4b7c91";
    private static final String OTHER_BOOT = "11111111-2b7e-4c55-8a10-0f6e2d4b7c91";
    private static final Instant EVENING = Instant.parse("2026-03-07T18:00:00Z");
    private static final Duration SINCE_BOOT = Duration.ofMinutes(10);

    @TempDir
    Path data;

    private Uptime uptime = Uptime.ofSeconds(5000);
    private Instant wall = EVENING;

    private void pass(Duration span) {
        uptime = uptime.plus(span);
        wall = wall.plus(span);
    }

    private BoardClock clock(String boot, boolean battery) {
        Duration sinceBoot = SINCE_BOOT.plus(uptime.since(Uptime.ofSeconds(5000)));
        var sources = new BoardClock.Sources(boot, sinceBoot, () -> uptime, () -> wall);
        return new BoardClock(sources, battery, new ConfirmedTime(data));
    }

    @Test
    void it_reads_all_clocks_of_the_board_at_one_moment() {
        BoardClock clock = clock(BOOT, false);
        pass(Duration.ofSeconds(90));
        assertEquals(new ClockReading(BOOT, SINCE_BOOT.plusSeconds(90), EVENING.plusSeconds(90), false), clock.get());
        assertEquals(Voucher.NOBODY, clock.voucher());
    }

    @Test
    void a_battery_clock_is_trusted_from_the_start_and_whatever_is_done_to_it() {
        BoardClock clock = clock(BOOT, true);
        wall = wall.plusSeconds(9000);
        assertTrue(clock.get().trusted());
        assertEquals(Voucher.BATTERY, clock.voucher());
    }

    @Test
    void the_kernels_word_holds_on_while_the_clock_only_runs_on() {
        BoardClock clock = clock(BOOT, false);
        clock.kernelVouches();
        pass(Duration.ofDays(40));
        assertTrue(clock.get().trusted());
        assertEquals(Voucher.KERNEL, clock.voucher());
    }

    @Test
    void a_clock_that_was_set_since_is_trusted_only_after_another_word() {
        BoardClock clock = clock(BOOT, false);
        clock.kernelVouches();
        wall = wall.plusMillis(1999);
        assertTrue(clock.get().trusted());
        wall = wall.plusMillis(1);
        assertFalse(clock.get().trusted());
        assertEquals(Voucher.NOBODY, clock.voucher());
        clock.kernelVouches();
        assertTrue(clock.get().trusted());
        wall = wall.minusSeconds(3600);
        assertFalse(clock.get().trusted());
    }

    @Test
    void a_persons_word_holds_over_a_restart_of_the_daemon_and_not_over_a_boot() {
        assertEquals(
                new Answer.Done(Optional.empty(), Optional.empty()),
                clock(BOOT, false).confirm());
        pass(Duration.ofMinutes(3));
        assertEquals(Voucher.PERSON, clock(BOOT, false).voucher());
        assertEquals(Voucher.NOBODY, clock(OTHER_BOOT, false).voucher());
        wall = wall.plusSeconds(60);
        assertEquals(Voucher.NOBODY, clock(BOOT, false).voucher());
    }

    @Test
    void a_person_cannot_confirm_a_time_that_cannot_be() {
        wall = Instant.parse("1970-01-01T00:10:00Z");
        BoardClock clock = clock(BOOT, false);
        String message = clock.confirm()
                .fold(done -> "confirmed", refused -> refused.mistakes().get(0).toString());
        assertEquals(
                "rightNow: The board's clock says 1970-01-01T00:10:00Z, which can't be. Set it first: connect the board to"
                        + " the network, or use timedatectl set-time.",
                message);
        assertFalse(clock.get().trusted());
    }

    @Test
    void a_word_that_cannot_be_kept_holds_for_this_run_and_says_so() throws Exception {
        Files.createDirectories(data.resolve("clock-confirmed.new"));
        BoardClock clock = clock(BOOT, false);
        String unsaved = clock.confirm().fold(done -> done.unsaved().orElse("saved"), refused -> "refused");
        assertTrue(unsaved.startsWith("A restart of the daemon will forget that the time is confirmed: "), unsaved);
        assertTrue(clock.get().trusted());
    }

    @Test
    void a_torn_file_is_no_word() throws Exception {
        Files.writeString(data.resolve("clock-confirmed"), BOOT + " 17");
        assertEquals(Voucher.NOBODY, clock(BOOT, false).voucher());
        Files.writeString(data.resolve("clock-confirmed"), BOOT.substring(9));
        assertEquals(Voucher.NOBODY, clock(BOOT, false).voucher());
        Files.delete(data.resolve("clock-confirmed"));
        Files.createDirectories(data.resolve("clock-confirmed"));
        assertEquals(Voucher.NOBODY, clock(BOOT, false).voucher());
    }

    @Test
    void time_since_boot_leaves_out_sleeps_where_the_process_can_tell_them() {
        Duration uptime = Duration.ofHours(10);
        assertEquals(Duration.ofHours(10), BoardClock.awake(uptime, uptime));
        assertEquals(Duration.ofHours(3), BoardClock.awake(uptime, Duration.ofHours(3)));
        assertEquals(uptime, BoardClock.awake(uptime, Duration.ofHours(11)));
        assertEquals(uptime, BoardClock.awake(uptime, Duration.ofHours(-1)));
    }

    @Test
    void the_kernel_of_this_machine_is_understood() throws Exception {
        var sources = BoardClock.Sources.kernel(MonotonicClock.system());
        assertEquals(BootId.read(BootId.KERNEL).text(), sources.boot());
        assertTrue(sources.sinceBoot().compareTo(Life.sinceBoot().plusSeconds(1)) <= 0);
        var clock = new BoardClock(sources, false, new ConfirmedTime(data));
        ClockReading before = clock.get();
        ClockReading after = clock.get();
        assertTrue(after.sinceBoot().compareTo(before.sinceBoot()) >= 0);
        assertEquals(List.of(), ElapsedClock.first(before).tick(after).events());
    }

    private final Deque<KernelSync.Said> answers = new ArrayDeque<>();

    private ClockWatch watch(BoardClock clock) {
        return new ClockWatch(clock, answers::removeFirst, () -> uptime, (thread, bug) -> {});
    }

    @Test
    void the_kernel_is_asked_often_while_nobody_vouches_and_seldom_after() {
        BoardClock clock = clock(BOOT, false);
        try (ClockWatch watch = watch(clock)) {
            answers.addAll(List.of(
                    KernelSync.Said.NOT_SYNCHRONISED,
                    KernelSync.Said.NOT_SYNCHRONISED,
                    KernelSync.Said.SYNCHRONISED,
                    KernelSync.Said.NOT_SYNCHRONISED));
            watch.look();
            pass(ClockWatch.WHILE_DOUBTED);
            watch.look();
            assertEquals(Voucher.NOBODY, clock.voucher());
            pass(ClockWatch.WHILE_DOUBTED);
            watch.look();
            assertEquals(Voucher.KERNEL, clock.voucher());
            for (int time = 1; time < 20; time++) {
                pass(ClockWatch.WHILE_DOUBTED);
                watch.look();
                assertEquals(1, answers.size());
            }
            pass(ClockWatch.WHILE_DOUBTED);
            watch.look();
            assertEquals(0, answers.size());
            assertEquals(Voucher.KERNEL, clock.voucher());
        }
    }

    @Test
    void a_clock_that_was_set_is_asked_about_at_the_next_look() {
        BoardClock clock = clock(BOOT, false);
        try (ClockWatch watch = watch(clock)) {
            answers.addAll(List.of(KernelSync.Said.SYNCHRONISED, KernelSync.Said.SYNCHRONISED));
            watch.look();
            wall = wall.plusSeconds(5);
            assertFalse(clock.get().trusted());
            pass(ClockWatch.WHILE_DOUBTED);
            watch.look();
            assertTrue(clock.get().trusted());
        }
    }

    @Test
    void a_board_where_nobody_knows_stays_untrusted_until_a_person_confirms() {
        BoardClock clock = clock(BOOT, false);
        try (ClockWatch watch = watch(clock)) {
            answers.addAll(List.of(KernelSync.Said.NOBODY_KNOWS, KernelSync.Said.NOBODY_KNOWS));
            watch.look();
            pass(ClockWatch.WHILE_DOUBTED);
            watch.look();
            assertFalse(clock.get().trusted());
            assertTrue(clock.confirm() instanceof Answer.Done);
            pass(ClockWatch.WHILE_DOUBTED);
            watch.look();
            assertEquals(Voucher.PERSON, clock.voucher());
        }
    }
}
