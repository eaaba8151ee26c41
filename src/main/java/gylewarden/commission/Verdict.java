package gylewarden.commission;

import gylewarden.commission.Finding.Unseen;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * How commissioning ended.
 *
 * @param findings what is wrong, the most telling first; none: the chamber has passed
 * @param cooled by how much cooling moved the probe that showed it best; absent where it did not, or is not fitted
 * @param heated as {@code cooled}
 * @param unseen what these probes can't tell
 */
public record Verdict(List<Finding> findings, Optional<Effect> cooled, Optional<Effect> heated, Set<Unseen> unseen) {
    public Verdict {
        findings = List.copyOf(findings);
        unseen = Set.copyOf(unseen);
    }

    /** It ended for this before anything could be seen. */
    static Verdict endedBy(Finding finding) {
        return new Verdict(List.of(finding), Optional.empty(), Optional.empty(), Set.of());
    }

    public boolean passed() {
        return findings.isEmpty();
    }
}
