package gylewarden.chamber;

import gylewarden.batch.Batch;
import gylewarden.batch.Mandate;
import gylewarden.chamber.Answer.Refused;
import gylewarden.chamber.Answer.Why;
import gylewarden.chamber.Clerk.Said;
import gylewarden.commission.Ending;
import gylewarden.commission.Guided;
import gylewarden.commission.Phase;
import gylewarden.commission.Sight;
import gylewarden.control.Condition;
import gylewarden.control.Orders;
import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.journal.Sentences;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;

/**
 * Where chambers are commissioned while the daemon runs: inside their own loops, by the same guard, and with nothing kept in
 * the chamber but what it is asked for now. What goes on lives in memory alone, so the end of the daemon ends it. Any thread
 * may call; {@link #publish} belongs to the chamber's loop, and waits for nothing.
 */
public final class TrialDesk {
    /** What a person has to see to first: tried again, it would be found once more, or is not known to be switchable. */
    private static final Set<Condition> SEEN_TO_FIRST = EnumSet.of(
            Condition.ONLY_PROBE_LOST,
            Condition.BEER_PROBE_DOUBTED,
            Condition.OTHER_PROBE_DOUBTED,
            Condition.HEATING_WITHOUT_EFFECT,
            Condition.COOLING_WITHOUT_EFFECT,
            Condition.HEATER_MAY_BE_WELDED,
            Condition.COOLING_MAY_BE_WELDED,
            Condition.RELAY_NOT_WRITABLE,
            Condition.RESTARTS_REPEAT,
            Condition.PLAN_LOST);

    private final Clerk clerk;
    private final StatusBoard board;
    private final Results results;
    private final Map<String, Going> known = new ConcurrentHashMap<>();
    private final Map<String, ChamberStatus> latest = new ConcurrentHashMap<>();

    /** Where what comes out is kept. Every call returns at once. */
    public interface Results {
        /** Chambers whose commissioning was under way when the daemon ended last. */
        List<String> cutShort();

        void begun(String chamber);

        void over(String chamber, Ending ending);
    }

    /**
     * What is known of a chamber's guided commissioning in this life of the daemon.
     *
     * @param actor who began it; absent if an earlier life did
     */
    public record Going(Guided guided, Optional<String> actor) {
        private Going with(Guided next) {
            return new Going(next, actor);
        }

        private boolean isOver() {
            return guided.over().isPresent();
        }
    }

    public TrialDesk(Clerk clerk, StatusBoard board, Results results) {
        this.clerk = clerk;
        this.board = board;
        this.results = results;
        for (String chamber : results.cutShort()) {
            if (!clerk.has(chamber)) continue;
            Guided restarted = Guided.restarted(clerk.rules(chamber), clerk.uptime());
            known.put(chamber, new Going(restarted, Optional.empty()));
            restarted.over().ifPresent(over -> tellOver(chamber, over));
        }
    }

    /** What goes on, or was the last; empty if there was none. */
    public Optional<Going> look(String chamber) {
        return Optional.ofNullable(known.get(chamber));
    }

    /** By which a chamber would be commissioned. */
    public Rules rules(String chamber) {
        return clerk.rules(chamber);
    }

    /** Why none can begin now, in words; empty if one can. */
    public Optional<String> hindrance(String chamber) {
        if (look(chamber).filter(going -> !going.isOver()).isPresent())
            return Optional.of(
                    "A commissioning of this chamber is under way. End it first, or let it come to its end.");
        Optional<ChamberStatus> status = Optional.ofNullable(latest.get(chamber));
        if (status.isEmpty()) return Optional.of("The chamber has not ticked yet. Ask again in a second.");
        return asked(chamber, clerk.mandate(chamber)).or(() -> state(status.get()));
    }

    private Optional<String> asked(String chamber, Mandate mandate) {
        Optional<Batch> batch = clerk.book().running().stream()
                .map(listed -> listed.batch())
                .filter(each -> each.chamber().equals(chamber))
                .findFirst()
                .or(mandate::batch);
        if (batch.isPresent())
            return Optional.of(
                    "The batch \"" + batch.get().name()
                            + "\" is in this chamber. Commission with water in the vessel, before there is beer or after it has left.");
        if (mandate.isPaused()) return Optional.of("The chamber is paused. End the pause first.");
        if (mandate.target().isPresent())
            return Optional.of(
                    "The chamber keeps a target. Take that away first, so that nothing is regulated by wires that"
                            + " are not proved yet, and set it again when the chamber has passed.");
        return Optional.empty();
    }

    private static Optional<String> state(ChamberStatus status) {
        if (status.decision().reason() instanceof Reason.SwitchedOff)
            return Optional.of("Every relay is switched off by a person. End that first.");
        return status.conditions().stream()
                .filter(SEEN_TO_FIRST::contains)
                .sorted()
                .map(condition -> Sentences.of(condition) + " See to that first, and say so under the chamber.")
                .findFirst();
    }

