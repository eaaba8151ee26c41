package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A person's word that everything is off, and what is latched otherwise. */
@OfTheRealJar
class RelaysOffIT {
    private static final String CAUTION =
            "A released relay is not isolation: pull the plug of a load before you touch its wires.\n";

    @Test
    void beside_the_daemon_relays_off_releases_and_latches_over_a_restart_until_resume(@TempDir Path folder)
            throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            Jar.Outcome off = board.command("relays-off");
            assertEquals(0, off.status(), off.out() + off.err());
            assertFalse(board.valve().isEnergised(), "it said so before it was so");
            assertEquals(
                    "The data folder " + board.data() + " is in use by process " + daemon.pid()
                            + ".\nThe daemon has released every relay.\n"
                            + "They stay off, over a restart too, until: relays-off --resume --config "
                            + board.config() + "\n" + CAUTION,
                    off.out());
            daemon.says("Switched off by a person; everything stays off until that is taken back.");
            daemon.kill();

            DaemonProcess next = board.run();
            int before = board.valve().count();
            next.says("Switched off by a person; everything stays off until that is taken back.");
            Await.holds(
                    "the valve stays released over the restart",
                    FakeBoard.SHORTEST.plusSeconds(5),
                    () -> board.valve().texts() + "\n" + next.said(),
                    () -> board.valve().count() == before && next.isAlive());
            Jar.Outcome resume = board.command("relays-off", "--resume");
            assertEquals(0, resume.status(), resume.out() + resume.err());
            next.says("A person has resumed: relays may be energised again.");
            board.valve().becomes("1", Await.LONG, next);
        }
    }

    @Test
    void beside_the_daemon_a_second_relays_off_is_answered_as_the_first(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            for (int request = 1; request <= 2; request++) {
                Jar.Outcome off = board.command("relays-off");
                assertEquals(0, off.status(), off.out() + off.err());
                assertTrue(off.out().contains("The daemon has released every relay.\n"), off.out());
                assertFalse(board.valve().isEnergised(), daemon::said);
            }
        }
    }

    @Test
    void with_a_broken_config_relays_off_still_releases_what_it_can_read(@TempDir Path folder) throws Exception {
        Path valve = Files.writeString(folder.resolve("valve"), "1\n");
        Path config = Files.writeString(folder.resolve("gylewarden.toml"), """
                [[relay]]
                id = "valve"
                kind = "file"
                path = "valve"
                [[chamber]]
                id = "cellar"
                cooling = "valv"
                """);
        Jar.Outcome off = Jar.run(folder, "relays-off", "--config", config.toString());
        assertEquals(2, off.status(), off.out() + off.err());
        assertEquals("0\n", Files.readString(valve));
        assertTrue(off.out().contains("relay valve: released\n"), off.out());
        assertTrue(off.out().endsWith(CAUTION), off.out());
        assertTrue(off.err().contains("gylewarden.toml:7"), off.err());
    }

    @Test
    void beside_the_daemon_a_broken_config_still_has_it_release(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            board.configure(board.text() + "nonsense = 1\n");
            Jar.Outcome off = board.command("relays-off");
            assertEquals(2, off.status(), off.out() + off.err());
            assertTrue(off.out().contains("The daemon has released every relay.\n"), off.out());
            assertFalse(board.valve().isEnergised(), daemon::said);
        }
    }

    @Test
    void a_frozen_daemon_gives_no_answer_and_relays_off_says_what_to_do(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            daemon.freeze();
            Jar.Outcome off = board.command("relays-off");
            assertEquals(1, off.status(), off.out() + off.err());
            board.valve().becomes("0", Await.LONG, daemon);
            assertTrue(off.out().contains("It has not answered within 10 s.\n"), off.out());
            assertTrue(off.out().contains("relay valve: released\n"), off.out());
            assertTrue(off.out().contains("pull the plugs of all loads now.\n"), off.out());
            int before = board.valve().count();
            daemon.signal("CONT");
            daemon.says("Switched off by a person; everything stays off until that is taken back.");
            assertFalse(board.valve().textsFrom(before).contains("1"), "energised after relays-off");
        }
    }

    @Test
    void a_heater_that_was_found_without_effect_stays_latched_over_a_restart_until_resume(@TempDir Path folder)
            throws Exception {
        try (var board = FakeBoard.withColdBeer(folder)) {
            Files.createDirectories(board.data());
            Files.createFile(board.data().resolve("latched-cellar-heating"));
            DaemonProcess daemon = board.run();
            daemon.says("Heating had no effect and stays off until a person says so.");
            daemon.says("Needs a person (high): Heating was energised for long and nothing rose; it stays off");
            daemon.kill();
            DaemonProcess next = board.run();
            next.says("Heating had no effect and stays off until a person says so.");
            assertFalse(board.belt().texts().contains("1"), next::said);
            Jar.Outcome resume = board.command("relays-off", "--resume");
            assertEquals(0, resume.status(), resume.out() + resume.err());
            next.says("A person has resumed: heating of cellar may be energised again.");
            next.says("Over: Heating was energised for long and nothing rose;");
            assertFalse(Files.exists(board.data().resolve("latched-cellar-heating")));
            board.belt().becomes("1", Await.LONG, next);
        }
    }
}
