package gylewarden.chamber;

import gylewarden.batch.Action;
import gylewarden.batch.Batch;
import gylewarden.batch.Batch.Stage;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Standing;
import gylewarden.chamber.Answer.Done;
import gylewarden.chamber.Answer.Refused;
import gylewarden.chamber.Answer.Why;
import gylewarden.chamber.Clerk.Said;
import gylewarden.journal.Scale;
import gylewarden.schedule.Course;
import gylewarden.schedule.Mistake;
import gylewarden.schedule.Outcome;
import gylewarden.schedule.Schedule;
import gylewarden.units.Temperature;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Supplier;

/** Where people say what they want of batches. Any thread may call. */
public final class BatchDesk {
    private static final int LONGEST_NOTE = 2000;
    private static final UUID NO_ID = new UUID(0, 0);

    private final Clerk clerk;
    private final Wanted wanted;
    private final Supplier<UUID> ids;

    /** @param ids for new batches, each another */
    public BatchDesk(Clerk clerk, Supplier<UUID> ids) {
        this.clerk = clerk;
        this.wanted = new Wanted(clerk);
        this.ids = ids;
    }

    /**
     * A batch that is to begin.
     *
     * @param pitchAt what the wort is brought to before pitching; absent: where the schedule begins
     * @param pitched whether the yeast is in already
     */
    public record Plan(
            String name, String chamber, Schedule schedule, Optional<Temperature> pitchAt, boolean pitched) {}

    /** What is to be another about a batch; what is absent stays. */
    public record Patch(
            Optional<String> name,
            Optional<String> chamber,
            boolean pitched,
            Optional<Temperature> pitchAt,
            boolean decides) {}

    /** Begins a batch. It decides in its chamber unless another does; then it rides along. */
    public Answer begin(Plan plan, String actor) {
        return clerk.attend(() -> {
            Optional<Refused> wrong = wanted.wrong(plan);
            if (wrong.isPresent()) return wrong.get();
            Standing now = clerk.standing(plan.chamber());
            Batch batch = planned(plan, ids.get());
            boolean decides = now.mandate().batch().isEmpty();
            String sentence = "Batch \"" + batch.name() + "\" begins"
                    + (decides ? "" : " and rides along: another decides here")
                    + (plan.pitched() ? "; the yeast is pitched." : "; the wort is brought to pitching temperature.");
            return carryOut(
                    decides ? Map.of(plan.chamber(), with(now, Optional.of(batch))) : Map.of(),
                    List.of(new Listed(batch, decides)),
                    Optional.of(batch.id()),
                    said(batch, "BatchBegun", sentence, actor));
        });
    }

    /** What would begin, without beginning it. It is of no id yet. */
    public Answer tried(Plan plan) {
        return clerk.attend(() -> {
            Optional<Refused> wrong = wanted.wrong(plan);
            return wrong.isPresent() ? wrong.get() : new Done(Optional.of(planned(plan, NO_ID)), Optional.empty());
        });
    }

    private Batch planned(Plan plan, UUID id) {
        Batch planned = Batch.planned(
                id,
                plan.name().strip(),
                plan.chamber(),
                plan.schedule(),
                plan.pitchAt(),
                clerk.mandate(plan.chamber()).target(),
                clerk.now());
        return plan.pitched() ? planned.pitched(clerk.now()) : planned;
    }

