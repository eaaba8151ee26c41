package gylewarden.commission;

import gylewarden.control.Rules;
import gylewarden.control.Side;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;

/**
 * How long each part takes. Air answers within minutes; a vessel that is watched by its own probe alone takes much longer.
 *
 * @param sides in the order in which they are tried
 */
record Plan(Rules rules, List<Side> sides) {
    private static final Duration HASTY = Duration.ofMinutes(15);

    static Plan of(Rules rules) {
        return new Plan(
                rules,
                Stream.of(Side.HEATING, Side.COOLING)
                        .filter(rules.fitted()::has)
                        .toList());
    }

    boolean hasAir() {
        return rules.fitted().airProbe();
    }

    boolean hasBoth() {
        return sides.size() > 1;
    }

    /** For a chamber that cools by itself: soon nothing may cool it any more. */
    Plan coolingFirst() {
        return new Plan(rules, List.of(Side.COOLING, Side.HEATING));
    }

    /** Before, between and after the runs: what the chamber does by itself is measured against what it does then. */
    Duration rest() {
        return hasAir() ? Duration.ofMinutes(15) : Duration.ofMinutes(30);
    }

    /** A chamber that was open a moment ago may settle for so long. */
    Duration settleAtMost() {
        return hasAir() ? Duration.ofMinutes(45) : rest();
    }

    /** Cooling long enough for an appliance that stops by itself; a wrong effect ends a run before. */
    Duration tryAtLeast(Side side) {
        if (!hasAir()) return Duration.ofMinutes(30);
        return side == Side.COOLING ? Duration.ofMinutes(25).plus(rules.timing().ownDelay()) : Duration.ofMinutes(15);
    }

    /** A wrong answer is looked at for a little, so that it can be told which kind it is. */
    Duration wrongAtLeast() {
        return hasAir() ? Duration.ofMinutes(6) : Duration.ofMinutes(25);
    }

    Duration tryAtMost(Side side) {
        if (!hasAir()) return Duration.ofMinutes(150);
        if (side == Side.COOLING && hasBoth() && sides.get(0) == Side.COOLING) return HASTY;
        return side == Side.COOLING ? Duration.ofMinutes(40).plus(rules.timing().ownDelay()) : Duration.ofMinutes(60);
    }

    /** What the guard may want between two runs, and some more for a limit that is broken at first. */
    Duration waitAtMost() {
        return rules.timing().changeOver().plus(rules.timing().minimumOff()).plus(Duration.ofMinutes(30));
    }
}
