package gylewarden.store;

import gylewarden.journal.Letter;
import gylewarden.schedule.ClockReading;
import java.time.Duration;
import java.util.Optional;
import java.util.UUID;

/**
 * A letter as it is kept.
 *
 * @param added the clocks by which its dates were made
 * @param ending absent while it waits
 */
record Post(Letter letter, ClockReading added, Optional<Fate.Tried> lastTry, Optional<Fate.Ending> ending) {
    Post {
        added = Redating.asKept(added);
    }

    static Post of(Letter letter, ClockReading added) {
        return new Post(letter, added, Optional.empty(), Optional.empty());
    }

    UUID id() {
        return letter.id();
    }

    boolean waits() {
        return ending.isEmpty();
    }

    Posted posted() {
        return new Posted(letter, lastTry);
    }

    Post after(Fate fate) {
        if (fate instanceof Fate.Tried tried) return new Post(letter, added, Optional.of(tried), ending);
        if (fate instanceof Fate.Ending end) return new Post(letter, added, lastTry, Optional.of(end));
        throw new IllegalArgumentException("no such fate: " + fate);
    }

    /** All of its dates by the same step, so that it waits, and is worth sending, for as long as it was meant to. */
    Post dated(Redating dating) {
        ClockReading dated = dating.of(added);
        if (dated.equals(added)) return this;
        Duration by = Duration.between(added.wall(), dated.wall());
        return new Post(
                new Letter(
                        letter.id(),
                        letter.alarm(),
                        letter.channel(),
                        letter.kind(),
                        letter.priority(),
                        letter.subject(),
                        letter.text(),
                        letter.made().plus(by),
                        letter.notBefore().plus(by),
                        letter.giveUp().plus(by)),
                dated,
                lastTry.map(tried -> new Fate.Tried(
                        tried.at().plus(by), tried.attempts(), tried.next().plus(by), tried.failure())),
                ending.map(end -> end.fold(
                        sent -> new Fate.Sent(sent.at().plus(by)),
                        givenUp -> new Fate.GivenUp(givenUp.at().plus(by), givenUp.why()))));
    }
}
