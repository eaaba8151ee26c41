package gylewarden.commission;

import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.util.Optional;

/**
 * The means of one minute: a 1-Wire probe's steps of 0.06 K are finer in the mean, for its noise moves it over them.
 *
 * @param middle the moment that the means stand for
 */
record Minute(Uptime middle, Optional<Temperature> beer, Optional<Temperature> air) {
    Optional<Temperature> at(Place place) {
        return place == Place.BEER ? beer : air;
    }
}
