package gylewarden.alarm;

import gylewarden.units.Uptime;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What the rules look at of the daemon and its board.
 *
 * @param restarted when this process started, where the one before did not end in order
 * @param dataFolder why the data folder is not the one that this daemon opened; absent while it is
 * @param record why the record can't be written; absent while it can
 * @param freeMegabytes on the disk of the record, of 1 000 000 bytes each; absent where nobody knows
 * @param clockTrusted whether somebody vouches for the wall clock
 * @param broker why the broker can't be reached; absent while it can, or none is configured
 * @param channels why each message channel that fails does so, by its name
 * @param backup why the backup that is due could not be made; absent while none is due
 * @param outOfService rules that a person wants to hear nothing of
 */
public record BoardSight(
        Optional<Uptime> restarted,
        Optional<String> dataFolder,
        Optional<String> record,
        Optional<Long> freeMegabytes,
        boolean clockTrusted,
        Optional<String> broker,
        Map<String, String> channels,
        Optional<String> backup,
        Set<Rule> outOfService) {
    public BoardSight {
        channels = Map.copyOf(channels);
        outOfService = Set.copyOf(outOfService);
    }

    /** Nothing to say of it. */
    public static BoardSight sound() {
        return new BoardSight(
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                true,
                Optional.empty(),
                Map.of(),
                Optional.empty(),
                Set.of());
    }
}
