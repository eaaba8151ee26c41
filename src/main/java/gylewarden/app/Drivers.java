package gylewarden.app;

import gylewarden.app.config.RelayConfig;
import gylewarden.link.Link;
import gylewarden.relay.FileDriver;
import gylewarden.relay.Gpio;
import gylewarden.relay.PlugDriver;
import gylewarden.relay.RelayDriver;
import gylewarden.store.ReleaseList;
import gylewarden.store.ReleaseList.Entry.GpioLine;
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
    private final Optional<Link> broker;
    private Optional<Gpio> gpio = Optional.empty();

    /** How the GPIO library is started. */
    @FunctionalInterface
    interface GpioLibrary {
        Gpio open() throws IOException;
    }

    Drivers(GpioLibrary library) {
        this(library, Optional.empty());
    }

    private Drivers(GpioLibrary library, Optional<Link> broker) {
        this.library = library;
        this.broker = broker;
    }

    /** On the real board; its model can be told by {@code -Dgylewarden.boardModel=FILE} where the library does not know it. */
    static Drivers real() {
        return real(Optional.empty());
    }

    /** @param broker over which plugs are told; where there is none, they can't be */
    static Drivers real(Optional<Link> broker) {
        return new Drivers(
                () -> Gpio.open(Optional.ofNullable(System.getProperty("gylewarden.boardModel"))
                        .map(Path::of)),
                broker);
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
            Link link = broker.orElseThrow(() -> new IOException("the broker of [mqtt] is not known"));
            return new PlugDriver(new MqttPlug(link, plug), plug.autoOff());
        }
        return relay.wiring()
                .<RelayDriver>fold(
                        line -> contact -> {},
                        file -> new FileDriver(file.path(), file.activeLow()),
                        plug -> contact -> {},
                        simulated -> contact -> {});
    }

    /** How the stop hook releases a relay; empty if there is nothing that it could: a plug releases by its own timer. Only after {@link #of}. */
    Optional<ReleaseList.Entry> release(RelayConfig relay) {
        return relay.wiring()
                .<Optional<ReleaseList.Entry>>fold(
                        line -> Optional.of(new GpioLine(chip(), line.line(), line.activeLow() ? 1 : 0)),
                        file -> Optional.of(
                                new RelayFile(file.path(), new FileDriver(file.path(), file.activeLow()).released())),
                        plug -> Optional.empty(),
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

    /** Brings every GPIO line to its released level and frees it. */
    @Override
    public void close() {
        gpio.ifPresent(Gpio::close);
    }
}