    /** Changes what is known of a batch, where it stands, whether it decides; says that the yeast is pitched. */
    public Answer change(UUID id, Patch patch, String actor) {
        return clerk.attend(() -> found(id, listed -> {
            Optional<Refused> wrong = patch.name()
                    .flatMap(Wanted::wrongName)
                    .or(() -> wanted.wrong(
                            "pitchCelsius",
                            patch.pitchAt(),
                            patch.chamber().orElse(listed.batch().chamber())));
            if (wrong.isPresent()) return wrong.get();
            if (patch.chamber().isPresent() && !clerk.has(patch.chamber().get()))
                return Desk.noChamber("chamberId", patch.chamber().get());
            if (patch.pitched() && listed.batch().stage() != Stage.WAITS_FOR_PITCH)
                return Refused.of(Why.NOT_NOW, "pitched", "The yeast is pitched already.");
            String standsIn = patch.chamber().orElse(listed.batch().chamber());
            if (patch.decides() && !clerk.has(standsIn)) return Desk.noChamber("decides", standsIn);
            Optional<Refused> beyond = patch.chamber().isPresent() || patch.decides()
                    ? wrongSchedule(
                            listed.batch().movedTo(standsIn), listed.batch().schedule())
                    : Optional.empty();
            if (beyond.isPresent()) return beyond.get();
            var moving = new Moving(clerk, listed);
            List<String> words = new ArrayList<>();
            patch.name().ifPresent(name -> {
                words.add("Batch \"" + moving.batch().name() + "\" is called \"" + name.strip() + "\".");
                moving.change(batch -> batch.named(name.strip()));
            });
            patch.pitchAt().ifPresent(temperature -> {
                words.add("Pitching temperature " + Scale.NEUTRAL.words(temperature) + ".");
                moving.change(batch -> batch.pitchingAt(temperature));
            });
            if (patch.pitched()) {
                words.add("The yeast is pitched: the schedule begins.");
                moving.change(batch -> batch.pitched(clerk.now()));
            }
            Optional<String> left = patch.chamber()
                    .map(to -> moving.batch().chamber())
                    .filter(from -> !from.equals(standsIn) && moving.decides());
            patch.chamber().filter(to -> !to.equals(moving.batch().chamber())).ifPresent(to -> {
                words.add("Batch \"" + moving.batch().name() + "\" moves from "
                        + moving.batch().chamber() + " to " + to
                        + (moving.moveTo(to) ? "." : " and rides along: another decides there."));
            });
            left.ifPresent(from -> words.add(from + " has no task now: everything there is off."));
            if (patch.decides() && !moving.decides()) {
                moving.decide();
                words.add("Batch \"" + moving.batch().name() + "\" decides from now on.");
            }
            if (words.isEmpty()) return new Done(Optional.of(listed.batch()), Optional.empty());
            if (patch.pitched()) clerk.scheduleIsRight(moving.batch().chamber());
            Answer answer = carryOut(
                    moving.standings(),
                    moving.listed(),
                    Optional.empty(),
                    said(moving.batch(), "BatchChanged", String.join(" ", words), actor));
            left.ifPresent(from -> tellLeft(from, moving.batch(), actor));
            return answer;
        }));
    }

    /** In the history of the chamber, too, that the batch is no longer in. */
    private void tellLeft(String chamber, Batch batch, String actor) {
        String sentence = "Batch \"" + batch.name() + "\" has left for " + batch.chamber()
                + ". This chamber has no task now: everything is off.";
        clerk.carryOut(
                Map.of(),
                List.of(),
                Optional.empty(),
                new Said(chamber, Optional.of(batch.id()), "BatchLeft", sentence, actor));
    }

    /**
     * Ends a batch.
     *
     * @param vesselOut what the person said about the vessel; absent if nothing
     * @param after what the chamber shall hold then; absent: it does nothing
     */
    public Answer end(UUID id, Optional<Boolean> vesselOut, Optional<Temperature> after, String actor) {
        return clerk.attend(() -> found(id, listed -> {
            Optional<Refused> wrong =
                    wanted.wrong("chamber.celsius", after, listed.batch().chamber());
            if (wrong.isPresent()) return wrong.get();
            Batch over = listed.batch().ended(clerk.now());
            String chamber = over.chamber();
            Map<String, Standing> next = new LinkedHashMap<>();
            if (listed.decides()) {
                Standing now = clerk.standing(chamber);
                next.put(
                        chamber,
                        now.with(now.mandate().withBatch(Optional.empty()).withTarget(after)));
            }
            String vessel = vesselOut
                    .map(out -> out ? " The vessel is out." : " The vessel is still in.")
                    .orElse("");
            String does = !listed.decides()
                    ? ""
                    : after.map(celsius -> " The chamber holds " + Scale.NEUTRAL.words(celsius) + ".")
                            .orElse(" The chamber is off.");
            return carryOut(
                    next,
                    List.of(new Listed(over, false)),
                    Optional.empty(),
                    said(over, "BatchEnded", "Batch \"" + over.name() + "\" is ended." + vessel + does, actor));
        }));
    }

