package gylewarden.document;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.schedule.Course;
import gylewarden.schedule.Schedule;
import gylewarden.schedule.Step;
import gylewarden.schedule.Terms;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class MandateDocumentTest {
    private static Mandate whole() {
        Schedule schedule = new Schedule(List.of(
                new Step.Hold(new Temperature(18.5), Optional.of(Duration.ofDays(4)), Terms.none()),
                new Step.Crash(
                        new Temperature(2),
                        Optional.of(1.0),
                        Optional.empty(),
                        Terms.none().note("fining"))));
        Instant now = Instant.parse("2026-11-25T14:00:00.123Z");
        Batch batch = Batch.planned(
                        new UUID(1, 2),
                        "Gyle 7",
                        "garage",
                        schedule,
                        Optional.of(new Temperature(17)),
                        Optional.empty(),
                        now)
                .pitched(now);
        Mandate.Limits limits = new Mandate.Limits(
                Optional.of(new Temperature(1)), Optional.empty(), Optional.empty(), Optional.of(new Temperature(30)));
        return Mandate.holding(new Temperature(12))
                .withBatch(Optional.of(batch))
                .withLimits(limits)
                .paused(Optional.of(Duration.ofMinutes(20)));
    }

    @Test
    void what_was_written_reads_back_the_same() throws Unreadable {
        assertEquals(whole(), MandateDocument.read(MandateDocument.write(whole())));
        assertEquals(Mandate.nothing(), MandateDocument.read(MandateDocument.write(Mandate.nothing())));
    }

    @Test
    void what_can_be_taken_back_reads_back_with_the_schedule_it_had() throws Unreadable {
        Instant now = Instant.parse("2026-11-25T14:00:00.123Z");
        Batch batch = whole().batch().orElseThrow();
        Course shorter = Course.start(new Schedule(batch.schedule().steps().subList(0, 1)), Optional.empty());
        Batch changed = batch.after("The schedule is edited.", shorter, now)
                .after("The step is begun again.", shorter, now.plusSeconds(60));
        assertEquals(
                2,
                changed.undos().stream()
                        .filter(undo -> !undo.course().schedule().equals(changed.schedule()))
                        .count());
        assertEquals(3, changed.undos().size());
        assertEquals(changed, BatchDocument.read(BatchDocument.write(changed)));
    }

    /** It is written each minute: a page of the card is 4096 bytes. */
    @Test
    void ten_things_to_take_back_and_their_schedule_fit_into_one_page_of_the_card() {
        Batch batch = whole().batch().orElseThrow();
        for (int i = 0; i < Batch.MOST_UNDOS; i++)
            batch = batch.after(
                    "The step is held at {18.50C}.",
                    batch.course(),
                    batch.dates().created());
        int length = BatchDocument.write(batch).length();
        assertTrue(length < 3_500, length + " bytes");
    }

    @Test
    void half_of_it_is_unreadable_wherever_it_ends() {
        String text = MandateDocument.write(whole());
        for (int end = 0; end < text.length(); end++) {
            String torn = text.substring(0, end);
            assertThrows(Unreadable.class, () -> MandateDocument.read(torn), torn);
        }
    }

    @Test
    void a_value_that_cannot_be_makes_the_whole_of_it_unreadable_and_is_named() {
        String text = MandateDocument.write(whole()).replace("\"step\":0", "\"step\":7");
        Unreadable unreadable = assertThrows(Unreadable.class, () -> MandateDocument.read(text));
        assertEquals("no step 7 in a schedule of 2", unreadable.getMessage());
    }
}
