package gylewarden.app.watch;

import gylewarden.app.config.MessageConfig;
import gylewarden.message.Channel;
import gylewarden.relay.Relay;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * All by which people and programs hear of alarms.
 *
 * @param messages of the config
 * @param relays by id, for lamps
 * @param stream to which every change goes
 * @param more channels that no config names
 */
public record Ways(
        List<MessageConfig> messages, Map<String, Relay> relays, Optional<Stream> stream, List<Channel> more) {
    public Ways {
        messages = List.copyOf(messages);
        relays = Map.copyOf(relays);
        more = List.copyOf(more);
    }

    /** None but these. */
    public static Ways only(List<Channel> channels) {
        return new Ways(List.of(), Map.of(), Optional.empty(), channels);
    }
}
