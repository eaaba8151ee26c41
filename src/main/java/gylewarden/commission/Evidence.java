package gylewarden.commission;

import gylewarden.commission.Response.Point;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What the minutes around one run say about it.
 *
 * @param air absent without an air probe, or with too few readings
 */
record Evidence(Run run, Optional<Response> beer, Optional<Response> air, List<Minute> minutes) {
    /** Air moves by kelvins within minutes; half of that is far from its noise. */
    private static final double LEAST_AIR_KELVINS = 0.3;
    /** A vessel is slow: two steps of a 1-Wire probe. */
    private static final double LEAST_BEER_KELVINS = 0.12;
    /** An F statistic that chance does not reach in a house's lifetime, and the bend of a room hardly. */
    private static final double LEAST_TIMES = 80;
    /** A large answer is no chance even where the curve of one lag fits it badly. */
    private static final double LARGE_KELVINS = 1.5;

    private static final double LEAST_TIMES_OF_LARGE = 15;
    /** No small answer of the air begins so long after the relay: it is the room's. The beer's may, if it is very clear. */
    private static final double LATE_MINUTES = 3;

    private static final double LEAST_TIMES_OF_LATE = 150;

    private static final double ONSET_KELVINS = 2;
    private static final double LEAST_ONSET_KELVINS = 0.8;
    private static final int LEAST_BEFORE = 11;
    private static final Duration BEFORE = Duration.ofMinutes(3);

    static Evidence of(Run run, List<Minute> all, Duration around) {
        Uptime from = run.on().minus(around);
        Uptime to = run.off().plus(around);
        List<Minute> minutes = all.stream()
                .filter(minute ->
                        !minute.middle().isBefore(from) && !minute.middle().isAfter(to))
                .toList();
        return new Evidence(run, response(run, minutes, Place.BEER), response(run, minutes, Place.AIR), minutes);
    }

    private static Optional<Response> response(Run run, List<Minute> minutes, Place place) {
        List<Point> points = new ArrayList<>();
        for (Minute minute : minutes)
            minute.at(place)
                    .ifPresent(value ->
                            points.add(new Point(minute.middle().secondsSince(run.on()) / 60, value.celsius())));
        return Response.of(points, run.length().toSeconds() / 60.0);
    }

    Optional<Response> at(Place place) {
        return place == Place.BEER ? beer : air;
    }

    /** What the run did; empty if nothing that could not be chance. */
    Optional<Effect> effect() {
        return run.first().or(this::fitted);
    }

    private Optional<Effect> fitted() {
        if (isHasty()) return risen();
        Optional<Effect> atAir = clear(Place.AIR, LEAST_AIR_KELVINS);
        Optional<Effect> atBeer = clear(Place.BEER, LEAST_BEER_KELVINS);
        if (atAir.isEmpty() || atBeer.isEmpty()) return atAir.or(() -> atBeer);
        double airTimes = Math.abs(atAir.get().by().value()) / LEAST_AIR_KELVINS;
        double beerTimes = Math.abs(atBeer.get().by().value()) / LEAST_BEER_KELVINS;
        return airTimes >= beerTimes ? atAir : atBeer;
    }

    /** Whether there was no time to see what the chamber does by itself. */
    boolean isHasty() {
        long before = minutes.stream()
                .filter(minute -> minute.middle().isBefore(run.on()))
                .count();
        return before < LEAST_BEFORE;
    }

    /** The air was falling fast: that it now rises is the only effect that can be told. */
    private Optional<Effect> risen() {
        double lowest = Double.MAX_VALUE;
        Kelvins rise = Kelvins.ZERO;
        for (Minute minute : minutes) {
            boolean running =
                    minute.middle().isAfter(run.on()) && minute.middle().isBefore(run.off());
            if (!running || minute.air().isEmpty()) continue;
            double celsius = minute.air().get().celsius();
            lowest = Math.min(lowest, celsius);
            rise = new Kelvins(celsius - lowest);
        }
        return rise.value() > LARGE_KELVINS ? Optional.of(new Effect(rise, Place.AIR)) : Optional.empty();
    }

    private Optional<Effect> clear(Place place, double least) {
        return at(place)
                .filter(found -> isClear(found, place, least))
                .map(found -> new Effect(new Kelvins(found.kelvins()), place));
    }

    private static boolean isClear(Response found, Place place, double least) {
        double size = Math.abs(found.kelvins());
        if (size >= LARGE_KELVINS) return found.times() >= LEAST_TIMES_OF_LARGE;
        boolean late = found.delayMinutes() > LATE_MINUTES;
        if (late && place == Place.AIR) return false;
        return size >= least && found.times() >= (late ? LEAST_TIMES_OF_LATE : LEAST_TIMES);
    }

    /** How fast the beer moved in the minutes before a moment, in K/h; empty with too few readings. */
    Optional<Double> beerKelvinsPerHour(Uptime until, Duration span) {
        double n = 0;
        double x = 0;
        double y = 0;
        double xx = 0;
        double xy = 0;
        for (Minute minute : minutes) {
            boolean within = minute.middle().isBefore(until) && !minute.middle().isBefore(until.minus(span));
            if (!within || minute.beer().isEmpty()) continue;
            double hours = minute.middle().secondsSince(until) / 3600;
            double celsius = minute.beer().get().celsius();
            n++;
            x += hours;
            y += celsius;
            xx += hours * hours;
            xy += hours * celsius;
        }
        if (n < LEAST_BEFORE) return Optional.empty();
        return Optional.of((n * xy - x * y) / (n * xx - x * x));
    }

