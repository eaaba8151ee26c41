package gylewarden.journal;

import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.control.Contact;
import gylewarden.control.Decision;
import gylewarden.control.Doubt;
import gylewarden.control.Guard;
import gylewarden.control.Load;
import gylewarden.control.Reading;
import gylewarden.control.Readings;
import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Target;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.Schedules;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/** A chamber whose relays, readings and clocks are known to the test, told second by second to {@link Minutes}. */
final class MinuteLife {
    private static final Uptime START = Uptime.ofSeconds(5_000);

    private final List<Minute> ended = new ArrayList<>();
    private Minutes minutes = Minutes.none();
    private Uptime now = START;
    private Duration wallAhead = Duration.ZERO;
    private Optional<Uptime> coolingSince = Optional.empty();
    private Optional<Uptime> coolingEnded = Optional.empty();
    private Duration lastRun = Duration.ZERO;

    boolean trusted = true;
    Optional<UUID> batch = Optional.empty();
    Optional<Temperature> beer = Optional.of(new Temperature(18));
    Optional<Temperature> air = Optional.empty();
    List<Optional<Temperature>> watched = List.of();
    Temperature setpoint = new Temperature(18);

    /** @param wall what the wall clock says at the start */
    MinuteLife(Instant wall) {
        wallAhead = Duration.between(Instant.EPOCH, wall);
    }

    Uptime now() {
        return now;
    }

    Instant wall() {
        return Instant.EPOCH.plus(wallAhead).plus(now.since(START));
    }

    void pass(Duration time) {
        now = now.plus(time);
    }

    void stepClock(Duration by) {
        wallAhead = wallAhead.plus(by);
    }

    /** The cooling relay answers a moment after the status was read, as in life. */
    void energise() {
        coolingSince = Optional.of(now);
    }

    void release() {
        lastRun = now.since(coolingSince.orElseThrow());
        coolingEnded = Optional.of(now);
        coolingSince = Optional.empty();
    }

    boolean isEnergised() {
        return coolingSince.isPresent();
    }

    Duration run() {
        return now.since(coolingSince.orElseThrow());
    }

    void tell() {
        Minutes.Told told = minutes.after(status());
        minutes = told.minutes();
        ended.addAll(told.ended());
    }

    /** Everything told so far; the last minute is not over. */
    List<Minute> minutes() {
        var all = new ArrayList<>(ended);
        minutes.end().ifPresent(all::add);
        return all;
    }

    private ClockReading clock() {
        return new ClockReading("a boot", now.since(Uptime.ofSeconds(0)), wall(), trusted);
    }

    private ChamberStatus status() {
        var readings = new Readings(
                reading(beer),
                Optional.empty(),
                Optional.of(reading(air)),
                Optional.empty(),
                watched.stream().map(this::reading).toList());
        return new ChamberStatus(
                "garage",
                now,
                readings,
                Optional.of(Target.steady(setpoint)),
                Decision.off(new Reason.WithinHysteresis()),
                new Guard(cooling(), neverRan(), List.of(), Optional.empty()),
                Rules.Fitted.both(),
                Optional.empty(),
                Optional.empty(),
                mandate(),
                ElapsedClock.first(clock()),
                Set.of());
    }

    private Mandate mandate() {
        Optional<Batch> decides = batch.map(id -> Batch.planned(
                id,
                "Harvest ale",
                "garage",
                Schedules.schedule(Schedules.hold(18, Schedules.hours(24))),
                Optional.empty(),
                Optional.empty(),
                wall()));
        return new Mandate(0, Optional.of(setpoint), false, decides, Optional.empty(), Mandate.Limits.none());
    }

    private Reading reading(Optional<Temperature> temperature) {
        return temperature
                .<Reading>map(t -> new Reading.Believed(t, now))
                .orElseGet(() -> new Reading.Doubted(Doubt.SILENT, now, Optional.empty()));
    }

    private Load cooling() {
        Contact contact = isEnergised() ? Contact.ENERGISED : Contact.RELEASED;
        Uptime stopped = coolingEnded.orElse(START);
        return new Load(contact, coolingSince.orElse(stopped), stopped, coolingEnded, lastRun, true);
    }

    private static Load neverRan() {
        return new Load(Contact.RELEASED, START, START, Optional.empty(), Duration.ZERO, true);
    }
}
