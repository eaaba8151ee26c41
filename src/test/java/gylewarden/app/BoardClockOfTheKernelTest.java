package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.TimeEvent;
import gylewarden.store.BootId;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** With the real kernel, from process to process, as from one life of the daemon to the next. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
@Timeout(120)
class BoardClockOfTheKernelTest {
    private static final String OTHER_BOOT = "00000000-1111-4222-8333-444444444444";

    @TempDir
    Path data;

    private record Said(ClockReading reading, String voucher) {}

    private static List<String> java(String... arguments) {
        List<String> command = new ArrayList<>(
                List.of(ProcessHandle.current().info().command().orElseThrow(), "-XX:TieredStopAtLevel=1", "-cp"));
        command.add(System.getProperty("java.class.path"));
        command.add(TellsTheTime.class.getName());
        command.addAll(List.of(arguments));
        return command;
    }

    private static Said said(List<String> command) throws Exception {
        Process process = new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8).strip();
        assertEquals(0, process.waitFor(), out);
        String[] words = out.substring(out.lastIndexOf('\n') + 1).split(" ", -1);
        var reading = new ClockReading(words[0], Duration.parse(words[1]), Instant.parse(words[2]), false);
        return new Said(reading, words[3]);
    }

    @Test
    void the_boot_is_the_same_in_two_processes_and_the_time_since_it_runs_on_between_them() throws Exception {
        long begun = System.nanoTime();
        ClockReading first = said(java(data.toString())).reading();
        ClockReading second = said(java(data.toString())).reading();
        Duration between = second.sinceBoot().minus(first.sinceBoot());
        assertEquals(first.boot(), second.boot());
        assertEquals(BootId.read(BootId.KERNEL).text(), first.boot());
        assertTrue(between.compareTo(Duration.ZERO) > 0, between::toString);
        assertTrue(between.compareTo(Duration.ofNanos(System.nanoTime() - begun)) < 0, between::toString);
        assertEquals(
                List.of(),
                ElapsedClock.restart(ElapsedClock.first(first), second).events());
    }

    @Test
    void a_persons_word_reaches_the_next_process_and_not_the_next_boot() throws Exception {
        assertEquals("PERSON", said(java(data.toString(), "confirm")).voucher());
        assertEquals("PERSON", said(java(data.toString())).voucher());
        Said rebooted = said(inAnotherBoot(data, java(data.toString())));
        assertEquals(OTHER_BOOT, rebooted.reading().boot());
        assertEquals("NOBODY", rebooted.voucher());
    }

    @Test
    void another_boot_is_a_power_cut() throws Exception {
        ClockReading before = said(java(data.toString())).reading();
        ClockReading after = said(inAnotherBoot(data, java(data.toString()))).reading();
        assertEquals(
                List.of(new TimeEvent.PowerWasAwayUnknown(TimeEvent.Why.CLOCK_NOT_TRUSTED_BEFORE)),
                ElapsedClock.restart(ElapsedClock.first(before), after).events());
    }

    /** The command in a mount namespace of its own, where the kernel's boot id is another. Needs root. */
    private static List<String> inAnotherBoot(Path folder, List<String> command) throws Exception {
        Path id = Files.writeString(folder.resolve("boot_id"), OTHER_BOOT + "\n");
        String script = "mount --bind " + id + " " + BootId.KERNEL + " && exec \"$@\"";
        List<String> wrapped = new ArrayList<>(List.of("unshare", "--mount", "sh", "-c", script, "sh"));
        assumeTrue(
                new ProcessBuilder(List.of("unshare", "--mount", "true"))
                                .start()
                                .waitFor()
                        == 0,
                "not allowed to make a mount namespace");
        wrapped.addAll(command);
        return wrapped;
    }
}
