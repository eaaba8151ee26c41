package gylewarden.app.config;

import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** What a commissioning is for, in words that a person can compare: a chamber's probes and relays, and how each is reached. */
public final class Fingerprint {
    private Fingerprint() {}

    public static Map<String, String> of(Config config, ChamberConfig chamber) {
        Map<String, String> wiring = new TreeMap<>();
        wiring.put("beer_probe", probe(config, chamber.probes().beer()));
        chamber.probes().air().ifPresent(id -> wiring.put("air_probe", probe(config, id)));
        chamber.coolingRelay().ifPresent(id -> wiring.put("cooling", relay(config, id)));
        chamber.heatingRelay().ifPresent(id -> wiring.put("heating", relay(config, id)));
        return Map.copyOf(wiring);
    }

    private static String probe(Config config, String id) {
        return config.probe(id)
                .source()
                .fold(
                        wire -> "one-wire " + wire.address(),
                        file -> "file " + file.path(),
                        sender -> "sends to " + sender.topic()
                                + sender.form()
                                        .pointer()
                                        .map(where -> ", at " + where)
                                        .orElse(""));
    }

    private static String relay(Config config, String id) {
        return config.relay(id)
                .wiring()
                .fold(
                        gpio -> "gpio line " + gpio.line()
                                + gpio.chip().map(chip -> " of " + chip).orElse("") + level(gpio.activeLow()),
                        file -> "file " + file.path() + level(file.activeLow()),
                        plug -> "plug on " + plug.topic() + ", said on " + plug.stateTopic(),
                        simulated -> "simulated " + id);
    }

    private static String level(boolean activeLow) {
        return Optional.of(" active low").filter(low -> activeLow).orElse("");
    }
}
