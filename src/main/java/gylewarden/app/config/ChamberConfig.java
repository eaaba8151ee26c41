package gylewarden.app.config;

import gylewarden.control.Rules;
import gylewarden.units.Temperature;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * One {@code [[chamber]]}.
 *
 * @param target held until a batch or a person sets another
 * @param idle keys that are set but mean nothing here, because the side that they belong to is not fitted
 */
public record ChamberConfig(
        String id,
        String name,
        Optional<Temperature> target,
        Probes probes,
        Optional<String> coolingRelay,
        Optional<String> heatingRelay,
        Rules rules,
        Set<String> idle) {
    public ChamberConfig {
        idle = Set.copyOf(new TreeSet<>(idle));
    }

    /**
     * Probes by id.
     *
     * @param watch are only logged and kept to the limits
     */
    public record Probes(
            String beer, Optional<String> secondBeer, Optional<String> air, Optional<String> room, List<String> watch) {
        public Probes {
            watch = List.copyOf(watch);
        }
    }
}
