package gylewarden.web;

import gylewarden.alarm.Alarm;
import gylewarden.control.Condition.Priority;
import gylewarden.control.Reading;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.web.House.Room;
import gylewarden.web.OpenMetrics.Kind;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What programs collect to draw and to compare. What is not known has no sample, never a number. */
final class Metrics {
    static final String ACCEPTED = "application/openmetrics-text";

    private static final double MILLIS = 1000;

    private final Wired wired;
    private final OpenMetrics text = new OpenMetrics();
    private final Map<Room, ChamberStatus> chambers = new LinkedHashMap<>();

    Metrics(Wired wired) {
        this.wired = wired;
        for (Room room : wired.house().rooms())
            wired.house().status(room.id()).ifPresent(status -> chambers.put(room, status));
    }

    Reply reply() {
        temperatures();
        relays();
        loops();
        alarms();
        channels();
        board();
        return Reply.bytes(200, OpenMetrics.TYPE, text.bytes());
    }

    private static Map<String, Reading> places(Room room, ChamberStatus status) {
        Map<String, Reading> places = new LinkedHashMap<>();
        places.put("beer", status.readings().beer());
        status.readings().secondBeer().ifPresent(reading -> places.put("second_beer", reading));
        status.readings().air().ifPresent(reading -> places.put("air", reading));
        status.readings().room().ifPresent(reading -> places.put("room", reading));
        for (int i = 0; i < status.readings().watched().size(); i++)
            places.put(
                    "probe " + room.watched().get(i),
                    status.readings().watched().get(i));
        return places;
    }

    private void temperatures() {
        text.family(
                "gylewarden_temperature_celsius", Kind.GAUGE, "celsius", "What a probe says, while it is believed.");
        chambers.forEach((room, status) -> places(room, status)
                .forEach((place, reading) -> reading.believed()
                        .ifPresent(
                                value -> text.sample(Figures.celsius(value), "chamber", room.id(), "place", place))));
        text.family("gylewarden_probe_believed", Kind.GAUGE, "Whether a probe is believed.");
        chambers.forEach((room, status) -> places(room, status)
                .forEach((place, reading) ->
                        text.sample(reading.believed().isPresent(), "chamber", room.id(), "place", place)));
        text.family("gylewarden_setpoint_celsius", Kind.GAUGE, "celsius", "What the chamber is asked to keep now.");
        chambers.forEach((room, status) -> status.mandate()
                .setpoint()
                .ifPresent(value -> text.sample(Figures.celsius(value), "chamber", room.id())));
    }

    private interface OfRelay {
        double value(House.Worked worked);
    }

    private void relays() {
        text.family("gylewarden_relay_energised", Kind.GAUGE, "Whether a relay must be taken to be energised.");
        chambers.forEach((room, status) -> {
            for (Side side : Side.values())
                if (status.fitted().has(side))
                    text.sample(status.guard().load(side).energised(), "chamber", room.id(), "side", Words.camel(side));
        });
        text.family(
                "gylewarden_relay_energised_seconds",
                Kind.COUNTER,
                "seconds",
                "How long a relay was energised, since the daemon started.");
        worked(worked -> worked.energised().toMillis() / MILLIS);
        text.family(
                "gylewarden_relay_starts", Kind.COUNTER, "How often a relay was energised, since the daemon started.");
        worked(House.Worked::starts);
    }

    private void worked(OfRelay number) {
        for (Room room : chambers.keySet())
            wired.house()
                    .worked(room.id())
                    .forEach((side, worked) ->
                            text.sample(number.value(worked), "chamber", room.id(), "side", Words.camel(side)));
    }

    private void loops() {
        List<String> late = wired.house().late();
        text.family("gylewarden_loop_late", Kind.GAUGE, "Whether a chamber's loop has not ticked for some seconds.");
        for (Room room : wired.house().rooms()) text.sample(late.contains(room.id()), "chamber", room.id());
        text.family(
                "gylewarden_last_tick_timestamp_seconds",
                Kind.GAUGE,
                "seconds",
                "When a chamber's loop last ticked, by the board's clock.");
        chambers.forEach(
                (room, status) -> text.sample(status.dated(status.at()).toEpochMilli() / MILLIS, "chamber", room.id()));
    }

    private void alarms() {
        List<Alarm> open = wired.bell().open();
        text.family("gylewarden_alarms", Kind.GAUGE, "Alarms that are not settled.");
        for (Priority priority : Priority.values())
            text.sample(count(open, priority, false), "priority", Words.camel(priority));
        text.family("gylewarden_alarms_unseen", Kind.GAUGE, "Those of them that nobody has seen, nor made quiet.");
        for (Priority priority : Priority.values())
            text.sample(count(open, priority, true), "priority", Words.camel(priority));
    }

    private static long count(List<Alarm> open, Priority priority, boolean unseen) {
        return open.stream()
                .filter(alarm -> alarm.priority() == priority)
                .filter(alarm -> !unseen || (alarm.seen().isEmpty() && !alarm.isQuiet()))
                .count();
    }

    private void channels() {
        List<Bell.Line> lines = wired.bell().channels();
        text.family("gylewarden_letters_waiting", Kind.GAUGE, "Messages that have not arrived.");
        for (Bell.Line line : lines) text.sample(line.waiting(), "channel", line.name());
        text.family("gylewarden_channel_failing", Kind.GAUGE, "Whether the last try to reach people has failed.");
        for (Bell.Line line : lines) text.sample(line.failing().isPresent(), "channel", line.name());
    }

    private void board() {
        Chronicle.State record = wired.chronicle().state();
        text.family("gylewarden_record_sound", Kind.GAUGE, "Whether the record can be written.")
                .sample(record.since().isEmpty());
        text.family("gylewarden_record_waiting_minutes", Kind.GAUGE, "minutes", "Measured, and not on disk yet.")
                .sample(record.waitingMinutes());
        text.family(
                        "gylewarden_record_dropped_minutes",
                        Kind.COUNTER,
                        "minutes",
                        "Measured, and lost for want of room.")
                .sample(record.droppedMinutes());
        text.family("gylewarden_clock_trusted", Kind.GAUGE, "Whether somebody vouches for the board's clock.")
                .sample(wired.house().clock().trusted());
        text.family("gylewarden_relays_off", Kind.GAUGE, "Whether a person has switched every relay off.")
                .sample(wired.house().relaysOff());
        Optional<String> version =
                Optional.ofNullable(Metrics.class.getPackage().getImplementationVersion());
        version.ifPresent(number -> text.family("gylewarden_release", Kind.GAUGE, "Which release runs.")
                .sample(1L, "version", number));
    }
}