    /** Begins one; the caller has made sure that somebody stands beside the chamber. */
    public Answer begin(String chamber, String actor) {
        return at(chamber, () -> {
            Optional<String> hindrance = hindrance(chamber);
            if (hindrance.isPresent()) return Refused.of(Why.NOT_NOW, "", hindrance.get());
            Optional<String> unsaved =
                    say(chamber, "CommissioningBegun", "Commissioning begins, guided on the page.", actor);
            results.begun(chamber);
            known.put(chamber, new Going(Guided.begin(clerk.rules(chamber), clerk.uptime()), Optional.of(actor)));
            order(chamber);
            return new Answer.Done(Optional.empty(), unsaved);
        });
    }

    /** What a person says of a click: whether that side's load came on, and no other. */
    public Answer clicked(String chamber, Side side, boolean right, String actor) {
        return at(chamber, () -> {
            Optional<Going> before = look(chamber);
            Optional<Guided> said = before.flatMap(going -> going.guided().said(side, right));
            // In between, the loop may have ended it.
            if (said.isEmpty()
                    || !known.replace(chamber, before.get(), before.get().with(said.get())))
                return Refused.of(
                        Why.NOT_NOW,
                        "side",
                        "That relay's click is not asked for now. Look at it as it is, then say again.");
            return new Answer.Done(
                    Optional.empty(),
                    say(
                            chamber,
                            "Clicked",
                            "The relay for " + (side == Side.COOLING ? "cooling" : "heating")
                                    + (right
                                            ? " clicked, and its own load came on."
                                            : " did not bring on its own load, and it alone."),
                            actor));
        });
    }

    /** A person ends it, at any time: first it is obeyed, then written down. */
    public Answer end(String chamber, String actor) {
        return at(chamber, () -> {
            if (!stop(chamber)) return Refused.of(Why.NOT_NOW, "", "No commissioning of this chamber is under way.");
            results.over(chamber, new Ending.Stopped(Ending.Why.PERSON));
            return new Answer.Done(
                    Optional.empty(),
                    say(chamber, "CommissioningEnded", "Commissioning is ended before its verdict.", actor));
        });
    }

    /** False if none is under way: a verdict that comes in the same moment stands. */
    private boolean stop(String chamber) {
        while (true) {
            Optional<Going> going = look(chamber).filter(each -> !each.isOver());
            if (going.isEmpty()) return false;
            Guided ended = going.get().guided().stopped(Ending.Why.PERSON, clerk.uptime());
            if (!known.replace(chamber, going.get(), going.get().with(ended))) continue;
            order(chamber);
            return true;
        }
    }

    /** A tick of a chamber. */
    public void publish(ChamberStatus status) {
        String chamber = status.chamber();
        latest.put(chamber, status);
        Optional<Going> before = look(chamber).filter(going -> !going.isOver());
        if (before.isEmpty()) return;
        Guided next = next(before.get().guided(), status);
        // A person was faster: what they said is taken first, and the next second is looked at with it.
        if (!known.replace(chamber, before.get(), before.get().with(next))) return;
        order(chamber);
        next.over().ifPresent(over -> tellOver(chamber, over));
    }

    private static Guided next(Guided going, ChamberStatus status) {
        Mandate mandate = status.mandate();
        if (mandate.setpoint().isPresent() || mandate.batch().isPresent())
            return going.stopped(Ending.Why.ASKED_OTHERWISE, status.at());
        return going.after(Sight.of(
                status.at(),
                status.readings().beer(),
                status.readings().air(),
                status.guard(),
                status.decision().reason()));
    }

    private void tellOver(String chamber, Phase.Over over) {
        results.over(chamber, over.ending());
        board.happened(chamber, new Event.CommissioningOver(over.at(), over.ending()));
    }

    /** Read anew each time it is tried, so that an order older than a person's end never stands after it. */
    private void order(String chamber) {
        clerk.order(chamber, orders -> ordered(chamber, orders));
    }

    private Orders ordered(String chamber, Orders orders) {
        return look(chamber)
                .flatMap(going -> going.guided().trial())
                .map(orders::trying)
                .orElseGet(orders::triedEnough);
    }

    private Optional<String> say(String chamber, String kind, String sentence, String actor) {
        return clerk.carryOut(
                Map.of(), List.of(), Optional.empty(), new Said(chamber, Optional.empty(), kind, sentence, actor));
    }

    private Answer at(String chamber, Supplier<Answer> work) {
        if (!clerk.has(chamber)) return Desk.noChamber("", chamber);
        return clerk.attend(work);
    }
}
