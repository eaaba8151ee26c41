package gylewarden.journal;

import gylewarden.control.Condition;
import gylewarden.control.Doubt;
import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.util.Locale;
import java.util.Optional;

/** Puts what a chamber does, and why, into the sentence that page, log and messages share. */
public record Sentences(Scale scale) {
    /** What the chamber is doing and why. */
    public String of(ChamberStatus status) {
        return new Saying(status.decision().reason(), status, scale).words();
    }

    /** Why a probe is not believed. */
    public static String of(Doubt doubt) {
        return switch (doubt) {
            case NOT_YET_READ -> "it has not been read three times yet";
            case SILENT -> "it does not answer";
            case BAD_CHECKSUM -> "its readings arrive damaged";
            case POWER_ON_VALUE -> "it says 85 °C, as it does after power-on";
            case IMPOSSIBLE -> "it says what cannot be";
            case STALE -> "its bus hangs";
            case TOO_FAST -> "it moved faster than this vessel can; has it fallen out?";
            case FOLLOWS_AIR -> "it jumped and now follows the air; has it fallen out?";
            case DOES_NOT_ANSWER -> "it has not moved although a relay has long been energised";
        };
    }

    /** What a person should know while it lasts, and where to look first. */
    public static String of(Condition condition) {
        return switch (condition) {
            case ONLY_PROBE_LOST ->
                "The beer probe is not believed and nothing stands in for it. Look at its cable and where it sits.";
            case BEER_PROBE_DOUBTED ->
                "The beer probe is not believed and another stands in. Look at its cable and where it sits.";
            case OTHER_PROBE_DOUBTED -> "A probe beside the beer is not believed. Look at its cable.";
            case NEAR_FREEZING -> "The beer is near to freezing. Look for ice, and raise the target.";
            case BEER_BEYOND_LIMIT -> "The beer is beyond its absolute limits. Look at the beer first.";
            case AIR_ABOVE_CEILING ->
                "The air is above its ceiling. Look at the heater, and pull its plug if in doubt.";
            case HEATING_WITHOUT_EFFECT ->
                "Heating was energised for long and nothing rose; it stays off until a person says so. Look at the"
                        + " heater, its plug, its thermal cut-out and the probe.";
            case COOLING_WITHOUT_EFFECT ->
                "Cooling was energised for long and nothing fell; it is tried for 20 min an hour. Look at the"
                        + " appliance, its plug, its own thermostat, and ice.";
            case HEATER_MAY_BE_WELDED ->
                "The air stays warm long after heating was released. A relay may be welded: pull the heater's plug.";
            case COOLING_MAY_BE_WELDED ->
                "The air stays cold long after cooling was released. A relay may be welded: pull the cooler's plug.";
            case BOTH_SIDES_BUSY -> "Both sides work harder than they used to. Look for a relay that does not let go.";
            case NOT_ARRIVING -> "The beer does not get nearer to its setpoint. Look at the door, and at the room.";
            case RELAY_NOT_WRITABLE ->
                "A relay cannot be written and is taken as energised. Pull its plug if in doubt.";
            case RESTARTS_REPEAT -> "The daemon has restarted five times within an hour. Look at its log and supply.";
            case PLAN_LOST ->
                "What this chamber was asked to do is lost, and everything is off. Look at the beer, and set its target"
                        + " or begin its batch anew.";
            case ROOM_TOO_COLD -> "The room is too cold for the compressor.";
            case STARTS_TOO_OFTEN -> "The compressor has started as often as it may this hour.";
            case RUNS_TOO_LONG -> "The compressor ran so long that it now rests, so that ice can go.";
        };
    }

    static String name(Side side, Rules.Fitted fitted) {
        if (side == Side.HEATING) return "heater";
        return fitted.hasCompressor() ? "compressor" : "coolant";
    }

    public static String capital(String words) {
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }

    /** One reason, said of one status. */
    private record Saying(Reason reason, ChamberStatus status, Scale scale) {
        String words() {
            if (reason instanceof Reason.Driving r) return driving(r.side());
            if (reason instanceof Reason.WithinHysteresis) return "Steady, " + error() + ".";
            if (reason instanceof Reason.NotFitted r)
                return off() + "This chamber has nothing that " + (r.side() == Side.COOLING ? "cools." : "heats.");
            if (reason instanceof Reason.NoTarget) return "No target is set; everything is off.";
            if (reason instanceof Reason.PlanLost)
                return "What was asked here can't be read any more; everything is off until somebody sets a target or"
                        + " begins a batch.";
            if (reason instanceof Reason.Paused r) return "Paused; everything is off for " + left(r.until()) + " more.";
            if (reason instanceof Reason.SwitchedOff)
                return "Switched off by a person; everything stays off until that is taken back.";
            if (reason instanceof Reason.Commissioning r)
                return r.tried()
                        .map(side -> "Commissioning: the " + name(side) + " is tried.")
                        .orElse("Commissioning: everything is off, to see what the chamber does by itself.");
            if (reason instanceof Reason.BackingOff r)
                return "Restarted too often; nothing is switched for " + left(r.until()) + " more.";
            if (reason instanceof Reason.AfterGap)
                return "The loop stood still, or the board slept; everything is released once.";
            return afterDoubt();
        }

