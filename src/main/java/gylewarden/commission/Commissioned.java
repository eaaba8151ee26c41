package gylewarden.commission;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The result of a commissioning, as it is kept.
 *
 * @param at when it ended, by the board's wall clock, right or wrong
 * @param findings what was wrong, a sentence each; none: it has passed
 * @param wiring what it was for: which probes and relays, and how each is reached; another wiring was never commissioned
 */
public record Commissioned(Instant at, List<String> findings, Map<String, String> wiring) {
    public Commissioned {
        findings = List.copyOf(findings);
        wiring = Map.copyOf(new TreeMap<>(wiring));
    }

    public boolean passed() {
        return findings.isEmpty();
    }
}
