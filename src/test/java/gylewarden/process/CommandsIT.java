package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The jar alone, as a person calls it. */
@OfTheRealJar
class CommandsIT {
    @Test
    void it_says_its_version(@TempDir Path folder) throws Exception {
        Jar.Outcome outcome = Jar.run(folder, "--version");
        assertEquals(0, outcome.status(), outcome.err());
        assertTrue(outcome.out().matches("gylewarden [0-9]+\\.[0-9]+\\.[0-9]+\\R"), outcome.out());
        assertEquals("", outcome.err());
    }

    @ParameterizedTest
    @ValueSource(strings = {"run", "simulate", "check", "probes", "relays-off", "click"})
    void each_command_explains_itself(String command, @TempDir Path folder) throws Exception {
        Jar.Outcome outcome = Jar.run(folder, command, "--help");
        assertEquals(0, outcome.status(), outcome.err());
        assertTrue(outcome.out().contains("Usage: gylewarden " + command), outcome.out());
        assertEquals("", outcome.err());
    }

    @Test
    void a_command_that_is_not_built_yet_is_unknown(@TempDir Path folder) throws Exception {
        Jar.Outcome outcome = Jar.run(folder, "password");
        assertEquals(2, outcome.status());
        assertEquals("", outcome.out());
        assertTrue(outcome.err().contains("password"), outcome.err());
        assertTrue(outcome.err().contains("How to write it: gylewarden --help"), outcome.err());
    }

    @Test
    void mistakes_in_the_config_are_all_told_and_nothing_is_touched(@TempDir Path folder) throws Exception {
        Path config = Files.writeString(folder.resolve("gylewarden.toml"), """
                [[probe]]
                id = "beer"
                kind = "one-wire"
                address = "28-0316a2791001"
                [[relay]]
                id = "valve"
                kind = "file"
                path = "relays/valve"
                [[chamber]]
                id = "cellar"
                target = "19.0"
                beer_prob = "beer"
                cooling = "valve"
                min_off = 5
                """);
        Jar.Outcome outcome = Jar.run(folder, "run", "--config", config.toString());
        assertEquals(2, outcome.status());
        assertEquals("", outcome.out());
        for (String place : new String[] {"gylewarden.toml:11", "gylewarden.toml:12", "gylewarden.toml:14"})
            assertTrue(outcome.err().contains(place), outcome.err());
        assertTrue(outcome.err().contains("Nothing was started and no relay was touched."), () -> outcome.err());
        assertFalse(Files.exists(folder.resolve("relays")), "a relay's folder was made");
        assertFalse(Files.exists(folder.resolve("data")), "a data folder was made");
    }

    @Test
    void mistakes_in_the_config_leave_a_relay_as_it_is(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            board.configure(board.text() + "nonsense = 1\n");
            assertEquals(2, board.command("run").status());
            assertEquals(2, board.command("check").status());
            assertEquals("", board.valve().texts() + board.belt().texts());
        }
    }

    @Test
    void check_touches_no_relay_and_probes_lists_what_answers(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            Jar.Outcome probes = Jar.run(
                    folder, "probes", "--root", folder.resolve("w1/devices").toString());
            assertEquals(0, probes.status(), probes.err());
            assertTrue(probes.out().contains(FakeBoard.BEER), probes.out());
            assertTrue(probes.out().contains("20 C"), probes.out());
            // A pipe is no regular file, so check says of these relays that they can't be written: status 1.
            Jar.Outcome check = board.command("check");
            assertEquals(1, check.status(), check.out() + check.err());
            assertTrue(check.out().contains("No relay was touched."), check.out());
            assertEquals("", board.valve().texts() + board.belt().texts());
        }
    }
}
