package gylewarden.alarm;

import gylewarden.alarm.Alarm.State;
import gylewarden.alarm.Change.What;
import gylewarden.alarm.Finding.Standing;
import gylewarden.control.Condition.Priority;
import gylewarden.units.Kelvins;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Supplier;

/**
 * One look at what is found about one thing.
 *
 * @param since how much time counts since the last look
 * @param findings of this one thing, at most one of each priority
 */
record Look(Moment now, Duration since, List<Finding> findings, Supplier<UUID> ids) {
    /** So much worse than when people were last told, and they are told again. */
    static final Kelvins WORSE = new Kelvins(1);
    /** So that one strange reading does not. */
    static final Duration WORSE_LASTS = Duration.ofMinutes(1);

    Watch.Turned at(Watch before) {
        List<Change> changes = new ArrayList<>();
        Watch watch = quietIsOver(before, changes);
        Optional<What> gone = goneAtOnce();
        if (gone.isPresent()) return new Watch.Turned(takenOut(watch, gone.get(), changes), changes);
        watch = firstAfterStart(counting(watch), changes);
        watch = watch.lasts() ? standing(watch, changes) : raising(watch, changes);
        return new Watch.Turned(watch.withoutWhatIsOver(), changes);
    }

    private Optional<What> goneAtOnce() {
        if (isFound(Standing.OUT_OF_SERVICE)) return Optional.of(What.OUT_OF_SERVICE);
        return isFound(Standing.SUPERSEDED) ? Optional.of(What.SUPERSEDED) : Optional.empty();
    }

    private boolean isFound(Standing standing) {
        return findings.stream().anyMatch(finding -> finding.standing() == standing);
    }

    private Watch takenOut(Watch watch, What what, List<Change> changes) {
        if (watch.alarm().isEmpty()) return Watch.nothing().withQuiet(watch.quietUntil());
        Alarm gone = watch.alarm().get().with(State.NORMAL);
        changes.add(new Change(gone, what, now.wall()));
        return Watch.nothing().withQuiet(watch.quietUntil());
    }

    /** What is still so then is for people again, whether they had seen it or not: they had asked not to be told until now. */
    private Watch quietIsOver(Watch watch, List<Change> changes) {
        if (watch.quietUntil().filter(until -> !now.at().isBefore(until.at())).isEmpty()) return watch;
        Watch loud = watch.withQuiet(Optional.empty());
        if (watch.alarm().isEmpty()) return loud;
        Alarm alarm = watch.alarm().get().quietUntil(Optional.empty());
        if (alarm.state() == State.ACKNOWLEDGED)
            alarm = alarm.with(State.UNACKNOWLEDGED).with(Optional.empty());
        changes.add(new Change(alarm, What.QUIET_OVER, now.wall()));
        return loud.with(alarm);
    }

    /** A threshold is passed for as long as it is; within its dead band its time stands still, and else it begins anew. */
    private Watch counting(Watch watch) {
        Map<Priority, Duration> on = new EnumMap<>(Priority.class);
        for (Finding finding : findings) {
            Optional<Duration> before = Optional.ofNullable(watch.onFor().get(finding.priority()));
            boolean active = finding.standing() == Standing.ACTIVE;
            if (active) on.put(finding.priority(), before.map(since::plus).orElse(Duration.ZERO));
            else if (finding.standing() == Standing.HOLDS)
                before.ifPresent(counted -> on.put(finding.priority(), counted));
        }
        Optional<Kelvins> off = worst().flatMap(Finding::off);
        boolean silent =
                watch.lasts() && findings.isEmpty() && watch.unnoticed().isEmpty();
        boolean worse = watch.lasts() && isWorse(watch, off);
        return watch.seeing(off).counting(on, longer(watch.offFor(), silent), longer(watch.worseFor(), worse));
    }

    private Optional<Duration> longer(Optional<Duration> before, boolean goesOn) {
        return goesOn ? Optional.of(before.map(since::plus).orElse(Duration.ZERO)) : Optional.empty();
    }

    private static boolean lasted(Optional<Duration> span, Duration least) {
        return span.filter(counted -> counted.compareTo(least) >= 0).isPresent();
    }

    private static boolean isWorse(Watch watch, Optional<Kelvins> off) {
        Optional<Kelvins> told = watch.alarm().flatMap(Alarm::worst);
        return told.isPresent()
                && off.isPresent()
                && off.get().minus(told.get()).compareTo(WORSE) >= 0;
    }

