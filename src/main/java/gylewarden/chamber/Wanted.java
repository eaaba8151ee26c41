package gylewarden.chamber;

import gylewarden.batch.Action;
import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.chamber.Answer.Refused;
import gylewarden.chamber.Answer.Why;
import gylewarden.control.Rules;
import gylewarden.journal.LimitWords;
import gylewarden.journal.Scale;
import gylewarden.schedule.Mistake;
import gylewarden.schedule.Schedule;
import gylewarden.units.Temperature;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Whether what a person wants can be: names, and temperatures within the limits that hold where it is wanted. */
final class Wanted {
    static final String NO_SUCH_TEMPERATURE = "The temperature must be from -5 to 45 °C.";

    private final Clerk clerk;

    Wanted(Clerk clerk) {
        this.clerk = clerk;
    }

    Optional<Refused> wrong(BatchDesk.Plan plan) {
        if (!clerk.has(plan.chamber())) return Optional.of(Desk.noChamber("chamberId", plan.chamber()));
        return wrongName(plan.name())
                .or(() -> wrong("pitchCelsius", plan.pitchAt(), plan.chamber()))
                .or(() -> wrong("schedule.", plan.schedule(), 0, plan.chamber()));
    }

    static Optional<Refused> wrongName(String name) {
        int length = name.strip().length();
        return length >= 1 && length <= Batch.LONGEST_NAME
                ? Optional.empty()
                : Optional.of(Refused.of(
                        Why.NOT_ALLOWED,
                        "name",
                        "A batch's name has 1 to " + Batch.LONGEST_NAME + " characters; this one has " + length + "."));
    }

    /** @param field of the request that it stands in */
    Optional<Refused> wrong(String field, Temperature temperature, String chamber) {
        boolean exists =
                temperature.celsius() >= Schedule.LOWEST_CELSIUS && temperature.celsius() <= Schedule.HIGHEST_CELSIUS;
        if (!exists) return Optional.of(Refused.of(Why.NOT_ALLOWED, field, NO_SUCH_TEMPERATURE));
        return beyond(temperature, chamber).map(words -> Refused.of(Why.NOT_ALLOWED, field, words));
    }

    /** As above; what is absent is not wrong. */
    Optional<Refused> wrong(String field, Optional<Temperature> temperature, String chamber) {
        return temperature.flatMap(wanted -> wrong(field, wanted, chamber));
    }

    Optional<Refused> wrong(Action action, String chamber) {
        return action instanceof Action.Another another
                ? wrong("celsius", another.temperature(), chamber)
                : Optional.empty();
    }

    /**
     * Steps whose target the limits would never let the beer reach.
     *
     * @param at what stands before the name of a field, such as {@code schedule.}
     * @param from the first step that is not over, counted from 0
     */
    Optional<Refused> wrong(String at, Schedule schedule, int from, String chamber) {
        List<Mistake> mistakes = new ArrayList<>();
        for (int index = from; index < schedule.steps().size(); index++) {
            String field = at + "steps[" + index + "].celsius";
            beyond(schedule.step(index).target(), chamber).ifPresent(words -> mistakes.add(new Mistake(field, words)));
        }
        return mistakes.isEmpty() ? Optional.empty() : Optional.of(new Refused(Why.NOT_ALLOWED, mistakes));
    }

    /** Whether something done to a batch's course would ask for what the limits never let the beer reach, and nothing asks for yet. */
    Optional<Refused> wrong(Batch now, Batch after) {
        if (!clerk.has(now.chamber())) return Optional.empty();
        Mandate mandate = clerk.mandate(now.chamber());
        Rules.Limits limits = Asked.within(clerk.outerLimits(now.chamber()), mandate.limits());
        var words = new LimitWords(Scale.CELSIUS);
        List<String> more = new ArrayList<>(words.of(mandate.withBatch(Optional.of(after)), limits));
        more.removeAll(words.of(mandate.withBatch(Optional.of(now)), limits));
        return more.isEmpty()
                ? Optional.empty()
                : Optional.of(Refused.of(
                        Why.NOT_NOW,
                        "action",
                        "Nothing was changed, for it would ask for what limits that were set since forbid. "
                                + String.join(" ", more) + " Set other limits first, or edit the schedule."));
    }

    /** A chamber that left the config has no limits any more; what is wanted there is wanted of nobody. */
    private Optional<String> beyond(Temperature wanted, String chamber) {
        if (!clerk.has(chamber)) return Optional.empty();
        Rules.Limits limits =
                Asked.within(clerk.outerLimits(chamber), clerk.mandate(chamber).limits());
        boolean within = !wanted.isBelow(limits.beerMin()) && !wanted.isAbove(limits.beerMax());
        if (within) return Optional.empty();
        return Optional.of("is " + rounded(wanted) + " °C; the limits that hold for the beer in " + chamber + " allow "
                + rounded(limits.beerMin()) + " to " + rounded(limits.beerMax()) + " °C");
    }

    /** To a thousandth, as requests have it. */
    private static double rounded(Temperature temperature) {
        return Math.round(temperature.celsius() * 1000) / 1000.0;
    }
}
