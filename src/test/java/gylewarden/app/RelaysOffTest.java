package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.app.config.ConfigFile;
import gylewarden.store.InstanceLock;
import gylewarden.store.LatchFolder;
import gylewarden.units.MonotonicClock;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
@Timeout(60)
class RelaysOffTest {
    private static final String CONFIG = """
            [[probe]]
            id = "beer"
            kind = "file"
            path = "beer"
            [[relay]]
            id = "fridge"
            kind = "file"
            path = "relays/fridge"
            active_low = true
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
    private static final String CAUTION =
            "A released relay is not isolation: pull the plug of a load before you touch its wires.\n";

    @TempDir
    Path folder;

    private Path config;
    private Path fridge;
    private Path belt;
    private Path data;

    private record Outcome(int status, String out, String err) {}

    @BeforeEach
    void energise() throws Exception {
        config = Files.writeString(folder.resolve("gylewarden.toml"), CONFIG);
        Path relays = Files.createDirectory(folder.resolve("relays"));
        fridge = Files.writeString(relays.resolve("fridge"), "0\n");
        belt = Files.writeString(relays.resolve("belt"), "1\n");
        data = Files.createDirectory(folder.resolve("data"));
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

    private Outcome relaysOff() {
        return run("relays-off", "--config", config.toString());
    }

    private String off() {
        return "They stay off, over a restart too, until: relays-off --resume --config " + config + "\n" + CAUTION;
    }

    private void assertReleased() throws Exception {
        assertEquals("1\n", Files.readString(fridge));
        assertEquals("0\n", Files.readString(belt));
    }

    @Test
    void without_a_daemon_it_releases_every_relay_itself_and_latches_them() throws Exception {
        assertEquals(new Outcome(0, "relay fridge: released\nrelay belt: released\n" + off(), ""), relaysOff());
        assertReleased();
        assertTrue(new LatchFolder(data).read().relaysOff());
    }

    @Test
    void a_relay_that_cannot_be_released_is_named_and_the_others_are_released() throws Exception {
        Files.delete(fridge);
        Files.createDirectory(fridge);
        assertEquals(
                new Outcome(
                        1,
                        "relay fridge: NOT released, pull its plug (relay fridge: could not write " + fridge
                                + ": it is a folder)\nrelay belt: released\n" + CAUTION,
                        ""),
                relaysOff());
        assertEquals("0\n", Files.readString(belt));
    }

    @Test
    void a_config_with_mistakes_releases_what_can_be_read_and_says_2() throws Exception {
        Files.writeString(
                config, CONFIG.replace("heating = \"belt\"", "heating = \"belt\"\nhysteresis = \"3\"\ntarget = 5"));
        Outcome outcome = relaysOff();
        assertEquals(2, outcome.status());
        assertEquals("relay fridge: released\nrelay belt: released\n" + off(), outcome.out());
        assertTrue(
                outcome.err()
                        .endsWith("2 mistakes in " + config
                                + ". A relay whose table has a mistake was not released: pull its plug.\n"),
                outcome.err());
        assertReleased();
    }

    @Test
    void a_config_that_cannot_be_read_at_all_says_so_and_2() {
        Outcome outcome =
                run("relays-off", "--config", folder.resolve("missing.toml").toString());
        assertEquals(2, outcome.status());
        assertEquals(
                "The config does not say where the data folder is, so a running daemon could not be told: stop it"
                        + " (systemctl stop gylewarden).\nThere is no relay that could be read from the config.\n"
                        + CAUTION,
                outcome.out());
    }

    @Test
    void a_running_daemon_is_asked_and_its_relays_are_left_to_it() throws Exception {
        InstanceLock daemon = InstanceLock.take(data);
        try {
            var asked = CompletableFuture.supplyAsync(this::relaysOff);
            var latches = new LatchFolder(data);
            while (!latches.read().relaysOff()) TimeUnit.MILLISECONDS.sleep(5);
            assertFalse(asked.isDone(), "it did not wait for the answer");
            latches.answer();
            assertEquals(
                    new Outcome(
                            0,
                            "The data folder " + data + " is in use by process "
                                    + ProcessHandle.current().pid()
                                    + ".\nThe daemon has released every relay.\n" + off(),
                            ""),
                    asked.get(30, TimeUnit.SECONDS));
            assertEquals("1\n", Files.readString(belt), "the stand-in for the daemon writes nothing");
        } finally {
            daemon.close();
        }
    }

    @Test
    void a_daemon_that_does_not_answer_is_reported_and_files_are_released_behind_its_back() throws Exception {
        InstanceLock daemon = InstanceLock.take(data);
        try {
            var out = new StringWriter();
            boolean released;
            try (var drivers = new Drivers(() -> {
                throw new AssertionError("no GPIO here");
            })) {
                var relays = ConfigFile.salvage(config).relays();
                released = new RelaysOff(
                                new PrintWriter(out, true),
                                drivers,
                                MonotonicClock.system(),
                                Patience.of(Duration.ofMillis(100)),
                                () -> Optional.of("no page"))
                        .run(Optional.of(data), relays);
            }
            assertFalse(released);
            assertReleased();
            assertTrue(out.toString().endsWith("""
                            It has not answered within 0 s.
                            Nor was it reached by its page: no page.
                            relay fridge: released
                            relay belt: released
                            What is released here the daemon may energise again, and its GPIO lines are out of reach: stop the service (systemctl stop gylewarden) or pull the plugs of all loads now.
                            """), out.toString());
        } finally {
            daemon.close();
        }
    }

    @Test
    void resuming_waits_until_a_running_daemon_has_taken_the_word() throws Exception {
        var latches = new LatchFolder(data);
        latches.askRelaysOff();
        InstanceLock daemon = InstanceLock.take(data);
        try {
            var resumed =
                    CompletableFuture.supplyAsync(() -> run("relays-off", "--resume", "--config", config.toString()));
            while (!latches.isResumed()) TimeUnit.MILLISECONDS.sleep(5);
            assertFalse(resumed.isDone(), "it did not wait");
            latches.forgetResumed();
            assertEquals(
                    new Outcome(
                            0,
                            "No relay is latched off any more. The daemon goes on within seconds; compressors wait their"
                                    + " minimum off time first.\n" + CAUTION,
                            ""),
                    resumed.get(30, TimeUnit.SECONDS));
        } finally {
            daemon.close();
        }
    }

    @Test
    void resuming_says_so_if_a_running_daemon_does_not_take_the_word() throws Exception {
        InstanceLock daemon = InstanceLock.take(data);
        try {
            assertEquals(
                    new Outcome(
                            1,
                            "",
                            "the latch in " + data
                                    + " is ended, but the daemon has not taken that within 10 s: look at its"
                                    + " log (journalctl -u gylewarden), or restart it (systemctl restart gylewarden)\n"),
                    run("relays-off", "--resume", "--config", config.toString()));
        } finally {
            daemon.close();
        }
    }

    @Test
    void resuming_ends_the_latch_and_touches_no_relay() throws Exception {
        new LatchFolder(data).askRelaysOff();
        new LatchFolder(data).latchHeater("garage");
        assertEquals(
                new Outcome(
                        0,
                        "No relay is latched off any more. No daemon uses " + data
                                + " now; one that runs without its data"
                                + " folder stays off until it is restarted with it.\n" + CAUTION,
                        ""),
                run("relays-off", "--resume", "--config", config.toString()));
        assertEquals(new LatchFolder.Latches(false, Set.of(), true), new LatchFolder(data).read());
        assertEquals("1\n", Files.readString(belt));
    }
}
