package gylewarden.schedule;

import java.time.Duration;

/** Something that happened to the clocks. */
public sealed interface TimeEvent {
    /**
     * Whether the relays are to be released and the moment to count as a stop, for nobody knows what ran meanwhile. After
     * a start that is so anyway.
     */
    boolean asksForRelease();

    /** Whether it is about how long power was away, and not about the clocks of a board that runs. */
    default boolean isOfPowerCut() {
        return false;
    }

    /**
     * Power was away, or the board restarted. The schedule is moved on by it.
     *
     * @param length of all that no clock counted
     */
    record PowerWasAway(Duration length) implements TimeEvent {
        @Override
        public boolean isOfPowerCut() {
            return true;
        }

        @Override
        public boolean asksForRelease() {
            return false;
        }
    }

    /** Power was away, length unknown. The schedule goes on from the checkpoint. */
    record PowerWasAwayUnknown(Why why) implements TimeEvent {
        @Override
        public boolean isOfPowerCut() {
            return true;
        }

        @Override
        public boolean asksForRelease() {
            return false;
        }
    }

    /** Why a length is unknown. */
    enum Why {
        /** Nobody vouched for the wall clock when the checkpoint was made. */
        CLOCK_NOT_TRUSTED_BEFORE,
        /**
         * Nobody vouches for it yet. If somebody does within {@link ElapsedClock#LATE_TRUST}, the length is told then; else
         * {@link AwayStaysUnknown} comes.
         */
        CLOCK_NOT_TRUSTED_YET,
        /** By the wall clock it would be negative. */
        CLOCK_WENT_BACK,
        /** By the wall clock it would be longer than {@link ElapsedClock#LONGEST_AWAY}. */
        TOO_LONG_TO_BELIEVE,
        /** What was kept is from later in this very boot, which can't be. */
        CHECKPOINT_FROM_LATER
    }

    /**
     * Nobody vouched for the wall clock in time, so how long power was away stays unknown and the schedule counts on from the
     * checkpoint. Nothing is added later.
     *
     * @param counted elapsed time since the last reading that was believed
     */
    record AwayStaysUnknown(Duration counted) implements TimeEvent {
        @Override
        public boolean isOfPowerCut() {
            return true;
        }

        @Override
        public boolean asksForRelease() {
            return false;
        }
    }

    /** How long power was away was to be told yet, and does not matter to the schedule any more. */
    record AwayDropped(Because because) implements TimeEvent {
        @Override
        public boolean asksForRelease() {
            return false;
        }
    }

    /** Why that does not matter. */
    enum Because {
        /** A person has said where the schedule stands. */
        SET_RIGHT,
        /** The schedule stood still when power went, and a person has let it go on since. */
        STOOD_STILL,
        /** The batch no longer decides, and the schedule of one that rides along stands still. */
        RIDES_ALONG
    }

    /** The wall clock gained: the board slept, or the clock was stepped on. The schedule is unchanged. */
    record SleptOrSteppedOn(Duration by) implements TimeEvent {
        @Override
        public boolean asksForRelease() {
            return true;
        }
    }

    /** The wall clock was stepped back. The schedule is unchanged. */
    record SteppedBack(Duration by) implements TimeEvent {
        @Override
        public boolean asksForRelease() {
            return false;
        }
    }

    /** The wall clock can be believed from now on. */
    record ClockBelieved() implements TimeEvent {
        @Override
        public boolean asksForRelease() {
            return false;
        }
    }

    /** The wall clock can't be believed any more. */
    record ClockDoubted() implements TimeEvent {
        @Override
        public boolean asksForRelease() {
            return false;
        }
    }
}
