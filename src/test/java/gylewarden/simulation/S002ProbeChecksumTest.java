package gylewarden.simulation;

import gylewarden.control.Doubt;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S002ProbeChecksumTest {
    private static final OnlyProbe PROBE =
            new OnlyProbe(new Fault.ProbeGarbled(Element.BEER_PROBE), Doubt.BAD_CHECKSUM);

    @Test
    void cooling_stops_when_every_frame_is_damaged_and_resumes_after_the_minimum_off_time() {
        PROBE.stopsCoolingUntilItIsOver();
    }

    @Test
    void a_heater_is_released_as_well() {
        PROBE.stopsHeating();
    }
}
