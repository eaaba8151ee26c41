package gylewarden.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Sample;
import java.time.Duration;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** What every kind of probe promises. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
abstract class ProbeContract {
    abstract Probe probe() throws Exception;

    /** Makes an attempt end with this value. */
    abstract void says(double celsius) throws Exception;

    /** Makes an attempt end without an answer. */
    abstract void fallsSilent() throws Exception;

    @Test
    void it_has_a_name_an_interval_and_no_sample_before_the_first_attempt_ended() throws Exception {
        assertFalse(probe().id().isBlank());
        assertTrue(probe().interval().compareTo(Duration.ZERO) > 0);
        assertTrue(probe().latest().isEmpty());
    }

    @Test
    void it_gives_the_outcome_of_the_last_attempt_and_when_it_ended() throws Exception {
        says(18.5);
        Sample first = probe().latest().orElseThrow();
        assertEquals(18.5, ((Sample.Measured) first).temperature().celsius());
        assertEquals(first, probe().latest().orElseThrow(), "asking is no attempt");
        says(-0.5);
        Sample second = probe().latest().orElseThrow();
        assertEquals(-0.5, ((Sample.Measured) second).temperature().celsius());
        assertTrue(second.at().isAfter(first.at()));
    }

    @Test
    void a_silence_is_an_outcome_and_the_probe_may_come_back() throws Exception {
        says(18.5);
        fallsSilent();
        assertEquals(Sample.Fault.NO_ANSWER, ((Sample.Failed) probe().latest().orElseThrow()).fault());
        says(18.5);
        assertTrue(probe().latest().orElseThrow() instanceof Sample.Measured);
    }
}
