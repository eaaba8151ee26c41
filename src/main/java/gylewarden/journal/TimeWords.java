package gylewarden.journal;

import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.TimeEvent;

/** Puts what happened to the clocks into words. */
final class TimeWords {
    private TimeWords() {}

    static String of(TimeEvent event) {
        if (event instanceof TimeEvent.PowerWasAway e)
            return "Nobody counted for " + Spans.words(e.length())
                    + " while power was away; the schedule is moved on by it.";
        if (event instanceof TimeEvent.PowerWasAwayUnknown e && e.why() == TimeEvent.Why.CLOCK_NOT_TRUSTED_YET)
            return "Power was away, length unknown until the board's clock can be trusted. The schedule goes on from its"
                    + " checkpoint, and is moved on by that length if that is within "
                    + Spans.words(ElapsedClock.LATE_TRUST) + ".";
        if (event instanceof TimeEvent.AwayStaysUnknown e)
            return "The board's clock could not be trusted within " + Spans.words(e.counted())
                    + ": how long power was away stays unknown, and the schedule counts on from its checkpoint.";
        if (event instanceof TimeEvent.PowerWasAwayUnknown e)
            return "Power was away, length unknown: " + why(e.why()) + " The schedule goes on from its checkpoint.";
        if (event instanceof TimeEvent.AwayDropped e) return dropped(e.because());
        if (event instanceof TimeEvent.SleptOrSteppedOn e)
            return "The clock moved " + Spans.words(e.by())
                    + " forward, or the board slept; everything was released, and the schedule is unchanged.";
        if (event instanceof TimeEvent.SteppedBack e)
            return "The clock moved " + Spans.words(e.by())
                    + " back; the schedule counts elapsed time and is unchanged.";
        if (event instanceof TimeEvent.ClockBelieved) return "The board's clock can be trusted from now on.";
        if (event instanceof TimeEvent.ClockDoubted) return "The board's clock can't be trusted any more.";
        throw new IllegalStateException("a clock's event without words: " + event);
    }

    private static String dropped(TimeEvent.Because because) {
        return switch (because) {
            case SET_RIGHT ->
                "How long power was away is not added to the schedule any more: a person has said where it stands.";
            case STOOD_STILL ->
                "How long power was away does not matter to the schedule any more: it stood still meanwhile.";
            case RIDES_ALONG ->
                "How long power was away is not added to the schedule of the batch that decided here: it rides along now.";
        };
    }

    private static String why(TimeEvent.Why why) {
        return switch (why) {
            case CLOCK_NOT_TRUSTED_BEFORE -> "the clock was not trusted before.";
            case CLOCK_NOT_TRUSTED_YET -> "the clock can't be trusted yet.";
            case CLOCK_WENT_BACK -> "by the clock it would be negative.";
            case TOO_LONG_TO_BELIEVE -> "by the clock it would be too long to believe.";
            case CHECKPOINT_FROM_LATER -> "what was kept is from later in this very boot.";
        };
    }
}
