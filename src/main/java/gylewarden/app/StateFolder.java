package gylewarden.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;

/**
 * The folder that the service manager keeps for the daemon, named by the variable STATE_DIRECTORY as systemd.exec(5) has it.
 * The unit's stop hook looks for the list of relays there and knows no config.
 */
final class StateFolder {
    private StateFolder() {}

    /** What to tell if the data folder is another one; empty too where no service manager names one. */
    static Optional<String> warning(Map<String, String> environment, Path data) {
        return Optional.ofNullable(environment.get("STATE_DIRECTORY"))
                .map(Path::of)
                .filter(state -> !real(state).equals(real(data)))
                .map(state -> "The data folder is " + data + ", but the service's is " + state
                        + ": after a crash the stop hook looks for the list of relays there and releases none of these."
                        + " Let [store] directory name " + state + ", or let ExecStopPost in the unit name "
                        + data.resolve("release-list") + ".");
    }

    /** Without links where it exists: the service manager may keep the folder behind one. */
    private static Path real(Path folder) {
        try {
            return folder.toRealPath();
        } catch (IOException notThere) {
            return folder.toAbsolutePath().normalize();
        }
    }
}
