package gylewarden.journal;

import gylewarden.commission.Ending;
import gylewarden.control.Contact;
import gylewarden.control.Side;
import gylewarden.schedule.CourseEvent;
import java.util.Locale;

/** Puts events into the sentences of the log. */
public record EventWords(Scale scale) {
    /** How loud an event is in the log. */
    public enum Loudness {
        /** A change of state. */
        INFO,
        /** The daemon coped, and says how. */
        WARN,
        /** A person must act. */
        ERROR
    }

    public Loudness loudness(Event event) {
        if (event instanceof Event.ConditionBegan began)
            return switch (began.condition().priority()) {
                case HIGH -> Loudness.ERROR;
                case MIDDLE -> Loudness.WARN;
                case LOW -> Loudness.INFO;
            };
        if (event instanceof Event.StepEvent step && step.event().wantsAPerson()) return Loudness.WARN;
        if (event instanceof Event.CommissioningOver over
                && !(over.ending() instanceof Ending.Judged judged
                        && judged.verdict().passed())) return Loudness.WARN;
        boolean coped = event instanceof Event.RelayLapsed
                || event instanceof Event.RelayFailed
                || event instanceof Event.ProbeDoubted
                || event instanceof Event.Gap
                || event instanceof Event.ClockEvent;
        return coped ? Loudness.WARN : Loudness.INFO;
    }

    public String of(Event event) {
        if (event instanceof Event.ReasonChanged e) return new Sentences(scale).of(e.status());
        if (event instanceof Event.RelaySwitched e)
            return side(e.side()) + (e.contact() == Contact.ENERGISED ? " energised." : " released.");
        if (event instanceof Event.RelayLapsed e)
            return side(e.side()) + " released by itself: the loop had not renewed it for 15 s.";
        if (event instanceof Event.RelayFailed e)
            return side(e.side()) + " relay not writable, taken as energised until a release succeeds: " + e.failure();
        if (event instanceof Event.RelayWritesAgain e) return side(e.side()) + " relay writable again.";
        if (event instanceof Event.ProbeDoubted e)
            return "Probe " + e.probe() + " not believed: " + Sentences.of(e.doubt()) + "."
                    + e.lastGood()
                            .map(last -> " Last good value " + scale.words(last) + ".")
                            .orElse("");
        if (event instanceof Event.ProbeBelieved e)
            return "Probe " + e.probe() + " believed, " + scale.words(e.temperature()) + ".";
        if (event instanceof Event.ConditionBegan e)
            return "Needs a person (" + e.condition().priority().name().toLowerCase(Locale.ROOT) + "): "
                    + Sentences.of(e.condition());
        if (event instanceof Event.ConditionCleared e) return "Over: " + Sentences.of(e.condition());
        if (event instanceof Event.StepEvent e) return step(e.event());
        if (event instanceof Event.Gap e)
            return "The loop stood still for " + Spans.words(e.length())
                    + "; everything was released and counts as stopped only now.";
        if (event instanceof Event.ClockEvent e) return TimeWords.of(e.event());
        if (event instanceof Event.Asked e) return e.actor() + ": " + scale.rephrase(e.sentence());
        if (event instanceof Event.Acknowledged) return "A person has seen to it; what was latched may try again.";
        if (event instanceof Event.PauseOver) return "The pause is over.";
        if (event instanceof Event.CommissioningOver e) return new GuidedWords(scale).over(e.ending());
        throw new IllegalStateException("an event without words: " + event);
    }

    private String step(CourseEvent event) {
        if (event instanceof CourseEvent.StepEntered e) return "Step " + (e.step() + 1) + " begins: " + why(e.why());
        if (event instanceof CourseEvent.Finished e)
            return "The last step is over: " + why(e.why()) + " Its target is held.";
        if (event instanceof CourseEvent.Arrived e)
            return "Step " + (e.step() + 1) + " has arrived after " + Spans.words(e.after()) + " and counts from now.";
        if (event instanceof CourseEvent.NotArriving e)
            return "Step " + (e.step() + 1) + " has not arrived after " + Spans.words(e.after()) + ".";
        if (event instanceof CourseEvent.WaitsForWord e)
            return "Step " + (e.step() + 1) + " is done and waits for a person's word.";
        if (event instanceof CourseEvent.WordOverdue e)
            return "Step " + (e.step() + 1) + " has waited " + Spans.words(e.waited()) + " for a person's word.";
        if (event instanceof CourseEvent.HeldHere e) return "Held by a person at " + scale.words(e.setpoint()) + ".";
        if (event instanceof CourseEvent.Revised e) return new PlanWords(scale).of(e);
        if (event instanceof CourseEvent.Resumed) return "The schedule goes on.";
        if (event instanceof CourseEvent.Extended e)
            return "Step " + (e.step() + 1) + " lasts " + Spans.words(e.by()) + " longer.";
        if (event instanceof CourseEvent.Overridden e)
            return "Set to " + scale.words(e.temperature()) + " by a person for " + Spans.words(e.duration()) + ".";
        if (event instanceof CourseEvent.NotPitched e)
            return "Nobody has said for " + Spans.words(e.waited())
                    + " that the yeast is pitched. The wort is held at its pitching temperature.";
        if (event instanceof CourseEvent.OverrideEnded) return "The other temperature is over; the schedule goes on.";
        throw new IllegalStateException("a step's event without words: " + event);
    }

    private static String why(CourseEvent.Why why) {
        return switch (why) {
            case TIME_OVER -> "its time had come.";
            case CONDITION_MET -> "what the step before waited for is there.";
            case WORD_GIVEN -> "a person gave the word.";
            case NO_WORD_CAME -> "no word came in time.";
            case AT_MOST_RAN_OUT -> "the step before did not arrive in the time it may take at most.";
            case PERSON_WENT_ON -> "a person went on.";
            case PERSON_WENT_BACK -> "a person went back.";
            case SCHEDULE_CHANGED -> "a person changed the schedule.";
        };
    }

    private static String side(Side side) {
        return side == Side.COOLING ? "Cooling" : "Heating";
    }
}
