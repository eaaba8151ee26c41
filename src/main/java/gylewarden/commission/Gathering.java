package gylewarden.commission;

import gylewarden.control.Reading;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/** The readings of the minute that goes on; each is counted once, however often it is seen. */
record Gathering(Uptime began, Sum beer, Sum air) {
    static final Duration MINUTE = Duration.ofMinutes(1);

    static Gathering from(Uptime now) {
        return new Gathering(now, Sum.NOTHING, Sum.NOTHING);
    }

    Gathering with(Reading beerNow, Optional<Reading> airNow) {
        return new Gathering(began, beer.with(beerNow), airNow.isEmpty() ? air : air.with(airNow.get()));
    }

    boolean isWhole(Uptime now) {
        return !now.isBefore(began.plus(MINUTE));
    }

    Minute minute() {
        return new Minute(began.plus(MINUTE.dividedBy(2)), beer.mean(), air.mean());
    }

    /** @param last when the last reading was measured that has been counted */
    private record Sum(double celsius, int readings, Optional<Uptime> last) {
        static final Sum NOTHING = new Sum(0, 0, Optional.empty());

        Sum with(Reading reading) {
            return reading.fold(
                    believed -> last.isPresent() && !believed.at().isAfter(last.get())
                            ? this
                            : new Sum(
                                    celsius + believed.temperature().celsius(),
                                    readings + 1,
                                    Optional.of(believed.at())),
                    doubted -> this);
        }

        Optional<Temperature> mean() {
            return readings == 0 ? Optional.empty() : Optional.of(new Temperature(celsius / readings));
        }
    }
}
