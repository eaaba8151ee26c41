package gylewarden.post;

import gylewarden.alarm.Alarm;
import gylewarden.batch.Batch;
import gylewarden.journal.AlarmAdvice;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Scale;
import gylewarden.journal.Sentences;
import gylewarden.schedule.Leg;
import gylewarden.schedule.Terms.Confirm;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * While somebody is away: what to see to before, and one line a day, whose absence tells as much as its words.
 *
 * @param zone in which dates are told
 */
public record Away(ZoneId zone) {
    /** A test so long ago says little of today; common practice, no source. */
    public static final Duration TEST_HOLDS = Duration.ofDays(30);

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEE d MMM HH:mm", Locale.ENGLISH);

    /** A chamber as it is now. */
    public record Chamber(String name, ChamberStatus status) {}

    /**
     * A way to reach people.
     *
     * @param tested when a test arrived last
     * @param failure why the last try failed
     * @param carriesMessages unlike a lamp or a heartbeat
     */
    public record Way(String channel, Optional<Instant> tested, Optional<String> failure, boolean carriesMessages) {}

    /** Sentences; none where there is nothing to see to. Temperatures as {@code Scale.NEUTRAL} writes them. */
    public List<String> before(Instant now, Instant until, List<Chamber> chambers, List<Way> ways, List<Alarm> open) {
        List<String> all = new ArrayList<>();
        for (Alarm alarm : open)
            if (alarm.state() != Alarm.State.NORMAL)
                all.add("Not settled: " + AlarmAdvice.name(alarm.key().rule()) + ". " + alarm.sentence());
        for (Chamber chamber : chambers) all.addAll(waits(chamber, now, until));
        if (ways.stream().noneMatch(Way::carriesMessages))
            all.add("No message can reach you: the config has no e-mail and no webhook, a [message.NAME].");
        for (Way way : ways) {
            way.failure().ifPresent(why -> all.add("The channel " + way.channel() + " does not work: " + why));
            boolean tested = way.tested()
                    .filter(at -> Duration.between(at, now).compareTo(TEST_HOLDS) < 0)
                    .isPresent();
            if (!tested && way.failure().isEmpty())
                all.add("The channel " + way.channel() + " was not tested in the last " + TEST_HOLDS.toDays()
                        + " days: send a test, and see that it arrives.");
        }
        return all;
    }

    private List<String> waits(Chamber chamber, Instant now, Instant until) {
        List<String> waits = new ArrayList<>();
        Optional<Batch> batch = chamber.status().mandate().batch();
        if (batch.isEmpty()) return waits;
        String who = chamber.name() + ", " + batch.get().name() + ": ";
        if (batch.get().stage() == Batch.Stage.WAITS_FOR_PITCH)
            waits.add(who + "it waits until you say that the yeast is pitched.");
        if (batch.get().stage() != Batch.Stage.FERMENTS) return waits;
        for (Leg leg : batch.get().course().plan()) {
            boolean asks = batch.get().schedule().step(leg.step()).terms().confirm() == Confirm.WAITS;
            Optional<Instant> begins = leg.begins().map(now::plus);
            if (asks && begins.filter(at -> at.isBefore(until)).isPresent())
                waits.add(who + "step " + (leg.step() + 1) + " waits for your word at its end"
                        + leg.ends()
                                .map(span ->
                                        ", about " + DAY.format(now.plus(span).atZone(zone)))
                                .orElse("")
                        + ", and holds its temperature until then.");
        }
        return waits;
    }

    /** What is sent once a day. */
    public Text line(List<Chamber> chambers, List<Alarm> open) {
        List<Alarm> ringing =
                open.stream().filter(alarm -> alarm.returned().isEmpty()).toList();
        String subject = ringing.isEmpty()
                ? "All is well"
                : ringing.size() == 1 ? "One thing needs you" : ringing.size() + " things need you";
        List<String> lines = new ArrayList<>();
        for (Alarm alarm : ringing) lines.add(alarm.sentence());
        for (Chamber chamber : chambers) {
            ChamberStatus status = chamber.status();
            lines.add(chamber.name() + ": beer "
                    + words(status.readings().deciding().believed(), "not known") + ", target "
                    + words(status.mandate().setpoint(), "none") + ". " + new Sentences(Scale.NEUTRAL).of(status));
        }
        return new Text(subject, String.join("\n", lines));
    }

    private static String words(Optional<Temperature> temperature, String otherwise) {
        return temperature.map(Scale.NEUTRAL::words).orElse(otherwise);
    }
}
