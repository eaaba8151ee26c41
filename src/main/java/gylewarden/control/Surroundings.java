package gylewarden.control;

import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.util.Optional;

/**
 * What a beer probe's movement is judged against.
 *
 * @param air the air in the chamber while it is believed
 * @param energised the relay of this chamber that is energised, and since when without a break
 */
public record Surroundings(Optional<Temperature> air, Optional<Energised> energised) {
    private static final Surroundings UNKNOWN = new Surroundings(Optional.empty(), Optional.empty());

    public record Energised(Side side, Uptime since) {}

    /** No believed air, and nothing energised. */
    public static Surroundings unknown() {
        return UNKNOWN;
    }

    public Surroundings withAir(Temperature temperature) {
        return new Surroundings(Optional.of(temperature), energised);
    }

    public Surroundings withEnergised(Side side, Uptime since) {
        return new Surroundings(air, Optional.of(new Energised(side, since)));
    }
}
