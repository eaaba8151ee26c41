package gylewarden.app.station;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.schedule.ClockReading;
import gylewarden.store.RecordState;
import gylewarden.store.Trouble;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PlaceTest {
    private static final RecordState SOUND = new RecordState(Optional.empty(), 0, 0, false, 0, 0, 0, 0);

    private Optional<String> away = Optional.empty();
    private int minute;
    private final Place place = new Place(() -> away, this::now);

    private ClockReading now() {
        return new ClockReading(
                "f2ca1bb6-c7e9-4e1d-8b5f-3c0d1e2f3a4b",
                Duration.ofMinutes(minute),
                Instant.parse("2026-11-25T18:00:00Z").plus(Duration.ofMinutes(minute)),
                true);
    }

    @Test
    void a_record_in_its_place_is_what_its_writer_says() {
        assertEquals(SOUND, place.look(SOUND));
    }

    @Test
    void one_that_is_displaced_is_not_sound_since_that_was_noticed_and_is_again_when_it_is_back() {
        away = Optional.of("another folder stands there");
        RecordState first = place.look(SOUND);
        assertFalse(first.isSound());
        assertEquals(
                "another folder stands there. What is measured is recorded there, but what people ask is not: put the"
                        + " folder back that was there. Control goes on.",
                first.sentence());
        minute = 5;
        assertEquals(first, place.look(SOUND), "since then");
        away = Optional.empty();
        assertTrue(place.look(SOUND).isSound());
        away = Optional.of("another folder stands there");
        assertEquals(now(), place.look(SOUND).broken().orElseThrow().since(), "once more");
    }

    @Test
    void what_fails_altogether_is_told_before_that() {
        var broken = new RecordState.Broken(new Trouble(Trouble.Kind.DISK_FULL, "Full."), now());
        var full = new RecordState(Optional.of(broken), 3, 0, false, 0, 0, 0, 0);
        away = Optional.of("another folder stands there");
        assertEquals(full, place.look(full));
    }
}
