package gylewarden.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.alarm.Alarm;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Scale;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** One message of the live stream, written once for each unit whatever the number of clients. */
final class LiveFrame {
    /** How soon a client that lost its connection comes back, ms. */
    static final LiveFrame RETRY = new LiveFrame("retry: 3000\n\n");

    static final LiveFrame KEEP_ALIVE = new LiveFrame(": still here\n\n");

    private final long number;
    private final byte[] celsius;
    private final byte[] fahrenheit;

    enum Name {
        STATUS,
        EVENT,
        ALARM;

        String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * Names a message.
     *
     * @param run of the daemon; numbers begin anew in each
     */
    record Id(String run, long number) {
        private static final Pattern WRITTEN = Pattern.compile("([0-9a-f]{8})-(\\d{1,15})");

        static Optional<Id> parse(String text) {
            Matcher parts = WRITTEN.matcher(text);
            return parts.matches()
                    ? Optional.of(new Id(parts.group(1), Long.parseLong(parts.group(2))))
                    : Optional.empty();
        }

        @Override
        public String toString() {
            return run + "-" + number;
        }
    }

    private LiveFrame(String same) {
        number = 0;
        celsius = same.getBytes(StandardCharsets.UTF_8);
        fahrenheit = celsius;
    }

    private LiveFrame(Name name, Id id, Function<Scale, ObjectNode> data) {
        number = id.number();
        celsius = text(name, id, data.apply(Scale.CELSIUS));
        fahrenheit = text(name, id, data.apply(Scale.FAHRENHEIT));
    }

    /** JSON has no line end in it, so one data line holds all of it. */
    private static byte[] text(Name name, Id id, ObjectNode data) {
        return ("id: " + id + "\nevent: " + name.word() + "\ndata: " + data + "\n\n").getBytes(StandardCharsets.UTF_8);
    }

    static LiveFrame status(House.Room room, House.Beside beside, ChamberStatus status, Id id) {
        return new LiveFrame(Name.STATUS, id, scale -> ChamberDocument.of(room, beside, status, scale));
    }

    static LiveFrame event(Told event, Id id) {
        return new LiveFrame(Name.EVENT, id, scale -> EventDocument.of(event, scale));
    }

    static LiveFrame alarm(Alarm alarm, Id id) {
        return new LiveFrame(Name.ALARM, id, scale -> AlarmDocument.of(alarm, scale));
    }

    /** What a change of is worth telling at once; temperatures drift and can wait. */
    static List<Object> substance(House.Beside beside, ChamberStatus status) {
        var readings = status.readings();
        var mandate = beside.mandate();
        return List.of(
                beside.saved(),
                beside.alarms(),
                beside.otherBatches(),
                mandate.revision(),
                mandate.batch().map(batch -> batch.id()),
                mandate.isPaused(),
                mandate.step(),
                mandate.course().map(course -> course.waitsForWord()),
                mandate.course().map(course -> course.standsStill()),
                status.decision().reason().kind(),
                status.guard().cooling().contact(),
                status.guard().heating().contact(),
                status.conditions(),
                status.clock().trusted(),
                readings.beer().believed().isPresent(),
                readings.secondBeer().map(reading -> reading.believed().isPresent()),
                readings.air().map(reading -> reading.believed().isPresent()),
                readings.room().map(reading -> reading.believed().isPresent()));
    }

    long number() {
        return number;
    }

    byte[] bytes(Scale scale) {
        return scale == Scale.FAHRENHEIT ? fahrenheit : celsius;
    }
}
