package gylewarden.journal;

import gylewarden.alarm.Rule;

/** What each alarm is called, what to look at first, and what a neighbour can do who knows nothing of it. docs/alarms.md has it all. */
public final class AlarmAdvice {
    /** For whoever goes to look. */
    public static final String CAUTION =
            "Plugs only, with dry hands: never open anything that carries mains. If it smells burnt, smokes or is wet, touch"
                    + " nothing, switch off at the breaker if you can do so safely, and call for help. Leave the vessel"
                    + " closed, and keep your head out of the chamber: carbon dioxide gathers in it.";

    /** What there is for a neighbour to do, where there is nothing. */
    public static final String NOTHING = "nothing; the beer is kept as before";

    private AlarmAdvice() {}

    /** A few words, for a subject line or a list. */
    public static String name(Rule rule) {
        return switch (rule) {
            case ONLY_PROBE_LOST -> "beer temperature not known";
            case NEAR_FREEZING -> "beer near to freezing";
            case BEER_BEYOND_LIMIT -> "beer beyond its limits";
            case AIR_ABOVE_CEILING -> "chamber too hot";
            case HEATING_WITHOUT_EFFECT -> "heating without effect";
            case HEATER_MAY_BE_WELDED -> "heater may not switch off";
            case RESTARTS_REPEAT -> "the controller restarts again and again";
            case PLAN_LOST -> "beer not tended, plan lost";
            case DATA_FOLDER_AWAY -> "the data folder is away";
            case DRIFT -> "beer away from its target";
            case BEER_PROBE_DOUBTED -> "beer probe not believed";
            case COOLING_WITHOUT_EFFECT -> "cooling without effect";
            case COOLING_MAY_BE_WELDED -> "cooling may not switch off";
            case BOTH_SIDES_BUSY -> "cooling and heating work against each other";
            case NOT_ARRIVING -> "beer does not reach its target";
            case RELAY_NOT_WRITABLE -> "a relay does not answer";
            case POWER_WAS_AWAY -> "power was away";
            case RECORD_BROKEN -> "the record can't be written";
            case STEP_WAITS -> "a step waits for your word";
            case RESTARTED -> "the controller has restarted";
            case CLOCK_NOT_TRUSTED -> "the clock may be wrong";
            case BROKER_AWAY -> "broker not reached";
            case CHANNEL_FAILING -> "messages can't be sent";
            case DISK_FILLING -> "the disk is almost full";
            case BACKUP_FAILING -> "no backup is made";
            case OTHER_PROBE_DOUBTED -> "a probe not believed";
            case STARTS_TOO_OFTEN -> "the compressor starts too often";
            case RUNS_TOO_LONG -> "the compressor runs too long";
            case ROOM_TOO_COLD -> "the room is too cold for the compressor";
        };
    }

    /** For the owner. */
    public static String lookFirst(Rule rule) {
        return switch (rule) {
            case ONLY_PROBE_LOST, BEER_PROBE_DOUBTED ->
                "the probe's plug and cable, and whether it still sits in its place";
            case NEAR_FREEZING ->
                "ice in the vessel, whether cooling really is off, and whether the target is meant so";
            case BEER_BEYOND_LIMIT -> "the beer itself, with another thermometer";
            case AIR_ABOVE_CEILING -> "the heater; pull its plug if in doubt";
            case HEATING_WITHOUT_EFFECT -> "where the heater lies, its plug, its thermal cut-out, and the probe";
            case HEATER_MAY_BE_WELDED -> "whether the heater is warm although its relay is released; pull its plug";
            case RESTARTS_REPEAT -> "the log of the daemon, and the board's power supply";
            case PLAN_LOST ->
                "the beer; then set its target, or begin its batch anew and go on to the step that it was in";
            case DATA_FOLDER_AWAY ->
                "whether its disk is mounted, and what stands in its place; put it back before anything restarts the daemon";
            case DRIFT -> "the door, the plugs of cooler and heater, and the room";
            case COOLING_WITHOUT_EFFECT -> "the appliance's plug, its own thermostat, and ice on its evaporator";
            case COOLING_MAY_BE_WELDED -> "whether the appliance runs although its relay is released; pull its plug";
            case BOTH_SIDES_BUSY -> "a relay that does not let go, and the door";
            case NOT_ARRIVING -> "the door, and whether the room leaves the chamber a chance";
            case RELAY_NOT_WRITABLE ->
                "the relay's wires to the board, or its network; pull the plug of what it drives";
            case POWER_WAS_AWAY -> "the beer, and the breaker";
            case RECORD_BROKEN -> "the disk: is it full, or failing";
            case STEP_WAITS -> "the step's note";
            case RESTARTED -> "the end of the log before the start";
            case CLOCK_NOT_TRUSTED -> "the board's network, or say on the page that the time is right";
            case BROKER_AWAY -> "the network, and the broker's address and password in the config";
            case CHANNEL_FAILING -> "the reason above, and the channel's table in the config";
            case DISK_FILLING -> "what else fills the disk";
            case BACKUP_FAILING ->
                "whether the disk of the backups is plugged in, mounted, not full, and the daemon may write to it";
            case OTHER_PROBE_DOUBTED -> "its plug and cable";
            case STARTS_TOO_OFTEN -> "the door, and whether the hysteresis is too narrow";
            case RUNS_TOO_LONG -> "the door, ice on the evaporator, and whether the target is too low for this room";
            case ROOM_TOO_COLD -> "a window, and whether the room needs some heat";
        };
    }

    /** One thing, for somebody who was only asked to look. */
    public static String neighbour(Rule rule) {
        return switch (rule) {
            case ONLY_PROBE_LOST, BEER_PROBE_DOUBTED, OTHER_PROBE_DOUBTED ->
                "push the probe's plug in, and the probe back to where it belongs";
            case NEAR_FREEZING -> "pull the cooler's plug, and leave its door a hand's breadth open";
            case BEER_BEYOND_LIMIT ->
                "if the beer is too cold, pull the cooler's plug; if it is too warm, pull the heater's";
            case AIR_ABOVE_CEILING, HEATING_WITHOUT_EFFECT, HEATER_MAY_BE_WELDED, BOTH_SIDES_BUSY ->
                "pull the heater's plug, and leave it out";
            case COOLING_MAY_BE_WELDED -> "pull the cooler's plug, and leave it out";
            case RELAY_NOT_WRITABLE -> "pull the plugs of cooler and heater, and leave them out";
            case DRIFT, NOT_ARRIVING, STARTS_TOO_OFTEN, RUNS_TOO_LONG -> "shut the chamber's door";
            case PLAN_LOST -> "shut the chamber's door, and tell the owner that nobody tends the beer";
            case COOLING_WITHOUT_EFFECT -> "see that the cooler's plug is in and its door is shut";
            case POWER_WAS_AWAY -> "see whether there is light in the room; if not, look at the breaker";
            case RESTARTS_REPEAT, DATA_FOLDER_AWAY ->
                "see that the plug of the controller's power supply sits firmly, and leave it in";
            case ROOM_TOO_COLD -> "shut the window of that room";
            case RECORD_BROKEN,
                    STEP_WAITS,
                    RESTARTED,
                    CLOCK_NOT_TRUSTED,
                    BROKER_AWAY,
                    CHANNEL_FAILING,
                    DISK_FILLING,
                    BACKUP_FAILING -> NOTHING;
        };
    }
}
