package gylewarden.web;

import java.time.Instant;
import java.time.temporal.ChronoUnit;

/** Times as the API writes them: ISO 8601 in UTC, whole seconds. */
final class Times {
    private Times() {}

    static String text(Instant moment) {
        return moment.truncatedTo(ChronoUnit.SECONDS).toString();
    }
}
