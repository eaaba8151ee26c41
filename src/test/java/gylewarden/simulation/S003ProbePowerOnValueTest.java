package gylewarden.simulation;

import gylewarden.control.Doubt;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class S003ProbePowerOnValueTest {
    private static final OnlyProbe PROBE =
            new OnlyProbe(new Fault.ProbeAtPowerOnValue(Element.BEER_PROBE), Doubt.POWER_ON_VALUE);

    @Test
    void eighty_five_degrees_of_a_probe_that_lost_its_power_are_not_believed() {
        PROBE.stopsCoolingUntilItIsOver();
    }

    @Test
    void a_heater_is_released_as_well() {
        PROBE.stopsHeating();
    }
}
