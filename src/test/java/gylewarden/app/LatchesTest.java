package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
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
import gylewarden.store.InstanceLock;
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
    private Optional<InstanceLock> lock = Optional.empty();

    @BeforeEach
    void listen() throws IOException, InstanceLock.Held {
        data = Files.createDirectory(parent.resolve("data"));
        folder = new LatchFolder(data);
        lock = Optional.of(InstanceLock.take(data));
        log.list = new CopyOnWriteArrayList<>();
        log.start();
        LOGGER.addAppender(log);
    }

    @AfterEach
    void stopListening() throws IOException {
        lock.orElseThrow().close();
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
            latches = new Latches(
                    folder, lock.orElseThrow()::isInPlace, folder.read(), chambers, board, (thread, thrown) -> {});
        }

        void tick() {
            seconds++;
            if (seconds % 5 == 0) beer.say(new Sample.Measured(now(), new Temperature(18)));
            for (Chamber chamber : chambers) chamber.tick();
        }

        void carryAndTick(int times) {
            for (int i = 0; i < times; i++) {
                latches.carry();
                tick();
            }
            latches.carry();
        }

        void runUntilHeating() {
            for (int ticks = 0; cellarBelt.load() == Contact.RELEASED; ticks++) {
                assertTrue(ticks < 3600, "it does not heat");
                latches.carry();
                tick();
            }
        }
    }

    private void assertSwitchedOff() {
        for (String chamber : List.of("cellar", "garage"))
            assertEquals(
                    new Reason.SwitchedOff(),
                    board.latest(chamber).orElseThrow().decision().reason(),
                    chamber);
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
    void nothing_is_answered_while_the_folder_is_away_and_it_is_when_it_is_back() throws Exception {
        var running = new Running(false, false);
        folder.askRelaysOff();
        running.latches.carry();
        running.tick();
        Path away = Files.move(data, parent.resolve("away"));
        running.carryAndTick(5);
        assertFalse(folder.isAnswered());
        Files.move(away, data);
        running.latches.carry();
        assertTrue(folder.isAnswered());
    }

    @Test
    void the_end_of_a_latch_that_cannot_be_written_is_tried_again_and_complained_of_once() throws Exception {
        Path stuck = Files.createDirectory(data.resolve("latched-cellar-heating"));
        Path inside = Files.createFile(stuck.resolve("inside"));
        var running = new Running(true, false);
        running.carryAndTick(1);
        running.chambers.get(0).acknowledge();
        running.carryAndTick(5);
        assertEquals(
                List.of("The end of the latch of the heater of cellar could not be written to " + data
                        + ", and is tried again: " + stuck),
                logged("The end of the latch"));
        Files.delete(inside);
        running.latches.carry();
        assertEquals(LatchFolder.Latches.NONE, folder.read());
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
        var running = new Running(true, false);
        running.tick();
        running.latches.carry();
        folder.resume();
        running.latches.carry();
        assertFalse(folder.isResumed(), "the word was taken and stayed");
        running.tick();
        running.latches.carry();
        assertFalse(findsNoEffect("cellar"));
        assertEquals(
                List.of("A person has resumed: heating of cellar may be energised again."),
                logged("A person has resumed"));
    }

    @Test
    void a_latch_that_is_missing_in_the_folder_is_nobodys_word_and_is_written_again() throws Exception {
        folder.latchHeater("cellar");
        folder.askRelaysOff();
        var running = new Running(true, false);
        running.carryAndTick(5);
        Files.delete(data.resolve("relays-off"));
        Files.delete(data.resolve("latched-cellar-heating"));
        running.carryAndTick(5);
        assertEquals(new LatchFolder.Latches(true, Set.of("cellar"), false), folder.read());
        assertSwitchedOff();
        assertTrue(findsNoEffect("cellar"));
        assertEquals(List.of(), logged("A person has resumed"));
        assertEquals(
                List.of("That all relays are off was not in " + data
                        + " any more; nobody has resumed, so it is again."),
                logged("so it is again"));
    }

    @Test
    void an_empty_folder_in_the_place_of_the_data_folder_ends_no_latch_and_nothing_is_written_there() throws Exception {
        folder.latchHeater("cellar");
        folder.askRelaysOff();
        var running = new Running(true, false);
        running.carryAndTick(5);
        Path away = Files.move(data, parent.resolve("away"));
        Files.createDirectory(data);
        running.carryAndTick(60);
        assertSwitchedOff();
        assertTrue(findsNoEffect("cellar"));
        assertTrue(running.latches.relaysOff());
        try (var names = Files.list(data)) {
            assertEquals(List.of(), names.toList());
        }
        assertEquals(
                List.of(data
                        + " is not the folder that was opened at the start: it was moved, replaced or unmounted. What"
                        + " is latched stays so, and nothing in there can end it; put the folder back, or restart the"
                        + " daemon when it is back."),
                logged("not the folder"));
        Files.delete(data);
        Files.move(away, data);
        running.carryAndTick(5);
        assertSwitchedOff();
        assertEquals(
                1,
                logged("What is latched can be read again from " + data + ".").size());
        folder.resume();
        running.runUntilHeating();
    }

    @Test
    void a_resume_in_a_folder_that_is_not_the_daemons_ends_nothing() throws Exception {
        folder.askRelaysOff();
        var running = new Running(false, false);
        running.carryAndTick(5);
        Path away = Files.move(data, parent.resolve("away"));
        Files.createDirectory(data);
        folder.resume();
        running.carryAndTick(60);
        assertSwitchedOff();
        assertTrue(folder.isResumed(), "nothing is changed in a folder that is not the daemon's");
        var refused = assertThrows(IOException.class, running.latches::resume);
        assertEquals(data + " is not the folder that the daemon opened when it started", refused.getMessage());
        Files.move(data, parent.resolve("stranger"));
        Files.move(away, data);
        running.carryAndTick(5);
        assertSwitchedOff();
    }

    @Test
    void relays_off_is_obeyed_from_a_folder_that_is_not_the_daemons_and_latched_in_its_own_when_that_is_back()
            throws Exception {
        var running = new Running(false, false);
        running.runUntilHeating();
        Path away = Files.move(data, parent.resolve("away"));
        Files.createDirectory(data);
        running.carryAndTick(5);
        assertEquals(Contact.ENERGISED, cellarBelt.load(), "a folder that is gone switches nothing");
        folder.askRelaysOff();
        running.carryAndTick(5);
        assertSwitchedOff();
        assertEquals(Contact.RELEASED, cellarBelt.load());
        Files.move(data, parent.resolve("stranger"));
        Files.move(away, data);
        running.carryAndTick(5);
        assertSwitchedOff();
        assertTrue(folder.read().relaysOff(), "a restart would energise");
    }

    @Test
    void a_heater_found_without_effect_while_the_folder_is_away_is_latched_there_when_it_is_back() throws Exception {
        var running = new Running(true, false);
        Path away = Files.move(data, parent.resolve("away"));
        Files.createDirectory(data);
        running.carryAndTick(5);
        Files.delete(data);
        Files.move(away, data);
        running.carryAndTick(5);
        assertEquals(Set.of("cellar"), folder.read().heaters());
    }

    @Test
    void a_word_on_the_page_is_obeyed_at_once_and_what_could_not_be_noted_is_noted_later() throws Exception {
        var running = new Running(false, false);
        running.runUntilHeating();
        Path away = Files.move(data, parent.resolve("away"));
        Files.createDirectory(data);
        assertEquals(
                Optional.of(data + " is not the folder that the daemon opened when it started"),
                running.latches.switchOff());
        assertTrue(running.latches.relaysOff());
        running.tick();
        assertSwitchedOff();
        Files.delete(data);
        Files.move(away, data);
        running.carryAndTick(5);
        assertSwitchedOff();
        assertTrue(folder.read().relaysOff());
        running.latches.resume();
        assertFalse(running.latches.relaysOff());
        assertEquals(LatchFolder.Latches.NONE, folder.read());
        assertEquals(Optional.empty(), running.latches.switchOff());
        assertTrue(folder.read().relaysOff());
        running.latches.resume();
        running.runUntilHeating();
    }

    @Test
    void a_resume_that_was_interrupted_ends_nothing_until_it_is_done_again() throws Exception {
        folder.latchHeater("cellar");
        folder.askRelaysOff();
        var running = new Running(true, false);
        running.carryAndTick(5);
        Files.createFile(data.resolve("relays-off.resumed"));
        Files.delete(data.resolve("latched-cellar-heating"));
        running.carryAndTick(5);
        assertSwitchedOff();
        assertEquals(
                List.of("A resume was not finished, so what is latched in " + data + " stays so; do it again."),
                logged("not finished"));
        assertTrue(findsNoEffect("cellar"));
        folder.resume();
        running.runUntilHeating();
        assertFalse(findsNoEffect("cellar"));
    }

    @Test
    void an_old_word_of_resuming_ends_nothing_that_was_latched_later() throws Exception {
        Files.createFile(data.resolve("relays-off.resumed"));
        Files.createFile(data.resolve("relays-off"));
        var running = new Running(false, false);
        running.carryAndTick(5);
        assertSwitchedOff();
        assertEquals(new LatchFolder.Latches(true, Set.of(), false), folder.read());
        Files.delete(data.resolve("relays-off"));
        running.carryAndTick(5);
        assertSwitchedOff();
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
