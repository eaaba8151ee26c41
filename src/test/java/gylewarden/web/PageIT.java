package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Rule;
import gylewarden.browser.Browser;
import gylewarden.control.Condition.Priority;
import gylewarden.journal.Letter;
import gylewarden.store.Fate;
import gylewarden.store.Outbox.Went;
import gylewarden.store.Posted;
import java.net.http.HttpRequest;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the page shows of a house, and what it makes of what people type. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PageIT {
    /** In the cave, already pitched; the schedule holds at 18 °C first. */
    private static void startBatch(PageInABrowser page) {
        page.go("/chamber/cave/start");
        page.browser().shows("Start a batch in The cave");
        page.browser().type("Name", "Lantern Porter 3");
        page.browser().tick("The yeast is pitched already.");
        page.browser().press("Start the batch");
        page.browser().shows("step 1 of 4");
    }

    @Test
    void what_a_batch_would_come_to_is_shown_and_checked_before_it_begins(@TempDir Path folder) throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            Browser browser = page.browser();
            page.go("/chamber/cave/start");
            browser.shows("Start a batch in The cave");
            browser.shows("The setpoint is 18.0 °C then.");
            browser.shows("from Sun 29 Nov, 12:0");
            browser.type("Temperature of step 2", "43 °C");
            browser.shows("This is 43.0 °C; the limits that hold for the beer in cave allow -1.0 to 40.0 °C.");
            browser.type("Temperature of step 2", "20 °C");
            browser.type("Bring the wort to", "42 °C");
            browser.shows(
                    "The pitching temperature is 42.0 °C; the limits that hold for the beer in cave allow -1.0 to 40.0 °C.");
            browser.picture("start-checked");
            browser.type("Bring the wort to", "16 °C");
            browser.shows("The setpoint is 16.0 °C then.");
            assertEquals(List.of(), page.house().record.running(), "nothing has begun");
            assertEquals(0, browser.count("[aria-invalid=true]"));
        }
    }

    private static void editSchedule(PageInABrowser page) {
        page.browser().press("Change it");
        page.browser().shows("Schedule of Lantern Porter 3");
    }

    @Test
    void a_value_that_is_doubted_is_shown_as_what_it_was_and_asks_for_a_person(@TempDir Path folder) throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            Browser browser = page.browser();
            browser.shows("Two chambers are all right.");
            browser.shows("18.9 °C");
            page.house().silence("cave beer");
            browser.shows("One chamber is all right. One chamber needs you.");
            browser.shows("The beer probe is not believed and another stands in.");
            browser.until("the value is pencil", () -> browser.words(".was dt").startsWith("Beer was, at"));
            browser.picture("cellar-doubted");
            browser.press("I have seen to it");
            browser.shows("Told to the chamber.");
            assertEquals(1, browser.count(".alarm"), "it stays until the probe answers");
        }
    }

    @Test
    void an_alarm_stands_above_every_page_until_somebody_has_seen_it(@TempDir Path folder) throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            Browser browser = page.browser();
            browser.beNarrow();
            page.house().bell.tell(page.live()::changed);
            browser.shows("Two chambers are all right.");
            Alarm cold = page.house().bell.ring(Rule.NEAR_FREEZING, "cave", "The beer is at {0.500C}.");
            page.house()
                    .bell
                    .wrote(
                            cold,
                            new Went(new Posted(letter(cold), Optional.empty()), Optional.of(new Fate.Sent(MADE))));
            browser.shows("Needs you now");
            browser.shows("The cave: The beer is at 0.5 °C.");
            browser.shows("One chamber is all right. One chamber needs you.");
            browser.shows("one alarm waits for you");
            browser.evaluate("document.querySelectorAll('.alarm details').forEach(part => { part.open = true; })");
            browser.shows("pull the cooler's plug, and leave its door a hand's breadth open.");
            browser.shows("Plugs only, with dry hands");
            browser.shows("phone: Urgent: beer near to freezing");
            browser.shows("arrived");
            browser.picture("alarm-needs-you");
            assertTrue(
                    ((Number) browser.evaluate("return document.documentElement.scrollWidth")).intValue() <= 360,
                    "nothing stands out of a narrow screen");
            page.go("/chamber/loft");
            browser.shows("The cave: The beer is at 0.5 °C.");
            browser.press("Seen");
            browser.shows("Seen: beer near to freezing.");
            browser.until("it is calm", () -> browser.count(".alarm") == 0 && browser.count(".known .tag") == 1);
            assertEquals(
                    Alarm.State.ACKNOWLEDGED,
                    page.house().bell.find(cold.id()).orElseThrow().state());
            page.go("/alarms");
            browser.shows("Nothing new. What stands was seen, or is quiet for a while.");
            browser.press("Quiet for");
            browser.shows("Quiet until");
            browser.press("Ring again");
            browser.shows("May ring again: beer near to freezing.");
            page.house().bell.calm();
            browser.shows("Nothing needs you.");
            browser.until("it is history", () -> browser.words(".log").contains("over after"));
            assertEquals(List.of(), browser.complaints());
        }
    }

    @Test
    void what_is_latched_is_said_to_be_mended_and_a_rule_is_taken_out_of_service_and_put_back(@TempDir Path folder)
            throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            Browser browser = page.browser();
            browser.beNarrow();
            page.house().bell.tell(page.live()::changed);
            Alarm heater = page.house()
                    .bell
                    .ring(Rule.HEATING_WITHOUT_EFFECT, "cave", "An hour of heating, and nothing rose.");
            page.go("/alarms");
            browser.shows("An hour of heating, and nothing rose.");
            browser.press("Seen");
            page.house().bell.calm();
            browser.shows("Over, waits until you say that it is mended");
            browser.press("It is mended");
            browser.shows("Said to be mended, and may be tried again: heating without effect.");
            browser.shows("Nothing needs you.");
            assertEquals(
                    Alarm.State.NORMAL,
                    page.house().bell.find(heater.id()).orElseThrow().state());
            browser.evaluate("document.querySelectorAll('details').forEach(part => { part.open = true; })");
            browser.press("Switch off");
            browser.shows("Is no longer looked at.");
            browser.shows("The cave: beer temperature not known.");
            Bell.OutOfService off = page.house().bell.outOfService().get(0);
            assertEquals(new Bell.OutOfService(Rule.ONLY_PROBE_LOST, Optional.of("cave")), off);
            browser.picture("alarms-service");
            browser.press("Look again");
            browser.shows("Is looked at again: beer temperature not known.");
            assertEquals(List.of(), page.house().bell.outOfService());
            assertEquals(List.of(), browser.complaints());
        }
    }

    @Test
    void limits_that_stop_the_running_schedule_are_said_on_the_page_of_the_chamber(@TempDir Path folder)
            throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            Browser browser = page.browser();
            browser.beNarrow();
            startBatch(page);
            browser.evaluate("document.querySelector('input[name=beerMaxCelsius]').value = '19 °C'");
            browser.press("Set limits");
            browser.shows("The limits hold from now on. Look at what they stop, under “Now”.");
            browser.shows("The limits stop heating at 19.0 °C: the beer does not get there.");
            browser.picture("chamber-limits");
            assertEquals(List.of(), browser.complaints());
        }
    }

    private static final Instant MADE = Instant.parse("2026-11-25T12:01:00Z");

    private static Letter letter(Alarm alarm) {
        return new Letter(
                new UUID(0x6000, 0x8000_0000_0000_0001L),
                Optional.of(alarm.id()),
                "phone",
                Letter.Kind.ALARM,
                Priority.HIGH,
                "Urgent: beer near to freezing",
                "…",
                MADE,
                MADE,
                MADE.plusSeconds(3600));
    }

    /** How a time of the day is typed differs from one language of the browser to the next. */
    private static void fill(Browser browser, String name, String time) {
        browser.evaluate("document.querySelector('input[name=" + name + "]').value = '" + time + "'");
    }

    @Test
    void what_is_sent_to_whom_is_chosen_and_tried_on_the_page_of_messages(@TempDir Path folder) throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            Browser browser = page.browser();
            page.go("/messages");
            browser.shows("Never tested: phone, lamp, alive.");
            browser.press("Let it blink");
            browser.shows("It blinks now.");
            browser.shows("On now. Blinked as a test");
            browser.shows("No beat has arrived since the start. Not tested yet.");
            browser.press("Beat once");
            browser.shows("A beat is on its way.");
            browser.shows("The last beat arrived");
            browser.press("Send a test");
            browser.shows("A test is on its way.");
            browser.shows("Every way was tested and works.");
            fill(browser, "quietFrom", "22:00");
            browser.press("Save");
            browser.shows("Quiet hours need both times, or none.");
            fill(browser, "quietTo", "07:00");
            browser.press("Save");
            browser.shows("Saved. It holds from the next message on.");
            assertEquals(
                    LocalTime.of(7, 0),
                    page.house()
                            .bell
                            .channels()
                            .get(0)
                            .wishes()
                            .orElseThrow()
                            .quiet()
                            .orElseThrow()
                            .to());
            browser.shows("The channel phone was not tested in the last 30 days.");
            browser.press("Go away");
            browser.shows("Away until");
            browser.picture("messages");
            browser.press("I am back");
            browser.shows("Welcome back.");
            page.house().bell.fail(new Bell.Failing(MADE, 3, "The server answered 500."));
            browser.shows("3 tries in vain: The server answered 500.");
            browser.beNarrow();
            browser.until(
                    "nothing stands out of a narrow screen",
                    () -> Boolean.TRUE.equals(browser.evaluate(
                            "return document.documentElement.scrollWidth <= innerWidth && innerWidth <= 360")));
            browser.picture("messages-narrow");
            assertEquals(List.of(), browser.complaints());
        }
    }

    @Test
    void a_chamber_whose_loop_stands_still_stops_looking_alive(@TempDir Path folder) throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            Browser browser = page.browser();
            browser.shows("Two chambers are all right.");
            page.stopTime();
            browser.shows("Two chambers have said nothing for a while.");
            browser.shows("Nothing new from this chamber since");
            assertEquals(2, browser.count(".main.was"), "no value looks alive");
            assertFalse(browser.words().contains("No word from the board"), "the board itself does answer");
        }
    }

    @Test
    void a_clock_that_nobody_vouches_for_can_be_confirmed(@TempDir Path folder) throws Exception {
        var house = new SmallHouse();
        house.trust(false);
        try (var page = PageInABrowser.open(folder, house)) {
            page.browser().shows("The board is not sure what time it is.");
            page.browser().press("This is the right time");
            page.browser().until("it is sure", () -> !page.browser().words().contains("is not sure what time it is"));
        }
    }

    @Test
    void what_could_not_be_saved_is_said_plainly(@TempDir Path folder) throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            page.go("/chamber/cave");
            page.browser().shows("No batch is in here.");
            page.house().record.breakDown("The disk is full.");
            page.browser().press("Keep");
            page.browser().shows("Keeps 18.0 °C.");
            page.browser().shows("What was asked of this chamber last is obeyed, but it is not on the disk.");
            page.browser().picture("chamber-not-saved");
        }
    }

    @Test
    void mistakes_stand_beside_their_fields_and_nothing_is_saved(@TempDir Path folder) throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            Browser browser = page.browser();
            startBatch(page);
            editSchedule(page);
            browser.type("Time of step 3", "2 dys");
            browser.type("Temperature of step 4", "99 °C");
            browser.shows("“2 dys” is no time. Write 4 d, 36 h or 1 d 12 h.");
            browser.shows("This is 99.0 °C; allowed are -5 to 45 °C.");
            browser.shows("2 fields are to be put right.");
            assertEquals(1, browser.count("button.first[disabled]"), "it can't be saved");
            assertEquals(2, browser.count("[aria-invalid=true]"));
            browser.picture("schedule-mistakes");
            browser.type("Time of step 3", "2 d");
            browser.type("Temperature of step 4", "36 °F");
            browser.shows("now: crash to 2.2 °C");
            browser.shows("now: rest at 20.0 °C, 2 d");
            assertEquals(0, browser.count("[aria-invalid=true]"));
            assertEquals(1, revisions(page), "typing alone saves nothing");
            browser.press("Save from now on");
            browser.shows("Saved. It holds from now on.");
            assertEquals(2, revisions(page));
        }
    }

    private static int revisions(PageInABrowser page) {
        return page.house().record.running().get(0).batch().revision();
    }

    @Test
    void a_save_of_somebody_else_is_shown_and_not_overwritten(@TempDir Path folder) throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            Browser browser = page.browser();
            startBatch(page);
            editSchedule(page);
            String path = "/api/batches/"
                    + page.house().record.running().get(0).batch().id() + "/schedule";
            var client = new Client(page.server().port());
            var theirs = client.request(path)
                    .header("Content-Type", "application/json")
                    .header("If-Match", "\"1\"")
                    .PUT(HttpRequest.BodyPublishers.ofString("{\"steps\":[{\"kind\":\"hold\",\"celsius\":16.5}]}"));
            assertEquals(200, client.send(theirs).status());

            browser.type("Temperature of step 1", "17 °C");
            browser.shows("Nothing of yours is lost and nothing of theirs is overwritten.");
            assertEquals(1, browser.count("button.first[disabled]"), "mine can't be saved before a choice");
            browser.picture("schedule-conflict");
            browser.press("Go on with mine");
            browser.shows("now: hold at 17.0 °C");
            assertEquals(2, revisions(page), "going on saves nothing yet");
            browser.press("Save from now on");
            browser.shows("Saved. It holds from now on.");
            assertEquals(3, revisions(page));
        }
    }

    @Test
    void a_move_says_what_becomes_of_the_chamber_before_and_after_it(@TempDir Path folder) throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            Browser browser = page.browser();
            page.go("/chamber/cave");
            browser.shows("No batch is in here.");
            browser.press("Keep");
            browser.shows("Keeps 18.0 °C.");
            startBatch(page);
            browser.shows("The cave then has no task: everything here goes off");
            browser.shows("It asks for 18.0 °C there at once, unless another batch decides there.");
            browser.picture("chamber-move");
            browser.press("Move");
            browser.shows("Moved. The cave has no task now: everything there is off.");
            browser.shows("No target is set; everything is off.");
            browser.shows("has left for loft. This chamber has no task now: everything is off.");
        }
    }

    /** Another browser's word comes between the last drawing of the page and the press of the button. */
    @Test
    void a_step_that_somebody_else_has_left_is_not_left_once_more(@TempDir Path folder) throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            Browser browser = page.browser();
            startBatch(page);
            browser.shows("At once: Rise to 20.0 °C");
            page.stopTime();
            String step = "/api/batches/"
                    + page.house().record.running().get(0).batch().id() + "/step";
            Object status = browser.promised("fetch('" + step + "', { method: 'POST', body: '{\"action\":\"next\"}',"
                    + " headers: { 'Content-Type': 'application/json' } }).then(answer => {"
                    + " [...document.querySelectorAll('button')].find(b => b.innerText === 'Next step').click();"
                    + " return answer.status; })");
            assertEquals(200, ((Number) status).intValue());
            browser.shows("The schedule is in step 2 now, and you saw step 1: somebody else, or time, was faster.");
            browser.shows("At once: Rest at 20.0 °C");
            browser.shows("Takes back what was done last: Step 2 begins: a person went on.");
            browser.shows("Then: Step 1: Hold at 18.0 °C, 4 d. The setpoint");
            browser.picture("chamber-somebody-was-faster");
            browser.press("Undo");
            browser.shows("Taken back.");
            browser.shows("At once: Rise to 20.0 °C");
        }
    }

    @Test
    void the_reader_chooses_the_unit_of_numbers_and_sentences(@TempDir Path folder) throws Exception {
        try (var page = PageInABrowser.open(folder, new SmallHouse())) {
            Browser browser = page.browser();
            startBatch(page);
            browser.shows("Hold at 18.0 °C");
            browser.evaluate("document.querySelector('input[name=scale][value=F]').click()");
            browser.shows("Hold at 64.4 °F");
            browser.until("figures too", () -> browser.words(".figures").contains("64.4 °F"));
            browser.until("no other unit is left", () -> !browser.words("main").contains("°C"));
            page.go("/chamber/cave");
            browser.shows("Hold at 64.4 °F");
            assertTrue(browser.words(".figures").contains("°F"), "the choice is remembered");
            assertEquals(List.of(), browser.complaints());
        }
    }
}
