package gylewarden.simulation;

import gylewarden.control.Doubt;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S004ProbeStaleTest {
    private static final OnlyProbe PROBE = new OnlyProbe(new Fault.ProbeHangs(Element.BEER_PROBE), Doubt.STALE);

    @Test
    void a_bus_that_hangs_stops_cooling_and_not_the_loop() {
        PROBE.stopsCoolingUntilItIsOver();
    }

    @Test
    void a_heater_is_released_as_well() {
        PROBE.stopsHeating();
    }
}
