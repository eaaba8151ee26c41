package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.units.Uptime;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PatienceTest {
    private Uptime now = Uptime.ofSeconds(7);
    private final List<Uptime> looks = new ArrayList<>();
    private final Patience second = new Patience(Duration.ofSeconds(1), () -> now, this::pass);

    private void pass(Duration span) {
        now = now.plus(span);
    }

    /** As seen at this moment of virtual time. */
    private boolean look(boolean happened) {
        looks.add(now);
        return happened;
    }

    private static Uptime after(long millis) {
        return Uptime.ofSeconds(7).plus(Duration.ofMillis(millis));
    }

    @Test
    void what_has_happened_already_is_not_waited_for() throws Exception {
        assertTrue(second.until(() -> look(true)));
        assertEquals(List.of(after(0)), looks);
        assertEquals(after(0), now);
    }

    @Test
    void it_looks_twenty_times_a_second_until_it_happens() throws Exception {
        assertTrue(second.until(() -> look(!now.isBefore(after(120)))));
        assertEquals(List.of(after(0), after(50), after(100), after(150)), looks);
    }

    @Test
    void at_the_deadline_it_looks_once_more_and_gives_up() throws Exception {
        assertFalse(second.until(() -> look(false)));
        assertEquals(21, looks.size());
        assertEquals(after(1_000), looks.get(20));
        assertEquals(after(1_000), now);
    }

    @Test
    void what_happens_at_the_deadline_has_happened() throws Exception {
        assertTrue(second.until(() -> look(!now.isBefore(after(1_000)))));
    }

    @Test
    void a_look_that_takes_longer_than_all_is_the_only_one() throws Exception {
        assertFalse(second.until(() -> {
            pass(Duration.ofSeconds(5));
            return look(false);
        }));
        assertEquals(List.of(after(5_000)), looks);
    }

    @Test
    void a_look_that_fails_ends_the_wait() {
        var failure = new IOException("unplugged");
        var thrown = assertThrows(
                IOException.class,
                () -> second.until(() -> {
                    look(false);
                    throw failure;
                }));
        assertSame(failure, thrown);
        assertEquals(List.of(after(0)), looks);
    }

    @Test
    void an_interruption_ends_the_wait() {
        var interrupted = new Patience(Duration.ofSeconds(1), () -> now, span -> {
            throw new InterruptedException();
        });
        assertThrows(InterruptedException.class, () -> interrupted.until(() -> look(false)));
        assertEquals(1, looks.size());
    }

    @Test
    void on_real_time_it_ends_too() throws Exception {
        assertFalse(Patience.of(Duration.ofMillis(60)).until(() -> look(false)));
        assertTrue(looks.size() == 2 || looks.size() == 3, "looked " + looks.size() + " times");
    }
}
