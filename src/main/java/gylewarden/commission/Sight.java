package gylewarden.commission;

import gylewarden.control.Contact;
import gylewarden.control.Guard;
import gylewarden.control.Reading;
import gylewarden.control.Reason;
import gylewarden.control.Side;
import gylewarden.units.Uptime;
import java.util.Optional;

/**
 * What commissioning is told each second.
 *
 * @param air absent where no air probe is fitted
 * @param energised what the relays did; never what was wished
 * @param reason why they are as they are
 * @param stuck a side whose relay could not be written
 */
public record Sight(
        Uptime now,
        Reading beer,
        Optional<Reading> air,
        Optional<Side> energised,
        Reason reason,
        Optional<Side> stuck) {
    public static Sight of(Uptime now, Reading beer, Optional<Reading> air, Guard guard, Reason reason) {
        Optional<Side> energised = Optional.empty();
        Optional<Side> stuck = Optional.empty();
        for (Side side : Side.values()) {
            if (guard.load(side).contact() == Contact.ENERGISED) energised = Optional.of(side);
            if (!guard.load(side).writable()) stuck = Optional.of(side);
        }
        return new Sight(now, beer, air, energised, reason, stuck);
    }
}
