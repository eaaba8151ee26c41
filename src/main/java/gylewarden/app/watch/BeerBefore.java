package gylewarden.app.watch;

import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Optional;
import java.util.function.BiFunction;

/** What the record has of a chamber's beer so long ago; may wait for the disk. */
public interface BeerBefore extends BiFunction<String, Duration, Optional<Temperature>> {}
