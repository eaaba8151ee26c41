package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import gylewarden.batch.Mandate;
import gylewarden.chamber.Chamber;
import gylewarden.chamber.Clocks;
import gylewarden.chamber.CompressorQueue;
import gylewarden.chamber.Instruments;
import gylewarden.chamber.LogBoard;
import gylewarden.control.Condition;
import gylewarden.control.Contact;
import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Sample;
import gylewarden.probe.SimulatedProbe;
import gylewarden.relay.SimulatedRelay;
import gylewarden.store.LatchFolder;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;

/** Two chambers with cold beer and a heater each, on a true data folder, in a time that passes only when told to. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
@Timeout(60)
class LatchesTest {
    private static final Logger LOGGER = (Logger) LoggerFactory.getLogger("gylewarden");

    @TempDir
    Path parent;

    private final LogBoard board = new LogBoard();
    private final ListAppender<ILoggingEvent> log = new ListAppender<>();
    private long seconds = 10_000;
    private final SimulatedProbe beer = new SimulatedProbe("beer", Duration.ofSeconds(5));
    private final SimulatedRelay cellarBelt = new SimulatedRelay("cellar-belt", this::now);
    private final SimulatedRelay garageBelt = new SimulatedRelay("garage-belt", this::now);
    private Path data = Path.of("");
    private LatchFolder folder = new LatchFolder(data);

    @BeforeEach
    void listen() throws IOException {
        data = Files.createDirectory(parent.resolve("data"));
        folder = new LatchFolder(data);
        log.list = new CopyOnWriteArrayList<>();
        log.start();
        LOGGER.addAppender(log);
    }

    @AfterEach
    void stopListening() {
        LOGGER.detachAppender(log);
        board.close();
    }

    private Uptime now() {
        return Uptime.ofSeconds(seconds);
    }

    private Chamber chamber(String id, SimulatedRelay belt, boolean heatingLatched) {
        return new Chamber(
                new Chamber.Plan(
                        id,
                        Rules.defaults().with(new Rules.Fitted(Optional.empty(), true, false)),
                        Mandate.holding(new Temperature(20)),
                        Optional.empty(),
                        false,
                        heatingLatched),
                new Instruments(
                        beer,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        List.of(),
                        Optional.empty(),
                        Optional.of(belt)),
                Clocks.trusted(this::now, () -> Instant.ofEpochSecond(seconds)),
                board,
                new CompressorQueue());
    }

    /** What is latched in the folder is taken from there; the chambers may know of a latch that is not there yet. */
    private final class Running {
        private final List<Chamber> chambers;
        private final Latches latches;

        Running(boolean cellarLatched, boolean garageLatched) throws IOException {
            chambers =
                    List.of(chamber("cellar", cellarBelt, cellarLatched), chamber("garage", garageBelt, garageLatched));
            latches = new Latches(folder, folder.read(), chambers, board, (thread, thrown) -> {});
        }

        void tick() {
            seconds++;
            if (seconds % 5 == 0) beer.say(new Sample.Measured(now(), new Temperature(18)));
            for (Chamber chamber : chambers) chamber.tick();
        }

        void runUntilHeating() {
            for (int ticks = 0; cellarBelt.load() == Contact.RELEASED; ticks++) {
                assertTrue(ticks < 3600, "it does not heat");
                latches.carry();
                tick();
            }
        }
    }

    private boolean findsNoEffect(String chamber) {
        return board.latest(chamber).orElseThrow().conditions().contains(Condition.HEATING_WITHOUT_EFFECT);
    }

    private List<String> logged(String words) {
        return log.list.stream()
                .map(ILoggingEvent::getFormattedMessage)
                .filter(sentence -> sentence.contains(words))
                .toList();
    }

    @Test
    void relays_off_is_answered_once_every_relay_is_released_and_not_before() throws Exception {
        var running = new Running(false, false);
        running.runUntilHeating();
        assertEquals(Contact.ENERGISED, garageBelt.load());
        garageBelt.failWrites(now(), now().plus(Duration.ofSeconds(30)));
        folder.askRelaysOff();
        while (garageBelt.load() == Contact.ENERGISED) {
            assertFalse(folder.isAnswered());
            running.latches.carry();
            running.tick();
        }
        running.latches.carry();
        running.tick();
        running.latches.carry();
        assertTrue(folder.isAnswered());
        assertEquals(Contact.RELEASED, cellarBelt.load());
    }

    @Test
    void every_further_relays_off_is_answered_too() throws Exception {
        var running = new Running(false, false);
        for (int request = 1; request <= 3; request++) {
            folder.askRelaysOff();
            assertFalse(folder.isAnswered());
            running.latches.carry();
            running.tick();
            running.latches.carry();
            assertTrue(folder.isAnswered(), "request " + request);
        }
    }

    @Test
    void an_answer_that_cannot_be_written_is_tried_again_and_complained_of_once() throws Exception {
        var running = new Running(false, false);
        folder.askRelaysOff();
        running.latches.carry();
        running.tick();
        Path away = Files.move(data, parent.resolve("away"));
        running.latches.carry();
        running.latches.carry();
        assertEquals(
                List.of("The answer to relays-off could not be written to " + data + ", and is tried again: "
                        + data.resolve("relays-off.answered")),
                logged("answer to relays-off"));
        Files.move(away, data);
        running.latches.carry();
        assertTrue(folder.isAnswered());
    }

    @Test
    void what_was_read_last_holds_while_the_folder_cannot_be_read_which_is_said_once() throws Exception {
        folder.askRelaysOff();
        var running = new Running(false, false);
        running.latches.carry();
        Path away = Files.move(data, parent.resolve("away"));
        for (int ticks = 0; ticks < 60; ticks++) {
            running.latches.carry();
            running.tick();
        }
        assertEquals(
                new Reason.SwitchedOff(),
                board.latest("cellar").orElseThrow().decision().reason());
        assertEquals(
                List.of("What is latched can no longer be read from " + data
                        + ", and stays as it was; look at that disk: " + data),
                logged("can no longer be read"));
        Files.move(away, data);
        running.latches.carry();
        assertEquals(
                1,
                logged("What is latched can be read again from " + data + ".").size());
        folder.resume();
        running.runUntilHeating();
    }

    @Test
    void a_heater_that_a_person_has_seen_to_on_the_page_is_not_latched_by_a_restart() throws Exception {
        folder.latchHeater("cellar");
        folder.latchHeater("garage");
        var running = new Running(true, true);
        running.latches.carry();
        running.tick();
        running.latches.carry();
        assertEquals(Set.of("cellar", "garage"), folder.read().heaters());
        running.chambers.get(0).acknowledge();
        running.tick();
        running.latches.carry();
        assertEquals(Set.of("garage"), folder.read().heaters());
        assertTrue(findsNoEffect("garage"));
        assertFalse(findsNoEffect("cellar"));
    }

    @Test
    void a_resumed_heater_is_the_persons_word_to_its_own_chamber_only() throws Exception {
        folder.latchHeater("cellar");
        folder.latchHeater("garage");
        var running = new Running(true, true);
        running.tick();
        running.latches.carry();
        Files.delete(data.resolve("latched-cellar-heating"));
        running.latches.carry();
        running.tick();
        running.latches.carry();
        assertFalse(findsNoEffect("cellar"));
        assertTrue(findsNoEffect("garage"));
        assertEquals(
                List.of("A person has resumed: heating of cellar may be energised again."),
                logged("A person has resumed"));
    }

    @Test
    void the_end_of_relays_off_is_the_persons_word_to_every_chamber() throws Exception {
        folder.latchHeater("cellar");
        var running = new Running(true, true);
        folder.askRelaysOff();
        running.latches.carry();
        running.tick();
        folder.resume();
        running.latches.carry();
        running.tick();
        assertFalse(findsNoEffect("cellar"));
        assertFalse(findsNoEffect("garage"));
    }

    @Test
    void a_heater_without_effect_is_latched_in_the_folder_and_not_again_before_its_chamber_has_heard_the_word()
            throws Exception {
        var running = new Running(true, false);
        running.tick();
        running.latches.carry();
        assertTrue(Files.exists(data.resolve("latched-cellar-heating")));
        assertFalse(Files.exists(data.resolve("latched-garage-heating")));
        folder.resume();
        running.latches.carry();
        running.latches.carry();
        assertFalse(Files.exists(data.resolve("latched-cellar-heating")), "the latch came back");
        running.tick();
        running.latches.carry();
        assertFalse(findsNoEffect("cellar"), "the word was lost");
        assertFalse(Files.exists(data.resolve("latched-cellar-heating")));
    }
}
