package gylewarden.chamber;

import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.chamber.Answer.Refused;
import gylewarden.chamber.Answer.Why;
import gylewarden.chamber.Clerk.Said;
import gylewarden.control.Rules;
import gylewarden.journal.LimitWords;
import gylewarden.journal.Scale;
import gylewarden.journal.Spans;
import gylewarden.schedule.Mistake;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Where people say what they want of a chamber; what they want of batches: {@link BatchDesk}. Any thread may call. */
public final class Desk {
    private final Clerk clerk;
    private final Wanted wanted;

    public Desk(Clerk clerk) {
        this.clerk = clerk;
        this.wanted = new Wanted(clerk);
    }

    /** A temperature to hold while there is no batch; none: the chamber does nothing. */
    public Answer setTarget(String chamber, Optional<Temperature> target, String actor) {
        return at(chamber, () -> {
            Optional<Batch> batch = clerk.mandate(chamber).batch();
            if (batch.isPresent())
                return Refused.of(
                        Why.NOT_NOW,
                        "",
                        "The batch \"" + batch.get().name()
                                + "\" decides here. Set another temperature for some hours in"
                                + " its schedule, or end it.");
            Optional<Refused> wrong = wanted.wrong("celsius", target, chamber);
            if (wrong.isPresent()) return wrong.get();
            String sentence = target.map(celsius -> "Target " + Scale.NEUTRAL.words(celsius) + ".")
                    .orElse("No target any more.");
            return obey(chamber, mandate -> mandate.withTarget(target), "Target", sentence, actor);
        });
    }

    /** Everything released for so long, the schedule standing still; a new pause takes the place of one under way. */
    public Answer pause(String chamber, Duration length, String actor) {
        return at(chamber, () -> {
            boolean allowed =
                    length.compareTo(Mandate.SHORTEST_PAUSE) >= 0 && length.compareTo(Mandate.LONGEST_PAUSE) <= 0;
            if (!allowed) return Refused.of(Why.NOT_ALLOWED, "duration", "A pause lasts from 1 min to 4 h.");
            return obey(
                    chamber,
                    mandate -> mandate.paused(Optional.of(length)),
                    "Pause",
                    "A pause of " + Spans.words(length) + ": everything is released, the schedule stands still.",
                    actor);
        });
    }

    /** Ends a pause before its time. */
    public Answer endPause(String chamber, String actor) {
        return at(chamber, () -> {
            if (!clerk.mandate(chamber).isPaused())
                return Refused.of(Why.NOT_NOW, "", "There is no pause to end: the chamber is at work.");
            return obey(
                    chamber,
                    mandate -> mandate.paused(Optional.empty()),
                    "PauseEnded",
                    "The pause ends before its time.",
                    actor);
        });
    }

    /**
     * Limits of a person's own, all of them at once; one that is absent is the config's. They may be set so that what is asked
     * already can't be reached any more: a limit is there to protect, and the log says what it stops.
     */
    public Answer limit(String chamber, Mandate.Limits limits, String actor) {
        return at(chamber, () -> {
            List<Mistake> mistakes = OwnLimits.mistakes(limits, clerk.outerLimits(chamber));
            if (!mistakes.isEmpty()) return new Refused(Why.NOT_ALLOWED, mistakes);
            Rules.Limits inForce = Asked.within(clerk.outerLimits(chamber), limits);
            List<String> words = new ArrayList<>(List.of(OwnLimits.words(inForce)));
            words.addAll(new LimitWords(Scale.NEUTRAL).of(clerk.mandate(chamber), inForce));
            return obey(chamber, mandate -> mandate.withLimits(limits), "Limits", String.join(" ", words), actor);
        });
    }

    /** A person has seen to it: what was found without effect may try again, probes are where they belong. */
    public Answer acknowledge(String chamber, String actor) {
        return at(chamber, () -> {
            Answer answer = obey(
                    chamber,
                    mandate -> mandate,
                    "SeenTo",
                    "A person has seen to the chamber: probes are where they belong, what was latched may try again.",
                    actor);
            clerk.acknowledge(chamber);
            return answer;
        });
    }

    private interface Wish {
        Mandate of(Mandate now);
    }

    private Answer obey(String chamber, Wish wish, String kind, String sentence, String actor) {
        Standing now = clerk.standing(chamber);
        Standing next = now.with(wish.of(now.mandate()));
        Optional<String> unsaved = clerk.carryOut(
                Map.of(chamber, next),
                List.of(),
                Optional.empty(),
                new Said(chamber, next.mandate().batch().map(Batch::id), kind, sentence, actor));
        return new Answer.Done(Optional.empty(), unsaved);
    }

    private Answer at(String chamber, java.util.function.Supplier<Answer> work) {
        if (!clerk.has(chamber)) return noChamber("", chamber);
        return clerk.attend(work);
    }

    static Refused noChamber(String field, String chamber) {
        return Refused.of(Why.NOT_FOUND, field, "There is no chamber " + chamber + ".");
    }
}
