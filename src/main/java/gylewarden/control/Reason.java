package gylewarden.control;

import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.util.Optional;

/**
 * Why the relays are as they are: typed values, no words; {@code gylewarden.journal.Sentences} puts them into words. A
 * reason carries a deadline and not a countdown, so a steady state is one reason and is logged once.
 */
public sealed interface Reason {
    /** What tells two reasons apart in log and history: their type and side, not the numbers that drift in them. */
    default String kind() {
        return getClass().getSimpleName();
    }

    /** The beer is beyond the hysteresis on this side, or on its way back to the setpoint. */
    record Driving(Side side) implements Reason {
        @Override
        public String kind() {
            return Reason.super.kind() + side;
        }
    }

    /** The beer is near enough to its setpoint. */
    record WithinHysteresis() implements Reason {}

    /** The beer is beyond the hysteresis, but the chamber has nothing for this side. */
    record NotFitted(Side side) implements Reason {
        @Override
        public String kind() {
            return Reason.super.kind() + side;
        }
    }

    /** Nobody has given a target. */
    record NoTarget() implements Reason {}

    /** What was asked of the chamber can't be read any more, and nobody has said anew. */
    record PlanLost() implements Reason {}

    /** A person has paused the chamber. */
    record Paused(Uptime until) implements Reason {}

    /** A person has switched all relays off until further notice. */
    record SwitchedOff() implements Reason {}

    /** Commissioning: this side is tried, or nothing, so that it can be seen what the chamber does by itself. */
    record Commissioning(Optional<Side> tried) implements Reason {
        @Override
        public String kind() {
            return Reason.super.kind() + tried.map(Side::name).orElse("");
        }
    }

    /** The daemon has restarted too often and waits before it switches anything. */
    record BackingOff(Uptime until) implements Reason {}

    /** The loop stood still or the board slept: everything is released once, and the guard counts on from there. */
    record AfterGap() implements Reason {}

    /** Nothing has spoken for this side yet; it rests so that the beer's own slope can be measured against it. */
    record MeasuringEffect(Side side, Uptime until) implements Reason {
        @Override
        public String kind() {
            return Reason.super.kind() + side;
        }
    }

    /** A crash without an air probe comes down slowly; this is where its setpoint is now. */
    record CrashingSlowly(Temperature setpoint) implements Reason {}

    /** The deciding probe is not believed and nothing stands in for it. */
    record NotBelieved(Doubt doubt) implements Reason {}

    /** The beer probe is not believed; the air is held where it last kept the beer at its setpoint. */
    record HoldingAir(Temperature air, Doubt doubt) implements Reason {}

    /** The beer probe is not believed and the air is about to get too cold: the only case for which it may be heated. */
    record KeepingAirFromCold(Temperature air, Doubt doubt) implements Reason {}

    /** The only probe is not believed; by the owner's wish cooling repeats its mean duty of the last day, 0 to 1. */
    record RepeatingDuty(double duty) implements Reason {}

    /** The beer is too near to freezing: no cooling below {@code limit}. */
    record NearFreezing(Temperature limit) implements Reason {}

    /** The beer is beyond its absolute limit: this side is stopped. */
    record BeerBeyondLimit(Side stopped, Temperature limit) implements Reason {
        @Override
        public String kind() {
            return Reason.super.kind() + stopped;
        }
    }

    /** The air is beyond its limit: this side is stopped until the air is back at {@code back}. */
    record AirBeyondLimit(Side stopped, Temperature limit, Temperature back) implements Reason {
        @Override
        public String kind() {
            return Reason.super.kind() + stopped;
        }
    }

    /** Too cold around a compressor: its oil does not return. */
    record RoomTooCold(Temperature room) implements Reason {}

    /** Cooling was energised for long and nothing fell; it is tried again at {@code nextTrial}. */
    record CoolingWithoutEffect(Uptime nextTrial) implements Reason {}

    /** Heating was energised for long and nothing rose; it stays off until a person acknowledges. */
    record HeatingLatched() implements Reason {}

    /** The last thing done was the other side; this one waits for a larger error or until {@code until}. */
    record NotFighting(Side waits, Uptime until) implements Reason {
        @Override
        public String kind() {
            return Reason.super.kind() + waits;
        }
    }

    /** No heating during a crash or a hold below 8 °C. */
    record NoHeatingInCold() implements Reason {}

    /** A crash without an air probe goes in short bursts with a wait between. */
    record GentleCrash(Uptime until) implements Reason {}

    /** The relay's minimum off time has not passed. */
    record MustStayOff(Side side, Uptime until) implements Reason {
        @Override
        public String kind() {
            return Reason.super.kind() + side;
        }
    }

    /** The relay's minimum on time has not passed. */
    record FinishingMinimumRun(Side side, Uptime until) implements Reason {
        @Override
        public String kind() {
            return Reason.super.kind() + side;
        }
    }

    /** The other side has only just been released. */
    record ChangingOver(Side to, Uptime until) implements Reason {
        @Override
        public String kind() {
            return Reason.super.kind() + to;
        }
    }

    /** The compressor has started often enough this hour. */
    record EnoughStarts(Uptime until) implements Reason {}

    /** The compressor has run so long that ice must be given time to go. */
    record Defrosting(Uptime until) implements Reason {}

    /** Another chamber's compressor has only just started. */
    record AfterAnotherCompressor(Uptime until) implements Reason {}

    /** Without a believed air probe the heater keeps to its share of the time. */
    record HeatingDutyUsed(Uptime until) implements Reason {}

    /** The other relay could not be released, so this one is not energised. */
    record OtherSideNotReleased(Side stuck) implements Reason {
        @Override
        public String kind() {
            return Reason.super.kind() + stuck;
        }
    }
}