        private String afterDoubt() {
            if (reason instanceof Reason.NotBelieved r)
                return "Beer probe not believed: " + of(r.doubt()) + ". Everything is off.";
            if (reason instanceof Reason.HoldingAir r)
                return "Beer probe not believed: " + of(r.doubt()) + ". The air is held near " + scale.words(r.air())
                        + " instead.";
            if (reason instanceof Reason.KeepingAirFromCold r)
                return "Beer probe not believed: " + of(r.doubt()) + ". Heating only to keep the air above "
                        + scale.words(r.air()) + ".";
            if (reason instanceof Reason.RepeatingDuty r)
                return "No probe believed. Cooling runs " + Math.round(r.duty() * 100)
                        + " % of the time, as in the day before.";
            return atLimits();
        }

        private String atLimits() {
            if (reason instanceof Reason.NearFreezing r)
                return status.guard().heating().energised()
                        ? "Heating: the beer is too near to freezing, below " + scale.words(r.limit()) + "."
                        : "Too near to freezing: no cooling below " + scale.words(r.limit()) + ".";
            if (reason instanceof Reason.BeerBeyondLimit r)
                return r.stopped() == Side.COOLING
                        ? "No cooling: the beer is below its minimum of " + scale.words(r.limit()) + "."
                        : "No heating: the beer is above its maximum of " + scale.words(r.limit()) + ".";
            if (reason instanceof Reason.AirBeyondLimit r)
                return r.stopped() == Side.COOLING
                        ? "No cooling until the air is back above " + scale.words(r.back()) + "; it was below "
                                + scale.words(r.limit()) + "."
                        : "No heating until the air is back below " + scale.words(r.back()) + "; it was above "
                                + scale.words(r.limit()) + ".";
            if (reason instanceof Reason.RoomTooCold r)
                return "The compressor stays off: the room is too cold for it, " + scale.words(r.room()) + ".";
            if (reason instanceof Reason.CoolingWithoutEffect r)
                return "Cooling had no effect; it is tried again in " + left(r.nextTrial()) + ".";
            if (reason instanceof Reason.HeatingLatched)
                return "Heating had no effect and stays off until a person says so.";
            if (reason instanceof Reason.MeasuringEffect r)
                return off() + "The " + name(r.side()) + " has shown no effect yet and rests " + left(r.until())
                        + " more, so that it can be measured.";
            if (reason instanceof Reason.CrashingSlowly r)
                return "Cold crash without an air probe, slowly: now towards " + scale.words(r.setpoint()) + ".";
            return waiting();
        }

        private String waiting() {
            if (reason instanceof Reason.NotFighting r)
                return off() + (r.waits() == Side.COOLING ? "Cooling" : "Heating")
                        + " waits, as the other side acted last; at most " + left(r.until()) + " more.";
            if (reason instanceof Reason.NoHeatingInCold) return off() + "No heating in the cold: it comes by itself.";
            if (reason instanceof Reason.GentleCrash r)
                return off() + "Cooling goes in short bursts; the next in " + left(r.until()) + ".";
            if (reason instanceof Reason.MustStayOff r)
                return off() + "The " + name(r.side()) + " must stay off " + left(r.until()) + " more.";
            if (reason instanceof Reason.FinishingMinimumRun r)
                return capital(name(r.side())) + " finishes its minimum run, " + left(r.until()) + " more; " + error()
                        + ".";
            if (reason instanceof Reason.ChangingOver r)
                return off() + "The " + name(r.to()) + " waits " + left(r.until()) + " more after the other side.";
            if (reason instanceof Reason.EnoughStarts r)
                return off() + "The compressor has started often enough; again in " + left(r.until()) + ".";
            if (reason instanceof Reason.Defrosting r)
                return off() + "The compressor rests after its long run; again in " + left(r.until()) + ".";
            if (reason instanceof Reason.AfterAnotherCompressor r)
                return off() + "Another compressor has just started; this one in " + left(r.until()) + ".";
            if (reason instanceof Reason.HeatingDutyUsed r)
                return off() + "The heater has had its share of the time; again in " + left(r.until()) + ".";
            if (reason instanceof Reason.OtherSideNotReleased r)
                return "The relay of the " + name(r.stuck()) + " cannot be released; nothing else is switched on.";
            throw new IllegalStateException("a reason without words: " + reason);
        }

        private String driving(Side side) {
            String on = capital(name(side)) + " on for "
                    + Spans.words(status.guard().load(side).run(status.at()));
            return (side == Side.COOLING ? "Cooling. " : "Heating. ") + on + "; " + error() + ".";
        }

        /** "Warm by 0.5 °C. ", or nothing while the beer is not believed. */
        private String off() {
            return difference()
                    .map(above -> (above.value() >= 0 ? "Warm by " : "Cold by ") + scale.words(above) + ". ")
                    .orElse("");
        }

        private String error() {
            return difference()
                    .map(above -> Math.abs(above.value()) < 0.05
                            ? "at the setpoint"
                            : scale.words(above) + (above.value() > 0 ? " above" : " below") + " the setpoint")
                    .orElse("beer not believed");
        }

        private Optional<Kelvins> difference() {
            Optional<Temperature> beer = status.readings().deciding().believed();
            return status.target().flatMap(target -> beer.map(value -> value.minus(target.setpoint())));
        }

        private String name(Side side) {
            return Sentences.name(side, status.fitted());
        }

        private String left(Uptime until) {
            return Spans.words(until.since(status.at()));
        }
    }
}
