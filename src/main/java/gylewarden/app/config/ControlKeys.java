package gylewarden.app.config;

import gylewarden.control.Allowed;
import gylewarden.control.Rules;
import gylewarden.control.Rules.Blind;
import gylewarden.control.Rules.CoolingBy;
import gylewarden.control.Rules.Fitted;
import gylewarden.control.Rules.Limits;
import gylewarden.control.Rules.Timing;
import gylewarden.control.Rules.Vessel;
import gylewarden.units.Range;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;

/** The keys of a chamber that set its control; in the config, and in the control file of a simulation. */
final class ControlKeys {
    /** Mean something only where cooling is fitted. */
    static final List<String> OF_COOLING =
            List.of("cooling_by", "min_off", "min_on", "max_run", "own_delay", "cooling_watts", "blind_cooling");

    /** Mean something only where heating is fitted. */
    static final List<String> OF_HEATING = List.of("heating_watts", "heating_duty");

    private ControlKeys() {}

    /** How a chamber cools; a compressor unless it is said otherwise, for that is the one that can be harmed. */
    static CoolingBy coolingBy(Table table) {
        return table.oneOf("cooling_by", List.of("compressor", "valve"))
                .filter("valve"::equals)
                .map(valve -> CoolingBy.VALVE)
                .orElse(CoolingBy.COMPRESSOR);
    }

    /** Every key has its default if it is not set; of a table with mistakes the outcome is not to be used. */
    static Rules read(Table table, Fitted fitted, CoolingBy coolingBy) {
        controller(table);
        Blind blind = table.flag("blind_cooling").orElse(false) ? Blind.REPEATS_COOLING_DUTY : Blind.STAYS_OFF;
        return new Rules(
                fitted,
                timing(table, coolingBy),
                table.difference("hysteresis", Allowed.HYSTERESIS, Rules.DEFAULT_HYSTERESIS)
                        .orElse(Rules.DEFAULT_HYSTERESIS),
                limits(table),
                new Vessel(
                        table.number("volume_litres", Allowed.LITRES),
                        table.number("cooling_watts", Allowed.WATTS),
                        table.number("heating_watts", Allowed.WATTS)),
                blind);
    }

    private static void controller(Table table) {
        table.text("controller").filter(word -> !word.equals("thermostat")).ifPresent(word -> {
            String problem = word.equals("learning") ? "\"learning\" is not in this version; " : "";
            table.mistake("controller", problem + "allowed is \"thermostat\"");
        });
    }

    private static Timing timing(Table table, CoolingBy coolingBy) {
        boolean compressor = coolingBy == CoolingBy.COMPRESSOR;
        Timing defaults = Timing.defaults();
        Duration ownDelay = time(table, "own_delay", Allowed.OWN_DELAY, defaults.ownDelay(), Duration.ofMinutes(3));
        Duration shortest = ownDelay.isZero() ? Duration.ZERO : ownDelay.plus(Allowed.RUN_AFTER_OWN_DELAY);
        Duration minimumOn = time(
                table,
                "min_on",
                compressor ? Allowed.COMPRESSOR_MINIMUM_ON : Allowed.VALVE_MINIMUM,
                longer(defaults.minimumOn(), shortest),
                defaults.minimumOn());
        if (minimumOn.compareTo(shortest) < 0)
            table.mistake(
                    "min_on",
                    "with own_delay = " + Quantity.written(ownDelay) + " at least " + Quantity.written(shortest)
                            + ", or the compressor hardly runs");
        return new Timing(
                time(
                        table,
                        "min_off",
                        compressor ? Allowed.COMPRESSOR_MINIMUM_OFF : Allowed.VALVE_MINIMUM,
                        defaults.minimumOff(),
                        defaults.minimumOff()),
                minimumOn,
                time(table, "changeover", Allowed.CHANGE_OVER, defaults.changeOver(), defaults.changeOver()),
                time(table, "max_run", Allowed.LONGEST_RUN, defaults.longestRun(), defaults.longestRun()),
                ownDelay,
                table.number("heating_duty", Allowed.HEATING_DUTY).orElse(defaults.heatingDuty()));
    }

    private static Duration time(
            Table table, String key, Range<Duration> allowed, Duration otherwise, Duration example) {
        return table.time(key, allowed, example).orElse(otherwise);
    }

    private static Duration longer(Duration one, Duration other) {
        return one.compareTo(other) >= 0 ? one : other;
    }

    private static Limits limits(Table table) {
        Limits defaults = Limits.defaults();
        Limits limits = new Limits(
                limit(table, "air_min", Allowed.AIR_MIN, defaults.airMin()),
                limit(table, "air_max", Allowed.AIR_MAX, defaults.airMax()),
                limit(table, "beer_min", Allowed.BEER_MIN, defaults.beerMin()),
                limit(table, "beer_max", Allowed.BEER_MAX, defaults.beerMax()));
        if (Allowed.BETWEEN_AIR_LIMITS.isMoreThan(limits.airMax().minus(limits.airMin())))
            table.mistake(
                    table.has("air_min") ? "air_min" : "air_max",
                    "air_min (" + Quantity.written(limits.airMin()) + ") must be at least "
                            + Quantity.written(Allowed.BETWEEN_AIR_LIMITS) + " below air_max ("
                            + Quantity.written(limits.airMax()) + ")");
        if (!limits.beerMin().isBelow(limits.beerMax()))
            table.mistake(
                    table.has("beer_min") ? "beer_min" : "beer_max",
                    "beer_min (" + Quantity.written(limits.beerMin()) + ") must be below beer_max ("
                            + Quantity.written(limits.beerMax()) + ")");
        return limits;
    }

    private static Temperature limit(Table table, String key, Range<Temperature> allowed, Temperature otherwise) {
        return table.temperature(key, allowed, otherwise).orElse(otherwise);
    }
}
