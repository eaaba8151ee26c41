package gylewarden.chamber;

import gylewarden.control.Side;
import gylewarden.probe.Probe;
import gylewarden.relay.Relay;
import java.util.List;
import java.util.Optional;

/** The probes and relays of one chamber. */
public record Instruments(
        Probe beer,
        Optional<Probe> secondBeer,
        Optional<Probe> air,
        Optional<Probe> room,
        List<Probe> watched,
        Optional<Relay> cooling,
        Optional<Relay> heating) {
    public Optional<Relay> relay(Side side) {
        return side == Side.COOLING ? cooling : heating;
    }
}
