package gylewarden.journal;

import gylewarden.alarm.BoardSight;
import gylewarden.alarm.Key;
import gylewarden.alarm.Rule;
import gylewarden.alarm.Sight;
import gylewarden.alarm.Wording;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.util.Locale;
import java.util.Optional;

/** Says what is the matter, with the values of the moment. */
public record AlarmMatters(Scale scale) implements Wording {
    @Override
    public String matter(Rule rule, Sight sight) {
        return switch (rule) {
            case ONLY_PROBE_LOST ->
                "The beer's temperature is not known, and nothing keeps it at its target. " + doubt(sight);
            case BEER_PROBE_DOUBTED -> "The beer probe is not believed, and another stands in. " + doubt(sight);
            case OTHER_PROBE_DOUBTED -> "A probe beside the beer is not believed.";
            case NEAR_FREEZING ->
                "The beer is near to freezing" + is(sight.beer()) + "; it freezes at " + scale.words(sight.freezing())
                        + ".";
            case BEER_BEYOND_LIMIT -> beyondLimit(sight);
            case AIR_ABOVE_CEILING ->
                "The air in the chamber is too hot" + is(sight.air()) + "; its ceiling is "
                        + scale.words(sight.limits().airMax()) + ".";
            case HEATING_WITHOUT_EFFECT ->
                "Heating was energised for long and nothing got warmer; it stays off until a"
                        + " person says that it is mended.";
            case COOLING_WITHOUT_EFFECT ->
                "Cooling was energised for long and nothing got colder; it is tried for 20 min an hour.";
            case HEATER_MAY_BE_WELDED ->
                "The air stays warm long after heating was released: the contact of its relay may be welded.";
            case COOLING_MAY_BE_WELDED ->
                "The air stays cold long after cooling was released: the contact of its relay may be welded.";
            case BOTH_SIDES_BUSY ->
                "Cooling and heating both work much more than in the days before, as if against each other.";
            case NOT_ARRIVING -> "The beer does not get nearer to its target" + target(sight) + ".";
            case RELAY_NOT_WRITABLE -> "A relay can't be written. It is taken as energised, whatever it really does.";
            case RESTARTS_REPEAT -> "The daemon has restarted five times within an hour, and waits between its starts.";
            case PLAN_LOST ->
                "What this chamber was asked to do can't be read any more: everything is off until somebody says anew.";
            case DRIFT -> drift(sight);
            case POWER_WAS_AWAY -> powerWasAway(sight);
            case STEP_WAITS ->
                sight.waits()
                        .filter(waits -> waits == Sight.WaitsFor.PITCH)
                        .map(pitch ->
                                "Nobody has said for long that the yeast is pitched; the wort is held at its pitching"
                                        + " temperature.")
                        .orElse("A step of the schedule is done and waits for a person's word; its target is held.");
            case STARTS_TOO_OFTEN -> "The compressor has started as often as it may within an hour.";
            case RUNS_TOO_LONG -> "The compressor ran so long without a break that it now rests, so that ice can go.";
            case ROOM_TOO_COLD -> "The room is too cold for the compressor, which stays off.";
            case DATA_FOLDER_AWAY,
                    RECORD_BROKEN,
                    RESTARTED,
                    CLOCK_NOT_TRUSTED,
                    BROKER_AWAY,
                    CHANNEL_FAILING,
                    DISK_FILLING,
                    BACKUP_FAILING -> throw new IllegalArgumentException(rule + " is not about a chamber");
        };
    }

    @Override
    public String matter(Key key, BoardSight board) {
        return switch (key.rule()) {
            case DATA_FOLDER_AWAY ->
                "The data folder is not where it was" + because(board.dataFolder())
                        + " What is asked and what is switched off is kept in memory, and is lost if the daemon restarts"
                        + " before the folder is back; the beer is kept as before.";
            case RECORD_BROKEN ->
                "The record can't be written" + because(board.record())
                        + " What is measured waits in memory; the beer is kept as before.";
            case RESTARTED -> "The daemon has started again without having been ended in order.";
            case CLOCK_NOT_TRUSTED -> "Nobody vouches for the board's clock, so dates may be wrong.";
            case BROKER_AWAY -> "The broker can't be reached" + because(board.broker());
            case CHANNEL_FAILING ->
                "Messages can't be sent by " + key.part().orElse("a channel")
                        + because(key.part()
                                .flatMap(part ->
                                        Optional.ofNullable(board.channels().get(part))));
            case BACKUP_FAILING -> "The backup that is due could not be made" + because(board.backup());
            case DISK_FILLING ->
                "The disk of the record is almost full: "
                        + board.freeMegabytes()
                                .map(free -> String.format(Locale.ROOT, "%d MB are free.", free))
                                .orElse("how much is free is not known.");
            default -> throw new IllegalArgumentException(key.rule() + " is not about the board");
        };
    }

    private static String because(Optional<String> why) {
        return why.map(words -> ": " + words + (words.endsWith(".") ? "" : ".")).orElse(".");
    }

    private static String doubt(Sight sight) {
        return sight.doubt()
                .map(doubt -> "The beer probe: " + Sentences.of(doubt)
                        + (Sentences.of(doubt).endsWith("?") ? "" : "."))
                .orElse("The beer probe is believed again.");
    }

    private String is(Optional<Temperature> value) {
        return value.map(temperature -> ", " + scale.words(temperature)).orElse("");
    }

    private String target(Sight sight) {
        return sight.setpoint().map(goal -> " of " + scale.words(goal)).orElse("")
                + sight.beer().map(beer -> "; it is at " + scale.words(beer)).orElse("");
    }

    private String beyondLimit(Sight sight) {
        if (sight.beer().isEmpty()) return "The beer was beyond its absolute limits when its probe was last believed.";
        Temperature beer = sight.beer().get();
        Kelvins above = beer.minus(sight.limits().beerMax());
        Kelvins below = sight.limits().beerMin().minus(beer);
        return above.isMoreThan(below)
                ? "The beer is too warm, " + scale.words(beer) + "; at most "
                        + scale.words(sight.limits().beerMax()) + " is allowed."
                : "The beer is too cold, " + scale.words(beer) + "; at least "
                        + scale.words(sight.limits().beerMin()) + " is asked for.";
    }

    private String drift(Sight sight) {
        Temperature beer = sight.beer().orElseThrow();
        Temperature goal = sight.setpoint().orElseThrow();
        Kelvins above = beer.minus(goal);
        return "The beer is " + scale.words(above) + (above.value() > 0 ? " too warm: " : " too cold: ")
                + scale.words(beer) + ", and it should be " + scale.words(goal) + ".";
    }

    private String powerWasAway(Sight sight) {
        Sight.PowerAway away = sight.powerAway().orElseThrow();
        String length = away.length()
                .map(span -> "Power was away for " + Spans.words(span) + ".")
                .orElse("Power was away, nobody knows for how long.");
        return length
                + away.before()
                        .map(beer -> " The beer was " + scale.words(beer) + " before")
                        .orElse("")
                + (away.before().isPresent()
                        ? sight.beer()
                                .map(beer -> ", and is " + scale.words(beer) + " now.")
                                .orElse(".")
                        : sight.beer()
                                .map(beer -> " The beer is " + scale.words(beer) + " now.")
                                .orElse(""));
    }
}
