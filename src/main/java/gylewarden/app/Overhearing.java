package gylewarden.app;

import gylewarden.app.config.Config;
import gylewarden.app.config.ProbeConfig;
import gylewarden.app.config.Quantity;
import gylewarden.link.Heard;
import gylewarden.link.Link;
import gylewarden.probe.MessageForm;
import gylewarden.units.MonotonicClock;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/** Listens for a while to the probes that send by themselves, for a person who sets them up. */
final class Overhearing {
    /** Who has not spoken by then is told to be silent; most send each half minute or so (common practice, no source). */
    static final Duration PATIENCE = Duration.ofMinutes(1);

    private Overhearing() {}

    /**
     * What became of one.
     *
     * @param words for a sentence that begins with the probe
     */
    record Outcome(boolean answers, String words) {}

    /** How long {@link #listen} may take; zero where nobody sends. */
    static Duration longest(Config config) {
        return config.probes().stream()
                .flatMap(probe -> probe.sender().stream())
                .map(Overhearing::patience)
                .max(Duration::compareTo)
                .orElse(Duration.ZERO);
    }

    private static Duration patience(ProbeConfig.Sender sender) {
        return sender.maxAge().compareTo(PATIENCE) < 0 ? sender.maxAge() : PATIENCE;
    }

    /** By the probes' ids; ends as soon as each has spoken. */
    static Map<String, Outcome> listen(Config config, Link link, MonotonicClock clock, Pause pause)
            throws InterruptedException {
        Map<String, Heard> spoken = new ConcurrentHashMap<>();
        Map<String, Heard> kept = new ConcurrentHashMap<>();
        Map<String, ProbeConfig.Sender> senders = new LinkedHashMap<>();
        for (ProbeConfig probe : config.probes()) probe.sender().ifPresent(sender -> senders.put(probe.id(), sender));
        senders.forEach((id, sender) ->
                link.subscribe(sender.topic(), heard -> (heard.stored() ? kept : spoken).put(id, heard)));
        new Patience(longest(config), clock, pause).until(() -> spoken.size() == senders.size());
        Map<String, Outcome> outcomes = new LinkedHashMap<>();
        senders.forEach((id, sender) -> outcomes.put(
                id,
                Optional.ofNullable(spoken.get(id))
                        .map(heard -> said(config.probe(id), sender.form().read(heard.text())))
                        .orElseGet(() -> silent(sender, Optional.ofNullable(kept.get(id)), link))));
        return outcomes;
    }

    /** Where the broker is not reached. */
    static Outcome unheard() {
        return new Outcome(false, "can't be heard while the broker is not reached");
    }

    private static Outcome said(ProbeConfig probe, MessageForm.Found found) {
        return found.fold(
                temperature -> new Outcome(
                        true,
                        Quantity.written(probe.calibration().apply(temperature).celsius()) + " C"),
                why -> new Outcome(false, "sends what is no reading: " + why));
    }

    private static Outcome silent(ProbeConfig.Sender sender, Optional<Heard> kept, Link link) {
        String stored = kept.map(heard -> sender.form()
                        .read(heard.text())
                        .fold(
                                temperature -> "; what the broker had kept for it can be read, and counts for nothing",
                                why -> "; what the broker had kept for it is no reading: " + why))
                .orElse("");
        String refused = link.state().trouble().map(why -> "; " + why).orElse("");
        return new Outcome(
                false,
                "has sent nothing on " + sender.topic() + " within " + Quantity.written(patience(sender))
                        + ": look at its power, its topic and how often it sends" + stored + refused);
    }
}
