package gylewarden.simulation;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Alarms;
import gylewarden.alarm.BoardSight;
import gylewarden.alarm.Change;
import gylewarden.alarm.Change.What;
import gylewarden.alarm.Findings;
import gylewarden.alarm.Moment;
import gylewarden.alarm.Rule;
import gylewarden.alarm.Sight;
import gylewarden.control.Observation;
import gylewarden.control.Rules;
import gylewarden.journal.AlarmMatters;
import gylewarden.journal.AlarmWords;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Letter;
import gylewarden.journal.Scale;
import gylewarden.journal.Sights;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/** A virtual chamber whose status is looked at by the rules of alarms, each second. */
final class Watched {
    static final String WHO = "browser 3f2a9c";

    private final VirtualChamber chamber;
    private Rules rules = Rules.defaults();
    private Optional<Sight.PowerAway> powerAway = Optional.empty();
    private Findings findings = Findings.none();
    private long ids;
    private Alarms alarms = Alarms.none(this::id);
    final List<Change> changes = new ArrayList<>();

    Watched(VirtualChamber chamber) {
        this.chamber = chamber;
    }

    Watched(Scenario scenario) {
        this(scenario.chamber());
    }

    VirtualChamber chamber() {
        return chamber;
    }

    private UUID id() {
        return new UUID(9, ++ids);
    }

    Watched litres(double volume) {
        rules = rules.with(new Rules.Vessel(Optional.of(volume), Optional.empty(), Optional.empty()));
        return this;
    }

    Watched runFor(Duration span) {
        for (long i = span.toSeconds(); i > 0; i--) second();
        return this;
    }

    /** Returns how long it took until something of the kind was told of a rule. */
    Duration until(Rule rule, What what, Duration atMost) {
        int before = changes.size();
        for (long second = 0; second <= atMost.toSeconds(); second++) {
            second();
            for (Change change : changes.subList(before, changes.size()))
                if (change.alarm().key().rule() == rule && change.what() == what) return Duration.ofSeconds(second);
        }
        throw new AssertionError("not within " + atMost + ": " + rule + " " + what + "; " + told());
    }

    private void second() {
        ChamberStatus status = chamber.second();
        Findings.Found found =
                findings.of(List.of(sight(status)), BoardSight.sound(), new AlarmMatters(Scale.NEUTRAL), status.at());
        findings = found.next();
        take(alarms.after(moment(status), found.findings()));
    }

    private Sight sight(ChamberStatus status) {
        return Sights.of(status, new Sights.Besides(rules, Observation.WATER_FREEZES, powerAway, Set.of()));
    }

    private static Moment moment(ChamberStatus status) {
        return new Moment(status.at(), status.clock().wall());
    }

    private void take(Alarms.Step step) {
        alarms = step.alarms();
        changes.addAll(step.changes());
    }

    Watched acknowledge(Rule rule) {
        take(alarms.acknowledge(alarm(rule).id(), WHO, moment(chamber.status())));
        return this;
    }

    /** What the page does: the chamber is told as soon as the change is there. */
    Watched reset(Rule rule) {
        take(alarms.reset(alarm(rule).id(), WHO, moment(chamber.status())));
        if (changes.get(changes.size() - 1).what() == What.RESET)
            chamber.chamber().acknowledge();
        return this;
    }

    /** The daemon is another one now; what was open is kept. */
    Watched restarted(Optional<Sight.PowerAway> away) {
        powerAway = away;
        findings = Findings.none();
        chamber.second();
        alarms = Alarms.restored(alarms.open(), moment(chamber.status()), this::id);
        return this;
    }

    Alarm alarm(Rule rule) {
        return alarms.open().stream()
                .filter(alarm -> alarm.key().rule() == rule)
                .findFirst()
                .orElseThrow(() -> new AssertionError("no " + rule + "; " + told()));
    }

    List<Alarm> open() {
        return alarms.open();
    }

    /** Everything that was told, in order. */
    List<String> told() {
        return changes.stream()
                .map(change -> change.alarm().key().rule() + " " + change.what())
                .toList();
    }

    /** The message that the last change makes. */
    String message() {
        Change last = changes.get(changes.size() - 1);
        Letter.Kind kind = last.what() == What.RETURNED ? Letter.Kind.OVER : Letter.Kind.ALARM;
        return new AlarmWords(Scale.CELSIUS, ZoneOffset.UTC)
                .text(last, kind, Optional.of(scene()), AlarmWords.Began.dated(last.alarm(), last.at()));
    }

    private AlarmWords.Scene scene() {
        ChamberStatus status = chamber.status();
        return new AlarmWords.Scene("Garage", status, sight(status), findings.beerPerHour(status.chamber()));
    }
}
