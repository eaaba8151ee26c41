package gylewarden.schedule;

import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;

/** One step of a schedule. Its ranges are checked by {@link Schedule}, all of them at once. */
public sealed interface Step {
    Kind kind();

    /** Where the setpoint is at the end of the step. */
    Temperature target();

    Terms terms();

    /** As the brewer wrote it; absent where none was written. */
    Optional<Duration> duration();

    /** Whether the setpoint goes along a line that begins at the setpoint before. */
    boolean startsFromBefore();

    /** Whether time counts only after arrival and within the tolerance; else elapsed time counts. */
    boolean countsOnlyNearTarget();

    /** How long the setpoint is on its way from {@code from} to the target; zero where it is there at once. */
    Duration line(Temperature from);

    /** As {@link #line(Temperature)}, for a line that is drawn only when so much of the step has passed. */
    default Duration line(Temperature from, Duration passed) {
        return line(from);
    }

    <T> T fold(Function<Hold, T> hold, Function<Ramp, T> ramp, Function<Rest, T> rest, Function<Crash, T> crash);

    /** The kinds as a schedule's file names them. */
    enum Kind {
        HOLD,
        RISE,
        FALL,
        REST,
        CRASH;

        /** The word in a schedule's file. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** The setpoint is at the target at once, and elapsed time counts whatever the beer does. */
    record Hold(Temperature target, Optional<Duration> duration, Terms terms) implements Step {
        @Override
        public Kind kind() {
            return Kind.HOLD;
        }

        @Override
        public boolean startsFromBefore() {
            return false;
        }

        @Override
        public boolean countsOnlyNearTarget() {
            return false;
        }

        @Override
        public Duration line(Temperature from) {
            return Duration.ZERO;
        }

        @Override
        public <T> T fold(
                Function<Hold, T> hold, Function<Ramp, T> ramp, Function<Rest, T> rest, Function<Crash, T> crash) {
            return hold.apply(this);
        }
    }

    /** The setpoint goes in a straight line from the setpoint before to the target, up or down under either name. */
    record Ramp(Name name, Temperature target, Pace pace, Terms terms) implements Step {
        /** Which of the two words the brewer wrote; both mean the same. */
        public enum Name {
            RISE,
            FALL
        }

        @Override
        public Kind kind() {
            return name == Name.RISE ? Kind.RISE : Kind.FALL;
        }

        @Override
        public Optional<Duration> duration() {
            return pace.fold(Optional::of, perDay -> Optional.empty());
        }

        @Override
        public boolean startsFromBefore() {
            return true;
        }

        @Override
        public boolean countsOnlyNearTarget() {
            return false;
        }

        @Override
        public Duration line(Temperature from) {
            return pace.fold(
                    duration -> duration, perDay -> Lines.of(from, target, perDay, Lines.NANOSECONDS_OF_A_DAY));
        }

        /** By a duration, that of the whole step: what has passed of it is gone. */
        @Override
        public Duration line(Temperature from, Duration passed) {
            return pace.fold(
                    duration -> duration.compareTo(passed) > 0 ? duration.minus(passed) : Duration.ZERO,
                    perDay -> line(from));
        }

        @Override
        public <T> T fold(
                Function<Hold, T> hold, Function<Ramp, T> ramp, Function<Rest, T> rest, Function<Crash, T> crash) {
            return ramp.apply(this);
        }
    }

    /**
     * The setpoint is at the target at once; the duration counts after arrival, within the tolerance. Without a duration it
     * is over on arrival, or where it has conditions when one of them is met.
     */
    record Rest(Temperature target, Optional<Duration> duration, Terms terms) implements Step {
        @Override
        public Kind kind() {
            return Kind.REST;
        }

        @Override
        public boolean startsFromBefore() {
            return false;
        }

        @Override
        public boolean countsOnlyNearTarget() {
            return true;
        }

        @Override
        public Duration line(Temperature from) {
            return Duration.ZERO;
        }

        @Override
        public <T> T fold(
                Function<Hold, T> hold, Function<Ramp, T> ramp, Function<Rest, T> rest, Function<Crash, T> crash) {
            return rest.apply(this);
        }
    }

    /**
     * A cold crash: counts like a rest.
     *
     * @param kelvinPerHour how fast the setpoint goes to the target; at once if absent
     */
    record Crash(Temperature target, Optional<Double> kelvinPerHour, Optional<Duration> duration, Terms terms)
            implements Step {
        @Override
        public Kind kind() {
            return Kind.CRASH;
        }

        @Override
        public boolean startsFromBefore() {
            return kelvinPerHour.isPresent();
        }

        @Override
        public boolean countsOnlyNearTarget() {
            return true;
        }

        @Override
        public Duration line(Temperature from) {
            if (kelvinPerHour.isEmpty()) return Duration.ZERO;
            return Lines.of(from, target, kelvinPerHour.get(), Lines.NANOSECONDS_OF_AN_HOUR);
        }

        @Override
        public <T> T fold(
                Function<Hold, T> hold, Function<Ramp, T> ramp, Function<Rest, T> rest, Function<Crash, T> crash) {
            return crash.apply(this);
        }
    }
}
