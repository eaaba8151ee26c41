package gylewarden.app.config;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Reads the config of a board. */
public final class ConfigFile {
    private static final Path DEFAULT_PROBES_ROOT = Path.of("/sys/bus/w1/devices");

    private final Path path;
    private final TomlFile toml;
    private final Path dataDirectory;
    private final Optional<BackupConfig> backups;
    private final Listen web;
    private final boolean commissioning;
    private final boolean batteryClock;
    private final Path probesRoot;
    private final List<Entry<ProbeConfig>> probes;
    private final List<Entry<RelayConfig>> relays;
    private final List<RelayConfig> releasable;
    private final List<Entry<ChamberConfig>> chambers;
    private final Map<MessageConfig, Table> messages;
    private final Optional<MqttConfig> mqtt;

    private ConfigFile(Path path, TomlFile toml) {
        this.path = path;
        this.toml = toml;
        Path folder = Optional.ofNullable(path.getParent()).orElse(path);
        Table root = toml.root();
        Optional<Table> store = root.table("store");
        backups = store.flatMap(table -> BackupConfig.read(table, folder));
        dataDirectory = directory(store, "directory", folder, folder.resolve("data"));
        Optional<Table> page = root.table("web");
        commissioning = page.flatMap(table -> table.flag("commissioning")).orElse(false);
        web = page.map(ConfigFile::listen).orElse(Listen.DEFAULT);
        batteryClock = root.table("clock").map(ConfigFile::battery).orElse(false);
        probesRoot = directory(root.table("probes"), "root", folder, DEFAULT_PROBES_ROOT);
        probes =
                root.tables("probe").stream().map(new ProbeReader(folder)::read).toList();
        List<RelayReader.Found> found =
                root.tables("relay").stream().map(new RelayReader(folder)::read).toList();
        relays = found.stream().map(RelayReader.Found::entry).toList();
        releasable =
                found.stream().flatMap(relay -> relay.releasable().stream()).toList();
        chambers = root.tables("chamber").stream().map(ChamberReader::read).toList();
        messages = new LinkedHashMap<>();
        Map<String, Table> messageTables = root.children("message");
        messageTables.forEach(
                (name, table) -> MessageReader.read(name, table).ifPresent(message -> messages.put(message, table)));
        mqtt = root.table("mqtt").flatMap(table -> MqttReader.read(table, folder));
        root.finish();
        new Wires(probes, relays, chambers, toml.isComplete(), root.has("mqtt") || !toml.isComplete(), mqtt).check();
        new Lamps(relays, chambers, messageTables.values()).check();
    }

    /** @throws WrongFile with every mistake in it */
    public static Config read(Path file) throws WrongFile {
        ConfigFile read = new ConfigFile(file.toAbsolutePath().normalize(), TomlFile.read(file));
        read.toml.refuseMistakes();
        return read.config();
    }

    /** What can be used of a config for the one thing that must not fail: releasing relays. */
    public static Salvage salvage(Path file) {
        try {
            ConfigFile read = new ConfigFile(file.toAbsolutePath().normalize(), TomlFile.read(file));
            return read.salvage();
        } catch (WrongFile nothingToRead) {
            return new Salvage(Optional.empty(), Listen.DEFAULT, List.of(), Optional.empty(), nothingToRead.mistakes());
        }
    }

    /**
     * @param dataDirectory empty if it is not known for certain
     * @param web where a daemon with this config has its page, as far as the config can be read
     * @param relays those whose table has no mistake but in its id: of another it is not known which level releases it
     */
    public record Salvage(
            Optional<Path> dataDirectory,
            Listen web,
            List<RelayConfig> relays,
            Optional<MqttConfig> mqtt,
            List<Mistake> mistakes) {
        public Salvage {
            relays = List.copyOf(relays);
            mistakes = List.copyOf(mistakes);
        }
    }

    /** Every key there is, by table; for the test that each is explained. */
    static Map<String, Set<String>> keys(String text) {
        ConfigFile read = new ConfigFile(Path.of("/etc/gylewarden.toml"), TomlFile.of("gylewarden.toml", text));
        return read.toml.asked();
    }

    /** All that is wrong with a text. */
    static List<Mistake> mistakes(Path file, String text) {
        return new ConfigFile(file, TomlFile.of(file.toString(), text)).toml.mistakes();
    }

    private Config config() {
        return new Config(
                path,
                dataDirectory,
                backups,
                web,
                commissioning,
                batteryClock,
                probesRoot,
                values(probes),
                values(relays),
                values(chambers),
                List.copyOf(messages.keySet()),
                mqtt);
    }

    private Salvage salvage() {
        boolean storeKnown = toml.root().table("store").map(Table::isSound).orElse(toml.isComplete());
        return new Salvage(
                storeKnown ? Optional.of(dataDirectory) : Optional.empty(), web, releasable, mqtt, toml.mistakes());
    }

    private static <T> List<T> values(List<Entry<T>> entries) {
        return entries.stream().flatMap(entry -> entry.value().stream()).toList();
    }

    private static Path directory(Optional<Table> table, String key, Path folder, Path otherwise) {
        Optional<Path> directory = table.flatMap(found -> Paths.read(found, key, folder));
        table.ifPresent(Table::finish);
        return directory.orElse(otherwise);
    }

    private static boolean battery(Table table) {
        boolean battery = table.flag("battery").orElse(false);
        table.finish();
        return battery;
    }

    private static Listen listen(Table table) {
        Optional<String> text = table.text("listen");
        table.finish();
        if (text.isEmpty()) return Listen.DEFAULT;
        Optional<Listen> listen = Listen.parse(text.get());
        if (listen.isEmpty()) {
            table.mistake("listen", "write an address and a port: \"127.0.0.1:8080\"");
        } else if (!listen.get().isLoopback()) {
            table.mistake(
                    "listen",
                    "this version has no sign-in, so only this machine may reach the page: \"127.0.0.1:8080\"");
        }
        return listen.orElse(Listen.DEFAULT);
    }
}
