package gylewarden.control;

import java.util.Optional;

/**
 * What the rules above the guard would have the relays do.
 *
 * @param side the side to energise, if any
 * @param atOnce whether a running relay is to be released even within its minimum on time: for doubt, limits, pause, stop
 */
public record Wish(Optional<Side> side, Reason reason, boolean atOnce) {
    public static Wish energise(Side side, Reason reason) {
        return new Wish(Optional.of(side), reason, false);
    }

    /** Nothing needed; a running relay may finish its minimum run. */
    public static Wish rest(Reason reason) {
        return new Wish(Optional.empty(), reason, false);
    }

    /** Everything off, minimum on time or not. */
    public static Wish release(Reason reason) {
        return new Wish(Optional.empty(), reason, true);
    }

    public boolean wants(Side which) {
        return side.isPresent() && side.get() == which;
    }
}
