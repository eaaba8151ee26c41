package gylewarden.alarm;

import gylewarden.control.Condition;
import gylewarden.control.Doubt;
import gylewarden.control.Rules;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.EnumSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/** What the rules look at, with one thing after another out of order; each call gives another one. */
final class Seen implements Cloneable {
    static final String CHAMBER = "garage";

    private String chamber = CHAMBER;
    private Set<Condition> conditions = Set.of();
    private Optional<Temperature> beer = Optional.of(new Temperature(18));
    private Optional<Temperature> setpoint = Optional.of(new Temperature(18));
    private Optional<Temperature> air = Optional.of(new Temperature(17));
    private Rules.Fitted fitted = Rules.Fitted.both();
    private boolean paused;
    private Optional<Sight.WaitsFor> waits = Optional.empty();
    private Optional<Double> litres = Optional.empty();
    private Optional<Sight.PowerAway> powerAway = Optional.empty();
    private Optional<Uptime> restarted = Optional.empty();
    private Optional<String> dataFolder = Optional.empty();
    private Optional<String> record = Optional.empty();
    private Optional<Long> freeMegabytes = Optional.empty();
    private boolean clockTrusted = true;
    private Optional<String> broker = Optional.empty();
    private Map<String, String> channels = Map.of();
    private Optional<String> backup = Optional.empty();
    private Set<Rule> outOfService = Set.of();

    /** A chamber in which all is well, at its setpoint. */
    static Seen well() {
        return new Seen();
    }

    Sight sight() {
        return new Sight(
                chamber,
                conditions,
                beer,
                beer.isPresent() ? Optional.empty() : Optional.of(Doubt.SILENT),
                setpoint,
                air,
                fitted,
                paused,
                waits,
                Rules.Limits.defaults(),
                new Temperature(-2),
                litres,
                powerAway,
                outOfService);
    }

    BoardSight board() {
        return new BoardSight(
                restarted, dataFolder, record, freeMegabytes, clockTrusted, broker, channels, backup, outOfService);
    }

    private Seen but(Consumer<Seen> change) {
        try {
            Seen other = (Seen) clone();
            change.accept(other);
            return other;
        } catch (CloneNotSupportedException e) {
            throw new IllegalStateException(e);
        }
    }

    Seen of(String other) {
        return but(seen -> seen.chamber = other);
    }

    Seen with(Condition condition) {
        return but(seen -> {
            Set<Condition> all = EnumSet.of(condition);
            all.addAll(seen.conditions);
            seen.conditions = all;
        });
    }

    Seen beer(double celsius) {
        return but(seen -> seen.beer = Optional.of(new Temperature(celsius)));
    }

    Seen beerDoubted() {
        return but(seen -> seen.beer = Optional.empty());
    }

    Seen air(double celsius) {
        return but(seen -> seen.air = Optional.of(new Temperature(celsius)));
    }

    Seen setpoint(double celsius) {
        return but(seen -> seen.setpoint = Optional.of(new Temperature(celsius)));
    }

    Seen withoutSetpoint() {
        return but(seen -> seen.setpoint = Optional.empty());
    }

    Seen coolingOnly() {
        return but(seen -> seen.fitted = new Rules.Fitted(Rules.Fitted.both().cooling(), false, true));
    }

    Seen paused() {
        return but(seen -> seen.paused = true);
    }

    Seen litres(double volume) {
        return but(seen -> seen.litres = Optional.of(volume));
    }

    Seen waitsFor(Sight.WaitsFor what) {
        return but(seen -> seen.waits = Optional.of(what));
    }

    Seen freeMegabytes(long free) {
        return but(seen -> seen.freeMegabytes = Optional.of(free));
    }

    Seen failing(Map<String, String> failing) {
        return but(seen -> seen.channels = failing);
    }

    Seen without(Rule rule) {
        return but(seen -> seen.outOfService = Set.of(rule));
    }

    Seen powerAway(Sight.PowerAway away) {
        return but(seen -> seen.powerAway = Optional.of(away));
    }

    /** Out of order in just the way that the rule is about, by as little as is enough. */
    static Seen speaking(Rule rule, Uptime now) {
        if (rule.condition().isPresent()) return well().with(rule.condition().get());
        return switch (rule) {
            case DRIFT -> well().beer(19.0);
            case POWER_WAS_AWAY ->
                well().powerAway(new Sight.PowerAway(now, Optional.of(Duration.ofMinutes(40)), Optional.empty()));
            case STEP_WAITS -> well().waitsFor(Sight.WaitsFor.WORD);
            case DATA_FOLDER_AWAY -> well().but(seen -> seen.dataFolder = Optional.of("another stands there"));
            case RECORD_BROKEN -> well().but(seen -> seen.record = Optional.of("the disk is full"));
            case RESTARTED -> well().but(seen -> seen.restarted = Optional.of(now));
            case CLOCK_NOT_TRUSTED -> well().but(seen -> seen.clockTrusted = false);
            case BROKER_AWAY -> well().but(seen -> seen.broker = Optional.of("connection refused"));
            case CHANNEL_FAILING -> well().failing(Map.of("mail", "no answer"));
            case BACKUP_FAILING ->
                well().but(seen -> seen.backup = Optional.of("the folder /media/stick is not there"));
            case DISK_FILLING -> well().freeMegabytes(199);
            default -> throw new IllegalArgumentException("nobody knows how to make " + rule + " speak");
        };
    }
}
