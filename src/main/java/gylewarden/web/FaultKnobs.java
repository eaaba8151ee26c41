package gylewarden.web;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** What can be broken on purpose, in the demo only: {@code run} has nothing of it. Every call returns at once. */
public interface FaultKnobs {
    /** Virtual seconds in a real one. */
    int speed();

    Range speeds();

    /** @param other within {@link #speeds} */
    void speed(int other);

    /** A chamber each, in the order of the page. */
    List<Board> boards();

    /** Breaks something or puts it right; false if there is no such chamber or knob. As it is already: nothing changes. */
    boolean turn(String chamber, String knob, boolean isBroken);

    /** Both ends are allowed. */
    record Range(int least, int most) {}

    /** The knobs of a chamber. */
    record Board(String chamber, String name, List<State> knobs) {
        public Board {
            knobs = List.copyOf(knobs);
        }
    }

    /**
     * A knob and how it stands.
     *
     * @param title what is broken
     * @param expect what the chamber will do
     * @param since when it was broken, in virtual time; absent while it is sound
     */
    record State(String id, String group, String title, String expect, Optional<Instant> since) {}
}
