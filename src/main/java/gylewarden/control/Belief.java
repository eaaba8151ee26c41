package gylewarden.control;

import gylewarden.control.Reading.Believed;
import gylewarden.control.Reading.Doubted;
import gylewarden.control.Sample.Failed;
import gylewarden.control.Sample.Fault;
import gylewarden.control.Sample.Measured;
import gylewarden.units.Uptime;
import java.util.Optional;

/**
 * Whether one probe is believed, from its samples alone. Immutable; once a tick {@link #after} makes the next one, which is
 * the same object while nothing new came. A bad reading among good ones is dropped and counted, and the last good one
 * holds for {@link BeliefRules#patience}; a doubt ends after {@link BeliefRules#GOOD_IN_A_ROW} good ones in a row. A beer
 * probe that moved as beer can't is doubted until it rests near its old value for half an hour, until a person
 * trusts it, or until a restart.
 */
public final class Belief {
    private final BeliefRules rules;
    private final BeliefAnswers answers;
    private final BeliefMotion motion;
    private final Optional<Uptime> seen;
    private final Optional<Believed> lastBelieved;
    private final Reading reading;

    private Belief(
            BeliefRules rules,
            BeliefAnswers answers,
            BeliefMotion motion,
            Optional<Uptime> seen,
            Optional<Believed> believedBefore) {
        this.rules = rules;
        this.answers = answers;
        this.motion = motion;
        this.seen = seen;
        this.reading = judge(answers, motion, believedBefore);
        this.lastBelieved = reading.fold(Optional::of, Doubted::lastGood);
    }

    /** @param start when the daemon began to read it */
    public static Belief unread(BeliefRules rules, Uptime start) {
        return new Belief(
                rules,
                BeliefAnswers.unread(rules.patience(), start),
                BeliefMotion.still(rules),
                Optional.empty(),
                Optional.empty());
    }

    /**
     * @param now not before the last call's
     * @param latest the outcome of the probe's last attempt that ended; the same one again is no news
     */
    public Belief after(Uptime now, Optional<Sample> latest, Surroundings around) {
        Belief next = latest.isPresent() && isNews(latest.get()) ? taking(latest.get(), around) : this;
        Optional<BeliefAnswers> changed = next.answers.changedBy(now);
        return changed.isEmpty() ? next : next.with(changed.get(), next.motion);
    }

    /** A person says that the probe is where it belongs, or a pause has ended: its movement is judged from now on only. */
    public Belief trusted() {
        return with(answers, BeliefMotion.still(rules));
    }

    /** While the movement is doubted, the last good value is the one from before the movement. */
    public Reading reading() {
        return reading;
    }

    public DroppedReadings dropped() {
        return answers.dropped();
    }

    public BeliefRules rules() {
        return rules;
    }

    private boolean isNews(Sample sample) {
        return seen.isEmpty() || sample.at().isAfter(seen.get());
    }

    private Belief taking(Sample sample, Surroundings around) {
        Optional<Uptime> at = Optional.of(sample.at());
        if (sample instanceof Failed failed) return new Belief(rules, answers.bad(failed), motion, at, lastBelieved);
        Measured measured = (Measured) sample;
        if (rules.inBeer() && motion.isAlone(measured)) {
            BeliefAnswers dropped = answers.bad(new Failed(measured.at(), Fault.IMPOSSIBLE));
            BeliefMotion next = lastBelieved.isPresent() ? motion.dropping(measured) : motion.startingWith(measured);
            return new Belief(rules, dropped, next, at, lastBelieved);
        }
        return new Belief(rules, answers.good(measured), moved(measured, around), at, lastBelieved);
    }

    /** Before anything was believed, an earlier value is as likely wrong as a later one: nothing is judged by it. */
    private BeliefMotion moved(Measured measured, Surroundings around) {
        if (!rules.inBeer()) return motion;
        return lastBelieved.isPresent() ? motion.good(measured, around) : motion.startingWith(measured);
    }

    private Belief with(BeliefAnswers otherAnswers, BeliefMotion otherMotion) {
        return new Belief(rules, otherAnswers, otherMotion, seen, lastBelieved);
    }

    private static Reading judge(BeliefAnswers answers, BeliefMotion motion, Optional<Believed> believedBefore) {
        Optional<Believed> lastGood =
                motion.doubt().map(raised -> believed(raised.before())).or(() -> believedBefore);
        if (answers.doubt().isPresent()) {
            BeliefAnswers.Raised raised = answers.doubt().get();
            return new Doubted(raised.doubt(), raised.since(), lastGood);
        }
        if (motion.doubt().isPresent()) {
            BeliefMotion.Raised raised = motion.doubt().get();
            return new Doubted(raised.doubt(), raised.since(), lastGood);
        }
        return believed(answers.lastGood().orElseThrow(() -> new IllegalStateException("believed, yet never read")));
    }

    private static Believed believed(Measured measured) {
        return new Believed(measured.temperature(), measured.at());
    }
}
