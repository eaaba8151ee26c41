package gylewarden.app.config;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * A config without mistakes. Paths are absolute.
 *
 * @param file where it was read from
 * @param dataDirectory where the daemon keeps its files; may not exist yet
 * @param backups how often a backup is made by itself, and where; absent if never
 * @param web where the page listens
 * @param commissioning whether chambers may be commissioned by the page
 * @param batteryClock whether the board's clock runs on while it has no power, and can be trusted for that
 * @param probesRoot the folder in which the kernel lists the 1-Wire probes
 */
public record Config(
        Path file,
        Path dataDirectory,
        Optional<BackupConfig> backups,
        Listen web,
        boolean commissioning,
        boolean batteryClock,
        Path probesRoot,
        List<ProbeConfig> probes,
        List<RelayConfig> relays,
        List<ChamberConfig> chambers,
        List<MessageConfig> messages,
        Optional<MqttConfig> mqtt) {
    public Config {
        probes = List.copyOf(probes);
        relays = List.copyOf(relays);
        chambers = List.copyOf(chambers);
        messages = List.copyOf(messages);
    }

    /** @throws IllegalArgumentException if there is none of this id, which a read config rules out */
    public ProbeConfig probe(String id) {
        return probes.stream()
                .filter(probe -> probe.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no probe " + id));
    }

    /** @throws IllegalArgumentException if there is none of this id, which a read config rules out */
    public RelayConfig relay(String id) {
        return relays.stream()
                .filter(relay -> relay.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no relay " + id));
    }
}