    /** Does something to the running schedule, whatever step it is in. */
    public Answer act(UUID id, Action action, String actor) {
        return act(id, action, Seen.nothing(), actor);
    }

    /** Does something to the running schedule, if it still is as it was seen. */
    public Answer act(UUID id, Action action, Seen seen, String actor) {
        return clerk.attend(() -> running(id, batch -> {
            Optional<Refused> refused = seen.passed(batch).or(() -> wanted.wrong(action, batch.chamber()));
            return refused.isPresent() ? refused.get() : act(batch, action, actor);
        }));
    }

    private Answer act(Batch batch, Action action, String actor) {
        return batch.ask(action)
                .fold(
                        done -> {
                            String sentence = Clerk.words(done.events().get(0));
                            Batch after = batch.after(sentence, done.course(), clerk.now());
                            Optional<Refused> beyond =
                                    action instanceof Action.Back ? wanted.wrong(batch, after) : Optional.empty();
                            if (beyond.isPresent()) return beyond.get();
                            if (action.setsRight()) clerk.scheduleIsRight(batch.chamber());
                            return replace(batch, after, "Step", sentence, actor);
                        },
                        refused ->
                                Refused.of(Why.NOT_NOW, "action", refused.why().message()));
    }

    /**
     * Takes the last thing back that a person did to a batch's course.
     *
     * @param seen the id of what the person saw that it would take back; absent: whatever was last
     */
    public Answer undo(UUID id, Optional<String> seen, String actor) {
        return clerk.attend(() -> deciding(id, batch -> {
            Optional<Batch.Undo> last = batch.lastUndo(clerk.now());
            Optional<Batch> before = batch.undone(clerk.now());
            if (last.isEmpty() || before.isEmpty())
                return Refused.of(
                        Why.NOT_NOW,
                        "action",
                        "There is nothing to take back: nothing was asked of this schedule in the last 24 h. To change"
                                + " what it does, edit it.");
            Optional<Refused> passed = Seen.passed(seen, last.get());
            if (passed.isPresent()) return passed.get();
            Optional<Refused> beyond = wanted.wrong(batch, before.get());
            if (beyond.isPresent()) return beyond.get();
            String what = last.get().what();
            return replace(batch, before.get(), "Undone", "Taken back, as if it had not been: " + what, actor);
        }));
    }

    /** @param ifRevision the revision that the person saw */
    public Answer editSchedule(UUID id, int ifRevision, Schedule schedule, String actor) {
        return clerk.attend(() -> found(id, listed -> {
            Batch batch = listed.batch();
            if (batch.revision() != ifRevision)
                return Refused.of(
                        Why.STALE,
                        "",
                        "Somebody else has changed this schedule: it is at revision " + batch.revision()
                                + ", and you edited revision " + ifRevision
                                + ". Look at what they saved, and edit that.");
            Optional<Refused> wrong = wrongSchedule(batch, schedule);
            if (wrong.isPresent()) return wrong.get();
            return revised(batch, schedule)
                    .fold(
                            done -> {
                                Batch edited = batch.after("The schedule is changed.", done.course(), clerk.now());
                                String sentence = "The schedule of \"" + batch.name() + "\" is changed, revision "
                                        + edited.revision() + ".";
                                if (listed.decides()) return replace(batch, edited, "Schedule", sentence, actor);
                                return carryOut(
                                        Map.of(),
                                        List.of(new Listed(edited, false)),
                                        Optional.of(id),
                                        said(edited, "Schedule", sentence, actor));
                            },
                            refused -> new Refused(
                                    Why.NOT_ALLOWED,
                                    refused.mistakes().isEmpty()
                                            ? List.of(new Mistake(
                                                    "steps", refused.why().message()))
                                            : refused.mistakes()));
        }));
    }