    /** How far any probe went while it ran, in K, without a sign. */
    double size() {
        return Math.max(swing(Place.BEER).orElse(0.0), swing(Place.AIR).orElse(0.0));
    }

    /** How many times farther the beer probe went than the air probe, the rests included; empty without both. */
    Optional<Double> beerToAir() {
        return range(Place.BEER).flatMap(one -> range(Place.AIR).map(other -> one / Math.max(0.05, other)));
    }

    private Optional<Double> range(Place place) {
        DoubleSummaryStatistics all = minutes.stream()
                .flatMap(minute -> minute.at(place).stream())
                .mapToDouble(Temperature::celsius)
                .summaryStatistics();
        return all.getCount() == 0 ? Optional.empty() : Optional.of(all.getMax() - all.getMin());
    }

    /** How far a probe went while it ran, from where it was before, in K, without a sign. */
    private Optional<Double> swing(Place place) {
        Optional<Double> before = before(place);
        double most = -1;
        for (Minute minute : minutes) {
            boolean running = minute.middle().isAfter(run.on())
                    && minute.middle().isBefore(run.off().plus(BEFORE));
            if (!running || minute.at(place).isEmpty() || before.isEmpty()) continue;
            most = Math.max(most, Math.abs(minute.at(place).get().celsius() - before.get()));
        }
        return most < 0 ? Optional.empty() : Optional.of(most);
    }

    /** Where a probe was just before the relay, in °C. */
    private Optional<Double> before(Place place) {
        OptionalDouble mean = minutes.stream()
                .filter(minute -> minute.middle().isBefore(run.on())
                        && !minute.middle().isBefore(run.on().minus(BEFORE)))
                .flatMap(minute -> minute.at(place).stream())
                .mapToDouble(Temperature::celsius)
                .average();
        return mean.isPresent() ? Optional.of(mean.getAsDouble()) : Optional.empty();
    }

    /** How far the air stands above the beer in the minutes before a moment, in K. */
    Optional<Double> airAboveBeer(Uptime until, Duration span) {
        double sum = 0;
        int count = 0;
        for (Minute minute : minutes) {
            boolean within = minute.middle().isBefore(until) && !minute.middle().isBefore(until.minus(span));
            if (!within || minute.air().isEmpty() || minute.beer().isEmpty()) continue;
            sum += minute.air().get().minus(minute.beer().get()).value();
            count++;
        }
        return count == 0 ? Optional.empty() : Optional.of(sum / count);
    }

    /**
     * How long after the relay the air began to fall, 0 or more; empty if it did not fall far enough to tell. An air that
     * follows an evaporator begins as the square of the time, so a quarter of a fall takes half of its time.
     */
    Optional<Duration> onset() {
        double fall = swing(Place.AIR).orElse(0.0);
        double whole = Math.min(ONSET_KELVINS, fall / 2);
        if (whole < LEAST_ONSET_KELVINS) return Optional.empty();
        Optional<Double> quarter = fallenAfterMinutes(whole / 4);
        Optional<Double> all = fallenAfterMinutes(whole);
        if (quarter.isEmpty() || all.isEmpty()) return Optional.empty();
        double minutesLater = Math.max(0, 2 * quarter.get() - all.get());
        return Optional.of(Duration.ofSeconds(Math.round(60 * minutesLater)));
    }

    /** Minutes from the relay to where the air has fallen so far, between two means of a minute in a straight line. */
    private Optional<Double> fallenAfterMinutes(double kelvins) {
        double before = before(Place.AIR).orElseThrow();
        double lastMinutes = 0;
        double lastFall = 0;
        for (Minute minute : minutes) {
            if (minute.middle().isBefore(run.on()) || minute.air().isEmpty()) continue;
            double at = minute.middle().secondsSince(run.on()) / 60;
            double fall = before - minute.air().get().celsius();
            if (fall >= kelvins) {
                double share = fall == lastFall ? 0 : (kelvins - lastFall) / (fall - lastFall);
                return Optional.of(lastMinutes + share * (at - lastMinutes));
            }
            lastMinutes = at;
            lastFall = fall;
        }
        return Optional.empty();
    }

    /** How far the air stands above the beer in the last minute, in K. */
    Optional<Double> airAboveBeerAtEnd() {
        return minutes.isEmpty()
                ? Optional.empty()
                : airAboveBeer(minutes.get(minutes.size() - 1).middle().plus(Gathering.MINUTE), Gathering.MINUTE);
    }

    /** The coldest minute of the air while it ran, from which it then rose by more than {@code least} while it still ran. */
    Optional<Minute> turned(Kelvins least) {
        Optional<Minute> coldest = Optional.empty();
        for (Minute minute : minutes) {
            boolean running =
                    minute.middle().isAfter(run.on()) && minute.middle().isBefore(run.off());
            if (!running || minute.air().isEmpty()) continue;
            Temperature now = minute.air().get();
            Optional<Temperature> lowest = coldest.flatMap(Minute::air);
            if (lowest.isEmpty() || now.isBelow(lowest.get())) coldest = Optional.of(minute);
            else if (now.minus(lowest.get()).isMoreThan(least)) return coldest;
        }
        return Optional.empty();
    }
}
