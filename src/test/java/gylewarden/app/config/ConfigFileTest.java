package gylewarden.app.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Rules;
import gylewarden.control.Rules.CoolingBy;
import gylewarden.probe.Calibration;
import gylewarden.probe.FileSource;
import gylewarden.probe.MessageForm;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ConfigFileTest {
    private static final Path EXAMPLE = Path.of("config", "gylewarden.toml");

    @TempDir
    Path folder;

    private static String example() {
        try {
            return Files.readString(EXAMPLE);
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        }
    }

    /** Every commented-out key set, every commented-out table there. */
    private static String fullExample() {
        return example()
                .lines()
                .map(line -> line.matches("#([a-z_]+ =|\\[).*") ? line.substring(1) : line)
                .collect(Collectors.joining("\n", "", "\n"));
    }

    private Config read(String text) throws Exception {
        return ConfigFile.read(Files.writeString(folder.resolve("gylewarden.toml"), text));
    }

    private String mistakes(String text) throws Exception {
        Path file = Files.writeString(folder.resolve("gylewarden.toml"), text);
        return assertThrows(WrongFile.class, () -> ConfigFile.read(file)).mistakes().stream()
                .map(mistake -> mistake.written() + " | " + mistake.advice())
                .collect(Collectors.joining("\n"));
    }

    /** Replaces a line of the example, which must be there. */
    private static String with(String line, String other) {
        String text = example();
        assertTrue(text.contains("\n" + line + "\n"), line);
        return text.replace("\n" + line + "\n", "\n" + other + "\n");
    }

    @Test
    void one_mistake_in_a_chamber_hides_no_other() throws Exception {
        String all = mistakes(with("beer_probe = \"beer\"", "").replace("cooling = \"fridge\"", "cooling = \"frige\""));
        assertTrue(all.contains("beer_probe is missing"), all);
        assertTrue(all.contains("no [[relay]] has the id \"frige\"; did you mean \"fridge\"?"), all);
    }

    @Test
    void the_example_works_as_it_stands() throws Exception {
        Config config = ConfigFile.read(EXAMPLE);
        Path beside = EXAMPLE.toAbsolutePath().getParent();
        assertEquals(beside.resolve("data"), config.dataDirectory());
        assertEquals(new Listen("127.0.0.1", 8080), config.web());
        assertFalse(config.batteryClock());
        assertEquals(Path.of("/sys/bus/w1/devices"), config.probesRoot());
        assertEquals(
                new ProbeConfig.OneWire("28-0316a2791001"), config.probe("beer").source());
        assertEquals(
                new RelayConfig.Gpio(17, Optional.empty(), true),
                config.relay("fridge").wiring());
        assertEquals(
                new RelayConfig.TextFile(beside.resolve("relays/belt"), false),
                config.relay("belt").wiring());
        ChamberConfig garage = config.chambers().get(0);
        assertEquals("Garage", garage.name());
        assertEquals(Optional.of(new Temperature(19)), garage.target());
        assertEquals(Rules.defaults(), garage.rules());
        assertEquals(Optional.of("fridge"), garage.coolingRelay());
        assertEquals(Optional.of("belt"), garage.heatingRelay());
    }

    @Test
    void a_battery_clock_is_yes_or_no() throws Exception {
        assertEquals(
                "battery = \"yes\" | write true or false, without quotes",
                mistakes(example() + "[clock]\nbattery = \"yes\"\n"));
        assertEquals(
                "batery = true | no such key; did you mean battery?", mistakes(example() + "[clock]\nbatery = true\n"));
    }

    @Test
    void the_chambers_are_announced_unless_the_config_says_no() throws Exception {
        String broker = example() + "[mqtt]\nbroker = \"mqtt://host\"\n";
        assertTrue(read(broker).mqtt().orElseThrow().announced());
        assertTrue(read(broker + "announce = true\n").mqtt().orElseThrow().announced());
        assertFalse(read(broker + "announce = false\n").mqtt().orElseThrow().announced());
        assertEquals(
                "announce = \"no\" | write true or false, without quotes", mistakes(broker + "announce = \"no\"\n"));
    }

    @Test
    void the_example_works_with_every_optional_line_in_it() throws Exception {
        Config config = read(fullExample());
        ChamberConfig garage = config.chambers().get(0);
        assertEquals(
                new ChamberConfig.Probes(
                        "beer",
                        Optional.of("beer-low"),
                        Optional.of("air"),
                        Optional.of("room"),
                        List.of("shelf", "cupboard")),
                garage.probes());
        assertTrue(config.batteryClock());
        assertEquals(0.6, garage.rules().timing().heatingDuty());
        assertEquals(Optional.of(20.0), garage.rules().vessel().litres());
        assertEquals(Calibration.offset(new Kelvins(0.2)), config.probe("beer").calibration());
        assertEquals(
                new Calibration(List.of(
                        new Calibration.Point(new Temperature(0.4), new Temperature(0)),
                        new Calibration.Point(new Temperature(20.1), new Temperature(20)))),
                config.probe("air").calibration());
        assertEquals(
                new ProbeConfig.TextFile(
                        folder.resolve("probes/room"), FileSource.Unit.DEGREES, Optional.of(Duration.ofMinutes(5))),
                config.probe("room").source());
        assertEquals(
                Optional.of(new ProbeConfig.Sender(
                        "cellar/cupboard/reading",
                        new MessageForm(Optional.of("/temperature"), MessageForm.Unit.CELSIUS),
                        Duration.ofMinutes(3))),
                config.probe("cupboard").sender());
    }

    @Test
    void a_chamber_needs_no_more_than_a_probe_and_a_relay() throws Exception {
        Config config = read("""
                [[probe]]
                id = "p"
                kind = "file"
                path = "p.txt"
                [[relay]]
                id = "r"
                kind = "simulated"
                [[chamber]]
                id = "c"
                beer_probe = "p"
                heating = "r"
                min_off = "5m"
                """);
        ChamberConfig chamber = config.chambers().get(0);
        assertEquals("c", chamber.name());
        assertEquals(Optional.empty(), chamber.target());
        assertEquals(
                new Rules.Fitted(Optional.empty(), true, false), chamber.rules().fitted());
        assertEquals(Set.of("min_off"), chamber.idle());
    }

    @ParameterizedTest
    @CsvSource(quoteCharacter = '`', delimiter = '|', textBlock = """
            listen = "127.0.0.1:8080" | listen = "0.0.0.0:8080" | this version has no sign-in, so only this machine may reach the page: "127.0.0.1:8080"
            listen = "127.0.0.1:8080" | listen = "127.0.0.1.example.org:80" | this version has no sign-in, so only this machine may reach the page: "127.0.0.1:8080"
            listen = "127.0.0.1:8080" | listen = "8080" | write an address and a port: "127.0.0.1:8080"
            listen = "127.0.0.1:8080" | listen = "localhost:70000" | write an address and a port: "127.0.0.1:8080"
            address = "28-0316a2791001" | address = "28-0316A2791001" | write the name of the probe's folder, as the command probes lists it: "28-0316a2791001"
            address = "28-0316a2791001" | address = "28-0316a2791002" | already used by probe beer
            address = "28-0316a2791001" | path = "beer" | belongs to kind = "file", not to "one-wire"
            kind = "gpio" | kind = "wire" | allowed is "gpio" or "file" or "mqtt" or "simulated"
            id = "fridge" | id = "Fridge!" | write small letters, digits and hyphens only, at most 32: "fridge"
            id = "fridge" | id = "belt" | already the id of the [[relay]] in line 87
            line = 17 | line = 5000 | allowed is 0 to 1023
            path = "relays/belt" | path = "a\\u0000b" | no path of a file
            beer_probe = "beer" | beer_probe = "bear" | no [[probe]] has the id "bear"; did you mean "beer"?
            beer_probe = "beer" | beer_probe = "well" | no [[probe]] has the id "well"; there are air, beer
            air_probe = "air" | air_probe = "beer" | probe "beer" is already beer_probe of this chamber: it can be in one place only
            cooling = "fridge" | cooling = "belt" | relay "belt" is already cooling of chamber garage
            cooling = "fridge" | cooling = "frige" | no [[relay]] has the id "frige"; did you mean "fridge"?
            cooling_by = "compressor" | cooling_by = "ice" | allowed is "compressor" or "valve"
            target = "19.0C" | target = "41C" | allowed is -1C to 40C
            target = "19.0C" | target = "19.0C"\\nbeer_min = "20C" | allowed is 20C to 40C
            target = "19.0C" | beer_min = "20C"\\nbeer_max = "20C" | beer_min (20C) must be below beer_max (20C)
            target = "19.0C" | air_max = "5C" | air_min (-2C) must be at least 8K below air_max (5C)
            target = "19.0C" | air_min = "-5C" | allowed is -4C to 25C
            min_off = "5m" | min_off = "2m" | allowed is 3m to 30m
            min_on = "2m" | min_on = "2m"\\nown_delay = "3m" | with own_delay = 3m at least 8m, or the compressor hardly runs
            hysteresis = "0.3K" | heating_duty = 0 | allowed is 0.05 to 1
            hysteresis = "0.3K" | blind_cooling = "no" | write true or false, without quotes
            hysteresis = "0.3K" | controller = "learning" | "learning" is not in this version; allowed is "thermostat"
            hysteresis = "0.3K" | controller = "pid" | allowed is "thermostat"
            hysteresis = "0.3K" | watch = ["air"] | probe "air" is already air_probe of this chamber: it can be in one place only
            directory = "data" | directory = "data"\\n[mqtt]\\nbroker = "host:1883" | write "mqtt://HOST:1883", or "mqtts://HOST:8883" for an encrypted connection
            directory = "data" | directory = "data"\\n[mqtt]\\nbroker = "mqtt://host:65536" | write "mqtt://HOST:1883", or "mqtts://HOST:8883" for an encrypted connection
            directory = "data" | directory = "data"\\n[mqtt]\\nroot = "beer" | broker is missing: where the broker is, for example broker = "mqtt://192.0.2.10:1883"
            directory = "data" | directory = "data"\\n[mqtt]\\nbroker = "mqtt://host"\\nroot = "beer/#" | write letters, digits, . _ - and / between levels: "gylewarden"
            directory = "data" | directory = "data"\\n[mqtt]\\nbroker = "mqtt://host"\\npassword = "word" | needs a user beside it
            directory = "data" | directory = "data"\\n[mqtt]\\nbroker = "mqtt://host"\\nca_file = "ca.pem" | has no meaning without encryption: write broker = "mqtts://HOST:8883"
            directory = "data" | directory = "data"\\n[mqtt]\\nbroker = "mqtt://host"\\naccept_gravity = true | true is not in this version: write false, or leave it out
            hysteresis = "0.3K" | max_run = "5m" | allowed is 30m to 24h
            """)
    void a_wrong_value_says_what_is_allowed(String line, String other, String advice) throws Exception {
        String told = mistakes(with(line, other.replace("\\n", "\n")));
        assertTrue(told.lines().anyMatch(each -> each.endsWith(" | " + advice)), told);
    }

    @ParameterizedTest
    @CsvSource(quoteCharacter = '`', delimiter = '|', textBlock = """
            id = "fridge" | [[relay]] | id is missing: every [[relay]] needs one, for example id = "fridge"
            kind = "gpio" | [[relay]] | kind is missing: write kind = "gpio", kind = "file", kind = "mqtt" or kind = "simulated"
            line = 17 | [[relay]] | line is missing: the number of the GPIO line that drives the relay, for example line = 17
            path = "relays/belt" | [[relay]] | path is missing: the file that 1 or 0 is written to
            id = "beer" | [[probe]] | id is missing: every [[probe]] needs one, for example id = "beer"
            address = "28-0316a2791001" | [[probe]] | address is missing: write the name of the probe's folder, as the command probes lists it: "28-0316a2791001"
            beer_probe = "beer" | [[chamber]] | beer_probe is missing: the id of the probe that measures the beer
            """)
    void a_missing_key_says_what_belongs_there(String line, String header, String advice) throws Exception {
        assertEquals(header + " | " + advice, mistakes(with(line, "")));
    }

    @Test
    void a_chamber_without_a_relay_is_a_mistake() throws Exception {
        assertEquals(
                "[[chamber]] | cooling and heating are missing: name the relay of at least one of them",
                mistakes(with("cooling = \"fridge\"", "").replace("\nheating = \"belt\"\n", "\n")));
    }

    /** A board is set up step by step: probes, then relays that are clicked, then a chamber. */
    @Test
    void a_file_that_names_no_hardware_yet_is_none_and_is_cautioned() throws Exception {
        Path file = Files.writeString(folder.resolve("nothing.toml"), "# nothing\n");
        assertEquals(
                List.of("there is no [[chamber]], so nothing is controlled: name probes, relays and a chamber"),
                Cautions.of(ConfigFile.read(file)));
    }

    @Test
    void corrections_that_cannot_be_meant_are_refused() throws Exception {
        String line = "address = \"28-0316a2791001\"";
        String[][] cases = {
            {"offset = \"6K\"", "allowed is -5K to 5K"},
            {"points = [{ reads = \"0.2C\", is = \"0C\" }]", "needs two points or more; for one, use offset"},
            {
                "points = [{ reads = \"20C\", is = \"20C\" }, { reads = \"1C\", is = \"0C\" }]",
                "calibration points must rise, with at least 1.0 K between their readings"
            },
            {
                "points = [{ reads = \"0C\", is = \"0C\" }, { reads = \"20C\", is = \"30C\" }]",
                "a correction of 10.0 K; at most 5.0 K either way is allowed: a probe further off is broken or not where you think"
            },
            {
                "offset = \"1K\"\npoints = [{ reads = \"0C\", is = \"0C\" }, { reads = \"20C\", is = \"20C\" }]",
                "set either offset or points, not both"
            },
            {
                "points = [{ reads = \"0C\" }, { reads = \"20C\", is = \"20C\" }]",
                "is is missing: what is true, for example is = \"0C\""
            },
        };
        for (String[] each : cases) {
            String told = mistakes(with(line, line + "\n" + each[0]));
            assertTrue(told.endsWith(" | " + each[1]), told);
        }
    }

    @Test
    void one_gpio_line_or_file_is_no_two_relays() throws Exception {
        String second = "[[relay]]\nid = \"pump\"\nkind = \"gpio\"\nline = 17\n";
        assertEquals("line = 17 | already used by relay fridge", mistakes(example() + second));
        String file = "[[relay]]\nid = \"pump\"\nkind = \"file\"\npath = \"./relays/../relays/belt\"\n";
        assertEquals("path = \"./relays/../relays/belt\" | already used by relay belt", mistakes(example() + file));
    }

    @Test
    void an_own_delay_lengthens_the_default_minimum_on_time() throws Exception {
        Config config = read(with("min_on = \"2m\"", "own_delay = \"3m\""));
        assertEquals(
                Duration.ofMinutes(8), config.chambers().get(0).rules().timing().minimumOn());
    }

    @Test
    void a_valve_may_switch_more_often_than_a_compressor() throws Exception {
        Config config = read(with("cooling_by = \"compressor\"", "cooling_by = \"valve\"")
                .replace("min_off = \"5m\"", "min_off = \"10s\""));
        Rules rules = config.chambers().get(0).rules();
        assertEquals(Duration.ofSeconds(10), rules.timing().minimumOff());
        assertEquals(Optional.of(CoolingBy.VALVE), rules.fitted().cooling());
    }

    @Test
    void two_mistakes_are_told_in_one_report_with_their_lines() throws Exception {
        Path file = Files.writeString(folder.resolve("gylewarden.toml"), """
                [[probe]]
                id = "p"
                kind = "file"
                path = "p"
                [[relay]]
                id = "r"
                kind = "simulated"
                [[chamber]]
                id = "c"
                beer_prob = "p"
                beer_probe = "p"
                heating = "r"
                min_off = 5
                """);
        assertEquals(
                """
                gylewarden.toml:10  beer_prob = "p"           no such key; did you mean beer_probe?
                gylewarden.toml:13  min_off = 5               a time needs a unit: write "5m" or "300s" (allowed 3m to 30m)
                2 mistakes in gylewarden.toml. Nothing was started and no relay was touched.""", assertThrows(WrongFile.class, () -> ConfigFile.read(file)).getMessage());
    }

    @Test
    void relays_that_can_be_read_are_salvaged_from_a_config_with_mistakes() throws Exception {
        Path file = Files.writeString(folder.resolve("gylewarden.toml"), """
                [store]
                directory = "here"
                [[relay]]
                id = "Sound But Its Name"
                kind = "gpio"
                line = 4
                [[relay]]
                id = "level-unknown"
                kind = "gpio"
                line = 5
                active_lo = true
                [[relay]]
                id = "line-lost"
                kind = "gpio"
                line = 6
                active_low = tru e
                [[relay]]
                id = "good"
                kind = "file"
                path = "good"
                [[chamber]]
                nonsense
                """);
        ConfigFile.Salvage salvage = ConfigFile.salvage(file);
        assertEquals(Optional.of(folder.resolve("here")), salvage.dataDirectory());
        assertEquals(
                List.of("in line 3", "good"),
                salvage.relays().stream().map(RelayConfig::id).toList());
        assertFalse(salvage.mistakes().isEmpty());
        assertEquals(List.of(), ConfigFile.salvage(folder.resolve("gone")).relays());
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void no_mutation_of_the_example_gives_anything_but_a_config_or_a_report(long seed) throws Exception {
        SplittableRandom random = new SplittableRandom(seed);
        StringBuilder text = new StringBuilder(random.nextBoolean() ? example() : fullExample());
        int changes = random.nextInt(1, 12);
        for (int i = 0; i < changes; i++) mutate(text, random);
        Path file = Files.writeString(folder.resolve("gylewarden.toml"), text);
        try {
            assertFalse(ConfigFile.read(file).chambers().isEmpty());
        } catch (WrongFile wrong) {
            assertFalse(wrong.mistakes().isEmpty());
            assertTrue(wrong.getMessage().endsWith("Nothing was started and no relay was touched."));
        }
    }

    private static void mutate(StringBuilder text, SplittableRandom random) {
        String noise = "[]{}\"'=#.,\n\\ 0a-CKFm\u00e9\u0001\t";
        int at = random.nextInt(text.length());
        int end = Math.min(text.length(), at + random.nextInt(1, 30));
        switch (random.nextInt(5)) {
            case 0 -> text.setCharAt(at, noise.charAt(random.nextInt(noise.length())));
            case 1 -> text.insert(at, noise.charAt(random.nextInt(noise.length())));
            case 2 -> text.delete(at, end);
            case 3 -> text.insert(random.nextInt(text.length()), text.substring(at, end));
            default -> {
                List<String> lines = text.toString().lines().toList();
                text.append(lines.get(random.nextInt(lines.size()))).append('\n');
            }
        }
    }

    static LongStream seeds() {
        return LongStream.range(0, Math.min(Long.getLong("gylewarden.seeds", 1000), 10_000));
    }

    private static final String PLUG = """

            [mqtt]
            broker = "mqtt://host"
            [[relay]]
            id = "plug"
            kind = "mqtt"
            topic = "plug/set"
            state_topic = "plug/state"
            on = "ON"
            off = "OFF"
            auto_off = "1m"
            """;

    @ParameterizedTest
    @CsvSource(quoteCharacter = '`', delimiter = '|', textBlock = """
            auto_off = "1m" | | auto_off is missing: the time after which the plug goes off by itself, set in the plug; a plug without such a timer stays on for ever when this program, the network or the broker fails, and must not be used
            auto_off = "1m" | auto_off = "10m" | allowed is 30s to 5m
            auto_off = "1m" | auto_off = "20s" | allowed is 30s to 5m
            topic = "plug/set" | topic = "plug/#" | needs one topic, without + and #
            state_topic = "plug/state" | | state_topic is missing: the topic on which the plug says what it does: without its answer nobody knows
            state_topic = "plug/state" | state_topic = "plug/set" | is the topic on which it is told: then our own word would count as its answer
            off = "OFF" | off = "ON" | is the same text as on
            off = "OFF" | off = "OFF"\\nactive_low = true | a plug is told a text: set on and off instead
            [mqtt]\\nbroker = "mqtt://host" | | "mqtt" needs a broker: write the table [mqtt]
            """)
    void a_plug_needs_all_that_makes_it_safe(String right, String wrong, String advice) throws Exception {
        String line = right.replace("\\n", "\n");
        assertTrue(PLUG.contains(line), line);
        String other = Optional.ofNullable(wrong).orElse("").replace("\\n", "\n");
        String said = mistakes(example() + PLUG.replace(line, other));
        assertTrue(said.contains(advice), said);
    }

    private static final String SENDER = """

            [mqtt]
            broker = "mqtt://host"
            root = "our/house"
            [[probe]]
            id = "sender"
            kind = "mqtt"
            topic = "sensor/1"
            max_age = "3m"
            """;

    @Test
    void a_probe_that_sends_needs_a_topic_and_how_long_a_reading_counts() throws Exception {
        ProbeConfig.Sender plain =
                read(example() + SENDER).probe("sender").sender().orElseThrow();
        assertEquals(new MessageForm(Optional.empty(), MessageForm.Unit.CELSIUS), plain.form());
        ProbeConfig.Sender all = read(example() + SENDER + "pointer = \"\"\nunit = \"F\"\n")
                .probe("sender")
                .sender()
                .orElseThrow();
        assertEquals(new MessageForm(Optional.of(""), MessageForm.Unit.FAHRENHEIT), all.form());
        read(example() + SENDER + "pointer = \"/a\"\n"
                + SENDER.substring(SENDER.indexOf("[[probe]]")).replace("\"sender\"", "\"other\"")
                + "pointer = \"/b\"\n");
    }

    @ParameterizedTest
    @CsvSource(quoteCharacter = '`', delimiter = '|', textBlock = """
            topic = "sensor/1" | | topic is missing: the topic on which the probe sends its readings
            topic = "sensor/1" | topic = "sensor/#" | needs one topic, without +, # and blanks, and none that begins with $
            topic = "sensor/1" | topic = "sensor/+/t" | needs one topic, without +, # and blanks, and none that begins with $
            topic = "sensor/1" | topic = "$SYS/uptime" | needs one topic, without +, # and blanks, and none that begins with $
            topic = "sensor/1" | topic = "my sensor" | needs one topic, without +, # and blanks, and none that begins with $
            topic = "sensor/1" | topic = "our/house" | is below our/house/ where this daemon itself publishes: no probe is there
            topic = "sensor/1" | topic = "our/house/garage/status" | is below our/house/ where this daemon itself publishes: no probe is there
            topic = "sensor/1" | topic = "homie/5/our-house/garage/beer" | is below homie/5/our-house/ where this daemon itself publishes: no probe is there
            max_age = "3m" | | max_age is missing: how long a reading counts: three times as long as from one message to the next, for example max_age = "3m"
            max_age = "3m" | max_age = "20s" | allowed is 30s to 10m
            max_age = "3m" | max_age = "11m" | allowed is 30s to 10m
            max_age = "3m" | max_age = "3m"\\ninterval = "5s" | a probe that sends by itself is not read: leave it out, and set max_age
            max_age = "3m" | max_age = "3m"\\npath = "beer" | belongs to kind = "file", not to "mqtt"
            max_age = "3m" | max_age = "3m"\\nunit = "degrees" | allowed is "C" or "F"
            max_age = "3m" | max_age = "3m"\\npointer = "temperature" | write a JSON pointer (RFC 6901), a slash before each name: "/temperature"; ~0 stands for ~ in a name, and ~1 for /
            max_age = "3m" | max_age = "3m"\\npointer = "/a~2" | write a JSON pointer (RFC 6901), a slash before each name: "/temperature"; ~0 stands for ~ in a name, and ~1 for /
            max_age = "3m" | max_age = "3m"\\npointer = 5 | needs a text in quotes
            max_age = "3m" | max_age = "3m"\\n[[probe]]\\nid = "two"\\nkind = "mqtt"\\ntopic = "sensor/1"\\nmax_age = "1m" | already used by probe sender: two probes on one topic need two pointers
            max_age = "3m" | max_age = "3m"\\n[[relay]]\\nid = "plug"\\nkind = "mqtt"\\ntopic = "plug/set"\\nstate_topic = "sensor/1"\\non = "1"\\noff = "0"\\nauto_off = "1m" | already used by relay plug
            [mqtt]\\nbroker = "mqtt://host"\\nroot = "our/house" | | "mqtt" needs a broker: write the table [mqtt]
            kind = "mqtt" | kind = "one-wire"\\naddress = "28-0316a2791009" | belongs to kind = "file" or "mqtt", not to "one-wire"
            kind = "mqtt" | kind = "radio" | allowed is "one-wire" or "file" or "mqtt"
            """)
    void a_probe_that_sends_says_what_is_wrong_with_it(String right, String wrong, String advice) throws Exception {
        String line = right.replace("\\n", "\n");
        assertTrue(SENDER.contains(line), line);
        String other = Optional.ofNullable(wrong).orElse("").replace("\\n", "\n");
        String said = mistakes(example() + SENDER.replace(line, other));
        assertTrue(said.lines().anyMatch(each -> each.endsWith(" | " + advice)), said);
    }
}
