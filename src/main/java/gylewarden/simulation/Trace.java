package gylewarden.simulation;

import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/**
 * What happened in a virtual chamber.
 *
 * @param rows one for each minute, in order
 * @param switches each change of a relay, in order
 * @param length of the run
 * @param electricityJoules used by cooling and heating
 */
public record Trace(List<Row> rows, List<Switch> switches, Duration length, double electricityJoules) {
    public Trace {
        rows = List.copyOf(rows);
        switches = List.copyOf(switches);
    }

    /**
     * One minute: the values at its beginning, the relays over its length.
     *
     * @param seconds after the start
     * @param setpoint absent while there is none
     * @param beer its true mean
     * @param probe what the beer probe said; absent while it said nothing
     * @param air what the air probe said; absent without one and while it said nothing
     * @param room true temperature
     * @param cooling share of the minute that it was energised, 0 to 1
     * @param heating share of the minute that it was energised, 0 to 1
     * @param step of the schedule, from 0
     */
    public record Row(
            long seconds,
            Optional<Temperature> setpoint,
            Temperature beer,
            Optional<Temperature> probe,
            Optional<Temperature> air,
            Temperature room,
            double cooling,
            double heating,
            double fermentationWatts,
            int step) {}

    /**
     * @param reason that of the decision in whose tick it was seen
     * @param sentence the same in words
     */
    public record Switch(long seconds, Side relay, boolean energised, Reason reason, String sentence) {}
}
