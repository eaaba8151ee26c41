package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import gylewarden.control.Contact;
import gylewarden.relay.SimulatedRelay;
import gylewarden.relay.SimulatedRelay.Transition;
import gylewarden.store.InstanceLock;
import gylewarden.store.LatchFolder;
import gylewarden.units.Uptime;
import java.io.BufferedReader;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ClickTest {
    private static final String CONFIG = """
            [[probe]]
            id = "beer"
            kind = "file"
            path = "beer"
            [[relay]]
            id = "fridge"
            kind = "file"
            path = "relays/fridge"
            [[relay]]
            id = "belt"
            kind = "file"
            path = "relays/belt"
            [[chamber]]
            id = "garage"
            beer_probe = "beer"
            cooling = "fridge"
            heating = "belt"
            """;

    @TempDir
    Path folder;

    private Path file;
    private final AtomicReference<Uptime> now = new AtomicReference<>(Uptime.ofSeconds(0));
    private final List<Transition> did = new ArrayList<>();

    private record Outcome(int status, String out, String err) {}

    @BeforeEach
    void write() throws Exception {
        file = Files.writeString(folder.resolve("gylewarden.toml"), CONFIG);
    }

    private static Outcome run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int status = Main.commandLine()
                .setOut(new PrintWriter(out, true))
                .setErr(new PrintWriter(err, true))
                .execute(arguments);
        return new Outcome(status, out.toString(), err.toString());
    }

    /** Clicks on virtual time; gives what was said. */
    private String click(String relay, String answer) throws Exception {
        Config config = ConfigFile.read(file);
        var said = new StringWriter();
        var click = new Click(
                new PrintWriter(said, true),
                new BufferedReader(new StringReader(answer)),
                span -> now.updateAndGet(t -> t.plus(span)));
        try (var simulated = new SimulatedRelay(relay, now::get, did::add)) {
            Duration span = click.ask(relay, Click.compressor(config, relay));
            click.energise(simulated, span);
        }
        return said.toString();
    }

    private static List<Transition> energised(long from, long to) {
        return List.of(
                new Transition(Uptime.ofSeconds(from), Contact.ENERGISED),
                new Transition(Uptime.ofSeconds(to), Contact.RELEASED));
    }

    @Test
    void a_heater_is_energised_for_two_seconds_and_nobody_is_asked() throws Exception {
        assertEquals("Relay belt is energised for 2s.\nRelay belt is released.\n", click("belt", ""));
        assertEquals(energised(0, 2), did);
    }

    @ParameterizedTest
    @ValueSource(strings = {"yes\n", " YES \n"})
    void a_compressor_whose_plug_is_out_is_clicked_for_two_seconds(String answer) throws Exception {
        String said = click("fridge", answer);
        assertTrue(
                said.startsWith(
                        "Relay fridge drives a compressor, and two seconds would harm it. Is the compressor's plug"
                                + " out of its socket? Write yes for two seconds; anything else keeps the relay released for 5m and"
                                + " then runs the compressor for 2m:\n"),
                said);
        assertEquals(energised(0, 2), did);
    }

    @ParameterizedTest
    @ValueSource(strings = {"no\n", "y\n", "\n", ""})
    void any_other_answer_keeps_the_minimum_off_time_and_runs_a_full_minimum_on_time(String answer) throws Exception {
        click("fridge", answer);
        assertEquals(energised(300, 420), did);
    }

    @Test
    void a_cooling_valve_is_no_compressor() throws Exception {
        Files.writeString(file, CONFIG.replace("cooling = \"fridge\"", "cooling = \"fridge\"\ncooling_by = \"valve\""));
        click("fridge", "");
        assertEquals(energised(0, 2), did);
    }

    @Test
    void a_relay_that_cannot_be_released_is_a_failure_that_says_pull_the_plug() throws Exception {
        var click = new Click(
                new PrintWriter(new StringWriter()),
                new BufferedReader(new StringReader("")),
                span -> now.updateAndGet(t -> t.plus(span)));
        var relay = new SimulatedRelay("belt", now::get, did::add);
        relay.failWrites(Uptime.ofSeconds(1), Uptime.ofSeconds(600));
        var failure = assertThrows(CommandFailed.class, () -> click.energise(relay, Click.CLICK));
        assertEquals(
                "relay belt could not be released: relay belt could not be written: simulated fault. Pull the plug of its"
                        + " load.",
                failure.getMessage());
    }

    /** Runs a compressor for two minutes; before the second {@code at} a minute in which this program does nothing. */
    private CommandFailed clickThatStandsStill(SimulatedRelay relay, long at) {
        var click = new Click(
                new PrintWriter(new StringWriter()),
                new BufferedReader(new StringReader("")),
                span -> now.updateAndGet(t -> {
                    Uptime next = t.plus(span);
                    return next.equals(Uptime.ofSeconds(at)) ? next.plus(Duration.ofMinutes(1)) : next;
                }));
        return assertThrows(CommandFailed.class, () -> click.energise(relay, Duration.ofMinutes(2)));
    }

    @Test
    void a_compressor_that_was_released_by_its_lease_is_not_started_again() {
        try (var relay = new SimulatedRelay("fridge", now::get, did::add)) {
            var failure = clickThatStandsStill(relay, 30);
            assertEquals(
                    "relay fridge was released before its time: this machine stood still for seconds",
                    failure.getMessage());
            assertEquals(energised(0, 34), did);
            assertEquals(Uptime.ofSeconds(90), now.get(), "it ends at once");
        }
    }

    @Test
    void a_relay_that_cannot_be_written_midway_is_released_as_soon_as_it_can_and_not_energised_again() {
        try (var relay = new SimulatedRelay("fridge", now::get, did::add)) {
            relay.failWrites(Uptime.ofSeconds(31), Uptime.ofSeconds(91));
            var failure = clickThatStandsStill(relay, 30);
            assertEquals(
                    "relay fridge was released before its time: relay fridge could not be written: simulated fault",
                    failure.getMessage());
            assertEquals(energised(0, 91), did);
        }
    }

    @Test
    void a_relay_that_cannot_be_written_midway_nor_a_little_later_is_named() {
        try (var relay = new SimulatedRelay("fridge", now::get, did::add)) {
            relay.failWrites(Uptime.ofSeconds(31), Uptime.ofSeconds(600));
            var failure = clickThatStandsStill(relay, 30);
            assertEquals(
                    "relay fridge could not be released: relay fridge could not be written: simulated fault. Pull the"
                            + " plug of its load.",
                    failure.getMessage());
            assertEquals(Uptime.ofSeconds(93), now.get(), "three more seconds");
        }
    }

    @Test
    void the_real_file_is_written_and_left_released() throws Exception {
        Outcome outcome = run("click", "--config", file.toString(), "--relay", "belt");
        assertEquals(
                new Outcome(
                        0,
                        "Stand clear of the load and of its wires. A released relay is not isolation: pull the plug of a load"
                                + " before you touch its wires.\nRelay belt is energised for 2s.\nRelay belt is"
                                + " released.\n",
                        ""),
                outcome);
        assertEquals("0\n", Files.readString(folder.resolve("relays/belt")));
    }

    @Test
    void beside_a_running_daemon_it_refuses() throws Exception {
        Path data = folder.resolve("data");
        InstanceLock daemon = InstanceLock.take(data);
        try {
            assertEquals(
                    new Outcome(
                            1,
                            "",
                            "the data folder " + data + " is in use by process "
                                    + ProcessHandle.current().pid()
                                    + ": stop the daemon first (systemctl stop gylewarden), for it would switch the same"
                                    + " relay\n"),
                    run("click", "--config", file.toString(), "--relay", "belt"));
        } finally {
            daemon.close();
        }
    }

    @Test
    void while_the_relays_are_latched_off_it_refuses() throws Exception {
        new LatchFolder(folder.resolve("data")).askRelaysOff();
        assertEquals(
                new Outcome(
                        1,
                        "",
                        "the relays are latched off: end that first with relays-off --resume --config " + file + "\n"),
                run("click", "--config", file.toString(), "--relay", "belt"));
    }

    @Test
    void a_relay_that_is_not_in_the_config_is_a_wrong_command_line() {
        Outcome outcome = run("click", "--config", file.toString(), "--relay", "bolt");
        assertEquals(2, outcome.status());
        assertTrue(
                outcome.err()
                        .startsWith("--relay bolt: there is no such relay in " + file + "; there are: fridge, belt\n"),
                outcome.err());
    }
}
