package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CommandLineTest {
    private static final String CONFIG = """
            [probes]
            root = "w1"
            [[probe]]
            id = "beer"
            kind = "one-wire"
            address = "28-0316a2791001"
            offset = "0.5K"
            [[probe]]
            id = "room"
            kind = "file"
            path = "room"
            [[relay]]
            id = "belt"
            kind = "file"
            path = "relays/belt"
            [[chamber]]
            id = "garage"
            beer_probe = "beer"
            room_probe = "room"
            heating = "belt"
            """;

    @TempDir
    Path folder;

    private record Outcome(int status, String out, String err) {}

    private static Outcome run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int status = Main.commandLine()
                .setOut(new PrintWriter(out, true))
                .setErr(new PrintWriter(err, true))
                .execute(arguments);
        return new Outcome(status, out.toString(), err.toString());
    }

    /** Both probes answer: 1-Wire in millidegrees as the kernel's driver w1_therm writes it. */
    private Path connected() throws IOException {
        Path probe = Files.createDirectories(folder.resolve("w1/28-0316a2791001"));
        Files.writeString(probe.resolve("temperature"), "18937\n");
        Files.writeString(folder.resolve("room"), "21500\n");
        return Files.writeString(folder.resolve("gylewarden.toml"), CONFIG);
    }

    @ParameterizedTest
    @ValueSource(strings = {"password", "--nonsense"})
    void what_is_not_built_is_unknown(String word) {
        Outcome outcome = run(word);
        assertEquals(2, outcome.status());
        assertTrue(outcome.err().contains(word), outcome.err());
        assertTrue(outcome.err().endsWith("How to write it: gylewarden --help\n"), outcome.err());
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "check ", "probes ", "export ", "backup ", "restore "})
    void help_and_version_are_everywhere(String command) {
        Outcome help = run((command + "--help").split(" "));
        assertEquals(0, help.status());
        assertTrue(help.out().startsWith("Usage: gylewarden"), help.out());
        assertFalse(help.out().contains("\u001b"), "no colour codes");
        Outcome version = run((command + "--version").split(" "));
        assertEquals(0, version.status());
        assertTrue(version.out().startsWith("gylewarden "), version.out());
    }

    @Test
    void no_command_and_no_config_are_mistakes_of_the_command_line() {
        assertEquals(2, run().status());
        Outcome outcome = run("check");
        assertEquals(2, outcome.status());
        assertEquals("""
                Missing required option: '--config=FILE'
                How to write it: gylewarden check --help
                """, outcome.err());
    }

    @Test
    void check_says_what_is_connected_and_touches_no_relay() throws IOException {
        Outcome outcome = run("check", "--config", connected().toString());
        assertEquals("""
                %1$s/gylewarden.toml has no mistakes.
                probe beer: 19.437 C
                probe room: 21.5 C
                relay belt: energised writes 1 to %1$s/relays/belt, released 0 (it will be made); heats chamber garage
                clock: of this machine
                caution: chamber garage: no air probe guards the heater, and heating_duty lets it run all the time; fit one, or set heating_duty = 0.6 or less (SAFETY.md: a thermal cut-out on every heater)
                caution: chamber garage: without volume_litres and cooling_watts or heating_watts a probe that has fallen out is noticed only by a jump above 5 K within a minute
                daemon: none runs on %1$s/data
                No relay was touched.
                """.formatted(folder), outcome.out().replaceFirst("clock: says .*", "clock: of this machine"));
        assertEquals(0, outcome.status());
        assertFalse(Files.exists(folder.resolve("relays")));
    }

    @Test
    void check_fails_when_a_named_probe_or_relay_does_not_answer() throws IOException {
        Path config = connected();
        Files.delete(folder.resolve("room"));
        Files.createDirectories(folder.resolve("relays/belt"));
        Outcome outcome = run("check", "--config", config.toString());
        assertEquals(1, outcome.status());
        assertTrue(
                outcome.out()
                        .contains("probe room: does not answer: " + folder.resolve("room")
                                + " is missing, empty or too old\n"),
                outcome.out());
        assertTrue(outcome.out().contains("; it cannot be written; heats"), outcome.out());
        assertTrue(outcome.out().endsWith("2 of the probes and relays named in the config did not answer.\n"));
    }

    @Test
    void check_lists_every_mistake_on_standard_error() throws IOException {
        Path config = Files.writeString(folder.resolve("gylewarden.toml"), CONFIG + "min_off = 5\n");
        Outcome outcome = run("check", "--config", config.toString());
        assertEquals(2, outcome.status());
        assertEquals("", outcome.out());
        assertEquals("""
                gylewarden.toml:21  min_off = 5               a time needs a unit: write "5m" or "300s" (allowed 3m to 30m)
                1 mistake in gylewarden.toml. Nothing was started and no relay was touched.
                """, outcome.err());
    }

    @Test
    void probes_lists_what_answers_and_what_does_not() throws IOException {
        connected();
        Path lost = Files.createDirectories(folder.resolve("w1/28-0316a2791002"));
        Files.writeString(lost.resolve("temperature"), "");
        Files.writeString(lost.resolve("w1_slave"), "");
        Outcome outcome = run("probes", "--root", folder.resolve("w1").toString());
        assertEquals("""
                28-0316a2791001  18.937 C
                28-0316a2791002  does not answer: look at its plug and wires
                """, outcome.out());
        assertEquals(0, outcome.status());
    }

    @Test
    void probes_that_finds_none_has_done_its_work() {
        Outcome outcome = run("probes", "--root", folder.resolve("nothing").toString());
        assertEquals(0, outcome.status());
        assertTrue(outcome.out().startsWith("No 1-Wire probe in " + folder.resolve("nothing") + "."), outcome.out());
    }
}
