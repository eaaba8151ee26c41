package gylewarden.mqtt;

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
import gylewarden.journal.ChamberStatus;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Chambers to be announced. */
final class Chambers {
    private static final Uptime NOW = Uptime.ofSeconds(100_000);

    private Chambers() {}

    static Reading believed(double celsius) {
        return new Reading.Believed(new Temperature(celsius), NOW);
    }

    static Reading doubted() {
        return new Reading.Doubted(Doubt.SILENT, NOW, Optional.empty());
    }

    /** One beer probe, a compressor and nothing else; the setpoint is 18 °C. */
    static ChamberStatus simple(Reading beer) {
        return of(
                Readings.of(beer, Optional.empty()),
                new Rules.Fitted(Optional.of(Rules.CoolingBy.COMPRESSOR), false, false),
                Optional.of(new Temperature(18)),
                Contact.RELEASED,
                new Reason.WithinHysteresis());
    }

    static ChamberStatus of(
            Readings readings, Rules.Fitted fitted, Optional<Temperature> setpoint, Contact cooling, Reason reason) {
        return new ChamberStatus(
                "garage",
                NOW,
                readings,
                setpoint.map(Target::steady),
                Decision.off(reason),
                new Guard(load(cooling), load(Contact.RELEASED), List.of(), Optional.empty()),
                fitted,
                Optional.empty(),
                Optional.empty(),
                Mandate.nothing().under(setpoint),
                ElapsedClock.first(new ClockReading("boot", Duration.ofHours(1), Instant.EPOCH, true)),
                Set.of());
    }

    private static Load load(Contact contact) {
        Uptime since = NOW.minus(Duration.ofMinutes(4));
        return new Load(contact, since, since, Optional.empty(), Duration.ZERO, true);
    }
}
