package gylewarden.post;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import gylewarden.control.Condition.Priority;
import gylewarden.document.Fields;
import gylewarden.document.Json;
import gylewarden.document.Unreadable;
import gylewarden.journal.Scale;
import gylewarden.schedule.Mistake;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class WishesTextTest {
    private static final Wishes STANDARD = Wishes.standard("phone");

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void what_is_kept_reads_back_the_same(long seed) throws Unreadable {
        var random = new SplittableRandom(seed);
        var wishes = new Wishes(
                "phone",
                List.of(Priority.values()).get(random.nextInt(3)),
                List.of(Turn.values()).get(random.nextInt(3)),
                random.nextBoolean()
                        ? Optional.empty()
                        : Optional.of(new QuietHours(
                                LocalTime.of(random.nextInt(24), random.nextInt(30)),
                                LocalTime.of(random.nextInt(24), random.nextInt(30, 60)),
                                ZoneId.of(random.nextBoolean() ? "Europe/Berlin" : "America/Denver"))),
                random.nextBoolean(),
                random.nextBoolean() ? Scale.CELSIUS : Scale.FAHRENHEIT);
        assertEquals(wishes, WishesText.read("phone", WishesText.of(wishes).toString()));
    }

    static LongStream seeds() {
        return LongStream.range(0, Long.getLong("gylewarden.seeds", 1000));
    }

    @Test
    void what_is_not_said_stays_and_null_takes_quiet_hours_away() throws Exception {
        Wishes quiet = changed(STANDARD, "{\"quiet\": {\"from\": \"22:00\", \"to\": \"07:00\"}}");
        assertEquals(
                Optional.of(new QuietHours(LocalTime.of(22, 0), LocalTime.of(7, 0), ZoneOffset.UTC)), quiet.quiet());
        Wishes low = changed(quiet, "{\"from\": \"low\"}");
        assertEquals(quiet.quiet(), low.quiet());
        assertEquals(Priority.LOW, low.from());
        assertEquals(Optional.empty(), changed(low, "{\"quiet\": null}").quiet());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            {"from": "urgent"} | from: is "urgent"; write one of low, middle, high
            {"turn": "last"} | turn: is "last"; write one of first, next, secondPerson
            {"quiet": {"from": "22:00", "to": "22:00"}} | quiet.to: is the same as from; leave a part of the day in which it may ring
            {"quiet": {"from": "25:00", "to": "07:00"}} | quiet.from: write a time of the day such as "22:00"
            {"quiet": {"from": "22:00"}} | quiet.to: write a time of the day such as "22:00"
            {"quiet": {"from": "22:00", "to": "07:00", "zone": "Here"}} | quiet.zone: write a time zone such as "Europe/Berlin"
            """)
    void what_is_wrong_is_said_beside_its_field(String text, String expected) throws Exception {
        List<Mistake> mistakes = new ArrayList<>();
        assertEquals(
                Optional.empty(),
                WishesText.changed(STANDARD, new Fields(Json.parse(text), "", mistakes), ZoneOffset.UTC));
        assertEquals(
                List.of(expected),
                mistakes.stream()
                        .map(each -> each.field() + ": " + each.message())
                        .toList());
    }

    @Test
    void what_was_kept_and_is_damaged_is_told() {
        assertThrows(Unreadable.class, () -> WishesText.read("phone", "{\"from\": \"never\"}"));
        assertThrows(Unreadable.class, () -> WishesText.read("phone", "{"));
    }

    private static Wishes changed(Wishes before, String text) throws Exception {
        return WishesText.changed(before, new Fields(Json.parse(text), "", new ArrayList<>()), ZoneOffset.UTC)
                .orElseThrow();
    }
}
