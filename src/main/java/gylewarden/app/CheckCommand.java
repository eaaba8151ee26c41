package gylewarden.app;

import gylewarden.app.config.Cautions;
import gylewarden.app.config.ChamberConfig;
import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import gylewarden.app.config.ProbeConfig;
import gylewarden.app.config.Quantity;
import gylewarden.app.config.RelayConfig;
import gylewarden.app.config.WrongFile;
import gylewarden.app.station.Strays;
import gylewarden.control.Sample.Fault;
import gylewarden.link.Link;
import gylewarden.probe.OneWireBus;
import gylewarden.probe.Raw;
import gylewarden.schedule.ClockReading;
import gylewarden.store.InstanceLock;
import gylewarden.units.MonotonicClock;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Says all that is wrong with a config, what is connected, and what each relay would do. Touches no relay. */
@Command(
        name = "check",
        description = "Says all that is wrong with a config, what is connected, and what each relay would do."
                + " Touches no relay.")
final class CheckCommand implements Callable<Integer> {
    @Option(names = "--config", paramLabel = "FILE", required = true, description = "the config to be checked")
    private Optional<Path> file = Optional.empty();

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws WrongFile, InterruptedException {
        PrintWriter out = spec.commandLine().getOut();
        Config config = ConfigFile.read(file.orElseThrow());
        out.println(config.file() + " has no mistakes.");
        int unanswered = 0;
        Map<String, Overhearing.Outcome> heard = Map.of();
        if (config.mqtt().isPresent()) {
            MonotonicClock clock = MonotonicClock.system();
            try (var link = Brokers.link(config.mqtt().get(), config.dataDirectory(), "check", clock)) {
                Optional<String> away = Brokers.await(link, clock);
                if (away.isPresent()) unanswered++;
                out.println("broker: " + away.map(why -> "NOT reached: " + why).orElse("answers"));
                if (away.isEmpty()) heard = overhear(config, link, clock, out);
            }
        }
        for (ProbeConfig probe : config.probes()) {
            if (probe.sender().isPresent()) {
                Overhearing.Outcome outcome =
                        Optional.ofNullable(heard.get(probe.id())).orElseGet(Overhearing::unheard);
                if (!outcome.answers()) unanswered++;
                out.println("probe " + probe.id() + ": " + outcome.words());
                continue;
            }
            Raw raw = OneWireBus.readWithin(ProbesCommand.PATIENCE, Sources.of(config, probe));
            unanswered += raw.fold(answers -> 0, fault -> 1);
            out.println("probe " + probe.id() + ": " + said(probe, raw));
        }
        for (RelayConfig relay : config.relays()) {
            Wiring wiring = Wiring.of(relay);
            if (!wiring.answers()) unanswered++;
            out.println("relay " + relay.id() + ": " + wiring.words() + use(config, relay.id()));
        }
        out.println("clock: " + clock(config, KernelSync.real().ask(), Instant.now()));
        for (String caution : Cautions.of(config)) out.println("caution: " + caution);
        strays(config).forEach(out::println);
        out.println(daemon(config.dataDirectory()));
        out.println("No relay was touched.");
        if (unanswered > 0)
            out.println(unanswered
                    + (config.mqtt().isPresent() ? " of the broker, probes and relays" : " of the probes and relays")
                    + " named in the config did not answer.");
        out.flush();
        return unanswered > 0 ? Main.FAILED : Main.DONE;
    }

    private static Map<String, Overhearing.Outcome> overhear(
            Config config, Link link, MonotonicClock clock, PrintWriter out) throws InterruptedException {
        if (!Overhearing.longest(config).isZero()) {
            out.println("Listening to the probes that send to the broker, for "
                    + Quantity.written(Overhearing.longest(config)) + " at the longest.");
            out.flush();
        }
        return Overhearing.listen(config, link, clock, Pause.real());
    }

    static String clock(Config config, KernelSync.Said said, Instant now) {
        String says = "says " + now.truncatedTo(ChronoUnit.SECONDS);
        if (now.isBefore(ClockReading.EARLIEST))
            return says + ", which can't be"
                    + (config.batteryClock() ? ": its battery may be empty, though the config trusts it" : "");
        if (config.batteryClock()) return says + ", trusted because the config says that it has a battery";
        return says
                + switch (said) {
                    case SYNCHRONISED -> ", trusted because the kernel says that it is synchronised";
                    case NOT_SYNCHRONISED ->
                        ", not trusted until the kernel says that it is synchronised, or a person confirms it";
                    case NOBODY_KNOWS ->
                        ", not trusted until a person confirms it: timedatectl does not answer here."
                                + " If it has a battery, set [clock] battery = true";
                };
    }

    private static List<String> strays(Config config) {
        List<String> named = config.chambers().stream().map(ChamberConfig::id).toList();
        List<String> cautions = new ArrayList<>();
        try {
            Strays.files(config.dataDirectory(), named)
                    .forEach((chamber, stray) -> cautions.add("caution: " + Strays.sentence(chamber, stray)));
        } catch (IOException e) {
            cautions.add("caution: " + config.dataDirectory() + " can't be looked at: " + e.getMessage());
        }
        return cautions;
    }

    private static String daemon(Path data) {
        try {
            return InstanceLock.heldBy(data).map(held -> "daemon: " + held).orElse("daemon: none runs on " + data);
        } catch (IOException e) {
            return "daemon: whether one runs is not known: " + e.getMessage();
        }
    }

    private static String said(ProbeConfig probe, Raw raw) {
        return raw.fold(
                read -> ProbesCommand.said(new Raw.Says(probe.calibration().apply(read))),
                fault -> probe.source()
                        .fold(
                                wire -> OneWireBus.Found.words(fault),
                                file -> words(file.path(), fault),
                                sender -> Overhearing.unheard().words()));
    }

    private static String words(Path file, Fault fault) {
        return fault == Fault.NO_ANSWER
                ? "does not answer: " + file + " is missing, empty or too old"
                : "says what no probe can measure: " + file + " must hold one number and nothing else";
    }

    private static String use(Config config, String relay) {
        for (ChamberConfig chamber : config.chambers()) {
            if (chamber.coolingRelay().equals(Optional.of(relay))) return "; cools chamber " + chamber.id();
            if (chamber.heatingRelay().equals(Optional.of(relay))) return "; heats chamber " + chamber.id();
        }
        return "";
    }
}
