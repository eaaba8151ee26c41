package gylewarden.journal;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Change;
import gylewarden.alarm.Rule;
import gylewarden.alarm.Sight;
import gylewarden.batch.Batch;
import gylewarden.control.Condition.Priority;
import gylewarden.schedule.ClockReading;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Puts an alarm into the words of a message, so that somebody who is far away, or a neighbour who was only asked to look, knows
 * what to do.
 *
 * @param zone in which dates are told
 */
public record AlarmWords(Scale scale, ZoneId zone) {
    /** Further ahead a straight line through half an hour says nothing. */
    private static final Duration FORESEEN = Duration.ofHours(24);
    /** A slower pace is the probe's, in K/h. */
    private static final Kelvins STANDS_STILL = new Kelvins(0.1);

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT);

    /**
     * The chamber that an alarm is about, as it is now.
     *
     * @param name as people call it
     * @param beerPerHour how fast the beer moves; absent while that can't be said
     */
    public record Scene(String name, ChamberStatus status, Sight sight, Optional<Kelvins> beerPerHour) {}

    /**
     * When an alarm was raised.
     *
     * @param date as far as it is known
     * @param afterBoot how long after the board's start, while that is all that is known; absent where the date is
     */
    public record Began(Duration ago, Instant date, Optional<Duration> afterBoot) {
        /** By the wall clock, which was trusted then. */
        public static Began dated(Alarm alarm, Instant now) {
            return new Began(Duration.between(alarm.raised(), now), alarm.raised(), Optional.empty());
        }

        /** So long ago by the monotonic clock, for the wall clock was not to be trusted then. */
        public static Began counted(Duration ago, ClockReading now) {
            Duration afterBoot = now.sinceBoot().minus(ago);
            return new Began(
                    ago,
                    now.wall().minus(ago),
                    now.wallIsBelieved()
                            ? Optional.empty()
                            : Optional.of(afterBoot.isNegative() ? Duration.ZERO : afterBoot));
        }
    }

    /** Where it stands, for a page. */
    public String ofState(Alarm alarm) {
        if (alarm.quietUntil().isPresent())
            return "quiet until " + date(alarm.quietUntil().get());
        return switch (alarm.state()) {
            case UNACKNOWLEDGED -> alarm.returned().isPresent() ? "over, needs you" : "needs you";
            case ACKNOWLEDGED -> "seen";
            case RETURNED_UNACKNOWLEDGED -> "over, not seen yet";
            case LATCHED_RETURNED -> "over, waits until you say that it is mended";
            case NORMAL -> "over";
        };
    }

    /** How soon a person must act. */
    public static String of(Priority priority) {
        return switch (priority) {
            case HIGH -> "Urgent";
            case MIDDLE -> "Soon";
            case LOW -> "When you have time";
        };
    }

    /** One line. */
    public String subject(Change change, Letter.Kind kind, Optional<Scene> scene) {
        Alarm alarm = change.alarm();
        return before(change, kind) + place(scene) + ": "
                + AlarmAdvice.name(alarm.key().rule()) + part(alarm);
    }

    private static String part(Alarm alarm) {
        return alarm.key().part().map(part -> " (" + part + ")").orElse("");
    }

    private static String before(Change change, Letter.Kind kind) {
        String urgency = of(change.alarm().priority()) + ": ";
        return switch (kind) {
            case OVER -> "Over: ";
            case SEEN -> "Seen: ";
            case REMINDER -> "Nobody has seen it yet. " + urgency;
            case ALARM, SUMMARY, ALL_IS_WELL, TEST ->
                switch (change.what()) {
                    case WORSE -> "Worse. " + urgency;
                    case RAISED_AGAIN -> "Again. " + urgency;
                    case QUIET_OVER -> "Still so. " + urgency;
                    case RAISED, SEEN, RETURNED, MADE_QUIET, RESET, OUT_OF_SERVICE, SUPERSEDED -> urgency;
                };
        };
    }

    private static String place(Optional<Scene> scene) {
        return scene.map(Scene::name).orElse("Controller");
    }

    /** Plain text of some lines. */
    public String text(Change change, Letter.Kind kind, Optional<Scene> scene, Began began) {
        List<String> lines = new ArrayList<>();
        Alarm alarm = change.alarm();
        lines.add(place(scene)
                + scene.flatMap(AlarmWords::batch).map(name -> ", " + name).orElse("") + ".");
        if (kind == Letter.Kind.OVER) {
            lines.add("It is over, after " + Spans.words(began.ago()) + ": "
                    + AlarmAdvice.name(alarm.key().rule()) + part(alarm) + ".");
            if (alarm.state() == Alarm.State.LATCHED_RETURNED)
                lines.add("It waits until a person says that it is mended.");
        } else lines.add(scale.rephrase(alarm.sentence()));
        if (kind != Letter.Kind.OVER) lines.add(since(alarm, began));
        if (kind == Letter.Kind.SEEN) alarm.seen().ifPresent(seen -> lines.add("Seen by " + seen.by() + "."));
        scene.ifPresent(here -> lines.addAll(values(here)));
        if (kind == Letter.Kind.ALARM || kind == Letter.Kind.REMINDER) {
            scene.flatMap(this::harm).ifPresent(lines::add);
            lines.addAll(advice(alarm.key().rule()));
        }
        return String.join("\n", lines);
    }

    private String since(Alarm alarm, Began began) {
        boolean event = alarm.key().rule().kind() == Rule.Kind.EVENT;
        String when = began.afterBoot()
                .map(span -> Spans.words(span) + " after the board's start; it does not know the date yet.")
                .orElseGet(() -> date(began.date()) + ".");
        return (event ? began.afterBoot().isPresent() ? "Told " : "Told at " : "It rings since ") + when;
    }

    private static Optional<String> batch(Scene scene) {
        return scene.status().mandate().batch().map(Batch::name).filter(name -> !name.isBlank());
    }

    private List<String> values(Scene scene) {
        ChamberStatus status = scene.status();
        String air = status.readings()
                .air()
                .map(reading -> ", air " + words(reading.believed()))
                .orElse("");
        return List.of(
                "Beer " + words(status.readings().deciding().believed()) + ", target "
                        + status.mandate().setpoint().map(scale::words).orElse("none") + air + ".",
                new Sentences(scale).of(status));
    }

    private String words(Optional<Temperature> value) {
        return value.map(scale::words).orElse("not known");
    }

    /** What the beer's pace leads to, if it goes on so. */
    private Optional<String> harm(Scene scene) {
        Optional<Temperature> beer = scene.status().readings().deciding().believed();
        if (beer.isEmpty() || scene.beerPerHour().isEmpty()) return Optional.empty();
        Kelvins pace = scene.beerPerHour().get();
        if (pace.magnitude().compareTo(STANDS_STILL) < 0) return Optional.empty();
        Temperature lowest = scene.sight().limits().beerMin();
        boolean freezes = !scene.sight().freezing().isBelow(lowest);
        Temperature end = pace.value() > 0
                ? scene.sight().limits().beerMax()
                : freezes ? scene.sight().freezing() : lowest;
        double hours = end.minus(beer.get()).value() / pace.value();
        if (hours <= 0 || hours > FORESEEN.toHours()) return Optional.empty();
        String in = "in about " + Spans.words(Duration.ofMinutes(Math.max(5, Math.round(hours * 12) * 5)));
        String what = pace.value() > 0
                ? "is at its upper limit of " + scale.words(end)
                : freezes ? "begins to freeze, at " + scale.words(end) : "is at its lower limit of " + scale.words(end);
        return Optional.of("At the pace of the last half hour the beer " + what + ", " + in + ".");
    }

    private static List<String> advice(Rule rule) {
        String neighbour = AlarmAdvice.neighbour(rule);
        List<String> lines = new ArrayList<>();
        lines.add("Look first at: " + AlarmAdvice.lookFirst(rule) + ".");
        lines.add("A neighbour can do this: " + neighbour + ".");
        if (!neighbour.equals(AlarmAdvice.NOTHING)) lines.add(AlarmAdvice.CAUTION);
        return lines;
    }

    private String date(Instant moment) {
        return DATE.format(moment.atZone(zone));
    }
}
