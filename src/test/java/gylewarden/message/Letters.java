package gylewarden.message;

import gylewarden.control.Condition.Priority;
import gylewarden.journal.Letter;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/** Letters for tests. */
final class Letters {
    static final Instant MADE = Instant.parse("2026-01-10T22:30:00Z");
    static final UUID ALARM = UUID.fromString("6f1c4a1e-0000-4000-8000-000000000001");

    private Letters() {}

    static Letter high() {
        return letter("phone", Optional.of(ALARM), Priority.HIGH, MADE);
    }

    static Letter letter(String channel, Optional<UUID> alarm, Priority priority, Instant notBefore) {
        return new Letter(
                UUID.randomUUID(),
                alarm,
                channel,
                Letter.Kind.ALARM,
                priority,
                "Garage: beer at 24.1 °C, “warm”",
                "Garage, Pale No. 7.\nThe beer is at 24.1 °C, 5.1 °C above its setpoint.",
                MADE,
                notBefore,
                MADE.plus(Duration.ofDays(3)));
    }
}
