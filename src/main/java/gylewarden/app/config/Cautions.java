package gylewarden.app.config;

import gylewarden.control.Rules;
import gylewarden.units.Temperature;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** What is allowed in a config, and yet worth a second look. */
public final class Cautions {
    private Cautions() {}

    /** A sentence each; none if all is well. */
    public static List<String> of(Config config) {
        List<String> cautions = new ArrayList<>();
        if (config.chambers().isEmpty())
            cautions.add("there is no [[chamber]], so nothing is controlled: name probes, relays and a chamber");
        Set<String> used = new HashSet<>();
        for (ChamberConfig chamber : config.chambers()) {
            ofChamber(chamber).forEach(caution -> cautions.add("chamber " + chamber.id() + ": " + caution));
            unwatchedHeater(config, chamber)
                    .ifPresent(caution -> cautions.add("chamber " + chamber.id() + ": " + caution));
            ChamberConfig.Probes probes = chamber.probes();
            used.add("probe " + probes.beer());
            List.of(probes.secondBeer(), probes.air(), probes.room())
                    .forEach(probe -> probe.ifPresent(id -> used.add("probe " + id)));
            probes.watch().forEach(id -> used.add("probe " + id));
            List.of(chamber.coolingRelay(), chamber.heatingRelay())
                    .forEach(relay -> relay.ifPresent(id -> used.add("relay " + id)));
        }
        config.messages().forEach(message -> message.lamp().ifPresent(lamp -> used.add("relay " + lamp)));
        config.probes().stream()
                .map(probe -> "probe " + probe.id())
                .filter(name -> !used.contains(name))
                .forEach(name -> cautions.add(name + " is in no chamber"));
        config.relays().stream()
                .map(relay -> "relay " + relay.id())
                .filter(name -> !used.contains(name))
                .forEach(name -> cautions.add(name + " is in no chamber and no lamp: nothing will ever energise it"));
        config.mqtt()
                .filter(mqtt -> !mqtt.encrypted())
                .ifPresent(mqtt -> ofPlainBroker(mqtt, config).forEach(cautions::add));
        return List.copyOf(cautions);
    }

    private static List<String> ofPlainBroker(MqttConfig mqtt, Config config) {
        List<String> cautions = new ArrayList<>();
        if (mqtt.password().isPresent())
            cautions.add("the broker's password goes over mqtt:// for everybody on the network to read;"
                    + " use mqtts:// unless the broker is on this board");
        if (config.relays().stream().anyMatch(relay -> relay.wiring() instanceof RelayConfig.Plug))
            cautions.add("over mqtt:// everybody on the network can switch the plugs;"
                    + " use mqtts:// and a broker that lets nobody else write to their topics");
        if (config.probes().stream().anyMatch(probe -> probe.sender().isPresent()))
            cautions.add(
                    "over mqtt:// everybody on the network can say what the probes measure that send to the broker;"
                            + " use mqtts:// and a broker that lets nobody else write to their topics");
        return cautions;
    }

    /** A heater that follows a probe without a wire, and nothing else that is known sooner than after {@code max_age}. */
    private static Optional<String> unwatchedHeater(Config config, ChamberConfig chamber) {
        boolean wired = chamber.probes()
                .air()
                .filter(air -> config.probe(air).sender().isEmpty())
                .isPresent();
        if (chamber.heatingRelay().isEmpty() || wired) return Optional.empty();
        return config.probe(chamber.probes().beer())
                .sender()
                .map(sender -> "the heater follows a probe that sends to the broker: its last reading counts for "
                        + Quantity.written(sender.maxAge())
                        + " after it has fallen silent, and only then is the heater released; fit an air probe by wire"
                        + " (SAFETY.md: a thermal cut-out on every heater)");
    }

    private static List<String> ofChamber(ChamberConfig chamber) {
        List<String> cautions = new ArrayList<>();
        Rules rules = chamber.rules();
        Rules.Fitted fitted = rules.fitted();
        if (fitted.heating() && !fitted.airProbe() && rules.timing().heatingDuty() >= 1)
            cautions.add("no air probe guards the heater, and heating_duty lets it run all the time;"
                    + " fit one, or set heating_duty = 0.6 or less (SAFETY.md: a thermal cut-out on every heater)");
        if (rules.blind() == Rules.Blind.REPEATS_COOLING_DUTY)
            cautions.add("blind_cooling = true cools for up to a day without a believed probe");
        if (rules.vessel().bulkKelvinsPerHour().isEmpty())
            cautions.add(
                    "without volume_litres and cooling_watts or heating_watts a probe that has fallen out is noticed"
                            + " only by a jump above 5 K within a minute");
        if (fitted.airProbe())
            chamber.target()
                    .ifPresent(
                            target -> beyondAir(target, fitted, rules.limits()).ifPresent(cautions::add));
        for (String key : new TreeSet<>(chamber.idle())) cautions.add(key + " has no effect: " + missingSide(key));
        return cautions;
    }

    private static Optional<String> beyondAir(Temperature target, Rules.Fitted fitted, Rules.Limits limits) {
        if (fitted.cooling().isPresent() && !target.isAbove(limits.airMin()))
            return Optional.of("target " + Quantity.written(target) + " is not above air_min "
                    + Quantity.written(limits.airMin()) + ": it can hardly be reached");
        if (fitted.heating() && !target.isBelow(limits.airMax()))
            return Optional.of("target " + Quantity.written(target) + " is not below air_max "
                    + Quantity.written(limits.airMax()) + ": it can hardly be reached");
        return Optional.empty();
    }

    private static String missingSide(String key) {
        if (ControlKeys.OF_COOLING.contains(key)) return "no cooling is fitted";
        return ControlKeys.OF_HEATING.contains(key) ? "no heating is fitted" : "it needs both cooling and heating";
    }
}
