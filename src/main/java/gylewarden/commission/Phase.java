package gylewarden.commission;

import gylewarden.control.Side;
import gylewarden.units.Uptime;
import java.util.Optional;

/** How far a guided commissioning has got. */
public sealed interface Phase {
    /** This side's relay is to click, and is not energised yet: the guard may want a wait first. */
    record Clicking(Side side, Uptime since) implements Phase {}

    /**
     * This side's relay has clicked, and the person is asked what came on.
     *
     * @param released since when it is released again; empty while it finishes its minimum run
     * @param right what the person has said; empty as long as they have not
     */
    record Asking(Side side, Optional<Uptime> released, Optional<Boolean> right) implements Phase {}

    /** Every relay has clicked rightly; from here on nobody need be there. */
    record Trying(Commissioning commissioning) implements Phase {}

    record Over(Uptime at, Ending ending) implements Phase {}
}
