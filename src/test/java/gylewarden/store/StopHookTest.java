package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import gylewarden.store.ReleaseList.Entry.GpioLine;
import gylewarden.store.ReleaseList.Entry.RelayFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The real stop hook in real shells, on a list that the daemon's own class wrote, with stand-ins for the tools of libgpiod.
 * What those accept: manual pages gpioset(1) of libgpiod 1.6.3 (Debian 12) and 2.2.1 (Debian 13).
 */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
@Timeout(60)
class StopHookTest {
    private static final Path SYSTEMD = Path.of("systemd").toAbsolutePath();
    private static final String CHIPS =
            "gpiochip0 [raspberrypi-exp-gpio] (8 lines)\ngpiochip4 [pinctrl-bcm2711] (58 lines)\n";

    @TempDir
    Path folder;

    record Outcome(int status, String said, List<String> calls) {}

    static Stream<List<String>> shells() {
        return Stream.of(List.of("sh"), List.of("dash"), List.of("busybox", "sh"));
    }

    private void tool(String name, String script) throws IOException {
        Path tools = Files.createDirectories(folder.resolve("tools"));
        Path tool = Files.writeString(tools.resolve(name), "#!/bin/sh\n" + script);
        Files.setPosixFilePermissions(tool, PosixFilePermissions.fromString("rwxr-xr-x"));
    }

    /** Stand-ins that note how they were called. */
    private void gpiod(String version) throws IOException {
        tool("gpiodetect", "printf '" + CHIPS.replace("\n", "\\n") + "'\n");
        tool("gpioset", """
                if [ "$1" = --version ]; then echo "gpioset (libgpiod) v%s"; exit 0; fi
                echo "$*" >>"%s"
                case $* in *99=*) exit 1 ;; esac
                """.formatted(version, folder.resolve("calls")));
    }

    private static boolean installed(String tool) {
        return Stream.of(System.getenv("PATH").split(":")).anyMatch(path -> Files.isExecutable(Path.of(path, tool)));
    }

    private static void need(String tool) {
        if (installed(tool)) return;
        if ("true".equals(System.getenv("CI"))) fail(tool + " is not installed");
        abort(tool + " is not installed");
    }

    private Outcome run(List<String> command) throws Exception {
        Path said = folder.resolve("said");
        var builder = new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(said.toFile());
        builder.environment().put("PATH", folder.resolve("tools") + ":" + System.getenv("PATH"));
        Process process = builder.start();
        assertTrue(process.waitFor(50, TimeUnit.SECONDS), "it hangs");
        Path calls = folder.resolve("calls");
        return new Outcome(
                process.exitValue(),
                Files.readString(said),
                Files.exists(calls) ? Files.readAllLines(calls) : List.of());
    }

    private Outcome hook(List<String> shell, ReleaseList.Entry... entries) throws Exception {
        need(shell.get(0));
        ReleaseList.write(folder, List.of(entries));
        List<String> command = new ArrayList<>(shell);
        command.add(SYSTEMD.resolve("release-relays.sh").toString());
        command.add(folder.resolve("release-list").toString());
        return run(command);
    }

    @ParameterizedTest
    @MethodSource("shells")
    void libgpiod_1_is_asked_in_its_own_words(List<String> shell) throws Exception {
        gpiod("1.6.3");
        assertEquals(
                new Outcome(0, "", List.of("-m exit gpiochip4 17=1", "-m exit gpiochip0 3=0")),
                hook(shell, new GpioLine("pinctrl-bcm2711", 17, 1), new GpioLine("raspberrypi-exp-gpio", 3, 0)));
    }

    @ParameterizedTest
    @MethodSource("shells")
    void libgpiod_2_is_asked_in_its_own_words(List<String> shell) throws Exception {
        gpiod("2.2.1");
        assertEquals(
                new Outcome(0, "", List.of("-t 0 -c gpiochip4 17=1")), hook(shell, new GpioLine("pinctrl", 17, 1)));
    }

    @ParameterizedTest
    @MethodSource("shells")
    void a_relay_that_fails_keeps_no_other_from_being_released(List<String> shell) throws Exception {
        gpiod("1.6.3");
        Path belt = Files.writeString(folder.resolve("a belt with spaces"), "1\n");
        Path low = Files.writeString(folder.resolve("low"), "0\n");
        Outcome outcome = hook(
                shell,
                new RelayFile(Files.createDirectory(folder.resolve("in-the-way")), "0"),
                new GpioLine("pinctrl", 99, 0),
                new GpioLine("no-such-chip", 5, 0),
                new RelayFile(belt, "0"),
                new RelayFile(low, "1"),
                new GpioLine("pinctrl", 27, 0));
        assertEquals(1, outcome.status());
        assertEquals(List.of("-m exit gpiochip4 99=0", "-m exit gpiochip4 27=0"), outcome.calls());
        assertEquals("0\n", Files.readString(belt));
        assertEquals("1\n", Files.readString(low));
        for (String sentence : List.of(
                "release-relays: could not set line 99 of gpiochip4 to 0\n",
                "release-relays: no GPIO chip with the label no-such-chip, so line 5 was not released\n",
                "release-relays: could not write 0 to " + folder.resolve("in-the-way") + "\n",
                "release-relays: not everything was released: pull the plugs of the loads named above\n"))
            assertTrue(outcome.said().contains(sentence), outcome.said());
    }

