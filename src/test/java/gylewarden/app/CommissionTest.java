package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.app.config.ChamberConfig;
import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import gylewarden.app.config.Fingerprint;
import gylewarden.batch.Mandate;
import gylewarden.chamber.StatusBoard;
import gylewarden.commission.Verdict;
import gylewarden.control.Contact;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.journal.Scale;
import gylewarden.plant.Plants;
import gylewarden.plant.Surroundings;
import gylewarden.simulation.Fault;
import gylewarden.simulation.VirtualChamber;
import gylewarden.store.InstanceLock;
import gylewarden.units.Uptime;
import java.io.BufferedReader;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CommissionTest {
    private static final String CONFIG = """
            [[probe]]
            id = "beer"
            kind = "file"
            path = "beer"
            [[probe]]
            id = "air"
            kind = "file"
            path = "air"
            [[relay]]
            id = "fridge"
            kind = "gpio"
            line = 17
            [[relay]]
            id = "belt"
            kind = "file"
            path = "relays/belt"
            [[chamber]]
            id = "garage"
            beer_probe = "beer"
            air_probe = "air"
            cooling = "fridge"
            heating = "belt"
            """;

    @TempDir
    Path folder;

    private Path file;

    @BeforeEach
    void write() throws Exception {
        file = Files.writeString(folder.resolve("gylewarden.toml"), CONFIG);
    }

    private record Outcome(Verdict verdict, String out, VirtualChamber chamber) {}

    /** The command's own loop, on virtual time. */
    private static Outcome commission(List<Fault> faults) throws Exception {
        var chamber = new VirtualChamber(
                Plants.twentyLitres(),
                (seconds, beer) -> new Surroundings(20, 0, 0),
                Rules.defaults(),
                Mandate.nothing(),
                StatusBoard.nobodyLooks(),
                1);
        faults.forEach(chamber::inject);
        var out = new StringWriter();
        var loop = new CommissionLoop(
                new PrintWriter(out, true),
                trial -> chamber.chamber().order(orders -> orders.trying(trial)),
                chamber::second,
                span -> {},
                Scale.CELSIUS);
        Verdict verdict = loop.run(Rules.defaults(), Uptime.ofSeconds(0));
        new CommissionTalk(new PrintWriter(out, true), new BufferedReader(new StringReader("")))
                .tell("garage", verdict);
        return new Outcome(verdict, out.toString(), chamber);
    }

    @Test
    void a_sound_chamber_passes_with_a_line_each_minute_and_everything_released() throws Exception {
        Outcome outcome = commission(List.of());
        assertTrue(outcome.verdict().passed(), outcome.out());
        List<String> lines = outcome.out().lines().toList();
        assertEquals("  0 min  Everything rests, for 0 s now.  beer not believed, air not believed", lines.get(0));
        assertTrue(
                lines.stream()
                        .anyMatch(line -> line.matches(" +\\d+ min  Cooling is tried, for 10 min now\\.  beer .*")),
                outcome.out());
        assertEquals("Chamber garage has passed.", lines.get(lines.size() - 1));
        assertTrue(lines.size() > outcome.chamber().seconds() / 60, "a line each minute");
        for (Side side : Side.values())
            assertEquals(Contact.RELEASED, outcome.chamber().relayGives(side));
    }

    @Test
    void swapped_loads_are_named_with_what_to_look_at() throws Exception {
        Outcome outcome = commission(List.of(new Fault.LoadsSwapped()));
        assertFalse(outcome.verdict().passed());
        assertTrue(outcome.out().contains("\nFound: The loads are swapped:"), outcome.out());
        assertTrue(
                outcome.out()
                        .endsWith("Look first: Exchange the two plugs, or the two relays in the config; then commission"
                                + " again.\nChamber garage has NOT passed.\n"),
                outcome.out());
    }

    @Test
    void only_a_yes_begins() throws Exception {
        Config config = ConfigFile.read(file);
        ChamberConfig chamber = config.chambers().get(0);
        for (Map.Entry<String, Boolean> said : Map.of(
                        "yes\n", true, " YES \n", true, "y\n", false, "", false, "no\n", false)
                .entrySet()) {
            var out = new StringWriter();
            var talk =
                    new CommissionTalk(new PrintWriter(out, true), new BufferedReader(new StringReader(said.getKey())));
            assertEquals(said.getValue(), talk.begin(chamber), said.getKey());
            String begun = out.toString();
            assertTrue(
                    begun.startsWith(
                            "Commissioning of chamber garage: cooling by relay fridge, heating by relay belt, beer"
                                    + " probe beer, air probe air.\n"),
                    begun);
            assertTrue(begun.contains("Caution: mains."), begun);
            assertTrue(begun.contains("knob at coldest, eco off"), begun);
        }
    }

    @Test
    void a_chamber_that_is_not_in_the_config_is_a_mistake() {
        Commands.Outcome outcome = Commands.run("commission", "--config", file.toString(), "--chamber", "cellar");
        assertEquals(2, outcome.status());
        assertTrue(
                outcome.err()
                        .startsWith("--chamber cellar: there is no such chamber in " + file + "; there are: garage"),
                outcome.err());
    }

    @Test
    void it_refuses_beside_a_daemon() throws Exception {
        Config config = ConfigFile.read(file);
        Files.createDirectories(config.dataDirectory());
        InstanceLock lock = InstanceLock.take(config.dataDirectory());
        try {
            Commands.Outcome outcome = Commands.run("commission", "--config", file.toString(), "--chamber", "garage");
            assertEquals(1, outcome.status());
            assertTrue(
                    outcome.err()
                            .endsWith(
                                    ": stop the daemon first (systemctl stop gylewarden), for it would switch the same"
                                            + " relays\n"),
                    outcome.err());
            assertFalse(Files.exists(folder.resolve("relays")), "no relay is touched");
        } finally {
            lock.close();
        }
    }

    @Test
    void other_wires_are_another_chamber() throws Exception {
        Map<String, String> before = fingerprint(CONFIG);
        assertEquals("gpio line 17", before.get("cooling"));
        assertEquals("file " + folder.resolve("relays/belt"), before.get("heating"));
        assertEquals(before, fingerprint(CONFIG + "min_off = \"6m\"\n"), "settings are no wires");
        assertNotEquals(before, fingerprint(CONFIG.replace("line = 17", "line = 27")));
        assertNotEquals(before, fingerprint(CONFIG.replace("line = 17", "line = 17\nactive_low = true")));
        assertNotEquals(
                before,
                fingerprint(CONFIG.replace("beer_probe = \"beer\"", "beer_probe = \"air\"")
                        .replace("air_probe = \"air\"", "air_probe = \"beer\"")));
    }

    private Map<String, String> fingerprint(String text) throws Exception {
        Config config = ConfigFile.read(Files.writeString(file, text));
        return Fingerprint.of(config, config.chambers().get(0));
    }
}