    /** An alarm from before a start waits until it is found again, or could have been. An event is another one. */
    private Watch firstAfterStart(Watch watch, List<Change> changes) {
        if (watch.unnoticed().isEmpty()) return watch;
        Alarm alarm = watch.alarm().orElseThrow();
        Optional<Finding> found = worst().filter(Finding::keeps);
        if (found.isEmpty()) {
            Duration left = watch.unnoticed().get().minus(findings.isEmpty() ? since : Duration.ZERO);
            boolean waits = !left.isNegative() && !left.isZero();
            return watch.unnoticedFor(waits ? Optional.of(left) : Optional.empty());
        }
        Watch noticed = watch.unnoticedFor(Optional.empty());
        if (alarm.key().rule().kind() != Rule.Kind.EVENT) return noticed;
        Alarm again = alarm.told(found.get(), State.UNACKNOWLEDGED, alarm.priority());
        changes.add(new Change(again, What.RAISED_AGAIN, now.wall()));
        return noticed.with(again);
    }

    private Watch raising(Watch watch, List<Change> changes) {
        Optional<Finding> due = due(watch);
        if (due.isEmpty()) return watch;
        Finding finding = due.get();
        if (watch.alarm().isEmpty()) {
            Alarm raised = new Alarm(
                    ids.get(),
                    finding.key(),
                    finding.priority(),
                    State.UNACKNOWLEDGED,
                    now.wall(),
                    Optional.empty(),
                    Optional.empty(),
                    watch.quietUntil().map(Watch.Quiet::wall),
                    finding.off(),
                    finding.sentence());
            changes.add(new Change(raised, What.RAISED, now.wall()));
            return watch.with(raised).counting(watch.onFor(), Optional.empty(), Optional.empty());
        }
        Alarm alarm = watch.alarm().get();
        // Also what was seen and waited for a person's reset: it was tried again, and in vain, which nobody knows yet.
        Alarm again = alarm.told(finding, State.UNACKNOWLEDGED, finding.priority());
        changes.add(new Change(again, What.RAISED_AGAIN, now.wall()));
        return watch.with(again).counting(watch.onFor(), Optional.empty(), Optional.empty());
    }

    private Watch standing(Watch watch, List<Change> changes) {
        Alarm alarm = watch.alarm().orElseThrow();
        if (findings.isEmpty()) return watch.unnoticed().isEmpty() ? silent(watch, alarm, changes) : watch;
        Optional<Finding> due = due(watch);
        boolean moreUrgent = due.filter(finding -> finding.priority().compareTo(alarm.priority()) < 0)
                .isPresent();
        boolean muchWorse = alarm.state() == State.ACKNOWLEDGED && lasted(watch.worseFor(), WORSE_LASTS);
        if (!moreUrgent && !muchWorse) return watch;
        Finding found = moreUrgent ? due.orElseThrow() : worst().orElseThrow();
        Priority priority = moreUrgent ? found.priority() : alarm.priority();
        Alarm worse = alarm.told(found, State.UNACKNOWLEDGED, priority);
        Watch told = watch.counting(watch.onFor(), watch.offFor(), Optional.empty());
        // Whoever wanted quiet of something did not want it of something more urgent.
        if (moreUrgent) {
            worse = worse.quietUntil(Optional.empty());
            told = told.withQuiet(Optional.empty());
        }
        changes.add(new Change(worse, What.WORSE, now.wall()));
        return told.with(worse);
    }

    private Watch silent(Watch watch, Alarm alarm, List<Change> changes) {
        Rule rule = alarm.key().rule();
        if (!lasted(watch.offFor(), rule.offDelay())) return watch;
        boolean latched = rule.kind() == Rule.Kind.LATCHED && !watch.resetAsked();
        State next = alarm.state() == State.ACKNOWLEDGED
                ? latched ? State.LATCHED_RETURNED : State.NORMAL
                : latched ? State.UNACKNOWLEDGED : State.RETURNED_UNACKNOWLEDGED;
        Alarm over = alarm.returned(Optional.of(now.wall()), next);
        changes.add(new Change(over, What.RETURNED, now.wall()));
        return watch.with(over);
    }

    /** The most urgent threshold that has been passed for long enough. */
    private Optional<Finding> due(Watch watch) {
        return findings.stream()
                .filter(finding -> finding.standing() == Standing.ACTIVE)
                .filter(finding -> watch.onFor().get(finding.priority()).compareTo(finding.onDelay()) >= 0)
                .min(Comparator.comparing(Finding::priority));
    }

    /** The most urgent of what is found. */
    private Optional<Finding> worst() {
        return findings.stream().min(Comparator.comparing(Finding::priority));
    }
}