    /** Steps of another schedule that the limits in force would never let the beer reach. */
    public Optional<Refused> wrongSchedule(Batch batch, Schedule schedule) {
        int from = batch.stage() == Stage.FERMENTS ? batch.course().stepIndex() : 0;
        return wanted.wrong("", schedule, from, batch.chamber());
    }

    /** What a schedule would come to, without saving it. */
    public static Outcome revised(Batch batch, Schedule schedule) {
        if (batch.stage() == Stage.WAITS_FOR_PITCH)
            return new Outcome.Done(Course.start(schedule, batch.course().start()), List.of());
        return batch.course().revise(schedule);
    }

    /** Writes something down about a batch, ended or not. */
    public Answer note(UUID id, String text, String actor) {
        return clerk.attend(() -> {
            Optional<Batch> batch = batch(id).map(Listed::batch);
            if (batch.isEmpty()) return noBatch(id);
            String said = text.strip();
            if (said.isEmpty() || said.length() > LONGEST_NOTE)
                return Refused.of(
                        Why.NOT_ALLOWED,
                        "text",
                        "A note has 1 to " + LONGEST_NOTE + " characters; this one has " + said.length() + ".");
            return carryOut(Map.of(), List.of(), Optional.empty(), said(batch.get(), "Note", said, actor))
                    .fold(done -> new Done(batch, done.unsaved()), refused -> refused);
        });
    }

    /** As it is this moment, with the course as far as it has got; ended ones too. */
    public Optional<Listed> batch(UUID id) {
        return clerk.deciding(id)
                .flatMap(at -> at.getValue().mandate().batch())
                .map(batch -> new Listed(batch, true))
                .or(() -> clerk.book().batch(id).map(listed -> new Listed(listed.batch(), false)));
    }

    private Answer replace(Batch before, Batch after, String kind, String sentence, String actor) {
        Standing now = clerk.standing(before.chamber());
        boolean newSchedule = after.revision() != before.revision();
        return carryOut(
                Map.of(before.chamber(), with(now, Optional.of(after))),
                List.of(new Listed(after, true)),
                newSchedule ? Optional.of(after.id()) : Optional.empty(),
                said(after, kind, sentence, actor));
    }

    private Answer carryOut(Map<String, Standing> next, List<Listed> batches, Optional<UUID> newSchedule, Said said) {
        Optional<String> unsaved = clerk.carryOut(next, batches, newSchedule, said);
        return new Done(batches.stream().findFirst().map(Listed::batch), unsaved);
    }

    private static Said said(Batch batch, String kind, String sentence, String actor) {
        return new Said(batch.chamber(), Optional.of(batch.id()), kind, sentence, actor);
    }

    private static Standing with(Standing now, Optional<Batch> batch) {
        return now.with(now.mandate().withBatch(batch));
    }

    /** A batch that has not ended. */
    private Answer found(UUID id, Function<Listed, Answer> work) {
        Optional<Listed> listed = batch(id);
        if (listed.isEmpty()) return noBatch(id);
        if (listed.get().batch().stage() == Stage.ENDED)
            return Refused.of(Why.NOT_NOW, "", "This batch is ended; only notes can be added to it.");
        return work.apply(listed.get());
    }

    private Answer deciding(UUID id, Function<Batch, Answer> work) {
        return found(
                id,
                listed -> listed.decides()
                        ? work.apply(listed.batch())
                        : Refused.of(
                                Why.NOT_NOW,
                                "",
                                "This batch rides along: another one decides in its chamber. Let this one decide first."));
    }

    private Answer running(UUID id, Function<Batch, Answer> work) {
        return deciding(
                id,
                batch -> batch.stage() == Stage.FERMENTS
                        ? work.apply(batch)
                        : Refused.of(
                                Why.NOT_NOW,
                                "",
                                "The schedule begins when the yeast is pitched. Say so, or edit the schedule."));
    }

    private static Refused noBatch(UUID id) {
        return Refused.of(Why.NOT_FOUND, "", "There is no batch " + id + ".");
    }
}
