package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Rule;
import gylewarden.app.config.MessageConfig;
import gylewarden.app.watch.Room;
import gylewarden.app.watch.Sentry;
import gylewarden.app.watch.Ways;
import gylewarden.chamber.Answer;
import gylewarden.control.Condition.Priority;
import gylewarden.control.Contact;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.journal.Letter;
import gylewarden.message.MailServer;
import gylewarden.post.QuietHours;
import gylewarden.post.Wishes;
import gylewarden.relay.SimulatedRelay;
import gylewarden.store.Database;
import gylewarden.store.Ledger;
import gylewarden.store.Outbox;
import gylewarden.store.Posted;
import gylewarden.store.RecordWriter;
import gylewarden.web.Bell;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From a probe that falls silent to a letter that waits for its mail server, with the real record and its threads. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S123AlarmReachesSomebodyTest {
    private static final Fault SILENT = new Fault.ProbeSilent(Element.BEER_PROBE);
    private static final String WHO = "browser 3f2a9c";

    @TempDir
    Path folder;

    private final VirtualChamber chamber =
            Scenario.beerAt(18).target(18).withoutAirProbe().chamber();
    private final List<String> told = new CopyOnWriteArrayList<>();
    private final List<Throwable> bugs = new CopyOnWriteArrayList<>();
    private final List<String> mended = new ArrayList<>();
    private final SimulatedRelay lamp =
            new SimulatedRelay("lamp", chamber.clocks().monotonic());
    private boolean relaysOff;
    private Optional<String> noBackup = Optional.empty();
    private Database database;
    private RecordWriter writer;
    private Outbox outbox;
    private Sentry sentry;

    @BeforeEach
    void begin() {
        chamber.runFor(Duration.ofMinutes(10));
        live();
    }

    private void live() {
        database = new Database(folder, () -> chamber.clocks().board().get().wall());
        writer = new RecordWriter(database, chamber.clocks().board(), event -> {}, (thread, bug) -> bugs.add(bug));
        writer.start(Duration.ofSeconds(60));
        outbox = new Outbox(writer, database);
        var ledger = new Ledger(writer, database);
        sentry = Sentry.open(
                new Sentry.Site(
                        List.of(new Room(chamber.status().chamber(), "Garage", Rules.defaults())),
                        chamber.clocks(),
                        folder,
                        ZoneOffset.UTC,
                        Optional.empty(),
                        new Sentry.Daemon(List::of, () -> relaysOff, Optional::empty, Optional::empty, () -> noBackup),
                        (thread, bug) -> bugs.add(bug)),
                new Sentry.Keeping(
                        outbox,
                        ledger,
                        writer::state,
                        id -> Optional.of(chamber.status()),
                        (id, ago) -> Optional.empty(),
                        happened -> happened.changes().stream()
                                .filter(change -> change.alarm().key().rule() != Rule.CHANNEL_FAILING)
                                .forEach(change -> told.add(change.alarm().key().rule() + " " + change.what()))),
                new Sentry.People(
                        (id, actor) -> {
                            mended.add(id);
                            return new Answer.Done(Optional.empty(), Optional.empty());
                        },
                        (kind, sentence, actor) -> {}),
                new Ways(
                        List.of(
                                new MessageConfig(
                                        "mail",
                                        new MessageConfig.Mail(new MailServer(
                                                "127.0.0.1",
                                                1,
                                                MailServer.Security.NONE,
                                                Optional.empty(),
                                                "warden@cellar.example",
                                                List.of("brewer@cellar.example"),
                                                Optional.empty()))),
                                new MessageConfig("lamp", new MessageConfig.Lamp("lamp"))),
                        Map.of("lamp", lamp),
                        Optional.empty(),
                        List.of()));
    }

    @AfterEach
    void end() {
        die();
        assertEquals(List.of(), bugs);
    }

    private void die() {
        sentry.close();
        writer.close();
    }

    /** The chamber lives on; the watchman looks each second of it, besides looking by itself. */
    private void pass(Duration span) {
        for (long i = 0; i < span.toSeconds(); i++) {
            chamber.second();
            sentry.look();
        }
    }

    /** The mail server is away in these tests, which is an alarm of its own sooner or later. */
    private Alarm onlyAlarm() {
        List<Alarm> open = sentry.bell().open().stream()
                .filter(alarm -> alarm.key().rule() != Rule.CHANNEL_FAILING)
                .toList();
        assertEquals(1, open.size(), open.toString());
        return open.get(0);
    }

    @Test
    void a_silent_probe_is_an_alarm_with_a_letter_and_a_lamp() throws Exception {
        chamber.inject(SILENT);
        pass(Duration.ofMinutes(5));
        Alarm alarm = onlyAlarm();
        assertEquals(Rule.ONLY_PROBE_LOST, alarm.key().rule());
        assertEquals(Contact.RELEASED, chamber.relayGives(Side.COOLING));
        assertEquals(1, outbox.waiting("mail").size());
        assertTrue(
                outbox.waiting("mail").get(0).letter().subject().startsWith("Urgent: Garage"),
                outbox.waiting("mail").toString());
        assertEquals(Contact.ENERGISED, lamp.load());
    }

    @Test
    void the_lamp_goes_out_when_somebody_knows_and_while_every_relay_is_off() {
        chamber.inject(SILENT);
        pass(Duration.ofMinutes(5));
        relaysOff = true;
        pass(Duration.ofSeconds(2));
        assertEquals(Contact.RELEASED, lamp.load());
        relaysOff = false;
        pass(Duration.ofSeconds(2));
        assertEquals(Contact.ENERGISED, lamp.load());
        sentry.bell().acknowledge(onlyAlarm().id(), WHO);
        pass(Duration.ofSeconds(2));
        assertEquals(Contact.RELEASED, lamp.load());
    }

    private Bell.Line line(String channel) {
        return sentry.bell().channels().stream()
                .filter(each -> each.name().equals(channel))
                .findFirst()
                .orElseThrow();
    }

    /** Looks once a second also by themselves, so how many blinks fell into a pass is not counted here. */
    @Test
    void a_lamp_stands_among_the_channels_blinks_when_tested_and_not_while_every_relay_is_off() {
        assertEquals("relay", line("lamp").kind());
        assertEquals(Optional.of(false), line("lamp").lit());
        assertEquals(Optional.empty(), line("lamp").tested());
        assertEquals(Optional.empty(), line("mail").lit());
        sentry.bell().test("lamp", WHO);
        sentry.look();
        assertEquals(Contact.ENERGISED, lamp.load());
        assertEquals(Optional.of(true), line("lamp").lit());
        pass(Duration.ofSeconds(7));
        assertEquals(Contact.RELEASED, lamp.load());
        assertTrue(line("lamp").tested().isPresent());
        sentry.day();
        die();
        live();
        assertTrue(line("lamp").tested().isPresent(), "it is kept");
        relaysOff = true;
        assertEquals(
                "Every relay is switched off, this one too. Switch on again first.",
                DeskRoom.refused(sentry.bell().test("lamp", WHO))
                        .mistakes()
                        .get(0)
                        .message());
        pass(Duration.ofSeconds(2));
        assertEquals(Contact.RELEASED, lamp.load());
    }

    @Test
    void a_lamp_keeps_to_the_wishes_of_people() {
        Wishes wishes = line("lamp").wishes().orElseThrow();
        var night = new QuietHours(LocalTime.of(0, 0), LocalTime.of(23, 59), ZoneOffset.UTC);
        sentry.bell()
                .wish(new Wishes("lamp", Priority.LOW, wishes.turn(), Optional.of(night), true, wishes.scale()), WHO);
        assertEquals(Priority.LOW, line("lamp").wishes().orElseThrow().from());
        chamber.inject(SILENT);
        pass(Duration.ofMinutes(5));
        assertEquals(Contact.ENERGISED, lamp.load(), "what is high breaks quiet hours");
    }

    @Test
    void quiet_hours_hold_back_what_is_not_high() {
        quietAllDay("mail");
        quietAllDay("lamp");
        noBackup = Optional.of("the stick is away");
        pass(Duration.ofMinutes(7));
        assertEquals(List.of(Rule.BACKUP_FAILING + " RAISED"), told);
        assertEquals(Contact.RELEASED, lamp.load());
        assertTrue(latestMail().notBefore().isAfter(wall()), "it waits for the end of the quiet hours");
    }

    @Test
    void quiet_hours_hold_back_nothing_by_a_clock_that_nobody_vouches_for() {
        quietAllDay("mail");
        quietAllDay("lamp");
        chamber.trustClock(false);
        noBackup = Optional.of("the stick is away");
        pass(Duration.ofMinutes(7));
        assertEquals(List.of(Rule.BACKUP_FAILING + " RAISED"), told);
        assertEquals(Contact.ENERGISED, lamp.load());
        assertFalse(latestMail().notBefore().isAfter(wall()));
    }

    private void quietAllDay(String channel) {
        Wishes wishes = line(channel).wishes().orElseThrow();
        var day = new QuietHours(LocalTime.of(0, 0), LocalTime.of(23, 59), ZoneOffset.UTC);
        sentry.bell()
                .wish(new Wishes(channel, Priority.LOW, wishes.turn(), Optional.of(day), false, wishes.scale()), WHO);
    }

    private Letter latestMail() {
        List<Posted> waiting = outbox.waiting("mail");
        return waiting.get(waiting.size() - 1).letter();
    }

    private Instant wall() {
        return chamber.clocks().board().get().wall();
    }

    @Test
    void after_a_restart_it_is_the_same_alarm_and_nobody_is_told_twice() {
        chamber.inject(SILENT);
        pass(Duration.ofMinutes(5));
        Alarm before = onlyAlarm();
        sentry.bell().acknowledge(before.id(), WHO);
        die();
        told.clear();
        live();
        pass(Duration.ofMinutes(10));
        assertEquals(before.id(), onlyAlarm().id());
        assertEquals(Optional.of(WHO), onlyAlarm().seen().map(Alarm.Seen::by));
        assertEquals(List.of(), told);
        assertEquals(1, outbox.waiting("mail").size());
    }

    @Test
    void what_nobody_has_seen_is_told_again_after_four_hours_and_over_a_restart() {
        chamber.inject(SILENT);
        pass(Duration.ofHours(2));
        die();
        live();
        pass(Duration.ofHours(5));
        assertEquals(2, outbox.waiting("mail").size());
    }

    /** The virtual board's first date is the first of January 2030; without the time it takes it for the beginning of 1970. */
    @Test
    void a_board_that_does_not_know_the_date_tells_none_and_the_date_that_arrives_makes_no_alarm_older() {
        Duration sixtyYears = Duration.between(Instant.EPOCH, Instant.parse("2030-01-01T00:00:00Z"));
        chamber.trustClock(false).stepClock(sixtyYears.negated());
        chamber.inject(SILENT);
        pass(Duration.ofMinutes(5));
        String text = outbox.waiting("mail").get(0).letter().text();
        assertTrue(
                text.contains("It rings since 12 min 2 s after the board's start; it does not know the date yet."),
                text);
        assertFalse(text.contains("1970"), text);
        chamber.trustClock(true).stepClock(sixtyYears);
        chamber.clear(SILENT);
        pass(Duration.ofMinutes(30));
        String over = outbox.waiting("mail").stream()
                .map(posted -> posted.letter().text())
                .filter(body -> body.contains("It is over"))
                .findFirst()
                .orElseThrow();
        assertTrue(over.contains("It is over, after 18 min 59 s: beer temperature not known."), over);
    }

    @Test
    void that_it_is_over_is_told_too() {
        chamber.inject(SILENT);
        pass(Duration.ofMinutes(5));
        chamber.clear(SILENT);
        pass(Duration.ofMinutes(30));
        assertEquals(2, outbox.waiting("mail").size());
        assertTrue(outbox.waiting("mail").get(1).letter().subject().startsWith("Over: Garage"));
    }

    @Test
    void mended_reaches_the_chamber() {
        chamber.inject(SILENT);
        pass(Duration.ofMinutes(5));
        sentry.bell().mended(onlyAlarm().id(), WHO);
        assertEquals(List.of(chamber.status().chamber()), mended);
    }

    @Test
    void a_rule_that_a_person_has_taken_out_of_service_rings_for_nobody_until_it_is_back() {
        var rule = new Bell.OutOfService(
                Rule.ONLY_PROBE_LOST, Optional.of(chamber.status().chamber()));
        sentry.bell().service(rule, false, WHO);
        chamber.inject(SILENT);
        pass(Duration.ofHours(1));
        assertEquals(List.of(), told);
        assertEquals(List.of(rule), sentry.bell().outOfService());
        sentry.bell().service(rule, true, WHO);
        pass(Duration.ofMinutes(2));
        assertEquals(Rule.ONLY_PROBE_LOST, onlyAlarm().key().rule());
    }

    @Test
    void away_sends_one_line_a_day() {
        sentry.bell().away(Optional.of(chamber.clocks().board().get().wall().plus(Duration.ofDays(3))), WHO);
        for (int hour = 0; hour < 30; hour++) {
            pass(Duration.ofHours(1));
            sentry.day();
        }
        List<Letter> lines = outbox.waiting("mail").stream()
                .map(Posted::letter)
                .filter(letter -> letter.kind() == Letter.Kind.ALL_IS_WELL)
                .toList();
        assertEquals(2, lines.size(), lines.toString());
        assertEquals("All is well", lines.get(0).subject());
        List<String> before =
                sentry.bell().beforeGoing(chamber.clocks().board().get().wall().plus(Duration.ofDays(3)));
        assertTrue(before.toString().contains("The channel mail does not work"), before.toString());
    }
}
