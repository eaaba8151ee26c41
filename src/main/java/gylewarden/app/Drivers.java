package gylewarden.app;

import gylewarden.app.config.RelayConfig;
import gylewarden.relay.FileDriver;
import gylewarden.relay.Gpio;
import gylewarden.relay.PlugDriver;
import gylewarden.relay.RelayDriver;
import gylewarden.store.ReleaseList;
import gylewarden.store.ReleaseList.Entry.GpioLine;
import gylewarden.store.ReleaseList.Entry.NetworkPlug;
import gylewarden.store.ReleaseList.Entry.RelayFile;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;

/**
 * The drivers of the configured relays. The GPIO library is started when the first line is asked for and never otherwise,
 * so a board without one works with files. Not safe for several threads at once.
 */
final class Drivers implements AutoCloseable {
    private final GpioLibrary library;
    private final Optional<Plugs> plugs;
    private Optional<Gpio> gpio = Optional.empty();

    /** How the GPIO library is started. */
    @FunctionalInterface
    interface GpioLibrary {
        Gpio open() throws IOException;
    }

    Drivers(GpioLibrary library) {
        this(library, Optional.empty());
    }

    private Drivers(GpioLibrary library, Optional<Plugs> plugs) {
        this.library = library;
        this.plugs = plugs;
    }

    /** On the real board; its model can be told by {@code -Dgylewarden.boardModel=FILE} where the library does not know it. */
    static Drivers real() {
        return real(Optional.empty());
    }

    /** @param plugs the ways to plugs, which end with these drivers; where there are none, plugs can't be told */
    static Drivers real(Optional<Plugs> plugs) {
        return new Drivers(
                () -> Gpio.open(Optional.ofNullable(System.getProperty("gylewarden.boardModel"))
                        .map(Path::of)),
                plugs);
    }

    /**
     * The driver of a relay; to be asked once for each.
     *
     * @throws IOException in words, if its hardware can't be used
     */
    RelayDriver of(RelayConfig relay) throws IOException {
        if (relay.wiring() instanceof RelayConfig.Gpio line)
            return gpio().output(relay.id(), line.chip(), line.line(), line.activeLow());
        if (relay.wiring() instanceof RelayConfig.Plug plug) {
            Plugs ways = plugs.orElseThrow(() -> new IOException("the broker of [mqtt] is not known"));
            return new PlugDriver(new MqttPlug(ways.link(relay.id(), plug), plug), plug.autoOff());
        }
        return relay.wiring()
                .<RelayDriver>fold(
                        line -> contact -> {},
                        file -> new FileDriver(file.path(), file.activeLow()),
                        plug -> contact -> {},
                        simulated -> contact -> {});
    }

    /** How the stop hook releases a relay, or what it says of it; empty if it switches nothing. Only after {@link #of}. */
    Optional<ReleaseList.Entry> release(RelayConfig relay) {
        return relay.wiring()
                .<Optional<ReleaseList.Entry>>fold(
                        line -> Optional.of(new GpioLine(chip(), line.line(), line.activeLow() ? 1 : 0)),
                        file -> Optional.of(
                                new RelayFile(file.path(), new FileDriver(file.path(), file.activeLow()).released())),
                        plug -> Optional.of(new NetworkPlug(relay.id(), plug.autoOff())),
                        simulated -> Optional.empty());
    }

    /** The label that the library tells, else what it looks for. */
    private String chip() {
        return gpio.flatMap(Gpio::chip).orElse("pinctrl");
    }

    private Gpio gpio() throws IOException {
        Gpio open = gpio.isPresent() ? gpio.get() : library.open();
        gpio = Optional.of(open);
        return open;
    }

    /** Brings every GPIO line to its released level and frees it; ends the connections to plugs. */
    @Override
    public void close() {
        gpio.ifPresent(Gpio::close);
        plugs.ifPresent(Plugs::close);
    }
}