    @ParameterizedTest
    @MethodSource("shells")
    void a_relay_that_hangs_is_left_for_the_next(List<String> shell) throws Exception {
        need("mkfifo");
        Path hanging = folder.resolve("hanging");
        assertEquals(0, run(List.of("mkfifo", hanging.toString())).status());
        tool("gpiodetect", "exec sleep 30\n");
        Path belt = Files.writeString(folder.resolve("belt"), "1\n");
        Outcome outcome =
                hook(shell, new GpioLine("pinctrl", 1, 0), new RelayFile(hanging, "0"), new RelayFile(belt, "0"));
        assertEquals(1, outcome.status());
        assertEquals("0\n", Files.readString(belt));
    }

    @Test
    void a_list_of_words_that_it_does_not_know_is_told_and_not_obeyed() throws Exception {
        gpiod("1.6.3");
        Path list = Files.writeString(folder.resolve("release-list"), "gpio pinctrl 17 0\nsomething else\n\n");
        Outcome outcome = run(List.of(SYSTEMD.resolve("release-relays.sh").toString(), list.toString()));
        assertEquals(new Outcome(1, """
                        release-relays: a line that is no relay: something else
                        release-relays: not everything was released: pull the plugs of the loads named above
                        """, List.of("-m exit gpiochip4 17=0")), outcome);
    }

    @Test
    void where_no_relay_switches_anything_there_is_nothing_to_release() throws Exception {
        assertEquals(new Outcome(0, "", List.of()), hook(List.of("sh")));
    }

    /** After a change of the config the level that an old list calls released may be the one that energises. */
    @Test
    void a_list_that_cannot_be_written_leaves_none_of_an_older_start_and_the_hook_says_so() throws Exception {
        Path belt = Files.writeString(folder.resolve("belt"), "0\n");
        ReleaseList.write(folder, List.of(new RelayFile(belt, "1")));
        Files.createDirectory(folder.resolve("release-list.new"));
        var failure =
                assertThrows(IOException.class, () -> ReleaseList.write(folder, List.of(new RelayFile(belt, "0"))));
        assertTrue(failure.getMessage().startsWith(folder + "/release-list.new"), failure.getMessage());
        Path list = folder.resolve("release-list");
        assertEquals("", Files.readString(list));
        assertTrue(ReleaseList.mayExistIn(folder), "a daemon has run here");
        assertEquals(
                new Outcome(
                        1,
                        "release-relays: " + list
                                + " is empty, for the daemon could not write it, so nothing was released: pull the plugs of"
                                + " all loads\n",
                        List.of()),
                run(List.of(SYSTEMD.resolve("release-relays.sh").toString(), list.toString())));
        assertEquals("0\n", Files.readString(belt));
    }

    @Test
    void an_older_list_that_cannot_even_be_emptied_is_named() throws Exception {
        Path list = Files.createDirectories(folder.resolve("release-list/in-the-way"))
                .getParent();
        var failure = assertThrows(IOException.class, () -> ReleaseList.write(folder, List.of()));
        assertTrue(
                failure.getMessage()
                        .endsWith("; and an older " + list
                                + ", which may say the wrong level, could not be emptied: delete it"),
                failure.getMessage());
    }

    @Test
    void without_a_list_nothing_has_ever_been_energised() throws Exception {
        Path list = folder.resolve("release-list");
        Outcome outcome = run(List.of(SYSTEMD.resolve("release-relays.sh").toString(), list.toString()));
        assertEquals(
                new Outcome(
                        0,
                        "release-relays: there is no " + list
                                + ": the daemon has never got so far as to switch a relay; or its folder is away, then"
                                + " pull the plugs of all loads\n",
                        List.of()),
                outcome);
    }

    @Test
    void called_without_a_list_it_says_how() throws Exception {
        Outcome outcome = run(List.of(SYSTEMD.resolve("release-relays.sh").toString()));
        assertEquals(new Outcome(2, "release-relays: usage: release-relays.sh LIST\n", List.of()), outcome);
    }

    @Test
    void the_checker_of_shell_scripts_finds_nothing() throws Exception {
        need("shellcheck");
        assertEquals(
                new Outcome(0, "", List.of()),
                run(List.of("shellcheck", SYSTEMD.resolve("release-relays.sh").toString())));
    }

    @Test
    void the_service_manager_finds_no_fault_in_the_unit() throws Exception {
        need("systemd-analyze");
        String unit = Files.readString(SYSTEMD.resolve("gylewarden.service"))
                .replace(
                        "/usr/lib/gylewarden/release-relays.sh",
                        SYSTEMD.resolve("release-relays.sh").toString())
                .replace(
                        "/usr/bin/java",
                        ProcessHandle.current().info().command().orElseThrow());
        Path copy = Files.writeString(folder.resolve("gylewarden.service"), unit);
        Outcome outcome = run(List.of("systemd-analyze", "verify", copy.toString()));
        assertEquals(0, outcome.status(), outcome.said());
        assertTrue(outcome.said().lines().noneMatch(line -> line.contains("gylewarden.service")), outcome.said());
    }
}
