package gylewarden.commission;

import gylewarden.control.Reason;
import java.util.Optional;

/** How a guided commissioning ended. */
public sealed interface Ending {
    /** By its verdict, which is kept. */
    record Judged(Verdict verdict) implements Ending {}

    /** Before there was a verdict; what was known of the chamber before holds. */
    record Stopped(Why why) implements Ending {}

    /** What cut it short. */
    enum Why {
        /** A person ended it. */
        PERSON,
        /** Nobody said what had clicked. */
        NOBODY_ANSWERED,
        /** Somebody asked something else of the chamber: a target, a batch. */
        ASKED_OTHERWISE,
        PAUSED,
        SWITCHED_OFF,
        /** The daemon restarts too often to switch anything. */
        BACKING_OFF,
        PLAN_LOST,
        /** The board slept or the loop stood still. */
        STOOD_STILL,
        /** The daemon was restarted meanwhile. */
        RESTARTED;

        /** What orders stop it; empty if none does. */
        static Optional<Why> of(Reason reason) {
            if (reason instanceof Reason.SwitchedOff) return Optional.of(SWITCHED_OFF);
            if (reason instanceof Reason.Paused) return Optional.of(PAUSED);
            if (reason instanceof Reason.BackingOff) return Optional.of(BACKING_OFF);
            if (reason instanceof Reason.PlanLost) return Optional.of(PLAN_LOST);
            if (reason instanceof Reason.AfterGap) return Optional.of(STOOD_STILL);
            return Optional.empty();
        }
    }
}
